package words

import (
	"regexp"
	"slices"
	"strings"
	"testing"
)

// alike are sentences that are the same in both languages: marks, units, and values
// with nothing but signs between them.
var alike = strings.Fields(`
col.rev corner.title.turn corner.lost.turn corner.lost.included corner.lost.joint findings.error reader.inspector
crate.col.ok crate.metres form.step.inch form.step.mm frame.revision.of label.tee label.preliminary level.time
plywood.of run.benchmark.at section.layer unit.mm unit.kn unit.lb unit.kn-m mark.run mark.piece mark.later mark.corner
mark.ends mark.transition mark.tee mark.joint mark.chair mark.support mark.shop mark.outline mark.doubt mark.zero
mark.sheet mark.sheet.shared
`)

// What the crew and receiving read is said in Spanish, and not in English again.
func TestNoSentenceOfTheCrewIsMissingInSpanish(t *testing.T) {
	n := 0
	for _, r := range Rows() {
		if r.Reader != Crew && r.Reader != Receiving {
			continue
		}
		n++
		switch {
		case r.Spanish == "":
			t.Errorf("%s: %s has no Spanish", r.Table, r.Key)
		case (r.Spanish == r.English) != slices.Contains(alike, string(r.Key)):
			t.Errorf("%s: %s is %q in both languages, or is listed as alike and is not", r.Table, r.Key, r.Spanish)
		}
	}
	if n < 1000 {
		t.Errorf("only %d sentences were read", n)
	}
}

// Each thing has one word in Spanish, and words that would mislead are kept for what
// they mean: anclaje is what a person ties off to.
func TestSpanishKeepsToItsWords(t *testing.T) {
	for _, c := range []struct {
		bad   string // what no Spanish sentence has
		but   string // keys that may have it
		means string
	}{
		{`(?i)\bancl`, `^(caution\.|glossary\.)`, "an anchor is for fall arrest; a chair is a silleta, a bolt a perno"},
		{`(?i)\b(tus?|vosotros|ustedes)\b`, `^$`, "usted"},
		{`(?i)madera contrachapada`, `^$`, "triplay"},
		{`(?i)planta clave`, `^$`, "planta general"},
		{`(?i)placa de junta`, `^$`, "placa tapajunta"},
		{`(?i)atención:`, `^$`, "PRECAUCIÓN is the signal word"},
		{`(?i)\bboleta\b`, `^$`, "nota de entrega"},
		{`(?i)\babertura`, `^(view\.exp|hold\.mov|section\.layer|corner\.tee)`,
			"a gap between pieces is a separación; abertura is of the wall or of a leg"},
		{`(?i)\bretenci`, `^$`, "a hold is an espera"},
		{`(?i)\binterior \{`, `^section\.hem$`, "interior is an inside corner; the included angle is incluido"},
		{`(?i)\bdobla a`, `^$`, "a corner turns (gira); what is bent is metal"},
		{`(?i)\bpata (izquierda|derecha)`, `^$`, "a leg of a corner is a brazo"},
	} {
		bad, but := regexp.MustCompile(c.bad), regexp.MustCompile(c.but)
		for _, r := range Rows() {
			if bad.MatchString(r.Spanish) && !but.MatchString(string(r.Key)) {
				t.Errorf("%s: %q (%s)", r.Key, r.Spanish, c.means)
			}
		}
	}
	station := regexp.MustCompile(`(?i)\bstations?\b`)
	for _, r := range Rows() {
		bare := regexp.MustCompile(`\{[^}]*\}`).ReplaceAllString(r.English, "")
		if r.Spanish != "" && station.MatchString(bare) && !strings.Contains(strings.ToLower(r.Spanish), "estaci") {
			t.Errorf("%s: a station is an estación: %q", r.Key, r.Spanish)
		}
	}
}
