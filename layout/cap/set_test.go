package cap

import (
	"slices"
	"testing"

	"copingset/layout/job"
	"copingset/layout/length"
)

// Joints that are set stay where they are when the run turns out longer or shorter, and
// what lies beyond them is divided anew; where they leave no room nothing is kept.
func TestSetJointsAreKept(t *testing.T) {
	const in = length.Inch
	k := stock{most: 120 * in, least: 24 * in, gap: in / 4, grid: length.Inch16, closer: job.CloserRight,
		remainder: job.Right}
	centre := func(n length.Length) length.Length { return 30*in + n*(120*in+in/4) - in/8 }
	for _, c := range []struct {
		name    string
		stretch length.Length
		set     []length.Length
		kept    bool
	}{
		{"none set", 300 * in, nil, false},
		{"as it was", 300 * in, []length.Length{centre(1), centre(2)}, true},
		{"longer", 303 * in, []length.Length{centre(1), centre(2)}, true},
		{"so long that one more is put in", 400 * in, []length.Length{centre(1), centre(2)}, true},
		{"a short piece first", 300 * in, []length.Length{centre(1) - 20*in}, true},
		{"the joint of the leg alone", 300 * in, []length.Length{30*in - in/8}, false},
		{"two of them nearer than a piece", 300 * in, []length.Length{centre(1), centre(1) + 10*in}, false},
	} {
		got, ok := section{set: c.set}.kept(k, 30*in, c.stretch)
		if ok != c.kept {
			t.Errorf("%s: kept %v: %v", c.name, ok, got)
			continue
		}
		at := 30*in - k.gap
		var joints []length.Length
		for _, l := range got {
			at += k.gap + l
			joints = append(joints, at+k.gap/2)
		}
		if ok && at != 30*in+c.stretch {
			t.Errorf("%s: pieces and gaps come to %v of %v", c.name, at-30*in, c.stretch)
		}
		for _, j := range c.set {
			if ok && !slices.Contains(joints, j) {
				t.Errorf("%s: the joint at %v is not kept: %v", c.name, j, joints)
			}
		}
	}
}
