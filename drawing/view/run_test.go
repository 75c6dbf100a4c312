package view

import (
	"cmp"
	"slices"
	"strings"
	"testing"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
	"copingset/layout/plan"

	"pgregory.net/rapid"
)

const (
	runInch   = length.Inch
	runSquare = 90 * job.Degree
	runWide   = 400 * drawing.MM
)

// runUneven gives a run of a test a wall that is neither straight nor level.
func runUneven(p job.Perimeter) job.Perimeter {
	for k := range p.Runs {
		for i := range p.Runs[k].Readings {
			q := &p.Runs[k].Readings[i]
			bit := func(n, m int) length.Length { return length.Length((i*7+k*5+n)%m) * length.Inch16 }
			q.Width = 12*runInch + bit(3, 6)
			q.Offset = bit(1, 7)
			q.TopOutside, q.TopInside = -bit(2, 19), -bit(5, 23)
		}
	}
	return p
}

// runJobs are perimeters with everything a run can meet.
func runJobs() map[string]*job.Job {
	half := runInch / 2
	ends := jobtest.Perimeter("OPEN", job.Open, jobtest.Run("P", 320*runInch, 45*job.Degree), jobtest.Run("Q", 280*runInch, 0))
	ends.Starts = job.End{Kind: job.EndWall}
	ends.Runs[1].Right = job.End{Kind: job.EndFree}
	ends.Runs[0].Obstacles = []job.Obstacle{
		{Name: "lightning rod", Station: 100 * runInch, Extent: 5 * runInch, Does: job.BlocksChair | job.Pierces, FromFace: 6 * runInch, Depth: 4 * runInch, Collar: "roofer"},
		{Name: "ladder", Station: 250 * runInch, Extent: 20 * runInch, Does: job.BlocksJoint},
	}
	ends.Runs[1].Expansion = []job.ExpansionJoint{{Station: 140 * runInch, Gap: runInch, Movement: &half}}
	kinks := jobtest.Perimeter("KINK", job.Open, jobtest.Run("P", 300*runInch, job.Degree), jobtest.Run("Q", 280*runInch, -8*job.Degree), jobtest.Run("R", 150*runInch, 0))
	kinks.Starts = job.End{Kind: job.EndFree}
	kinks.Runs[2].Right = job.End{Kind: job.EndWall}
	kinks.Runs[1].Datum = job.Datum{Mark: "saw cut at the drain", At: 90 * runInch}
	l, w, d := 150*runInch, 60*runInch, 20*runInch
	jobs := map[string]*job.Job{}
	for _, p := range []job.Perimeter{
		jobtest.Rectangle(1000*runInch, 330*runInch),
		jobtest.Perimeter("ELL", job.Roof, jobtest.Run("A", 500*runInch, runSquare), jobtest.Run("B", 200*runInch, runSquare), jobtest.Run("C", 250*runInch, -runSquare),
			jobtest.Run("D", 300*runInch, runSquare), jobtest.Run("E", 250*runInch, runSquare), jobtest.Run("F", 500*runInch, runSquare)),
		jobtest.Perimeter("WELL", job.Well, jobtest.Run("A", 200*runInch, -runSquare), jobtest.Run("B", 130*runInch, -runSquare), jobtest.Run("C", 200*runInch, -runSquare), jobtest.Run("D", 130*runInch, -runSquare)),
		jobtest.Perimeter("JOG", job.Roof, jobtest.Run("A", l, -runSquare), jobtest.Run("B", d, runSquare), jobtest.Run("C", w, runSquare), jobtest.Run("D", d, -runSquare),
			jobtest.Run("E", l, runSquare), jobtest.Run("F", 220*runInch, runSquare), jobtest.Run("G", 2*l+w, runSquare), jobtest.Run("H", 220*runInch, runSquare)),
		ends, kinks,
	} {
		for _, units := range []job.Units{job.Imperial, job.Metric} {
			j := jobtest.Job()
			j.Units = units
			j.Perimeters = []job.Perimeter{runUneven(p)}
			name := p.Name
			if units == job.Metric {
				name += " metric"
			}
			jobs[name] = j
		}
	}
	field := jobtest.Job()
	field.System.Joint.FieldCloser, field.System.Joint.Allowance = true, 2*runInch
	field.Packing.Least = 3 * runInch / 2
	field.Perimeters = []job.Perimeter{runUneven(jobtest.Rectangle(300*runInch, 330*runInch))}
	jobs["field closers on plywood"] = field
	return jobs
}

