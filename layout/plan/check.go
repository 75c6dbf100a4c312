// Package plan holds the geometry and the verdicts of a layout as plain values:
// what views letter and scale and what sheets arrange, worked out before either
// is asked. Nothing in it points at the layout it was taken from, and it knows
// lengths alone.
package plan

import "copingset/layout/length"

// Code names what a check looks at.
type Code string

// What is checked.
const (
	WallWidth  Code = "wall-width"  // a reading says how wide the wall is
	FrontLap   Code = "front-lap"   // of the front leg over the joint it must cover
	RearLap    Code = "rear-lap"    // of the rear leg
	RearPlay   Code = "rear-play"   // from the wall's roof face to the inside of the rear leg
	FrontStock Code = "front-stock" // a stock length fits the front row of holes
	RearStock  Code = "rear-stock"  // the same of the rear row
	Edge       Code = "edge"        // of a row of holes from the nearer face of the wall
	Thread     Code = "thread"      // of a fastener in what holds it, its tip taken off
	Movement   Code = "movement"    // of a building expansion joint, stated
	Released   Code = "released"    // a piece may be cut
	RearLeft   Code = "rear-left"   // of a leg, something is left of its rear between its miters

	CapBends     Code = "cap-bends"      // the cap's section can be bent as stated
	ChairStated  Code = "chair-stated"   // the job states the chair's section
	ChairInPlace Code = "chair-in-place" // the chair's legs hang clear of the wall and its membrane
	BaseBears    Code = "base-bears"     // so much of the chair's base lies on the wall, across it
	BaseOver     Code = "base-over"      // the base is back from the wall's faces; less than nothing: out over one
	HookEngaged  Code = "hook-engaged"   // the cap's drip under the chair's front kick, tolerances taken off
	SnapEngaged  Code = "snap-engaged"   // the cap's rear hook under the chair's rear, tolerances taken off
	MetalClear   Code = "metal-clear"    // no metal stands in other metal; has is how deep one does, less than nothing
)

// Check is one verdict: what there is, what is asked, and whether that will do.
// What is no length has neither.
type Check struct {
	Code    Code
	Of      string        // mark of what is judged, where the reader has to be told
	Has     length.Length // zero where Unknown
	Asked   length.Length // the least
	Most    length.Length // zero: no greatest
	Facts   [3]string     // the names of the facts that these three are; none of most verdicts
	Pass    bool
	Unknown bool // nothing was measured that would tell; neither passed nor failed
}

// AtLeast judges a length that must not be less than another.
func AtLeast(code Code, has, asked length.Length) Check {
	return Check{Code: code, Has: has, Asked: asked, Pass: has >= asked}
}

// Between judges a length that has a least and a greatest.
func Between(code Code, has, least, most length.Length) Check {
	return Check{Code: code, Has: has, Asked: least, Most: most, Pass: has >= least && has <= most}
}

// That judges what is so or is not.
func That(code Code, so bool) Check { return Check{Code: code, Pass: so} }

// NotMeasured is a check of which nothing can be said.
func NotMeasured(code Code, asked length.Length) Check {
	return Check{Code: code, Asked: asked, Unknown: true}
}

// Fails says that what was judged will not do.
func (c Check) Fails() bool { return !c.Pass && !c.Unknown }

// Worst of two checks of one kind: what nobody measured, else what failed, else
// what has the less to spare.
func Worst(a, b Check) Check {
	switch {
	case a.Unknown || b.Unknown:
		if b.Unknown {
			return b
		}
		return a
	case a.Pass != b.Pass:
		if b.Pass {
			return a
		}
		return b
	case b.Has-b.Asked < a.Has-a.Asked:
		return b
	}
	return a
}

// Of finds the check of a code among several.
func Of(all []Check, code Code) (Check, bool) {
	for _, c := range all {
		if c.Code == code {
			return c, true
		}
	}
	return Check{}, false
}

// Failing are those that will not do, in their order.
func Failing(all []Check) []Check {
	var out []Check
	for _, c := range all {
		if c.Fails() {
			out = append(out, c)
		}
	}
	return out
}
