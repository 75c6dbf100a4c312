package samples_test

import (
	"math"
	"testing"

	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/metal"
)

// The dies of the invented shops, in mm, by the sheet they bend: an opening of
// six to eight thicknesses, as is usual for thin sheet. The job file has no place
// for them yet, so they stand here.
var dies = map[string]map[length.Length]float64{
	"rectangle": {length.Inch / 20: 3.0 / 8 * 25.4, 2 * length.Inch / 25: 5.0 / 8 * 25.4},
	"l-shape":   {31 * length.Inch / 1000: 1.0 / 4 * 25.4, 78 * length.Inch / 1000: 1.0 / 2 * 25.4},
	"metric":    {length.Millimetre: 8, 2 * length.Millimetre: 16},
}

// A face of a section between the bends, or the edges, at its two ends; a turn
// of 0 is an edge and 180 a closed hem.
type bentFace struct {
	name     string
	outside  float64 // mm, between mold lines; to the fold of a hem
	from, to float64 // degrees turned at its ends
}

// sheet is what a section is bent from and over. All in mm.
type sheet struct{ thick, radius, die, hem float64 }

// setback is from a bend's mold line to its tangent: (R + T) tan(turn/2). A
// closed hem is bent over nothing, so its fold stands one thickness out.
func (s sheet) setback(turn float64) float64 {
	switch turn {
	case 0:
		return 0
	case 180:
		return s.thick
	}
	return (s.radius + s.thick) * math.Tan(turn/2*math.Pi/180)
}

// flat is what is left straight of a face between the tangents of its bends.
func (s sheet) flat(f bentFace) float64 {
	return f.outside - s.setback(f.from) - s.setback(f.to)
}

// bendable checks one face against a press brake, by published shop rules:
//
//   - flange: one with an edge rests on the die's shoulder by 0.7 V, and is no
//     shorter outside than V/2 + 2 mm + T;
//   - web: two bends in a row stand V/2 + 2 T + 2.5 mm apart outside;
//   - hem: its leaf is a flange of the acute die it is begun in, 1.1 V, and ends
//     half a die opening or more before the next bend's tangent, so that neither
//     the punch nor the die's shoulder presses on it;
//   - bend to hem: 5 T + R between the inside of the bend and the hem's fold.
//
// Nothing may be left with less than no flat at all.
func bendable(t *testing.T, where string, s sheet, f bentFace) {
	t.Helper()
	flat := s.flat(f)
	need := func(what string, has, least float64) {
		if has < least-1e-6 {
			t.Errorf("%s, %s: %s %.2f mm, asks for %.2f mm", where, f.name, what, has, least)
		}
	}
	t.Logf("%s, %s: outside %.2f, flat between tangents %.2f mm", where, f.name, f.outside, flat)
	need("flat between tangents", flat, 0)
	switch {
	case f.from == 180 || f.to == 180:
		fold := flat + s.thick // of the hem, to the bend's tangent
		need("flange", fold, 0.7*s.die)
		need("flange outside", f.outside, s.die/2+2+s.thick)
		need("leaf of the hem", s.hem, 1.1*s.die)
		need("leaf of the hem", s.hem, 4*s.thick)
		need("from the leaf to the bend", fold-s.hem, s.die/2)
		need("from the bend to the hem", f.outside-s.thick, 5*s.thick+s.radius)
	case f.from == 0 || f.to == 0:
		need("flange", flat, 0.7*s.die)
		need("flange outside", f.outside, s.die/2+2+s.thick)
	default:
		need("web", f.outside, s.die/2+2*s.thick+2.5)
	}
}

// The caps can be bent: every face keeps its flat between the tangents, hem leaf
// and tool have their room, and the radius is one that is printed for the metal.
func TestCapsCanBeBent(t *testing.T) {
	for _, name := range names() {
		l := solve(t, name)
		j, p := l.Job, &l.Job.System.Profile
		m := j.System.Metal
		s := sheet{m.Thickness.MM(), p.InsideR.MM(), dies[name][m.Thickness], p.HemReturn.MM()}
		if s.die < 6*s.thick || s.die > 10*s.thick {
			t.Fatalf("%s: no die for a sheet of %v", name, m.Thickness)
		}
		if p.Drip.Length == 0 || p.RearHook.Length == 0 || p.HemReturn == 0 {
			t.Fatalf("%s: a sample shows a drip, a hook and hems", name)
		}
		slope := math.Atan(float64(p.TopSlope)/1e9) * 180 / math.Pi
		drip, hook := p.Drip.Angle.Degrees(), p.RearHook.Angle.Degrees()
		for _, r := range l.Runs() {
			top := r.OutsideAt(r.Cap/2).MM() / math.Cos(slope*math.Pi/180)
			bendable(t, name+" run "+r.Name, s, bentFace{"top", top, 90 + slope, 90 - slope})
		}
		bendable(t, name, s, bentFace{"drip", p.Drip.Length.MM(), 180, drip})
		bendable(t, name, s, bentFace{"front leg", j.System.FrontLeg(job.ToMoldLine).MM(), drip, 90 + slope})
		bendable(t, name, s, bentFace{"rear leg", j.System.RearLeg(job.ToMoldLine).MM(), 90 - slope, hook})
		bendable(t, name, s, bentFace{"hook", p.RearHook.Length.MM(), hook, 180})
		if p.InsideR < j.Shop.LeastRadius {
			t.Errorf("%s: radius %v, the shop's least is %v", name, p.InsideR, j.Shop.LeastRadius)
		}
		if b, ok := metal.TightestOf(m.Name, s.thick/25.4); ok && s.radius/25.4 < b.Radius-1e-3 {
			t.Errorf("%s: radius %v, and %.3f in is printed for %s", name, p.InsideR, b.Radius, m.Name)
		}
		if least := j.Shop.LeastFlange.MM(); least < s.die/2+2+s.thick || least < 0.7*s.die {
			t.Errorf("%s: the shop's least flange of %.2f mm does not reach over its die of %.2f mm", name, least, s.die)
		}
		if p.RearHook.Angle > j.Shop.MostTurn {
			t.Errorf("%s: the hook turns %v, the brake %v", name, p.RearHook.Angle, j.Shop.MostTurn)
		}
	}
}