// planned is what the views of a run read.
func planned(l *layout.Layout, r *layout.Run) *plan.Run {
	of := l.Plan(r)
	return &of
}

// runStrips are the strips of a run on paper of a width, their columns a number, a
// station and two rows of words that may break.
func runStrips(of *plan.Run, width drawing.Unit, lang words.Lang) []*RunStrip {
	rows := []RunRow{{Head: "CHAIR"}, {Head: "STATION"}, {Head: "BUILD-UP, STREET SIDE"}, {Head: "SET"}}
	var cols []RunColumn
	for _, c := range of.Chairs {
		cols = append(cols, RunColumn{At: c.At, Cells: []RunCell{{Lines: []string{runTag(c.Mark)}, Face: drawing.Bold, Size: drawing.Head},
			{Lines: strings.Split(of.ChairTape.Long(c.Station.Real), "-")}, {Words: "1/4″ + 1/8″ + 1/16″"}, {Tick: true}}})
	}
	var labels []RunLabel
	for _, o := range of.Obstacles {
		labels = append(labels, RunLabel{At: o.At, Words: o.Mark + " over the wall, kept clear by the crew"})
	}
	if of.Pinch.Here {
		labels = append(labels, RunLabel{At: of.Pinch.On.X, Words: "PINCH"})
	}
	slices.SortStableFunc(labels, func(a, b RunLabel) int { return cmp.Compare(a.At, b.At) })
	return RunStrips(of, func(w Window, along Scale) *RunStrip {
		s := &RunStrip{Say: words.Book{Lang: lang}, Run: of, Win: w, Along: along, Room: width, Rows: rows, Times: Exaggeration{4, 8},
			Ends: [2]RunTag{{Name: "N/E", Wide: "4.N/E.1"}, {Name: "E/S", Wide: "4.E/S.1"}}}
		return s.Holding(cols, labels)
	})
}

// runWords are all texts of scenes, with a blank before and after each.
func runWords(scenes ...drawing.Scene) string {
	var b strings.Builder
	for _, s := range scenes {
		for _, t := range s.Texts() {
			b.WriteString(" " + t.Words + " ")
		}
	}
	return " " + strings.Join(strings.Fields(b.String()), " ") + " "
}

// runFails is what a plain test and a property have in common.
type runFails interface{ Errorf(string, ...any) }

// runReads checks everything that must hold for the strips of any run.
func runReads(t runFails, l *layout.Layout, r *layout.Run, width drawing.Unit, lang words.Lang) {
	of := planned(l, r)
	strips := runStrips(of, width, lang)
	all := ""
	for i, s := range strips {
		if !s.Fits() {
			if i > 0 || len(strips) > 1 {
				t.Errorf("run %s: part %d is wider than its room", r.Name, i+1)
			}
			return // dense chairs on narrow paper: it is for the sheet to take a larger one
		}
		v := s.Scene()
		for k, z := range s.Sizes(0) {
			v := drawing.Scene{Name: v.Name, W: z.W + 400, H: z.H + 400, Marks: drawing.Translate(s.Draw(z).Marks, drawing.Pt(200, 200))}
			for _, p := range drawing.Check(v) {
				t.Errorf("run %s, %s, size %d: %v", r.Name, v.Name, k, p)
			}
			if b := v.Bounds(); b.Min.X < 200 || b.Min.Y < 200 || b.Max.X > v.W-200 || b.Max.Y > v.H-200 {
				t.Errorf("run %s, part %d, size %d: drawn in %v, its size is %v by %v", r.Name, i+1, k, b, v.W, v.H)
			}
		}
		for _, tag := range s.Tags(s.Sizes(0)[0]) {
			tag.Box = tag.Box.Translate(drawing.Pt(200, 200))
			if b := tag.Box; b.Min.X < 200 || b.Max.X > v.W-200 {
				t.Errorf("run %s, part %d: its symbol stands at %v of %v", r.Name, i+1, b, v.W)
			}
			for _, q := range v.Texts() {
				if drawing.BoundsOf([]drawing.Mark{q}).Intersects(tag.Box) {
					t.Errorf("run %s, part %d: %q stands on the symbol of %s", r.Name, i+1, q.Words, tag.Name)
				}
			}
		}
		all += runWords(v)
	}
	for _, c := range r.Chairs {
		if n := runTag(c.Name); strings.Count(all, " "+n+" ") < 2 {
			t.Errorf("run %s: chair %s is not lettered at its column and on the elevation", r.Name, n)
		}
	}
	for _, q := range r.Parts {
		if !strings.Contains(all, q.Piece.Mark) {
			t.Errorf("run %s: mark %s is not lettered", r.Name, q.Piece.Mark)
		}
	}
	for _, o := range of.Obstacles {
		if first, _, _ := strings.Cut(o.Mark, " "); o.At > 0 && o.At < of.Cap.Real && !strings.Contains(all, first) {
			t.Errorf("run %s: obstacle %s is not named", r.Name, o.Mark)
		}
	}
	runCovers(t, r, strips)
}

