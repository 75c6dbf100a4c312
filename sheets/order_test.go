package sheets

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"copingset/drawing/words"
	"copingset/layout/job"
)

func packetOf(t *testing.T, name string) drawn {
	t.Helper()
	i := slices.IndexFunc(packets(), func(c drawn) bool { return c.name == name })
	if i < 0 {
		t.Fatalf("no case %s", name)
	}
	return packets()[i]
}

// A reviewer reads the zones with their ratios first, then what was tested, by
// which report, then the calculations, the statement, both inspections, and stamps
// last; the index lists the sheets in the same order.
func TestSubmittalIsInOrder(t *testing.T) {
	t.Parallel()
	want := []Kind{Transmittal, Index, Findings, Assemblies, TestedSection, Sections, Reports, Basis, FastenerSchedule, Materials, Statement, Checklist, Review}
	c := packetOf(t, "rectangle")
	var got []Kind
	index, at := "", 0
	pages := Packet(c.layout, Options{For: Inspector})
	for _, s := range pages {
		if len(got) == 0 || got[len(got)-1] != s.Kind {
			got = append(got, s.Kind)
		}
		if s.Kind == Index {
			index += wordsOf(s.Scene)
		}
	}
	if !slices.Equal(got, want) {
		t.Errorf("the order is %v, want %v", got, want)
	}
	for _, s := range pages {
		if s.Kind == Index {
			continue
		}
		i := strings.Index(index[at:], "\n"+s.Number+"\n"+s.Title)
		if i < 0 {
			t.Errorf("sheet %s %q is not in the index, or out of order", s.Number, s.Title)
			continue
		}
		at += i
	}
	text := flat(ofKind(c, Transmittal))
	for _, part := range submittalParts() {
		if part.kind != Transmittal && !strings.Contains(text, words.Book{}.Say(part.title)) {
			t.Errorf("the transmittal does not name %s", part.title)
		}
	}
	if !strings.Contains(text, "approval before fabrication") || !strings.Contains(flat(ofKind(packetOf(t, "held"), Transmittal)), "NOT FOR FABRICATION") {
		t.Error("the transmittal does not say what it is sent for")
	}
	if !strings.Contains(strings.ToLower(ofKind(c, Review)), "stamp: architect") {
		t.Error("no room for the architect's stamp")
	}
}

// What the caps cover is inspected, and signed for, before they cover it.
func TestInspectionIsInTwoParts(t *testing.T) {
	t.Parallel()
	c := packetOf(t, "rectangle")
	parts := map[bool]string{}
	for _, s := range c.sheets {
		if s.Kind == Checklist {
			after := strings.Contains(s.Title, "after covering")
			if !after && !strings.Contains(s.Title, "before covering") {
				t.Errorf("sheet %q is of neither part", s.Title)
			}
			parts[after] += wordsOf(s.Scene)
		}
	}
	for _, q := range []struct {
		item  string
		after bool
	}{{"Rows of screws", false}, {"Membrane", false}, {"Corner supports", false}, {"Splice plates", false}, {"Joint gap", true}, {"Play at the roof side", true}, {"Laps", true}} {
		if has, other := parts[q.after], parts[!q.after]; !strings.Contains(has, "\n"+q.item+"\n") || strings.Contains(other, "\n"+q.item+"\n") {
			t.Errorf("%s is not in its part alone", q.item)
		}
	}
	for after, text := range parts {
		if !strings.Contains(text, "\nSignature\n") {
			t.Errorf("nobody signs part after %v", after)
		}
	}
}

