package view

import (
	"strconv"
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

type runSheet struct {
	win        Window
	plan, elev drawing.Scene
}

// planned is what the views of a run read.
func planned(l *layout.Layout, r *layout.Run) *plan.Run {
	of := l.Plan(r)
	return &of
}

func runSheets(l *layout.Layout, r *layout.Run, width drawing.Unit) ([]runSheet, Scale) {
	of := planned(l, r)
	wins, along := Windows(of, width)
	across, up := RunAcross(of, 95*drawing.MM), RunUp(of, 60*drawing.MM)
	var out []runSheet
	for _, w := range wins {
		out = append(out, runSheet{w, RunPlan(words.Book{}, of, w, along, across, width), RunElevation(words.Book{}, of, w, along, up, width)})
	}
	return out, along
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

// runReads checks everything that must hold for the sheets of any run.
func runReads(t runFails, l *layout.Layout, r *layout.Run, width drawing.Unit) {
	sheets, along := runSheets(l, r, width)
	plans, elevs := "", ""
	for i, s := range sheets {
		for _, v := range []drawing.Scene{s.plan, s.elev} {
			for _, p := range drawing.Check(v) {
				t.Errorf("run %s, %s: %v", r.Name, v.Name, p)
			}
			runMatch(t, v)
		}
		if left, right := runSides(planned(l, r), s.win, along); left+along.Units(s.win.To-s.win.From)+right > width+1 {
			t.Errorf("run %s: window %d is wider than the paper", r.Name, i+1)
		}
		plans += runWords(s.plan)
		elevs += runWords(s.elev)
		runWants(t, r, s)
	}
	for _, c := range r.Chairs {
		n := c.Name[strings.LastIndexByte(c.Name, '-')+1:]
		if !strings.Contains(plans, " "+n+" ") || !strings.Contains(elevs, " "+n+" ") {
			t.Errorf("run %s: chair %s is not lettered", r.Name, n)
		}
		if at := drawing.Letter(l.ChairTape(r).Long(r.ToCrew(c.At))); r.ToCrew(c.At) >= length.Foot && !strings.Contains(plans, strings.Join(strings.Fields(at), " ")) {
			t.Errorf("run %s: station %s of chair %s is not lettered", r.Name, at, n)
		}
	}
	for _, q := range r.Parts {
		if !strings.Contains(plans, q.Piece.Mark) || !strings.Contains(elevs, q.Piece.Mark) {
			t.Errorf("run %s: mark %s is not lettered", r.Name, q.Piece.Mark)
		}
	}
	for _, o := range r.Job.Obstacles {
		if c := r.ToCap(r.FrontStation(o.Station)); c > 0 && c < r.Cap && !strings.Contains(plans, o.Name) {
			t.Errorf("run %s: obstacle %s is not named", r.Name, o.Name)
		}
	}
	runCovers(t, r, sheets)
}

// runBalloons are the numbers in circles of a view.
func runBalloons(s drawing.Scene) map[string]int {
	var circles []drawing.Arc
	s.Walk(func(_ drawing.Layer, m drawing.Mark) {
		if c, ok := m.(drawing.Arc); ok && c.R > 250 && c.To == 3600 {
			circles = append(circles, c)
		}
	})
	out := map[string]int{}
	for _, t := range s.Texts() {
		b := drawing.BoundsOf([]drawing.Mark{t}).Centre()
		for _, c := range circles {
			if d := b.Sub(c.Centre); d.X > -150 && d.X < 150 && d.Y > -150 && d.Y < 150 {
				out[t.Words]++
			}
		}
	}
	return out
}

// runMatch checks that every number stands twice in a view: where it belongs
// and before its words.
func runMatch(t runFails, s drawing.Scene) {
	for n, times := range runBalloons(s) {
		if _, err := strconv.Atoi(n); times != 2 || err != nil {
			t.Errorf("%s: balloon %s stands %d times, want once on the drawing and once in the list", s.Name, n, times)
		}
	}
}

// runWants checks what every sheet must say.
func runWants(t runFails, r *layout.Run, s runSheet) {
	all := runWords(s.plan)
	for _, w := range []string{"STREET SIDE", "ROOF SIDE: you stand here", "Lengthwise", "cap line"} {
		if !strings.Contains(all, w) {
			t.Errorf("run %s, part %d: the plan does not say %q", r.Name, s.win.N, w)
		}
	}
	if !strings.Contains(runWords(s.elev), "SEEN FROM ROOF") {
		t.Errorf("run %s, part %d: the elevation does not say from where it is seen", r.Name, s.win.N)
	}
	// Notes wrap: the balloon of each must have its words.
	for _, m := range []*length.Length{s.win.MatchLeft, s.win.MatchRight} {
		if m != nil && !strings.Contains(all, "MATCH LINE") {
			t.Errorf("run %s, part %d: its match line is not named", r.Name, s.win.N)
		}
	}
}

// runCovers checks that the windows between their match lines are the run.
func runCovers(t runFails, r *layout.Run, sheets []runSheet) {
	at := length.Length(0)
	for i, s := range sheets {
		w := s.win
		if w.N != i+1 || w.Of != len(sheets) {
			t.Errorf("run %s: window %d is numbered %d of %d", r.Name, i+1, w.N, w.Of)
		}
		if (w.MatchLeft == nil) != (i == 0) || (w.MatchRight == nil) != (i == len(sheets)-1) {
			t.Errorf("run %s: window %d has the wrong match lines", r.Name, i+1)
			return
		}
		if i > 0 && (*w.MatchLeft != at || w.From >= at) {
			t.Errorf("run %s: window %d begins at %v, the one before ends at %v", r.Name, i+1, *w.MatchLeft, at)
		}
		if w.MatchRight != nil {
			at = *w.MatchRight
			if w.To <= at {
				t.Errorf("run %s: window %d repeats nothing beyond its match line", r.Name, i+1)
			}
		}
	}
	if sheets[0].win.From != 0 || sheets[len(sheets)-1].win.To != r.Cap {
		t.Errorf("run %s: its windows do not reach its ends", r.Name)
	}
}

func TestRunViewsAreReadable(t *testing.T) {
	for name, j := range runJobs() {
		t.Run(name, func(t *testing.T) {
			l, found := layout.Build(j)
			if found.HasErrors() {
				t.Fatal(found)
			}
			for _, r := range l.Runs() {
				runReads(t, l, r, runWide)
			}
		})
	}
}

func TestRandomRunViewsAreReadable(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := jobtest.Random(t)
		l, found := layout.Build(j)
		if found.HasErrors() {
			t.Skip("not to be drawn")
		}
		width := drawing.Unit(rapid.IntRange(250, 700).Draw(t, "width")) * drawing.MM
		runs := l.Runs()
		runReads(t, l, runs[rapid.IntRange(0, len(runs)-1).Draw(t, "run")], width)
	})
}