// runCovers checks that the windows between their match lines are the run.
func runCovers(t runFails, r *layout.Run, strips []*RunStrip) {
	at := length.Length(0)
	for i, s := range strips {
		w := s.Win
		if w.N != i+1 || w.Of != len(strips) {
			t.Errorf("run %s: window %d is numbered %d of %d", r.Name, i+1, w.N, w.Of)
		}
		if (w.MatchLeft == nil) != (i == 0) || (w.MatchRight == nil) != (i == len(strips)-1) {
			t.Errorf("run %s: window %d has the wrong match lines", r.Name, i+1)
			return
		}
		if i > 0 && (*w.MatchLeft != at || w.From > at) {
			t.Errorf("run %s: window %d begins at %v, the one before ends at %v", r.Name, i+1, *w.MatchLeft, at)
		}
		if w.MatchRight != nil {
			at = *w.MatchRight
			if w.To < at {
				t.Errorf("run %s: window %d ends before its match line", r.Name, i+1)
			}
		}
	}
	if strips[0].Win.From != 0 || strips[len(strips)-1].Win.To != r.Cap {
		t.Errorf("run %s: its windows do not reach its ends", r.Name)
	}
}

func TestRunStripsAreReadable(t *testing.T) {
	for name, j := range runJobs() {
		t.Run(name, func(t *testing.T) {
			l, found := layout.Build(j)
			if found.HasErrors() {
				t.Fatal(found)
			}
			for _, r := range l.Runs() {
				for _, lang := range []words.Lang{words.English, words.Spanish, words.Longer} {
					runReads(t, l, r, runWide, lang)
				}
			}
		})
	}
}

func TestRandomRunStripsAreReadable(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := jobtest.Random(t)
		l, found := layout.Build(j)
		if found.HasErrors() {
			t.Skip("not to be drawn")
		}
		width := drawing.Unit(rapid.IntRange(250, 700).Draw(t, "width")) * drawing.MM
		runs := l.Runs()
		runReads(t, l, runs[rapid.IntRange(0, len(runs)-1).Draw(t, "run")], width, words.English)
	})
}

func TestSameRunSameMarks(t *testing.T) {
	l, _ := layout.Build(runJobs()["OPEN"])
	again, _ := layout.Build(runJobs()["OPEN"])
	for i, r := range l.Runs() {
		a, b := runStrips(planned(l, r), runWide, words.English), runStrips(planned(again, again.Runs()[i]), runWide, words.English)
		for k := range a {
			if a[k].Scene().Dump() != b[k].Scene().Dump() || a[k].Key() != b[k].Key() {
				t.Errorf("run %s, part %d: drawn twice, it is not the same", r.Name, k+1)
			}
		}
	}
}

// A run of 75 ft stands on one sheet, one of 150 on two.
func TestRunOnAsFewSheetsAsItTakes(t *testing.T) {
	for _, c := range []struct {
		feet   length.Length
		strips int
	}{{5, 1}, {25, 1}, {58, 1}, {75, 1}, {120, 2}, {150, 2}, {200, 3}} {
		j := jobtest.Job()
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(c.feet*length.Foot, 330*runInch)}
		l, _ := layout.Build(j)
		of := planned(l, l.Runs()[0])
		strips := runStrips(of, 40180, words.English)
		if len(strips) != c.strips {
			t.Errorf("%d ft: %d windows, want %d", c.feet, len(strips), c.strips)
		}
		for _, s := range strips {
			if s.Along != strips[0].Along {
				t.Errorf("%d ft: windows at %s and %s", c.feet, s.Along.Name, strips[0].Along.Name)
			}
		}
	}
}

