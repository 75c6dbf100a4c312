package sheets

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"copingset/layout/job"
	"copingset/layout/wind"
)

// ofKind are the words of all sheets of some kinds of a packet.
func ofKind(c drawn, kinds ...Kind) string {
	var b strings.Builder
	for _, s := range c.sheets {
		if slices.Contains(kinds, s.Kind) {
			b.WriteString(wordsOf(s.Scene))
		}
	}
	return b.String()
}

// run-on words of a sheet, however they were wrapped.
func flat(text string) string { return strings.Join(strings.Fields(text), " ") }

func TestInspectorGetsTheSubmittal(t *testing.T) {
	t.Parallel()
	for _, c := range packets() {
		if c.name != "computed" {
			continue
		}
		seen := map[Kind]bool{}
		for _, s := range Packet(c.layout, Options{For: Inspector}) {
			seen[s.Kind] = true
		}
		for _, k := range []Kind{Transmittal, Index, Findings, Sections, FastenerSchedule, Basis, Assemblies, TestedSection, Reports, Materials, Checklist, Statement, Review} {
			if !seen[k] {
				t.Errorf("no sheet of %v", k)
			}
			delete(seen, k)
		}
		if len(seen) > 0 {
			t.Errorf("sheets besides: %v", seen)
		}
	}
}

// Whoever reads a computed pressure reads on the same sheets who answers for
// it, and every line from memory says so.
func TestPressuresSayWhoAnswers(t *testing.T) {
	n := 0
	for _, c := range packets() {
		d := &c.layout.Demand
		basis := ofKind(c, Basis)
		for _, k := range []Kind{Basis, Assemblies} {
			if said := strings.Contains(ofKind(c, k), "COMPUTED PRESSURES, TO BE CONFIRMED BY A LICENSED ENGINEER"); said != d.ToConfirm() {
				t.Errorf("%s, %v: to be confirmed %v, said %v", c.name, k, d.ToConfirm(), said)
			}
		}
		text := flat(ofKind(c, Statement))
		if said := strings.Contains(text, "NOBODY HAS CONFIRMED THEM"); said != d.ToConfirm() {
			t.Errorf("%s: the statement says unconfirmed: %v", c.name, said)
		}
		if d.Confirmed != nil && !strings.Contains(text, "Sample Structural, L-1, 2026-03-02") {
			t.Errorf("%s: the statement does not name who confirmed", c.name)
		}
		want := 0
		steps := slices.Clone(d.Basis)
		if d.Check != nil {
			steps = append(steps, d.Check.Basis...)
		}
		for _, s := range steps {
			if s.Sure == wind.Memory {
				want++
			}
			n++
			if w := spelled(s.Letter()); len(w) <= longValue && !strings.Contains(basis, w+"\n") {
				t.Errorf("%s: %q of %s is on no basis sheet", c.name, w, s.What)
			}
		}
		if got := strings.Count("\n"+basis, "\nFROM MEMORY\n"); got != want {
			t.Errorf("%s: %d lines from memory, %d say so", c.name, want, got)
		}
		if d.Stated && !strings.Contains(flat(basis), "stated by engineer of record") {
			t.Errorf("%s: nobody answers for the stated pressures", c.name)
		}
	}
	if n == 0 {
		t.Error("no step")
	}
}

