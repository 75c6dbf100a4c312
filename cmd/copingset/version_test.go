package main

import (
	"runtime/debug"
	"testing"
)

func TestVersion(t *testing.T) {
	const first = "copingset 2.0, reads copingset/2\n"
	set := func(all ...string) (s []debug.BuildSetting) {
		for i := 0; i < len(all); i += 2 {
			s = append(s, debug.BuildSetting{Key: all[i], Value: all[i+1]})
		}
		return s
	}
	for _, c := range []struct {
		info *debug.BuildInfo
		want string
	}{
		{nil, "built without a record of its source\n"},
		{&debug.BuildInfo{GoVersion: "go1.26.8"}, "built from source without a record by go1.26.8\n"},
		{&debug.BuildInfo{GoVersion: "go1.26.8", Main: debug.Module{Version: "(devel)"}, Settings: set("vcs.revision", "0a1b2c", "vcs.time", "2026-03-16T09:00:00Z", "vcs.modified", "true")},
			"built from revision 0a1b2c of 2026-03-16T09:00:00Z with changes since by go1.26.8\n"},
		{&debug.BuildInfo{GoVersion: "go1.26.8", Main: debug.Module{Version: "v2.0.0"}, Settings: set("vcs.revision", "0a1b2c", "vcs.modified", "false")},
			"built from v2.0.0 revision 0a1b2c by go1.26.8\n"},
	} {
		if got := version(c.info, c.info != nil); got != first+c.want {
			t.Errorf("got %q, want %q", got, first+c.want)
		}
	}
}
