package layout

import (
	"slices"

	"copingset/layout/crate"
	"copingset/layout/job"
	"copingset/layout/length"
)

// AskedKind is something that a crew asks for and instructions answer.
type AskedKind int

// What is asked for, in the order of the work.
const (
	AskedHoles AskedKind = iota
	AskedDriving
	AskedMembrane
	AskedSlack
	AskedTape
	AskedSealant
	AskedWallEnd
	AskedLastGap
	AskedNight
	AskedRain
)

// Asked is what instructions say to something that is asked for on a job: words, a
// length or a temperature; none of them: it is not stated.
type Asked struct {
	Kind        AskedKind
	Words       string
	Length      length.Length
	Temperature *job.Temperature
	Fact        string // that it letters, if it is stated
}

// Stated reports whether it is answered.
func (a Asked) Stated() bool { return a.Words != "" || a.Length > 0 || a.Temperature != nil }

// Asked are what a crew asks for on this job, answered or not, in the order of the
// work. What the job has no use for is left out.
func (l *Layout) Asked() []Asked {
	i := &l.Job.Instructions
	joints, expansion, dies := false, false, false
	for _, r := range l.Runs() {
		joints = joints || len(r.Joints) > 0
		expansion = expansion || len(r.Job.Expansion) > 0
		dies = dies || r.Left.Kind == job.EndWall || r.Right.Kind == job.EndWall
	}
	legs := l.Job.System.Splice.Legs
	var out []Asked
	for _, a := range []struct {
		Asked
		here bool
	}{
		{Asked{Kind: AskedHoles, Words: i.Holes}, l.drillsMasonry()},
		{Asked{Kind: AskedDriving, Words: i.Driving}, true},
		{Asked{Kind: AskedMembrane, Temperature: i.MembraneLeast}, l.Job.Membrane.Name != ""},
		{Asked{Kind: AskedSlack, Length: i.MembraneSlack}, expansion && l.Job.Membrane.Name != ""},
		{Asked{Kind: AskedTape, Temperature: i.TapeLeast}, joints},
		{Asked{Kind: AskedSealant, Words: i.PlateSealant}, joints && (legs.Front > 0 || legs.Rear > 0)},
		{Asked{Kind: AskedWallEnd, Words: i.WallEnd}, dies},
		{Asked{Kind: AskedLastGap, Words: i.LastGap}, joints},
		{Asked{Kind: AskedNight, Words: i.Night}, true},
		{Asked{Kind: AskedRain, Words: i.Rain}, true},
	} {
		if !a.here {
			continue
		}
		if a.Stated() {
			a.Fact = Named(InstructionFacts, askedName(a.Kind))
		}
		out = append(out, a.Asked)
	}
	return out
}

// drillsMasonry reports whether a screw of the job is set in masonry or concrete.
func (l *Layout) drillsMasonry() bool {
	return slices.ContainsFunc(l.Fasteners(), func(f crate.FastenerCount) bool {
		return f.Fastener.Substrate == job.Masonry || f.Fastener.Substrate == job.Concrete
	})
}