func TestExpansionJointStaysOnOneSheet(t *testing.T) {
	j := jobtest.Job()
	p := jobtest.Rectangle(2400*runInch, 330*runInch)
	half := runInch / 2
	p.Runs[0].Expansion = []job.ExpansionJoint{{Station: 1200 * runInch, Gap: runInch, Movement: &half}}
	j.Perimeters = []job.Perimeter{p}
	l, _ := layout.Build(j)
	r := l.Runs()[0]
	strips := runStrips(planned(l, r), runWide, words.English)
	if len(strips) < 2 {
		t.Fatal("the run is not cut: the case tests nothing")
	}
	for _, s := range strips {
		for _, q := range r.Joints {
			if q.Kind == cap.Expansion && s.Win.MatchRight != nil && *s.Win.MatchRight == q.Centre() {
				t.Errorf("part %d ends in the middle of the building expansion joint", s.Win.N)
			}
		}
	}
}

// The pieces and gaps as printed add up to the cap line as printed.
func TestPrintedPiecesAddUp(t *testing.T) {
	checked := 0
	draws.CheckLayouts(t, func(t *rapid.T) {
		l, found := layout.Build(jobtest.Random(t))
		if found.HasErrors() {
			t.Skip("not to be drawn")
		}
		for _, r := range l.Runs() {
			of := planned(l, r)
			f := &runFrame{of: of, win: Window{To: of.Cap.Real}, along: Scale{Ratio: 24}, tape: length.Crew(of.Metric)}
			sums, _ := f.pieceLengths()
			for _, u := range sums {
				checked++
				s := drawing.Scene{W: 100, H: 100}
				s.Claim(u)
				for _, p := range drawing.Check(s) {
					if p.Fault == drawing.SumNotTrue {
						t.Fatalf("run %s: %v", r.Name, p)
					}
				}
			}
		}
	})
	if checked == 0 {
		t.Error("no run claims what its pieces come to")
	}
}

// hatched are the hatches of a scene.
func hatched(v drawing.Scene) map[drawing.HatchKind]bool {
	used := map[drawing.HatchKind]bool{}
	v.Walk(func(_ drawing.Layer, m drawing.Mark) {
		if g, ok := m.(drawing.Region); ok && g.Hatch != drawing.NoHatch {
			used[g.Hatch] = true
		}
	})
	return used
}

func TestLegendHoldsEveryHatch(t *testing.T) {
	for name, j := range runJobs() {
		l, _ := layout.Build(j)
		for _, r := range l.Runs() {
			of := planned(l, r)
			for _, s := range runStrips(of, runWide, words.English) {
				listed, used := map[drawing.HatchKind]bool{}, hatched(s.Scene())
				for _, e := range RunHatches(words.Book{}, of, s.Win) {
					if listed[e.Kind] || e.Words == "" {
						t.Errorf("%s, run %s: legend entry %v twice or without words", name, r.Name, e.Kind)
					}
					listed[e.Kind] = true
				}
				for _, k := range drawing.HatchKinds() {
					if listed[k] != used[k] {
						t.Errorf("%s, run %s, part %d: hatch %v used %v, in the legend %v", name, r.Name, s.Win.N, k, used[k], listed[k])
					}
				}
			}
		}
	}
}

// What is on hold says so at its mark, and nothing doubtful looks finished.
func TestHeldPieceSaysHold(t *testing.T) {
	j := jobtest.Job()
	p := jobtest.Rectangle(300*runInch, 200*runInch)
	p.Runs[0].Basis = job.Drawing
	j.Perimeters = []job.Perimeter{p}
	l, _ := layout.Build(j)
	r := l.Runs()[0]
	held := 0
	for _, q := range r.Parts {
		if !l.Held.Released(q.Piece) {
			held++
		}
	}
	if held == 0 {
		t.Fatal("a length from a drawing holds nothing")
	}
	if got := strings.Count(runWords(runStrips(planned(l, r), runWide, words.English)[0].Scene()), "HOLD"); got != held {
		t.Errorf("%d pieces are held, HOLD stands %d times", held, got)
	}
}

