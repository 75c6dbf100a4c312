// Package samples_test keeps the sample jobs what they claim to be: readable,
// solved without errors, held only where they mean to be, each of a coping system
// of its own that a shop can bend.
package samples_test

import (
	"bytes"
	"fmt"
	"os"
	"path"
	"slices"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/shop"
	"copingset/layout/wind"
)

func solve(t *testing.T, name string) *layout.Layout {
	t.Helper()
	j, found := job.Read(os.DirFS("."), name+"/job.yaml")
	for _, f := range found {
		t.Errorf("%s: %v", name, f)
	}
	if j == nil {
		t.FailNow()
	}
	l, found := layout.Build(j)
	for _, f := range found {
		if f.Severity != finding.Hold && !slices.Contains(remarked(name), f.Code) {
			t.Errorf("%s: %v", name, f)
		}
	}
	return l
}

// remarked are the notes a sample is meant to have: the metric one computes its
// pressures, which the engineer has confirmed.
func remarked(name string) []string {
	if name == "metric" {
		return []string{"pressures-computed"}
	}
	return nil
}

func names() []string { return []string{"rectangle", "l-shape", "metric"} }

func TestHolds(t *testing.T) {
	for name, want := range map[string][]string{
		"rectangle": nil,
		"l-shape":   {"extender-needed S", "lap-under S", "verify-in-field S", "pierced-unsealed WS"},
		"metric":    nil,
	} {
		l := solve(t, name)
		var got []string
		for _, f := range l.Holds() {
			got = append(got, f.Code+" "+f.Where.Run)
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s: holds %q, want %q", name, got, want)
		}
		if held := len(l.Withheld) > 0; held != (len(want) > 0) {
			t.Errorf("%s: %d pieces withheld", name, len(l.Withheld))
		}
	}
}

// What every sample must come to, whatever its shape.
func TestSolved(t *testing.T) {
	for _, name := range names() {
		l := solve(t, name)
		s := &l.Job.System
		used := map[wind.Zone]bool{}
		for _, p := range l.Perimeters {
			if p.Closed() && (p.Closure.Length <= 0 || p.Closure.Length > p.Job.MisclosureLength) {
				t.Errorf("%s: perimeter %s misses its start by %v; a real survey misses a little", name, p.Job.Name, p.Closure.Length)
			}
			for _, q := range p.Pieces {
				used[q.Zone] = true
			}
			for _, r := range p.Runs {
				_, below := l.ExtenderOn(r, job.Front)
				checkRun(t, name, s, r, below)
			}
		}
		if !used[wind.Edge] || !used[wind.Corner] {
			t.Errorf("%s: both zones must appear, got %v", name, used)
		}
		a := l.Job.Assemblies
		if len(a) != 2 || a[1].ChairSpacing >= a[0].ChairSpacing {
			t.Errorf("%s: wants two assemblies, the second on closer chairs", name)
		}
	}
}

// checkRun looks over one run; below says that an extender goes on under its
// front leg, which then need not cover the joint by itself.
func checkRun(t *testing.T, name string, s *job.System, r *layout.Run, below bool) {
	t.Helper()
	sum := length.Length(0)
	for _, p := range r.Parts {
		sum += p.Length()
	}
	for _, j := range r.Joints {
		sum += j.Gap()
	}
	if sum != r.Cap {
		t.Errorf("%s: run %s: pieces and gaps make %v of %v", name, r.Name, sum, r.Cap)
	}
	for i, play := range r.Play {
		if play < s.PlayLeast || play > s.PlayMost {
			t.Errorf("%s: run %s: rear play %v at reading %d", name, r.Name, play, i)
		}
		q := r.Readings[i]
		front, rear := cap.Laps(s, r.Wall, r.Inside, q.PackFront, q.PackRear)
		if front < s.Lap.Front && !below || rear < s.Lap.Rear {
			t.Errorf("%s: run %s: laps %v and %v at reading %d", name, r.Name, front, rear, i)
		}
	}
	for i, c := range r.Chairs {
		for _, w := range c.Rows {
			if w.Length == 0 || w.Into < w.Fastener.Embedment {
				t.Errorf("%s: chair %s has no fastener that holds", name, c.Name)
			}
		}
		if i == 0 {
			continue
		}
		d, most := c.At-r.Chairs[i-1].At, length.Max(c.Assembly.ChairSpacing, r.Chairs[i-1].Assembly.ChairSpacing)
		if d > most+s.Joint.Gap {
			t.Errorf("%s: chair %s stands %v from the one before, tested at %v", name, c.Name, d, most)
		}
	}
}