// The sections of made parts can be bent as well.
func TestPartsCanBeBent(t *testing.T) {
	for _, name := range names() {
		l := solve(t, name)
		s := &l.Job.System
		cap := sheet{s.Metal.Thickness.MM(), s.Profile.InsideR.MM(), dies[name][s.Metal.Thickness], 0}
		of := func(u job.Stuff, thick length.Length) sheet {
			q := cap
			if u.Thickness > 0 {
				thick = u.Thickness
			}
			if thick != s.Metal.Thickness {
				q.thick, q.die = thick.MM(), dies[name][thick]
			}
			if u.Radius != nil {
				q.radius = u.Radius.MM()
			}
			return q
		}
		section := func(what string, q sheet, across float64, faces []job.Flange) {
			if q.die == 0 {
				t.Errorf("%s: no die for the sheet of the %s", name, what)
			}
			for i, f := range faces {
				b := bentFace{name: f.Name, outside: f.Length.MM(), from: math.Abs(f.Turn.Degrees())}
				if f.Across {
					b.outside = across - (f.Before + f.Behind).MM()
				}
				if i+1 < len(faces) {
					b.to = math.Abs(faces[i+1].Turn.Degrees())
				}
				bendable(t, name+" "+what, q, b)
			}
		}
		inside := l.Runs()[0].Inside
		for i := range l.Job.Assemblies {
			chair := s.ChairOf(&l.Job.Assemblies[i])
			k := chair.Blank
			if k == nil {
				t.Errorf("%s: the chair of assembly %s is not stated", name, l.Job.Assemblies[i].Name)
				continue
			}
			section("chair of "+l.Job.Assemblies[i].Name, of(k.Stuff, chair.Thickness), (inside - s.Chair.FrontEdge - s.Chair.RearEdge).MM(), k.Section)
		}
		if k := s.Corner.Support.Blank; k != nil {
			section("support", of(k.Stuff, s.Metal.Thickness), s.Corner.Support.Width.MM(), k.Section)
		}
		if k := s.Extender; k != nil {
			for _, e := range l.Extenders() {
				section("extender", of(k.Stuff, s.Metal.Thickness), e.Height.MM(), k.Section)
			}
		}
		plate := of(s.Splice.Legs.Stuff, s.Metal.Thickness)
		bendable(t, name, plate, bentFace{"splice plate, front leg", s.Splice.Legs.Front.MM(), 0, 90})
		bendable(t, name, plate, bentFace{"splice plate, rear leg", s.Splice.Legs.Rear.MM(), 90, 0})
		if k := s.StepRiser; k != nil {
			q := of(k.Stuff, s.Metal.Thickness)
			bendable(t, name, q, bentFace{"riser, street return", k.ReturnFront.MM(), 0, 90})
			bendable(t, name, q, bentFace{"riser, roof return", k.ReturnRear.MM(), 0, 90})
		}
	}
}

// A hook catches under the chair and passes the wall. Its tip, square to the
// rear leg and from the leg's inside, is hook sin(turn) less the metal: farther
// in than the chair's rear face and metal, nearer than the wall at its nearest.
// Where the chair's foot stands in the hook, the hook is still a single sheet.
// The chair goes between the legs and the wall on both sides.
func TestHooksCatchTheirChairs(t *testing.T) {
	for _, name := range names() {
		l := solve(t, name)
		s := &l.Job.System
		p, k := &s.Profile, &s.Chair
		sin := math.Sin(p.RearHook.Angle.Degrees() * math.Pi / 180)
		thick := s.Metal.Thickness.MM()
		reach := p.RearHook.Length.MM()*sin - thick
		foot := (k.RearEdge + k.Thickness).MM()
		leaf := (p.RearHook.Length-p.HemReturn).MM()*sin - thick
		t.Logf("%s: the hook reaches %.2f mm in, the chair stands to %.2f, the hem begins at %.2f, the wall at %.2f",
			name, reach, foot, leaf, s.PlayLeast.MM())
		if reach < foot+k.Thickness.MM() {
			t.Errorf("%s: the hook reaches %.2f mm in, the chair's foot stands to %.2f", name, reach, foot)
		}
		if leaf < foot-1e-6 {
			t.Errorf("%s: the hook's hem begins %.2f mm in, under the chair's foot, which stands to %.2f", name, leaf, foot)
		}
		for _, q := range []struct {
			what        string
			has, atMost length.Length
		}{
			{"the hook", length.FromMM(reach), length.Min(s.RearClearance, s.PlayLeast)},
			{"the chair's rear leg", k.RearEdge + k.Thickness, length.Min(s.RearClearance, s.PlayLeast)},
			{"the chair's front leg", k.FrontEdge + k.Thickness, s.FrontClearance},
		} {
			if q.has > q.atMost {
				t.Errorf("%s: %s stands %v into a clearance of %v", name, q.what, q.has, q.atMost)
			}
		}
	}
}