func TestSameRunSameMarks(t *testing.T) {
	l, _ := layout.Build(runJobs()["OPEN"])
	again, _ := layout.Build(runJobs()["OPEN"])
	for i, r := range l.Runs() {
		a, _ := runSheets(l, r, runWide)
		b, _ := runSheets(again, again.Runs()[i], runWide)
		for k := range a {
			if a[k].plan.Dump() != b[k].plan.Dump() || a[k].elev.Dump() != b[k].elev.Dump() {
				t.Errorf("run %s, part %d: drawn twice, it is not the same", r.Name, k+1)
			}
		}
	}
}

func TestWholeRunOnOneSheetAtAReadableScale(t *testing.T) {
	for _, c := range []struct {
		inches length.Length
		sheets int
		scale  string
	}{
		{100, 1, `3/4" = 1'-0"`},
		{300, 1, `1/2" = 1'-0"`},
		{400, 2, `1/2" = 1'-0"`},
		{1000, 4, `1/2" = 1'-0"`},
	} {
		j := jobtest.Job()
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(c.inches*runInch, 330*runInch)}
		l, _ := layout.Build(j)
		wins, s := Windows(planned(l, l.Runs()[0]), runWide)
		if len(wins) != c.sheets || s.Name != c.scale {
			t.Errorf("%d in: %d sheets at %s, want %d at %s", c.inches, len(wins), s.Name, c.sheets, c.scale)
		}
	}
}