// Every report says by which standard, method and edition, by whose leave and when
// it was made; a factor says its level, who chose it and why, and where the least
// one is from. What the job does not say stands there as a hold.
func TestReportsAreListed(t *testing.T) {
	t.Parallel()
	for _, c := range packets() {
		text := flat(ofKind(c, Reports))
		for _, a := range newBook(c.layout, Options{}).inUse() {
			for _, want := range []string{a.Report, a.Laboratory, a.Test.Standard, a.Test.Edition, a.Test.Method, a.Test.Accreditation, date(a.Test.On), a.FactorBasis.By, a.FactorBasis.Why, "allowable level"} {
				if !strings.Contains(text, prose(want)) {
					t.Errorf("%s: %q of %s is on no list of reports", c.name, want, a.Name)
				}
			}
		}
		if !strings.Contains(text, "ANSI/SPRI/FM 4435/ES-1 of 2011, as a roofing association reports it") || strings.Contains(text, "NOT STATED: HOLD") {
			t.Errorf("%s: %s", c.name, text)
		}
	}
	j := cases()[0].job
	for i := range j.Assemblies {
		j.Assemblies[i].Test, j.Assemblies[i].FactorBasis, j.Assemblies[i].Factor = nil, nil, 1.5
	}
	l := build(t, j)
	text := ""
	for _, s := range drawnPages(l, Options{}, (*book).reports) {
		text += wordsOf(s.Scene)
	}
	if n := strings.Count(text, "NOT STATED: HOLD"); n != len(newBook(l, Options{}).inUse())*8 || !strings.Contains(text, "NOBODY: HOLD") {
		t.Errorf("%d of what is not stated is a hold: %s", n, text)
	}
}

// The statement says what a confirmation covers, line for line, and by which code;
// the basis of design prints the code, the name and the value of each line.
func TestConfirmationSaysWhatItCovers(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"computed", "confirmed"} {
		c := packetOf(t, name)
		d := &c.layout.Demand
		basis, statement := "\n"+ofKind(c, Basis), flat(ofKind(c, Statement))
		if !strings.Contains(basis, d.List.Code().String()) || !strings.Contains(statement, itoa(len(d.List))+" lines of the list with check code "+d.List.Code().String()) {
			t.Errorf("%s: the code is not on the sheets", name)
		}
		for _, x := range d.List {
			if strings.HasPrefix(x.Name, "zone.") {
				if !strings.Contains(basis, "\n"+prose(x.Value)+"\n") {
					t.Errorf("%s: %s = %s is not lettered", name, x.Name, x.Value)
				}
				continue
			}
			if !strings.Contains(flat(basis), " "+x.Name+" ") {
				t.Errorf("%s: %s has no line", name, x.Name)
			}
		}
		if strings.Contains(statement, "every input of their basis") {
			t.Errorf("%s: the statement claims more than the list has: %s", name, statement)
		}
	}
	if text := flat(ofKind(packetOf(t, "rectangle"), Statement)); !strings.Contains(text, "none on the roof-side leg") {
		t.Errorf("stated pressures without a rear leg: %s", text)
	}
}

// The least net pressure is 16 psf at strength level; twice that, which one
// program reads for both faces of a parapet, is printed nowhere.
func TestLeastNetPressureIsPrinted(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"computed", "confirmed"} {
		text := ofKind(packetOf(t, name), Basis, Assemblies, Statement, Materials)
		if !strings.Contains(text, "not under 16 psf") || regexp.MustCompile(`\b32(\.0+)? psf`).MatchString(text) {
			t.Errorf("%s: the least net pressure", name)
		}
	}
}

// In a metric job every value that is lettered in both systems has the metric
// figure first, on every sheet and in every finding, and none stands in inches
// alone but what the paper's own bar has.
func TestMetricJobsLetterMillimetresFirst(t *testing.T) {
	t.Parallel()
	imperial := regexp.MustCompile(`[0-9] ?(″|"|′| in($|[,;.)])| ft\b| ft²| psf\b| mph\b| lb\b|°F| °F)`)
	bracketed := regexp.MustCompile(`\([^()]*\)`)
	samples, err := samplePackets()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range append(slices.Clone(packets()), samples...) {
		if c.layout.Job.Units != job.Metric {
			continue
		}
		for _, s := range c.sheets {
			// A bracket may go on in the next line.
			for _, rest := range strings.Split(bracketed.ReplaceAllString(wordsOf(s.Scene), ""), "\n") {
				if imperial.MatchString(rest) && rest != "4 in" {
					t.Errorf("%s, sheet %s (%s): %q", c.name, s.Number, s.ID, rest)
				}
			}
		}
		for _, f := range c.layout.Findings {
			for _, line := range []string{f.What, f.Why, f.Mend} {
				if rest := bracketed.ReplaceAllString(line, ""); imperial.MatchString(rest) {
					t.Errorf("%s: %q", c.name, line)
				}
			}
		}
	}
}
