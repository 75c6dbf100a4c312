package sheets

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
)

// inJobLanguage is a layout whose job is told in a language.
func inJobLanguage(l *layout.Layout, in job.Language) *layout.Layout {
	j, out := *l.Job, *l
	j.Language = in
	out.Job = &j
	return &out
}

// subjectOf is what a sheet's number names, without its page.
func subjectOf(number string) string { return number[:strings.LastIndexByte(number, '.')] }

var figure = regexp.MustCompile(`\d+`)

// figuresOf are the numbers that are lettered of each fact on some sheets.
func figuresOf(all []Sheet) map[string][]string {
	out := map[string][]string{}
	for _, s := range all {
		for _, x := range s.Scene.Texts() {
			for _, n := range figure.FindAllString(x.Words, -1) {
				if x.Fact == "" || strings.Contains(x.Fact, n) { // it is of the name of the thing
					continue
				}
				// A title letters what a drawing without room for a label leaves out.
				for _, of := range strings.Split(x.Fact, "|") {
					out[of] = append(out[of], n)
				}
			}
		}
	}
	for _, f := range out {
		slices.Sort(f)
	}
	return out
}

// A packet in two languages has each sheet of the crew twice, one behind the other under
// one number; what it measures is lettered alike in both, it is as faultless in both, and
// it takes at most one sheet a run more.
func TestBothLanguagesFaceEachOther(t *testing.T) {
	t.Parallel()
	names := []string{"rectangle", "l-shape"}
	if os.Getenv("COPINGSET_DRAWS") != "" {
		names = append(names, "metric")
	}
	for _, name := range names {
		l := inJobLanguage(sampleLayout(t, name), job.InBoth)
		packet := Packet(l, Options{})
		var english, spanish []Sheet
		here := map[string]bool{}
		for i, s := range packet {
			if here[s.ID] {
				t.Errorf("%s: two sheets are %s", name, s.ID)
			}
			here[s.ID] = true
			switch {
			case strings.Contains(s.ID+"-", spanishTail+"-"):
				spanish = append(spanish, s)
				if before := packet[i-1]; subjectOf(before.Number) != subjectOf(s.Number) {
					t.Errorf("%s: %s %q stands behind %s", name, s.Number, s.Title, before.Number)
				}
			case s.Kind == Glossary:
				for _, f := range faults([]Sheet{s}) {
					t.Errorf("%s: %s", name, f)
				}
			case s.Kind.spoken(All) && !strings.HasPrefix(s.ID, "index"):
				english = append(english, s)
			}
		}
		if more := len(spanish) - len(english); more > len(l.Runs()) || more < 0 {
			t.Errorf("%s: %d sheets in English, %d in Spanish", name, len(english), len(spanish))
		}
		for _, f := range faults(spanish) {
			t.Errorf("%s: %s", name, f)
		}
		was, is := figuresOf(english), figuresOf(spanish)
		for of, f := range was {
			if !slices.Equal(slices.Compact(f), slices.Compact(is[of])) {
				t.Errorf("%s: %s is lettered %v, in Spanish %v", name, of, f, is[of])
			}
		}
		if len(was) < 50 {
			t.Errorf("%s: %d facts were compared", name, len(was))
		}
	}
}

// A packet in Spanish alone says so until somebody has read it over, and leaves the
// sheets of shop and inspector in English.
func TestSpanishPacket(t *testing.T) {
	t.Parallel()
	l := inJobLanguage(sampleLayout(t, "rectangle"), job.InSpanish)
	unread, by := words.Book{Lang: words.Spanish}, words.Book{Lang: words.Spanish}
	said := unread.Say(words.FrameTranslation)
	marked := 0
	for _, s := range Packet(l, Options{For: Crew}) {
		var all []string
		for _, x := range s.Scene.Texts() {
			all = append(all, x.Words)
		}
		text := strings.Join(all, " ")
		if !strings.Contains(text, "HOJA") {
			t.Errorf("%s %q is in English", s.Number, s.Title)
		}
		if strings.Contains(text, strings.Fields(said)[0]) {
			marked++
		}
	}
	if marked == 0 {
		t.Error("no sheet says that its translation is to be reviewed")
	}
	l.Job.ReviewedBy = "T. Ocampo-Ruiz"
	said = by.Say(words.FrameTranslationBy, words.In("name", l.Job.ReviewedBy))
	b := newBook(l, Options{Lang: words.Spanish})
	if got := b.translation(); got != said {
		t.Errorf("a sheet that was reviewed says %q", got)
	}
	for _, s := range Packet(l, Options{For: Inspector}) {
		for _, x := range s.Scene.Texts() {
			if strings.Contains(x.Words, "HOJA") {
				t.Fatalf("%s of the inspector is in Spanish", s.Number)
			}
		}
	}
}
