package main

import (
	"fmt"
	"runtime/debug"
	"strings"

	"copingset/layout/job"
	"copingset/sheets"
)

// version says which release this is, which job files it reads, and what it was
// built from, as far as the build recorded it.
func version(info *debug.BuildInfo, ok bool) string {
	said := fmt.Sprintf("copingset %s, reads %s\n", sheets.Release, job.Format)
	if !ok {
		return said + "built without a record of its source\n"
	}
	var from []string
	if v := info.Main.Version; v != "" && v != "(devel)" {
		from = append(from, v)
	}
	recorded := map[string]string{}
	for _, s := range info.Settings {
		recorded[s.Key] = s.Value
	}
	if r := recorded["vcs.revision"]; r != "" {
		from = append(from, "revision "+r)
		if t := recorded["vcs.time"]; t != "" {
			from = append(from, "of "+t)
		}
		if recorded["vcs.modified"] == "true" {
			from = append(from, "with changes since")
		}
	}
	if len(from) == 0 {
		from = []string{"source without a record"}
	}
	return said + "built from " + strings.Join(from, " ") + " by " + info.GoVersion + "\n"
}
