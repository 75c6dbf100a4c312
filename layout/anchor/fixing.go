package anchor

import (
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// Screws are those of one corner support.
type Screws struct {
	Fastener *job.Fastener // nil: the job does not say what fastens a support
	Count    int
	Length   length.Length // stock length chosen; zero: none fits
}

// fits is the shortest stock length that goes through what lies above the holding
// material and has its thread, tip and reserve in it, if it is no deeper than that
// allows; zero: none.
func fits(f *job.Fastener, above, depth length.Length) length.Length {
	for _, l := range f.Lengths {
		if l < needed(f, above) {
			continue
		}
		if l <= deepest(f, above, depth) {
			return l
		}
		return 0
	}
	return 0
}

// needed is how long a screw has to be, and deepest how long it may be.
func needed(f *job.Fastener, above length.Length) length.Length {
	return above + f.Embedment + f.Tip + f.Reserve
}

// roomFor is what makes a screw fit. Where the material is too thin for thread and tip,
// neither less build-up nor another length does.
func roomFor(f *job.Fastener, above, depth length.Length) string {
	if least, most := needed(f, above), deepest(f, above, depth); depth > 0 && most < least {
		return "no length holds in " + job.Both(depth) + ": a layer thicker by " + job.Both(least-most) +
			" or more, or a fastener whose report asks for less"
	}
	return "reduce the build-up there, or add a stock length the report covers"
}

func deepest(f *job.Fastener, above, depth length.Length) length.Length {
	below := f.Cover
	if f.PilotDia > 0 {
		below = length.Max(f.Cover, f.PilotBeyond)
	}
	return above + depth - below
}

// fix chooses the screws of the corner supports: through the support, membrane,
// packing and every layer above what holds, as a chair's. A support's own metal is
// as thick as its blank says, else as the chair.
func (b *builder) fix(runs []*Run, sup []*Support) {
	x := b.sys.Corner.Support.Fixing
	for _, s := range sup {
		for _, a := range runs {
			if a.OnWall() == s.Corner.Arrive {
				a.Supports = append(a.Supports, s)
			}
		}
		if x == nil {
			continue
		}
		s.Screws = Screws{Fastener: b.fastener(x.Fastener), Count: x.Count}
		f := s.Screws.Fastener
		if f == nil {
			continue // refused when the job was read
		}
		thick := b.sys.Chair.Thickness
		if k := b.sys.Corner.Support.Blank; k != nil && k.Stuff.Thickness > 0 {
			thick = k.Stuff.Thickness
		}
		over, depth, ok := held(s.Corner.Arrive.Wall.Layers, f.Substrate)
		above := thick + b.job.Membrane.Thickness + over + s.Packing
		if ok {
			s.Screws.Length = fits(f, above, depth)
		}
		if s.Screws.Length > 0 {
			continue
		}
		ref := finding.Ref{Perimeter: s.Piece.Perimeter.Job.Name, Run: s.Corner.Arrive.Name, Corner: s.Corner.Name,
			Pieces: []string{s.Piece.Mark}}
		if s.Corner.Leave != s.Corner.Arrive {
			ref.Runs = []string{s.Corner.Leave.Name}
		}
		words := "no stock length of " + f.Name + " fits: " + job.Both(needed(f, above)) + " is needed"
		b.found.Append(finding.Finding{Code: "support-unfixed", Severity: finding.Hold, At: x.At, Where: ref,
			One:  finding.One{Noun: "corner support", Name: s.Name, Cause: f.Name, Worse: above, Words: words},
			What: "corner " + s.Corner.Name + ", support " + s.Name + ": " + words,
			Why:  "a support holds no more than its screws do",
			Mend: roomFor(f, above, depth)})
	}
}