// The rectangle is there to show a low stretch of wall: none, one and two
// layers of plywood, a joint moved off an obstacle and a pierced cap.
func TestRectangleShows(t *testing.T) {
	l := solve(t, "rectangle")
	layers := map[int]bool{}
	cutouts := 0
	for _, r := range l.Runs() {
		for _, z := range r.BuildUp {
			layers[z.Layers] = true
		}
	}
	for _, q := range l.Perimeters[0].Pieces {
		cutouts += len(q.Cutouts)
	}
	if len(layers) != 3 || !layers[0] || !layers[1] || !layers[2] {
		t.Errorf("layers of plywood %v, want 0, 1 and 2", layers)
	}
	if cutouts != 1 {
		t.Errorf("%d cut-outs, want 1", cutouts)
	}
	n := l.Perimeters[0].Runs[0]
	first := n.Parts[1].Piece
	if n.Name != "N" || !first.Closer || first.Length() == l.Job.System.Stock {
		t.Errorf("run N: piece %s is not the cut one; its lightning rod blocks nothing", first.Mark)
	}
}

func TestLShapeShows(t *testing.T) {
	l := solve(t, "l-shape")
	kinds := map[cap.Kind]int{}
	inside, skew, expansion, rear := 0, 0, 0, 0
	made := map[shop.PartKind]int{}
	for _, p := range l.Parts {
		made[p.Kind]++
	}
	for _, p := range l.Perimeters {
		for _, q := range p.Pieces {
			kinds[q.Kind]++
		}
		for _, c := range p.Corners {
			switch {
			case c.Turn == 37*job.Degree+job.Degree/2:
				skew++
			case !c.Outside():
				inside++
			}
		}
		for _, r := range p.Runs {
			if r.Job.Face == job.Rear {
				rear++
			}
			for _, j := range r.Joints {
				if j.Kind == cap.Expansion && j.Movement != nil {
					expansion++
				}
			}
		}
	}
	got := fmt.Sprint(kinds[cap.DoubleMiter], kinds[cap.EndCap], kinds[cap.WallEnd], inside, skew, expansion, rear, l.Perimeters[1].Job.Kind == job.Well)
	// An end cap and a wall end stand at the step besides those at the ends.
	if want := "2 2 2 7 1 1 2 true"; got != want {
		t.Errorf("double miters, end caps, wall ends, inside corners, skew corners, expansion joints, runs taped behind, well: %s, want %s", got, want)
	}
	if made[shop.StepRiser] != 1 || made[shop.ExtenderPiece] == 0 {
		t.Errorf("%d step risers, %d kinds of extender; want one riser and an extender", made[shop.StepRiser], made[shop.ExtenderPiece])
	}
}

func TestMetricShows(t *testing.T) {
	l := solve(t, "metric")
	b, err := os.ReadFile(path.Join("metric", "survey.csv"))
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.HasPrefix(b, []byte("\xef\xbb\xbfrun;")) || !bytes.Contains(b, []byte(",5;")) {
		t.Error("the survey must have a byte order mark, semicolons and decimal commas")
	}
	if d := l.Demand; !d.Computed || d.ToConfirm() || len(d.Basis) == 0 {
		t.Error("wants pressures that are computed and confirmed")
	}
	half := 0
	for _, r := range l.Runs() {
		for _, q := range r.Readings {
			if q.Width%length.Millimetre == length.Millimetre/2 {
				half++
			}
		}
	}
	if half == 0 {
		t.Error("no decimal comma came through as half a millimetre")
	}
	kinds, two := map[cap.Kind]int{}, 0
	for _, q := range l.Perimeters[1].Pieces {
		kinds[q.Kind]++
		for _, m := range q.Miters {
			if m.Two() {
				two++
			}
		}
	}
	tees := 0
	for _, q := range l.Perimeters[0].Pieces {
		if q.Kind == cap.Tee {
			tees++
		}
	}
	if tees != 1 || kinds[cap.PitchMiter] != 2 || two != 1 || kinds[cap.EndCap] != 1 {
		t.Errorf("%d tees, %d pitch miters, %d corners of two widths, %d end caps; want 1, 2, 1, 1", tees, kinds[cap.PitchMiter], two, kinds[cap.EndCap])
	}
	j := l.Job
	if j.Packing.Method != job.PackChairs || j.System.Profile.SlopeBy != job.SlopeByPacking || l.Perimeters[0].Runs[2].Job.StationFace != job.Rear {
		t.Error("wants chair packing that makes the slope, and run C stationed on its rear face")
	}
}

