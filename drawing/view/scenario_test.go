package view

import (
	"strings"
	"sync"
	"testing"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

const (
	inch   = length.Inch
	foot   = length.Foot
	square = 90 * job.Degree
)

// scenario is an invented job with what a view must cope with in it, solved when
// it is first asked for and then once for all tests.
type scenario struct {
	name  string
	job   *job.Job
	solve func() (*layout.Layout, finding.List)
}

func withPerimeters(name string, ps ...job.Perimeter) scenario {
	j := jobtest.Job()
	j.Perimeters = ps
	return scenario{name, j, sync.OnceValues(func() (*layout.Layout, finding.List) { return layout.Build(j) })}
}

// scenarios are shared: no test writes into them.
var scenarios = sync.OnceValue(newScenarios)

// tooled are the scenarios with a shop.
var tooled = sync.OnceValue(func() []scenario {
	all := newScenarios()
	for _, s := range all {
		s.job.Shop = tools()
	}
	return all
})

// relieved are the scenarios with a shop that makes parts and cuts reliefs.
var relieved = sync.OnceValue(func() []scenario {
	all := newScenarios()
	for _, s := range all {
		made(s.job)
	}
	return all
})

func rectangle(width length.Length) job.Perimeter {
	p := jobtest.Rectangle(38*foot+7*inch+inch/4, 21*foot)
	for i := range p.Runs {
		for k := range p.Runs[i].Readings {
			q := &p.Runs[i].Readings[k]
			q.Width = width + length.Length((k*3+i)%5)*inch/16
			q.TopOutside = -length.Length((k*5+i)%9) * inch / 16
			q.TopInside = -length.Length((k*2+i)%7) * inch / 16
			q.Offset = length.Length((k*4+i)%6-3) * inch / 16
		}
	}
	return p
}

func newScenarios() []scenario {
	metric := func(s scenario) scenario {
		s.name += ", metric"
		s.job.Units = job.Metric
		return s
	}
	expansion := rectangle(12 * inch)
	move := inch / 2
	expansion.Runs[0].Expansion = []job.ExpansionJoint{{Station: 20 * foot, Gap: inch, Movement: &move}}
	expansion.Runs[2].Length += 5 * inch / 16 // does not quite close
	expansion.Bearing = 75 * job.Degree
	unmeasured := rectangle(12 * inch)
	unmeasured.Runs[1].Basis = job.Drawing
	unstated := rectangle(12 * inch)
	unstated.Runs[3].Expansion = []job.ExpansionJoint{{Station: 10 * foot, Gap: inch}}

	ell := func() job.Perimeter {
		return jobtest.Perimeter("ELL", job.Roof, jobtest.Run("A", 40*foot, square), jobtest.Run("B", 20*foot, square),
			jobtest.Run("C", 15*foot, -square), jobtest.Run("D", 25*foot, square), jobtest.Run("E", 25*foot, square), jobtest.Run("F", 45*foot, square))
	}
	well := jobtest.Perimeter("WELL", job.Well, jobtest.Run("WA", 14*foot, -square), jobtest.Run("WB", 9*foot, -square),
		jobtest.Run("WC", 14*foot, -square), jobtest.Run("WD", 9*foot, -square))
	skew := jobtest.Perimeter("SKEW", job.Roof, jobtest.Run("A", 40*foot, 45*job.Degree), jobtest.Run("B", length.FromInches(120*1.41421356), 45*job.Degree),
		jobtest.Run("C", 30*foot, square), jobtest.Run("D", 50*foot, square), jobtest.Run("E", 40*foot, square))
	pilaster := jobtest.Perimeter("PILASTER", job.Roof, jobtest.Run("A", 20*foot, -square), jobtest.Run("B", 9*inch, square), jobtest.Run("C", 80*inch, square),
		jobtest.Run("D", 9*inch, -square), jobtest.Run("E", 25*foot, square), jobtest.Run("F", 20*foot+9*inch, square),
		jobtest.Run("G", 45*foot+80*inch, square), jobtest.Run("H", 20*foot+9*inch, square))
	// wider gives one run of a perimeter another wall, and the job corners of two widths.
	wider := func(name string, p job.Perimeter, run int) scenario {
		p.Runs[run].Readings = append([]job.Reading(nil), p.Runs[run].Readings...)
		for i := range p.Runs[run].Readings {
			p.Runs[run].Readings[i].Width += 2 * inch
		}
		s := withPerimeters(name, p)
		s.job.System.PlayMost = 7 * inch / 8
		s.job.System.Corner.TwoWidths = &job.TwoWidths{MismatchMost: inch / 8, SlopeLeast: 25_000_000}
		return s
	}
	onPacking := wider("two widths, slope in the packing", ell(), 3)
	onPacking.job.System.Profile.SlopeBy = job.SlopeByPacking
	stub := jobtest.Perimeter("STUB", job.Open, jobtest.Run("P", 22*foot, 60*job.Degree), jobtest.Run("Q", 26*inch, 0))
	stub.Starts, stub.Runs[1].Right = job.End{Kind: job.EndWall}, job.End{Kind: job.EndFree}
	open := jobtest.Perimeter("CANOPY", job.Open, jobtest.Run("P", 22*foot, 30*job.Degree), jobtest.Run("Q", 18*foot, -60*job.Degree), jobtest.Run("R", 12*foot, 0))
	open.Starts = job.End{Kind: job.EndWall}
	open.Runs[2].Right = job.End{Kind: job.EndFree}
	sharp := jobtest.Perimeter("SHARP", job.Roof, jobtest.Run("A", 30*foot, 120*job.Degree), jobtest.Run("B", 30*foot, 120*job.Degree), jobtest.Run("C", 30*foot, 120*job.Degree))
	packed := withPerimeters("narrow, slope in the packing", rectangle(7*inch))
	packed.job.System.Profile.SlopeBy = job.SlopeByPacking
	packed.job.Packing.Method = job.PackChairs
	flat := withPerimeters("level top, thick metal", rectangle(12*inch))
	flat.job.System.Profile.TopSlope = 0
	flat.job.System.Metal.Thickness = inch / 4
	bare := rectangle(12 * inch)
	bare.Runs[2].Readings = nil
	bare.Runs[2].Basis = job.Drawing
	return []scenario{
		withPerimeters("rectangle that misses closing, expansion joint", expansion),
		metric(withPerimeters("rectangle from a drawing", unmeasured)),
		withPerimeters("expansion joint without its movement", unstated),
		withPerimeters("ell with an inside corner and a well", ell(), well),
		metric(withPerimeters("ell", ell())),
		withPerimeters("skew corners", skew),
		withPerimeters("pilaster of double miters", pilaster),
		metric(withPerimeters("pilaster of double miters", pilaster)),
		withPerimeters("open with a wall end and a free end", open),
		withPerimeters("sharp corners", sharp),
		withPerimeters("wide", rectangle(20*inch)),
		packed,
		flat,
		wider("two widths at an inside and an outside corner", ell(), 3),
		metric(wider("two widths at skew corners", skew, 1)),
		onPacking,
		wider("two widths in double miters", pilaster, 2),
		wider("two widths and a closed end", stub, 1),
		withPerimeters("a run without a survey", bare),
	}
}

// solved is the layout of a scenario, which must be fit to draw.
func solved(t *testing.T, s scenario) *layout.Layout {
	t.Helper()
	l, found := s.solve()
	if found.HasErrors() {
		t.Fatalf("%s: %v", s.name, found)
	}
	return l
}

// faultless fails on anything a reader of the scene would stumble over.
func faultless(t interface {
	Helper()
	Errorf(string, ...any)
}, s drawing.Scene) {
	t.Helper()
	for i, p := range drawing.Check(s) {
		if i == 4 {
			t.Errorf("%s: and more", s.Name)
			return
		}
		t.Errorf("%s: %v", s.Name, p)
	}
}

// lettering is all the words of a scene, one after another.
func lettering(s drawing.Scene) string {
	var all []string
	for _, t := range s.Texts() {
		all = append(all, t.Words)
	}
	return strings.Join(all, " ")
}

// find is the text with exactly these words.
func find(s drawing.Scene, words string) (drawing.Text, bool) {
	for _, t := range s.Texts() {
		if t.Words == words {
			return t, true
		}
	}
	return drawing.Text{}, false
}

// special are the pieces a corner plan is drawn of.
func special(l *layout.Layout) []*layout.Piece {
	var out []*layout.Piece
	for _, p := range l.Perimeters {
		for _, q := range p.Pieces {
			if q.Kind != cap.Straight {
				out = append(out, q)
			}
		}
	}
	return out
}