func TestUnsurveyedRunSaysSo(t *testing.T) {
	j := jobtest.Job()
	p := jobtest.Rectangle(300*runInch, 200*runInch)
	p.Runs[1].Readings = nil
	j.Perimeters = []job.Perimeter{p}
	l, found := layout.Build(j)
	if found.HasErrors() {
		t.Skip("a run without readings is an error")
	}
	r := l.Runs()[1]
	runReads(t, l, r, runWide, words.English)
	if !strings.Contains(runWords(runStrips(planned(l, r), runWide, words.English)[0].Scene()), "NOT SURVEYED") {
		t.Error("the elevation of a run without readings does not say so")
	}
}

// Widths and heights are drawn no smaller than lengths, in their lanes, alike in all
// runs that are long enough.
func TestRunsKeepToTheirLanes(t *testing.T) {
	for name, j := range runJobs() {
		l, _ := layout.Build(j)
		var all []*RunStrip
		for _, r := range l.Runs() {
			all = append(all, runStrips(planned(l, r), runWide, words.English)...)
		}
		times := RunTimes(all)
		for _, s := range all {
			s.Times = times
			q := s.lay(s.Width())
			if q.plan.cross.times < 1 || q.elev.cross.times < 1 || q.plan.cross.times > times.Across || q.elev.cross.times > times.Up {
				t.Errorf("%s, run %s: ×%d and ×%d, the packet's are %v", name, s.Run.Name, q.plan.cross.times, q.elev.cross.times, times)
			}
			if q.plan.cross.times > 1 && q.plan.deep > planLane || q.elev.cross.times > 1 && q.elev.deep > elevLane {
				t.Errorf("%s, run %s: drawn larger it leaves its lane: %v, %v", name, s.Run.Name, q.plan.deep, q.elev.deep)
			}
		}
	}
}

// The exaggeration of a wall report is printed as it is.
func TestFactorIsPrintedTrue(t *testing.T) {
	for _, c := range []struct {
		along, cross int64
		want         string
	}{
		{25, 20, "1.25"}, {24, 16, "1.5"}, {24, 12, "2"}, {25, 10, "2.5"}, {25, 2, "12.5"}, {16, 12, "1 1/3"}, {32, 12, "2 2/3"}, {20, 20, "1"}, {64, 24, "2 2/3"},
	} {
		want := drawing.Letter(c.want)
		if got := runFactor(Scale{Ratio: c.along}, Scale{Ratio: c.cross}); got != want {
			t.Errorf("%d over %d: ×%s, want ×%s", c.along, c.cross, got, want)
		}
	}
}

// The string stands apart from the line of the cap at every scale.
func TestLayoutStringShows(t *testing.T) {
	for name, j := range runJobs() {
		l, _ := layout.Build(j)
		for _, r := range l.Runs() {
			for _, s := range runStrips(planned(l, r), runWide, words.English) {
				q := s.lay(s.Width())
				var g drawing.Scene
				q.plan.draw(&g)
				strung := false
				g.Walk(func(_ drawing.Layer, m drawing.Mark) {
					if g, ok := m.(drawing.Line); ok && g.Pen == drawing.String {
						strung = true
						if g.Pts[0].Y < 80 {
							t.Errorf("%s, run %s: the string lies %v from the cap line", name, r.Name, g.Pts[0].Y)
						}
					}
				})
				if !strung && len(r.Chairs) > 1 {
					t.Errorf("%s, run %s: no string is drawn", name, r.Name)
				}
			}
		}
	}
}

// Labels in a row keep their order and their distance, and lead to where they belong.
func TestLabelsOfARowStandApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var all []runLabel
		for range rapid.IntRange(0, 12).Draw(t, "labels") {
			q := runLabel{at: drawing.Unit(rapid.IntRange(0, 30000).Draw(t, "at"))}
			for range rapid.IntRange(0, 3).Draw(t, "lines") {
				q.lines = append(q.lines, RunLine{Words: rapid.StringMatching("[A-Z0-9 ]{1,12}").Draw(t, "words")})
			}
			all = append(all, q)
		}
		wide := need(all, runApart)
		r := spreadLabels(all, runApart, 0, max(wide+50, 30000))
		if !r.fits {
			t.Fatalf("%d labels %v wide do not stand in %v", len(all), wide, max(wide+50, 30000))
		}
		for i := 1; i < len(r.all); i++ {
			a, b := r.all[i-1], r.all[i]
			if a.at > b.at || a.placed+a.wide/2+runApart-2 > b.placed-b.wide/2 {
				t.Fatalf("%+v stands over %+v", a, b)
			}
		}
	})
}
