package refold_test

import (
	"bytes"
	"fmt"
	"math"
	"testing"

	"copingset/drawing/dxf"
	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
	"copingset/sheets"
	"copingset/sheets/internal/refold"

	"pgregory.net/rapid"
)

const in = length.Inch

// written is what a packet has for machines, read back.
func written(t rapid.TB, l *layout.Layout) []refold.Sheet {
	files := map[string][]byte{}
	for _, m := range sheets.Machines(l) {
		files[m.Name] = dxf.Encode(m.Drawing)
	}
	for _, s := range sheets.MachineLists(l) {
		var b bytes.Buffer
		if err := sheets.WriteCSV(&b, s); err != nil {
			t.Fatal(err)
		}
		files[s.Name] = b.Bytes()
	}
	all, err := refold.Read(files)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// aCorner is two runs round one corner of any angle and hand, closed or flanged at
// their ends.
func aCorner(t *rapid.T) *job.Job {
	turn := job.Angle(rapid.IntRange(20, 120).Draw(t, "turn")) * job.Degree
	if rapid.Bool().Draw(t, "inside corner") {
		turn = -turn
	}
	end := func(name string) job.End {
		return job.End{Kind: rapid.SampledFrom([]job.EndKind{job.EndFree, job.EndWall}).Draw(t, name)}
	}
	runs := []job.Run{jobtest.Run("A", 300*in, turn), jobtest.Run("B", 300*in, 0)}
	if rapid.IntRange(0, 2).Draw(t, "short run between") == 0 { // one piece round two corners
		back := job.Angle(rapid.IntRange(20, 100).Draw(t, "second turn")) * job.Degree
		if rapid.Bool().Draw(t, "back") {
			back = -back
		}
		runs = []job.Run{runs[0], jobtest.Run("J", length.Length(rapid.IntRange(30, 44).Draw(t, "jog"))*in, back), runs[1]}
	}
	p := jobtest.Perimeter("ANY", job.Open, runs...)
	p.Starts = end("starts")
	p.Runs[len(runs)-1].Right = end("ends")
	j := jobtest.Job()
	j.Perimeters = []job.Perimeter{p}
	if rapid.IntRange(0, 2).Draw(t, "two widths") == 0 {
		j.System.Corner.TwoWidths = &job.TwoWidths{MismatchMost: in / 4, SlopeLeast: 1}
		last := &j.Perimeters[0].Runs[len(runs)-1]
		for k := range last.Readings {
			last.Readings[k].Width += length.Length(rapid.IntRange(0, 1).Draw(t, "wider")) * 2 * in
		}
	}
	return j
}

// slopes is an open wall over a valley and a peak.
func slopes(t *rapid.T) *job.Job {
	j := jobtest.Job()
	j.System.PitchMiter = job.PitchMiter{Leg: 24 * in, ChangeMost: 80 * job.Degree}
	slope := rapid.Float64Range(0.02, 0.5).Draw(t, "grade")
	k := slope / math.Sqrt(1+slope*slope)
	var runs []job.Run
	top := 0.0
	ways := []float64{0, 1, -1, 0}
	for i, r := range []job.Run{jobtest.Run("A", 160*in, 0), jobtest.Run("B", 240*in, 0), jobtest.Run("C", 240*in, 0), jobtest.Run("D", 160*in, 0)} {
		for n := range r.Readings {
			h := length.RoundTo(length.FromInches(top+ways[i]*k*r.Readings[n].Station.Inch()), length.Inch16)
			r.Readings[n].TopOutside, r.Readings[n].TopInside = h, h
		}
		top += ways[i] * k * r.Length.Inch()
		r.Right = job.End{Kind: job.EndPitch, Pitch: []job.Pitch{job.Valley, job.Peak, job.Valley}[i%3]}
		r.Grade = &job.Grade{}
		if ways[i] != 0 {
			r.Grade.Most = job.Slope(slope*1e9) + 3_000_000
		}
		runs = append(runs, r)
	}
	runs[3].Right = job.End{Kind: job.EndFree}
	p := jobtest.Perimeter("GABLE", job.Open, runs...)
	p.Starts = job.End{Kind: job.EndFree}
	j.Perimeters = []job.Perimeter{p}
	return j
}

// bent gives a job random metal and a shop that can bend it, and every part.
func bent(t *rapid.T, j *job.Job) *job.Job {
	mm := func(name string, lo, hi float64) length.Length {
		return length.FromMM(math.Round(rapid.Float64Range(lo, hi).Draw(t, name)*100) / 100)
	}
	angle := func(name string, lo, hi int) job.Angle {
		return job.Angle(rapid.IntRange(lo, hi).Draw(t, name)) * job.Degree
	}
	s := &j.System
	s.Metal.Thickness = mm("thickness", 0.6, 1.3)
	for i := range j.Assemblies {
		j.Assemblies[i].ThicknessLeast = s.Metal.Thickness
	}
	s.Profile.InsideR = mm("radius", 0.8, 2.5)
	s.Profile.HemReturn = mm("hem", 8, 10)
	if rapid.IntRange(0, 2).Draw(t, "raw") == 0 {
		s.Profile.HemReturn = 0
	}
	s.Profile.FrontLeg.Length, s.Profile.RearLeg.Length = 6*in, 4*in
	s.Profile.Drip = job.Kick{Length: mm("drip", 16, 24), Angle: angle("drip turn", 15, 55)}
	s.Profile.RearHook = job.Kick{Length: mm("hook", 20, 26), Angle: angle("hook turn", 100, 150)}
	s.Profile.RearLeg.To = job.ToTangent
	j.Shop = &job.Shop{K: math.Round(rapid.Float64Range(0.3, 0.5).Draw(t, "K")*100) / 100, LeastRadius: in / 64, LeastFlange: in / 4, Brake: 2000 * in, MostTurn: 170 * job.Degree,
		WeldGap: mm("gap", 0, 1.5), Sheets: []job.ShopSheet{{Width: 80 * in, Length: 400 * in, Price: 100}}, Kerf: in / 8, EndTrim: in / 4, EdgeTrim: in / 4, LeastDrop: 28 * in, Effort: 20}
	if rapid.IntRange(0, 2).Draw(t, "reliefs") == 0 {
		j.Shop.Relief = job.Relief{Diameter: 3 * length.Millimetre}
	}
	if rapid.IntRange(0, 3).Draw(t, "cut back") == 0 {
		j.Shop.Seam = &job.SeamRules{CutBack: 2 * length.Millimetre}
	}
	if rapid.IntRange(0, 2).Draw(t, "lapped") == 0 {
		cut := length.Length(0)
		if j.Shop.Seam != nil {
			cut = j.Shop.Seam.CutBack
		}
		j.Shop.Seam = &job.SeamRules{Process: job.Solder, Backer: "strip", CutBack: cut, Lap: &job.SeamLap{
			Cover: rapid.SampledFrom([]job.Side{job.Left, job.Right}).Draw(t, "over"), Width: mm("lap", 18, 30), Clear: mm("clear", 2, 4), Jogged: true, Jog: mm("jog", 4, 8)}}
	}
	s.Splice.Legs = job.Legs{Front: 2 * in, Rear: 3 * in / 2, Fit: in / 16}
	return j
}

// unbendable reports whether a finding holds a piece for how it is bent.
func unbendable(found finding.List) bool {
	for _, f := range found {
		switch f.Code {
		case "hem-over-bend", "metal-in-metal", "relief-crowded", "cannot-unfold", "bends-meet":
			return true
		}
	}
	return false
}

// Random systems fold to what their jobs say, by kind of piece, angle and hand.
func TestWrittenFilesFoldForAnySystem(t *testing.T) {
	seen := map[string]int{}
	draws.Check(t, 40, func(r *rapid.T) {
		var j *job.Job
		switch rapid.IntRange(0, 7).Draw(r, "what") {
		case 0:
			j = jobtest.Uneven(r)
		case 1:
			j = jobtest.RandomCross(r)
		case 2:
			j = slopes(r)
		default:
			j = aCorner(r)
		}
		l, found := layout.Build(bent(r, j))
		if found.HasErrors() {
			r.Skip("not a layout")
		}
		if !unbendable(found) { // what waits for a reading or a load is written as it will be
			l.Held = nil
		}
		report := refold.Check(written(r, l), l.Job)
		for k, n := range report.Seen {
			seen[k] += n
		}
		for _, f := range l.Families {
			if drop, ok := report.Drops[f.Mark]; ok && math.Abs(drop-f.Pieces[0].Tee.Drop.MM()) > 0.05 {
				r.Fatalf("%s drops %.3f mm, want %.3f", f.Mark, drop, f.Pieces[0].Tee.Drop.MM())
			}
		}
		if len(report.Faults) > 0 {
			r.Fatal(fmt.Sprint(len(report.Faults), " faults, first ", report.Faults[0]))
		}
	})
	t.Log(seen)
	for _, kind := range []string{"caps", "corner of one width", "inside corner", "corner of two widths", "double miter", "peak", "valley", "transition", "tee", "end plates", "upstands", "plates in caps", "lapped corner", "lapped break", "flat tabs"} {
		if seen[kind] == 0 {
			t.Errorf("nothing folds that is a %s", kind)
		}
	}
}