// Every job is of another invented fabricator: no dimension of a system is shared
// between samples. What is usual in the trade is kept out by TestNothingUsualIsShown.
func TestSystemsDiffer(t *testing.T) {
	seen := map[string]string{}
	for _, name := range names() {
		l := solve(t, name)
		s, m := &l.Job.System, &l.Job.Membrane
		dims := []string{"system " + s.Name, "metal " + s.Metal.Name, "membrane " + m.Name}
		add := func(what string, l length.Length) {
			if l > 0 {
				// To half a millimetre: what differs less looks alike on a sheet.
				dims = append(dims, fmt.Sprint(what, " ", length.RoundTo(l, length.Millimetre/2)))
			}
		}
		p := &s.Profile
		add("front leg", p.FrontLeg.Length)
		add("rear leg", p.RearLeg.Length)
		add("drip", p.Drip.Length)
		add("hook", p.RearHook.Length)
		add("hem", p.HemReturn)
		dims = append(dims, fmt.Sprint("drip turns ", p.Drip.Angle), fmt.Sprint("hook turns ", p.RearHook.Angle))
		add("front clearance", s.FrontClearance)
		add("rear clearance", s.RearClearance)
		add("stock", s.Stock)
		add("least piece", s.LeastPiece)
		add("gap", s.Joint.Gap)
		add("plate", s.Splice.Length)
		add("bearing", s.Splice.Bearing)
		add("chair", s.Chair.Length)
		add("rise", s.Chair.Rise)
		add("leg", s.Corner.Leg)
		add("longest leg", s.Corner.LongestLeg)
		add("support", s.Corner.Support.Length)
		add("end", s.EndCap.Leg)
		add("layer", l.Job.Packing.Layer)
		dims = append(dims, fmt.Sprintf("membrane of %.2f mm", m.Thickness.MM()), fmt.Sprintf("chair of %.3f mm", s.Chair.Thickness.MM()))
		for i, a := range l.Job.Assemblies {
			add("spacing", a.ChairSpacing)
			if i == 0 {
				add("tested front leg", a.FrontLegMost.Length)
				add("tested rear leg", a.RearLegMost.Length)
				add("tested width", a.WidthMost)
				dims = append(dims, fmt.Sprint("rows ", a.FrontRow, " ", a.RearRow))
			}
		}
		for _, f := range l.Job.Fasteners {
			dims = append(dims, "screw "+f.Name, fmt.Sprintf("screw of %.2f mm", f.Diameter.MM()))
		}
		for _, d := range dims {
			if by, ok := seen[d]; ok {
				t.Errorf("%s: %s is also of %s", name, d, by)
			}
			seen[d] = name
		}
	}
}

// No sample welds what a weld spoils: sheet that is coated before it is joined,
// galvanized sheet, or zinc. What is finished before says so in its finish.
func TestNoWeldIsSpoiled(t *testing.T) {
	for _, name := range names() {
		m := solve(t, name).Job.System.Metal
		words := strings.ToLower(m.Name + " " + m.Finish)
		for _, no := range []string{"galvan", "zinc", "coil", "prefinished", "pre-finished", "g90", "two-coat"} {
			if strings.Contains(words, no) {
				t.Errorf("%s: a corner of %s, %s", name, m.Name, m.Finish)
			}
		}
		if !strings.Contains(words, "after ") {
			t.Errorf("%s: the finish %q does not say that it comes after the corners are joined", name, m.Finish)
		}
	}
}

// The rectangle is the form others copy, with the files it includes: they show
// every key of the job file, in use or as a comment, and the first line of each
// says what to write there.
// The columns of a survey are explained where inline readings are shown.
func TestRectangleTeaches(t *testing.T) {
	taught := map[string]bool{}
	for _, name := range []string{"rectangle/job.yaml", "systems/brindle-r8.yaml", "firms/tern-and-ledge.yaml"} {
		b, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for i, line := range strings.Split(string(b), "\n") {
			body := strings.TrimLeft(line, " #-")
			key, _, ok := strings.Cut(body, ":")
			if !ok || taught[key] || strings.ContainsAny(key, " {[") || i == 0 { // the first line names the schema
				continue
			}
			taught[key] = true
			if !strings.Contains(body, " # ") {
				t.Errorf("%s:%d: the key %s is not explained", name, i+1, key)
			}
		}
	}
	for _, k := range job.Keys() {
		if !taught[k.Name()] && !strings.HasPrefix(k.Path, "perimeters[].runs[].readings[].") {
			t.Errorf("the key %s is not shown", k.Path)
		}
	}
}