func TestExpansionJointStaysOnOneSheet(t *testing.T) {
	j := jobtest.Job()
	p := jobtest.Rectangle(1200*runInch, 330*runInch)
	half := runInch / 2
	p.Runs[0].Expansion = []job.ExpansionJoint{{Station: 600 * runInch, Gap: runInch, Movement: &half}}
	j.Perimeters = []job.Perimeter{p}
	l, _ := layout.Build(j)
	r := l.Runs()[0]
	wins, _ := Windows(planned(l, r), runWide)
	for _, w := range wins {
		for _, q := range r.Joints {
			if q.Kind == cap.Expansion && w.MatchRight != nil && *w.MatchRight == q.Centre() {
				t.Errorf("part %d ends in the middle of the building expansion joint", w.N)
			}
		}
	}
}

// The pieces and gaps as printed add up to the cap line as printed.
func TestPrintedPiecesAddUp(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		l, found := layout.Build(jobtest.Random(t))
		if found.HasErrors() {
			t.Skip("not to be drawn")
		}
		read := func(words string) length.Length {
			words = strings.NewReplacer("′", "'", "″", `"`).Replace(words)
			if Metric(l) {
				words += " mm"
			}
			v, err := length.Parse(words)
			if err != nil {
				t.Fatalf("printed %q: %v", words, err)
			}
			return v
		}
		for _, r := range l.Runs() {
			// A window of the whole run cuts no part.
			f := newRunFrame(words.Book{}, planned(l, r), Window{From: 0, To: r.Cap, N: 1, Of: 1}, Scale{Ratio: 24}, Scale{Ratio: 12}, runWide)
			p := &runPlan{runFrame: f}
			ends, labels, gap := p.pieceLabels()
			if len(ends) < 2 || ends[0] != 0 || ends[len(ends)-1] != r.Cap {
				continue // a kink's joint lies over the end
			}
			var sum length.Length
			for _, w := range labels {
				if w == "" {
					w = gap
				}
				sum += read(w)
			}
			if want := read(f.long(r.Cap)); sum != want {
				t.Fatalf("run %s: the pieces as printed sum to %v, the cap line prints as %v", r.Name, sum, want)
			}
		}
	})
}

func TestLegendHoldsEveryHatch(t *testing.T) {
	for name, j := range runJobs() {
		l, _ := layout.Build(j)
		for _, r := range l.Runs() {
			sheets, _ := runSheets(l, r, runWide)
			for _, s := range sheets {
				listed, used := map[drawing.HatchKind]bool{}, map[drawing.HatchKind]bool{}
				for _, e := range RunHatches(planned(l, r), s.win) {
					if listed[e.Kind] || e.Words == "" {
						t.Errorf("%s, run %s: legend entry %v twice or without words", name, r.Name, e.Kind)
					}
					listed[e.Kind] = true
				}
				for _, v := range []drawing.Scene{s.plan, s.elev} {
					v.Walk(func(_ drawing.Layer, m drawing.Mark) {
						if g, ok := m.(drawing.Region); ok && g.Hatch != drawing.NoHatch {
							used[g.Hatch] = true
						}
					})
				}
				for _, k := range drawing.HatchKinds() {
					if listed[k] != used[k] {
						t.Errorf("%s, run %s, part %d: hatch %v used %v, in the legend %v", name, r.Name, s.win.N, k, used[k], listed[k])
					}
				}
			}
		}
	}
}

// What is on hold says so inside its cap, and nothing doubtful looks finished.
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
	sheets, _ := runSheets(l, r, runWide)
	if got := strings.Count(runWords(sheets[0].plan), "HOLD"); got != held {
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
	runReads(t, l, r, runWide)
	sheets, _ := runSheets(l, r, runWide)
	if !strings.Contains(runWords(sheets[0].elev), "NOT SURVEYED") {
		t.Error("the elevation of a run without readings does not say so")
	}
}

