package layout

import (
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

func TestSurveyStations(t *testing.T) {
	const ft, in = length.Foot, length.Inch
	p := jobtest.Rectangle(15*ft+3*in, 8*ft)
	r := &p.Runs[0]
	r.Obstacles = []job.Obstacle{{Name: "post", Station: 4*ft + 2*in}, {Name: "rod", Station: 4*ft + 2*in}}
	r.Expansion = []job.ExpansionJoint{{Station: 9 * ft, Gap: in}}
	got := SurveyStations(&p, r, 2*ft, length.Inch16)
	at := func(k ...Standing) []Standing { return k }
	want := []SurveyStation{
		{0, true, at(Standing{Kind: LeftCorner})}, {2 * ft, true, nil},
		{4*ft + 2*in, true, at(Standing{Beside, "post"}, Standing{Beside, "rod"})}, {6 * ft, true, nil}, {8 * ft, true, nil},
		{9*ft - in/2, true, at(Standing{Kind: ExpansionLeft})}, {9*ft + in/2, true, at(Standing{Kind: ExpansionRight})},
		{10 * ft, true, nil}, {12 * ft, true, nil}, {14 * ft, true, nil},
		{15*ft + 3*in, true, at(Standing{Kind: RightCorner})},
	}
	if len(got) != len(want) {
		t.Fatalf("%d stations, want %d: %v", len(got), len(want), got)
	}
	for i := range want {
		if !reflect.DeepEqual(got[i], want[i]) {
			t.Errorf("station %d is %v, want %v", i, got[i], want[i])
		}
	}
}

// Where the far end of the face that stations are taped on is not known, the
// tape has to tell; a length from a drawing is said to be one.
func TestSurveyStationsOfWhatIsNotKnown(t *testing.T) {
	const in = length.Inch
	p := jobtest.Rectangle(120*in, 120*in)
	r := &p.Runs[1]
	r.StationFace = job.Rear
	got := SurveyStations(&p, r, 48*in, in)
	if last := got[len(got)-1]; last.Known || !slices.Equal(last.What, []Standing{{Kind: RightCorner}}) {
		t.Errorf("the far end is %v", last)
	}
	r.Face, r.Basis = job.Rear, job.Drawing
	got = SurveyStations(&p, r, 48*in, in)
	if last := got[len(got)-1]; !last.Known || !slices.Equal(last.What, []Standing{{Kind: RightCorner}, {Kind: Drawn}}) {
		t.Errorf("the far end is %v", last)
	}
}

// Stations grow, both ends are among them, and no stretch is longer than a step
// and a half, whatever stands on the wall.
func TestSurveyStationsLeaveNoGap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := jobtest.Random(t)
		every := length.Length(rapid.IntRange(12, 60).Draw(t, "every")) * length.Inch
		for i := range j.Perimeters {
			p := &j.Perimeters[i]
			for k := range p.Runs {
				r := &p.Runs[k]
				got := SurveyStations(p, r, every, length.Inch16)
				if got[0].At != 0 || got[len(got)-1].At != r.Length {
					t.Fatalf("run %s of %v goes from %v to %v", r.Name, r.Length, got[0].At, got[len(got)-1].At)
				}
				for n := 1; n < len(got); n++ {
					if d := got[n].At - got[n-1].At; d <= 0 || d > every+every/4+every/4 {
						t.Fatalf("run %s: from %v to %v", r.Name, got[n-1].At, got[n].At)
					}
				}
			}
		}
	})
}
