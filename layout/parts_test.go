package layout_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/shop"
)

// riserJob is a stepped wall of a shop that makes step risers.
func riserJob(rise length.Length) *job.Job {
	const in = length.Inch
	j := steppedJob(rise)
	j.System.RearClearance = 3 * length.Inch / 8 // its hook reaches in so far
	j.Shop = &job.Shop{K: 0.4, LeastFlange: in / 4, Brake: 200 * in, MostTurn: 170 * job.Degree,
		Sheets: []job.ShopSheet{{Width: 60 * in, Length: 200 * in}}, EdgeTrim: in / 4, Effort: 20}
	j.System.StepRiser = &job.RiserRules{ReturnFront: 5 * in / 2, ReturnRear: 2 * in, Lap: 3 * in / 2}
	return j
}

func risersOf(l *layout.Layout) []*layout.MadePart {
	var out []*layout.MadePart
	for _, p := range l.Parts {
		if p.Kind == shop.StepRiser {
			out = append(out, p)
		}
	}
	return out
}

// A bare riser is answered by the plate the job states: the hold is gone, the
// plate laps the upstand all along its foot and goes under the end cap's plate,
// and the riser of a step down is the mirror image of that of a step up.
func TestRiserCoversTheStep(t *testing.T) {
	const in = length.Inch
	up, down := build(t, riserJob(24*in)), build(t, riserJob(-24*in))
	for _, l := range []*layout.Layout{up, down} {
		for _, f := range l.Holds() {
			t.Errorf("%v", f)
		}
	}
	a, b := risersOf(up), risersOf(down)
	if len(a) != 1 || len(b) != 1 || a[0].Hand != cap.RightHand || b[0].Hand != cap.LeftHand {
		t.Fatalf("%v and %v", a, b)
	}
	if n, _ := a[0].Make(up.Held); n != 1 {
		t.Errorf("%d to make", n)
	}
	// By hand, from the lower set surface: its cap's front fold stands 7/8 + 1/20
	// + 12 3/4 / 24 in up, the upstand 4 in over it; the end cap's plate ends
	// over the hook: the rear leg's lowest metal lies 3 in under a fold 12.85/24 in
	// lower than the front's, and the hook turns up from it by 150 degrees, so that its
	// inner edge ends Ro - R/2 + flat x cos 30 higher, Ro 0.1125, R 0.0625 and 0.3875
	// flat of its 1/2 in.
	front := 0.875 + 0.05 + 12.75/24
	hook := 0.1125 - 0.0625/2 + 0.3875*math.Sqrt(3)/2
	plate := 24 + front - (12.75+2*0.05)/24 - 3 + hook
	atStreet := front + 4 - (0.25+0.05)/24
	want := plate + 1.5 - (atStreet - 1.5)
	body := a[0].Bodies[0]
	c := body.Solid.Faces[0].Corners
	street, roof := c[3].Z-c[0].Z, c[2].Z-c[1].Z
	if got := street / 25.4; got < want-0.001 || got > want+1.0/16 {
		t.Errorf("%.3f in high at the street, want %.3f and up to the grid", got, want)
	}
	if got, want := (roof-street)/25.4, (12+2*0.05)/24; math.Abs(got-want) > 0.01 {
		t.Errorf("its foot falls %.3f in to the roof, want %.3f with the lower coping", got, want)
	}
	for _, q := range body.Flat.Bends {
		if math.Abs(q.Turn+90) > 1e-6 {
			t.Errorf("the %s turns %.2f, want 90 down, round the higher wall", q.Between[1], q.Turn)
		}
	}
	for i, f := range body.Solid.Faces {
		other := b[0].Bodies[0].Solid.Faces[i]
		for _, v := range f.Corners {
			if !slices.ContainsFunc(other.Corners, func(w fold.Vec) bool {
				return math.Abs(v.X+w.X)+math.Abs(v.Y-w.Y)+math.Abs(v.Z-w.Z) < 1e-6
			}) {
				t.Errorf("%s: %v has no mirror image", f.Name, v)
			}
		}
	}
}

// Where the metal already laps there is no riser, and one that cannot lap both
// holds the step.
func TestRiserThatDoesNotLap(t *testing.T) {
	const in = length.Inch
	if l := build(t, riserJob(5*in)); len(risersOf(l)) != 0 {
		t.Error("a riser at a step that is covered")
	}
	for _, c := range []struct {
		lap  length.Length
		says string
	}{{5 * in, "under the end cap"}, {in / 2, "asks for a lap"}} {
		j := riserJob(24 * in)
		j.System.StepRiser.Lap = c.lap
		l := build(t, j)
		held := map[string]bool{}
		for _, f := range l.Holds() {
			if f.Code == "riser-lap" && strings.Contains(f.What, c.says) {
				held[f.Where.Run] = true
			}
		}
		if !held["A"] || !held["B"] {
			t.Errorf("a lap of %v: %v", c.lap, l.Holds())
		}
	}
}

// Each face that asks for an extender gets pieces along its run, and they stay
// back with the hold that asks how they are fastened.
func TestExtendersRunAlong(t *testing.T) {
	const in = length.Inch
	j := riserJob(5 * in)
	j.Walls[0].CoverFront, j.Walls[0].CoverRear = 7*in, 7*in
	j.System.Extender = &job.ExtenderRules{Stock: 100 * in, Gap: in / 4,
		Section: []job.Flange{{Name: "kick", Length: in / 2}, {Name: "face", Across: true, Turn: 40 * job.Degree}}}
	j.System.RoofExtender = &job.ExtenderRules{Stock: 90 * in, Gap: in / 4,
		Section: []job.Flange{{Name: "foot", Length: in}, {Name: "face", Across: true, Turn: 30 * job.Degree}}}
	l := build(t, j)
	kinds := map[shop.PartKind]job.Face{shop.ExtenderPiece: job.Front, shop.RoofExtenderPiece: job.Rear}
	type side struct {
		run  string
		face job.Face
	}
	along := map[side]length.Length{}
	for _, p := range l.Parts {
		face, ok := kinds[p.Kind]
		if !ok {
			continue
		}
		if n, _ := p.Make(l.Held); n > 0 {
			t.Errorf("%d of %s to make under a hold", n, p.Mark)
		}
		for _, s := range p.Serves {
			along[side{s.Name, face}] += length.Length(s.Count) * (p.Bodies[0].Length + in/4)
		}
	}
	for _, e := range l.Extenders() {
		if got := along[side{"run " + e.Run.Name, e.Face}] - in/4; length.Abs(got-e.Along) > in/16 {
			t.Errorf("run %s: %v of extenders along %v", e.Run.Name, got, e.Along)
		}
	}
	if len(along) != 4 {
		t.Errorf("extenders on %d faces of runs", len(along))
	}
}