// What passes says pass, what does not says HOLD and what would cover it.
func TestComplianceSaysPassOrHold(t *testing.T) {
	passes, holds := 0, 0
	for _, c := range packets() {
		b := newBook(c.layout, Options{})
		text := ofKind(c, Assemblies)
		for i, k := range c.layout.AssemblyCases() {
			row := b.coverTable().rows[i]
			result := row[12]
			good := k.Choice.Covers && k.Choice.Stated && !c.layout.Demand.ToConfirm()
			for _, m := range c.layout.Limits(k) {
				good = good && m.Passes
			}
			if (result == "pass") != good {
				t.Errorf("%s, %s zone: %q, good %v", c.name, k.Choice.Zone, result, good)
			}
			if result == "pass" {
				passes++
			} else if holds++; !strings.Contains(result, "HOLD") {
				t.Errorf("%s: %q", c.name, result)
			}
			if !k.Choice.Covers && !strings.Contains(flat(text), "would be covered by a report on") {
				t.Errorf("%s: does not say what would cover", c.name)
			}
			if k.Choice.Stated && !strings.Contains(text, fmt.Sprintf("\n%.2f\n", k.Choice.Ratio())) {
				t.Errorf("%s: ratio %.2f is not lettered", c.name, k.Choice.Ratio())
			}
		}
	}
	if passes == 0 || holds == 0 {
		t.Errorf("%d zones pass, %d hold: the cases have to have both", passes, holds)
	}
}

// Every check, extender, anchor and cross-check of the layout is lettered.
func TestChecksAreLettered(t *testing.T) {
	extenders, nailers, pulls := 0, 0, 0
	for _, c := range packets() {
		l := c.layout
		text, fast := flat(ofKind(c, Materials)), ofKind(c, FastenerSchedule)
		failed := 0
		for _, k := range l.CodeChecks() {
			if !strings.Contains(text, flat(prose(k.What))) {
				t.Errorf("%s: check %q is on no sheet", c.name, k.What)
			}
			if !k.Passes {
				failed++
			}
		}
		if got := strings.Count(text, "SEE FINDINGS"); got != failed {
			t.Errorf("%s: %d checks fail, %d say so", c.name, failed, got)
		}
		b := newBook(l, Options{})
		for _, e := range l.Extenders() {
			extenders++
			if !strings.Contains(text, flat(b.long(e.Height))) || !strings.Contains(text, "Extender pieces") {
				t.Errorf("%s: the extender of run %s is on no sheet", c.name, e.Run.Name)
			}
		}
		if len(l.Extenders()) > 0 && !strings.Contains(flat(ofKind(c, TestedSection)), "Extender, a separate piece below the ") {
			t.Errorf("%s: the extender is in no section", c.name)
		}
		for _, n := range l.Nailers() {
			nailers++
			if !strings.Contains(fast, b.long(n.Spacing)) || strings.Contains(flat(fast), "NOT in the spacing") == n.Sheared {
				t.Errorf("%s: anchors of run %s are on no sheet", c.name, n.Run.Name)
			}
		}
		for _, w := range l.Withdrawals() {
			pulls++
			if !strings.Contains(fast, b.force(w.Allowable)) || !strings.Contains(flat(fast), "never replaces it") {
				t.Errorf("%s: the cross-check of run %s is on no sheet", c.name, w.Run.Name)
			}
		}
	}
	if extenders == 0 || nailers == 0 || pulls == 0 {
		t.Errorf("%d extenders, %d anchors, %d cross-checks: the cases have to have all", extenders, nailers, pulls)
	}
}

// A value that others take over is asked for with its tolerance, and with room
// to write.
func TestChecklistAsks(t *testing.T) {
	for _, c := range packets() {
		b := newBook(c.layout, Options{})
		text := flat(ofKind(c, Checklist))
		for _, x := range b.checkItems() {
			if x.what == "" || x.required == "" || x.by == "" {
				t.Errorf("%s: %+v", c.name, x)
			}
		}
		for _, a := range b.inUse() {
			if !strings.Contains(text, "report "+prose(a.Report)) {
				t.Errorf("%s: report %s is not named", c.name, a.Report)
			}
		}
		if n := len(c.layout.Holds()); n > 0 && !strings.Contains(text, "Holds cleared") {
			t.Errorf("%s: %d holds are not asked for", c.name, n)
		}
	}
}

// Nought degrees has no sign.
func TestNoughtDegrees(t *testing.T) {
	b := &book{}
	if got := b.temperature(job.Temperature(-17778)); got != "0 °F (-18 °C)" {
		t.Errorf("%q", got)
	}
}