// A wall is never drawn narrower than it is, nor packing thinner: whatever
// scale is asked for, what is drawn is not smaller than lengthwise.
func TestRunsAreNeverSquashed(t *testing.T) {
	for name, j := range runJobs() {
		l, _ := layout.Build(j)
		for _, r := range l.Runs() {
			of := planned(l, r)
			for _, along := range Scales(Metric(l)) {
				for _, asked := range Scales(Metric(l)) {
					if got := runCross(of, along, asked); got.Ratio > along.Ratio || runShort(of) && got != along {
						t.Errorf("%s, run %s: %s lengthwise, %s crosswise", name, r.Name, along.Name, got.Name)
					}
					if got := runUpright(along, asked); got.Ratio > along.Ratio {
						t.Errorf("%s, run %s: %s lengthwise, heights %s", name, r.Name, along.Name, got.Name)
					}
				}
			}
			wins, along := Windows(of, runWide)
			small := Scale{Name: "1:500", Ratio: 500}
			words := runWords(RunPlan(words.Book{}, of, wins[0], along, small, runWide), RunElevation(words.Book{}, of, wins[0], along, small, runWide))
			if strings.Contains(words, "1:500") || strings.Contains(words, "smaller") {
				t.Errorf("%s, run %s is squashed: %s", name, r.Name, words)
			}
		}
	}
}

// The exaggeration is printed as it is.
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

// The string stands apart from the line of the cap at every scale, and its
// label says how far behind it is stretched.
func TestLayoutStringShows(t *testing.T) {
	for name, j := range runJobs() {
		l, _ := layout.Build(j)
		for _, r := range l.Runs() {
			sheets, _ := runSheets(l, r, runWide)
			for _, s := range sheets {
				top := drawing.Unit(1 << 30)
				s.plan.Walk(func(_ drawing.Layer, m drawing.Mark) {
					if g, ok := m.(drawing.Line); ok && g.Pen == drawing.Thick {
						for i := 1; i < len(g.Pts); i++ {
							if g.Pts[i].Y == g.Pts[i-1].Y {
								top = min(top, g.Pts[i].Y)
							}
						}
					}
				})
				strung := false
				s.plan.Walk(func(_ drawing.Layer, m drawing.Mark) {
					if g, ok := m.(drawing.Line); ok && g.Pen == drawing.String {
						strung = true
						if g.Pts[0].Y-top < 80 {
							t.Errorf("%s, run %s, part %d: the string lies %d from the cap line", name, r.Name, s.win.N, g.Pts[0].Y-top)
						}
					}
				})
				if words := runWords(s.plan); strung && strings.Contains(words, "string line") && !strings.Contains(words, "behind the cap line") {
					t.Errorf("%s, run %s, part %d: the string's label does not say where it is stretched", name, r.Name, s.win.N)
				}
			}
		}
	}
}

// All sheets of a run have one pair of scales, and at it they fit.
func TestRunScalesFitEveryPart(t *testing.T) {
	j := jobtest.Job()
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(1000*runInch, 330*runInch)}
	l, _ := layout.Build(j)
	r := l.Runs()[0]
	of := planned(l, r)
	wins, along := Windows(of, runWide)
	across, up, together := RunScales(words.Book{}, of, wins, along, runWide, 24000, 350)
	if !together || len(wins) < 2 {
		t.Fatalf("%d parts, together %v", len(wins), together)
	}
	for _, w := range wins {
		if h := RunPlan(words.Book{}, of, w, along, across, runWide).H + 350 + RunElevation(words.Book{}, of, w, along, up, runWide).H; h > 24000 {
			t.Errorf("part %d is %d high", w.N, h)
		}
	}
	if _, _, together := RunScales(words.Book{}, of, wins, along, runWide, 9000, 350); together {
		t.Error("plan and elevation fit a height of 90 mm")
	}
}
