package wind

import (
	"os"
	"slices"
	"strings"
	"testing"

	"copingset/layout/confirm"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// laid gives two runs of a building their zones, as a layout does.
func laid(d Demand) []Zoned {
	fronts := []length.Length{42*length.Foot + 5*length.Inch, 30 * length.Foot}
	zones := d.Around(fronts, []bool{true, false}, true, false)
	return []Zoned{{"ROOF", "N", fronts[0], zones[0]}, {"ROOF", "E", fronts[1], zones[1]}}
}

// sign confirms a job as it is, with its list.
func sign(j *job.Job) {
	d, _ := Build(j, nil)
	d, _ = Confirm(j, d, laid(d))
	j.Wind.Confirmed = &job.Confirmed{By: "engineer", Document: "L-1", On: job.Date{Year: 2026, Month: 3, Day: 1}, Code: d.List.Code(), List: d.List}
}

func again(j *job.Job) (Demand, finding.Finding) {
	d, _ := Build(j, nil)
	d, found := Confirm(j, d, laid(d))
	return d, found[0]
}

// A letter repeats the code, so neither the text of a list nor its code may ever
// change: not by a tidying of names, of the wording of the basis, or of its order.
func TestConfirmedListStands(t *testing.T) {
	j := example("ASCE 7-16")
	j.Wind.SpeedFrom, j.Wind.Risk, j.Wind.RoofSlope, j.Wind.Area = "S-001 rev 2", "II", 12*job.Degree/10, 10*metresPerFoot*metresPerFoot
	d, found := again(j)
	want, err := os.ReadFile("testdata/confirm-7-16.txt")
	if err != nil {
		t.Fatal(err)
	}
	if got := d.List.Text(); got != string(want) {
		t.Errorf("the list is no longer as it was signed; it is\n%s", got)
	}
	const code = "4L8WG-KTWDK"
	if d.List.Code().String() != code {
		t.Errorf("the code is %s, and letters say %s", d.List.Code(), code)
	}
	if !strings.Contains(found.Mend, code) || found.Severity != finding.Hold {
		t.Errorf("%v", found)
	}
}

// Every line of the basis is under the confirmation, by a name of its own that
// can be written in a list.
func TestEveryStepIsInTheList(t *testing.T) {
	for _, e := range editions() {
		for _, h := range []length.Length{15, 100} {
			for _, hilly := range []bool{false, true} {
				j := low(e)
				j.Wind.RoofHeight, j.Wind.ParapetTop = h*length.Foot, (h+4)*length.Foot
				if hilly {
					j.Wind.Kzt, j.Wind.Topography = 0, &job.Topography{Shape: job.Ridge, Height: 100 * length.Foot, HalfLength: 300 * length.Foot}
				}
				ground := 500 * length.Foot
				j.Wind.Ground = &ground
				d, _ := again(j)
				seen := map[string]bool{}
				for _, s := range d.Basis {
					if s.Fact == "" || seen[s.Fact] {
						t.Errorf("%s, %d ft: %q names %s", e, h, s.Fact, s.What)
					}
					seen[s.Fact] = true
				}
				back, err := confirm.Parse(d.List.Text())
				if err != nil || back.Code() != d.List.Code() || len(d.List) != len(d.Basis)+6 {
					t.Errorf("%s: %d lines of %d steps, %v", e, len(d.List), len(d.Basis), err)
				}
			}
		}
	}
}

func TestConfirmed(t *testing.T) {
	j := example("ASCE 7-16")
	if d, f := again(j); !d.ToConfirm() || f.Severity != finding.Hold || f.Code != "pressures-computed" {
		t.Errorf("computed pressures are not on hold: %v", f)
	}
	sign(j)
	d, f := again(j)
	if d.ToConfirm() || d.By != "engineer" || f.Severity != finding.Note || !strings.Contains(f.What, d.List.Code().String()) {
		t.Errorf("confirmed pressures are on hold: %v", f)
	}
	// Lettered in other units the computing and its list stay as they were confirmed.
	j.LetterIn(job.Metric)
	if d, f := again(j); d.ToConfirm() || d.Basis[1].Unit != "mph" {
		t.Errorf("lettered in millimetres: %v", f)
	}
}

// Whatever changes in the wind section voids the confirmation, and the finding
// says from what to what: the height of the roof, say, which moves the corner
// zones and not the pressures.
func TestChangesVoidAConfirmation(t *testing.T) {
	const mm = length.Millimetre
	metric := func() *job.Job {
		j := example("ASCE 7-22")
		j.Units = job.Metric
		j.Wind.Exposure, j.Wind.Speed = "B", 50
		j.Wind.RoofHeight, j.Wind.ParapetTop, j.Wind.Least = 9400*mm, 10200*mm, 15200*mm
		return j
	}
	was, _ := again(metric())
	low := metric()
	low.Wind.RoofHeight = 3000 * mm
	is, _ := again(low)
	if was.Up != is.Up || was.CornerLength <= is.CornerLength {
		t.Fatalf("%v and %v: the case needs equal pressures", was, is)
	}
	for _, c := range []struct {
		name   string
		change func(j *job.Job)
		says   []string
	}{
		{"roof height", func(j *job.Job) { j.Wind.RoofHeight = 3000 * mm },
			[]string{"roof.height: 9.400 m -> 3.000 m", "corner.length: 5.640 m -> 1.800 m", "zone.ROOF.N.corner-right: 5640 mm -> 1800 mm"}},
		{"least dimension", func(j *job.Job) { j.Wind.Least = 40000 * mm }, []string{"least.dimension: 15.200 m -> 40.000 m", "zone5.width: 1.520 m -> 3.760 m"}},
		{"turn that begins a zone", func(j *job.Job) { j.Wind.CornerTurn = 15 * job.Degree }, []string{"corner.turn: every -> 15"}},
		{"speed", func(j *job.Job) { j.Wind.Speed = 51 }, []string{"speed: 50.00 m/s -> 51.00 m/s", "up.corner.allowable: "}},
		{"map", func(j *job.Job) { j.Wind.SpeedFrom = "S-2" }, []string{"speed.from: S-2, which was not in the list"}},
		{"edition", func(j *job.Job) { j.Wind.Edition = "ASCE 7-16" }, []string{"edition: ASCE 7-22 -> ASCE 7-16", "qp.kd", "no longer there"}},
		{"a tenth off the walls", func(j *job.Job) { j.Wind.WallReduction = true },
			[]string{"changed since: option.wall_reduction: not taken -> taken; and by that", "in.gcp: 1.0000 -> 0.9000"}},
		{"floor of exposure B", func(j *job.Job) { yes := true; j.Wind.ExposureBFloor = &yes },
			[]string{"changed since: exposure.floor: 4.57 m -> 9.14 m"}},
		{"less than is lettered", func(j *job.Job) { j.Wind.Speed = 50.0014 },
			[]string{"changed since: no input as the list letters it; and by that: "}},
		{"hollow parapet", func(j *job.Job) { j.Wind.Hollow, j.Wind.Enclosure = true, job.OpenBuilding }, []string{"parapet: solid -> hollow, building open"}},
	} {
		j := metric()
		sign(j)
		c.change(j)
		d, f := again(j)
		if !d.ToConfirm() || f.Code != "confirmation-differs" || f.Severity != finding.Hold || !strings.Contains(f.Mend, d.List.Code().String()) {
			t.Errorf("%s: %v", c.name, f)
		}
		for _, says := range c.says {
			if !strings.Contains(f.What, says) {
				t.Errorf("%s: does not say %q: %s; %s", c.name, says, f.What, f.Why)
			}
		}
		// Without the list it says that anything may have, and what the inputs are.
		j.Wind.Confirmed.List = nil
		if _, f := again(j); !strings.Contains(f.What, "may have changed") || !strings.Contains(f.What, "parapet.top 10.200 m") {
			t.Errorf("%s: %s; %s", c.name, f.What, f.Why)
		}
	}
}

// A zone that moves by a change of the wall voids it too, though no input of the
// wind section differs.
func TestZonesAreConfirmed(t *testing.T) {
	j := example("ASCE 7-16")
	sign(j)
	d := mustCompute(t, j)
	runs := laid(d)
	for _, c := range []struct {
		name, says string
		change     func(r *Zoned)
		holds      bool
	}{
		{"a corner more", "zone.ROOF.N.corner-left: none -> 18'-0\"", func(r *Zoned) { r.Zones = append([]Stretch{{0, 18 * length.Foot, Corner}}, r.Zones...) }, true},
		{"another length", "zone.ROOF.N.wall: 42 ft -> 52 ft", func(r *Zoned) { r.Front += 10 * length.Foot }, true},
		{"a quarter inch of tape", "", func(r *Zoned) { r.Front += length.Inch / 4 }, false},
	} {
		some := slices.Clone(runs)
		some[0].Zones = slices.Clone(some[0].Zones)
		c.change(&some[0])
		got, found := Confirm(j, d, some)
		if got.ToConfirm() != c.holds || !strings.Contains(found[0].What, c.says) {
			t.Errorf("%s: %s; %s", c.name, found[0].What, found[0].Why)
		}
	}
}

// What the engineer states needs no confirmation of what is computed beside it.
func TestConfirmedBesideStated(t *testing.T) {
	j := example("ASCE 7-16")
	sign(j)
	d := mustCompute(t, j)
	j.Pressures = &job.Pressures{By: "engineer", Document: "S-1", Edition: "ASCE 7-16", CornerLength: d.CornerLength,
		Edge: job.ZonePressure{Up: d.Up[0], Out: d.Out[0], Rear: d.Rear[0]}, Corner: job.ZonePressure{Up: d.Up[1], Out: d.Out[1], Rear: d.Rear[1]}}
	_, found := Build(j, nil)
	if len(found) != 1 || found[0].Code != "confirmed-idle" || found[0].Severity != finding.Note {
		t.Errorf("%v", found)
	}
	j.Wind.Confirmed = nil
	if _, found := Build(j, nil); len(found) > 0 {
		t.Errorf("%v", found)
	}
}

// A code that was copied wrongly, and a list that is another, are not taken for a
// change of the job.
func TestWrongCodeAndList(t *testing.T) {
	j := example("ASCE 7-16")
	sign(j)
	code := j.Wind.Confirmed.Code
	j.Wind.Confirmed.Code = "00000" + code[5:]
	if d, f := again(j); !d.ToConfirm() || !strings.Contains(f.What, "nothing has changed") || !strings.Contains(f.Why, "copied wrongly") {
		t.Errorf("a code copied wrongly: %v", f)
	}
	j.Wind.Confirmed.Code = code
	j.Wind.Confirmed.List = confirm.List{{Name: "speed", Value: "1 mph"}}
	if d, f := again(j); d.ToConfirm() || !strings.Contains(f.What, "is not the one that was confirmed") {
		t.Errorf("the code alone confirms, and the list is another: %v", f)
	}
	j.Wind.Speed *= 1.01
	if d, f := again(j); !d.ToConfirm() || !strings.Contains(f.What, "not the one that was confirmed") {
		t.Errorf("another list: %v", f)
	}
}
