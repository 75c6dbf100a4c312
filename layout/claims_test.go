package layout_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/fact"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wind"
)

// A submittal says of each report by which standard and method it was made, by
// whose leave and when; what it does not say is a hold on what stands on it.
func TestReportsSayWhatTheyAre(t *testing.T) {
	if _, ok := coded(build(t, woodJob()), "report-unsaid"); ok {
		t.Error("a report that says all is on hold")
	}
	for _, c := range []struct {
		says   string
		change func(*job.Test)
	}{
		{"the test standard", func(q *job.Test) { q.Standard = "" }},
		{"the edition of the test standard", func(q *job.Test) { q.Edition = "" }},
		{"the test method", func(q *job.Test) { q.Method = "" }},
		{"the accreditation of the laboratory", func(q *job.Test) { q.Accreditation = "" }},
		{"the date of the report", func(q *job.Test) { q.On = job.Date{} }},
	} {
		j := woodJob()
		c.change(j.Assemblies[0].Test)
		l := build(t, j)
		f, ok := coded(l, "report-unsaid")
		if !ok || f.Severity != finding.Hold || !strings.HasSuffix(f.What, "does not state "+c.says) {
			t.Errorf("%s: %v", c.says, f)
		}
		for _, p := range l.Perimeters {
			for _, q := range p.Pieces {
				if l.Held.Released(q) == (q.Assembly.Name == j.Assemblies[0].Name) {
					t.Errorf("%s: piece %s on %s, released %v", c.says, q.Mark, q.Assembly.Name, l.Held.Released(q))
				}
			}
		}
	}
	j := woodJob()
	j.Assemblies[0].Test, j.Assemblies[1].Test = nil, nil
	if f, _ := coded(build(t, j), "report-unsaid"); strings.Count(f.What, "the ") < 5 {
		t.Errorf("nothing stated: %s", f.What)
	}
	// Of an assembly that stands nowhere nothing is asked.
	j = woodJob()
	spare := j.Assemblies[1]
	spare.Name, spare.Test, spare.FactorBasis, spare.WidthMost = "T9", nil, nil, length.Inch
	j.Assemblies = append(j.Assemblies, spare)
	if h := build(t, j).Holds(); len(h) > 0 {
		t.Errorf("an assembly that is not used: %v", h)
	}
}

// A factor says its level, who chose it and why. By hand: 1.2 at strength level
// is 1.2/0.6 = 2.0 at the allowable.
func TestFactorSaysItsLevel(t *testing.T) {
	j := woodJob()
	j.Assemblies[0].FactorBasis = nil
	l := build(t, j)
	if f, ok := coded(l, "factor-unsaid"); !ok || f.Severity != finding.Hold || len(f.Where.Pieces) == 0 {
		t.Errorf("%v", f)
	}
	for _, c := range []struct {
		factor  float64
		level   job.Level
		divides float64
		holds   bool
	}{{2, job.Allowable, 2, false}, {1.2, job.Strength, 2, false}, {1.1, job.Strength, 1.1 / 0.6, true}, {1.9, job.Allowable, 1.9, true}, {2, job.Strength, 2 / 0.6, false}} {
		j := woodJob()
		for i := range j.Assemblies {
			j.Assemblies[i].Factor, j.Assemblies[i].FactorBasis.Level = c.factor, c.level
			j.Assemblies[i].Up.Pa, j.Assemblies[i].Rear.Pa, j.Assemblies[i].Out.Pa = 9000, 9000, 9000
		}
		l := build(t, j)
		q := l.Runs()[0].Choice[wind.Corner]
		if got := 9000 / q.UpResists; math.Abs(got-c.divides) > 1e-9 {
			t.Errorf("%v %v divides by %v", c.factor, c.level, got)
		}
		f, held := coded(l, "factor-low")
		if held != c.holds || held && f.Severity != finding.Hold {
			t.Errorf("%v %v: %v", c.factor, c.level, f)
		}
		k := slices.IndexFunc(l.CodeChecks(), func(k layout.CodeCheck) bool { return strings.Contains(k.What, "factor on as-pulled") })
		if k := l.CodeChecks()[k]; !strings.Contains(k.Has, "engineer of record: specification") || !strings.Contains(k.Source, "ES-1") {
			t.Errorf("%v %v: %+v", c.factor, c.level, k)
		}
	}
}

// What the engineer signs reads back as what the code is over.
func TestConfirmText(t *testing.T) {
	j := woodJob()
	if text := build(t, j).ConfirmText(); text != "" {
		t.Errorf("stated pressures have a list: %s", text)
	}
	j = blown(t)
	l := build(t, j)
	text := l.ConfirmText()
	for _, want := range []string{"# Check code " + l.Demand.List.Code().String(), "\nconfirm/1\n", "\nzone.ROOF.A.corner-left = ", "\nroof.height = 20.00 ft\n"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
}

// The list is made of the ledger, of the facts under the confirmation alone: nothing
// else that changes makes another code, and each of them does.
func TestConfirmedListIsOfTheLedger(t *testing.T) {
	l := build(t, blown(t))
	ledger, want := l.Facts(), l.Demand.List.Code()
	if got := wind.ListOf(ledger); got.Code() != want || got.Text() != l.Demand.List.Text() {
		t.Fatalf("the ledger makes %s, want %s", got.Text(), l.Demand.List.Text())
	}
	other := slices.Clone(ledger)
	for i := range other {
		if other[i].Kind != fact.Confirmed {
			other[i].Value += "1"
		}
	}
	if got := wind.ListOf(other).Code(); got != want {
		t.Errorf("facts that nobody signs make the code %s, want %s", got, want)
	}
	signed := 0
	for i, f := range ledger {
		if f.Kind != fact.Confirmed {
			continue
		}
		signed++
		other := slices.Clone(ledger)
		other[i].Value += "1"
		if wind.ListOf(other).Code() == want {
			t.Errorf("another %s makes the same code", f.Name())
		}
	}
	if signed != len(l.Demand.List) || signed < 20 {
		t.Errorf("%d facts under the confirmation, %d lines", signed, len(l.Demand.List))
	}
}

// The height of the roof moves corner zones and pressures not at all: a job that
// was confirmed is on hold again, every piece of it, and the finding names the
// change.
func TestRoofHeightVoidsTheConfirmation(t *testing.T) {
	j := blown(t)
	j.Wind.Confirmed.List = build(t, j).Demand.List
	was := build(t, j)
	if len(was.Holds()) > 0 {
		t.Fatal(was.Holds())
	}
	j.Wind.RoofHeight = 10 * length.Foot
	l := build(t, j)
	if l.Demand.Up != was.Demand.Up || l.Demand.CornerLength >= was.Demand.CornerLength {
		t.Fatalf("%+v", l.Demand)
	}
	f, ok := coded(l, "confirmation-differs")
	if !ok || !strings.Contains(f.What, "roof.height: 20.00 ft -> 10.00 ft") || !strings.Contains(f.What, "corner.length: 12.00 ft -> 6.00 ft") || !strings.Contains(f.What, "zone.ROOF.A.corner-left: 12'-0\" -> 6'-0\"") {
		t.Errorf("%v %s", f, f.Why)
	}
	for _, q := range l.Perimeters[0].Pieces {
		if l.Held.Released(q) {
			t.Errorf("piece %s is released", q.Mark)
		}
	}
}
