package job

import (
	"slices"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// Reading is one station of the survey. Offset is from the survey line,
// positive towards the street. Tops are heights above the job's level datum.
type Reading struct {
	At                    finding.Place
	Station               length.Length
	Width                 length.Length
	TopOutside, TopInside length.Length
	Offset                length.Length
	WidthLow, OffsetLow   *length.Length // at leg depth, where the wall asks for it
	Conditions            []Condition    // what the surveyor saw there; empty: nothing
	Photos                []string       // numbers of the photos taken there
	Note                  string
}

// keys are those of a reading in the job file, and the columns of a survey.
func (r *Reading) keys(k keys) {
	r.At = k.at
	k.onceKey("top_outside", "street_top")
	k.onceKey("top_inside", "roof_top")
	k.signedLength("station", &r.Station, "the station of the reading", `2'-6"`)
	k.signedLength("width", &r.Width, "the width of the wall at the top", `12 1/8"`)
	k.signedLength("street_top", &r.TopOutside,
		"the height of the top at the street face, above the level datum", `-1/8"`)
	k.signedLength("roof_top", &r.TopInside, "the height of the top at the roof face, above the level datum",
		`-3/16"`)
	k.signedLength("offset", &r.Offset,
		"the offset of the street face from the survey line, positive to the street", `1/8"`)
	low := k.elsewhere("the wall says measure_low")
	low.statedLength("width_low", &r.WidthLow, anySign, "the width at leg depth", `12 5/8"`)
	low.statedLength("offset_low", &r.OffsetLow, anySign, "the offset of the street face at leg depth", `3/8"`)
	coded(k.may(), "condition", &r.Conditions, conditions(),
		"what is wrong with the wall top there, codes divided by blanks or plus signs", "loose wet")
	coded(k.may(), "photo", &r.Photos, reader[[]string]{form: FormText, code: "value-photo", parse: parsePhotos},
		"the numbers of the photos taken there", "14 15")
	k.may().text("note", &r.Note, "a remark", "at the corner")
}

// codes splits what stands in one cell: codes divided by blanks, plus signs,
// commas or semicolons.
func codes(s string) []string {
	return strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == '\t' || r == '+' || r == ',' || r == ';' })
}

// conditions is the reader of condition codes.
func conditions() reader[[]Condition] {
	r := reader[[]Condition]{form: FormCodes, code: "value-condition", parse: parseConditions}
	for _, c := range Conditions() {
		r.choices = append(r.choices, string(c))
	}
	return r
}

// parseConditions reads condition codes; ok says that there are none.
func parseConditions(s string) ([]Condition, error) {
	choices := []choice[Condition]{{"ok", ""}}
	for _, c := range Conditions() {
		choices = append(choices, choice[Condition]{string(c), c})
	}
	var out []Condition
	for _, code := range codes(s) {
		c, err := pick(code, "value-condition", choices)
		if err != nil {
			return nil, err
		}
		if c != "" && !slices.Contains(out, c) {
			out = append(out, c)
		}
	}
	return out, nil
}

// mostPhoto is the longest number of a photo that a table has room for.
const mostPhoto = 24

// parsePhotos reads the numbers of photos.
func parsePhotos(s string) ([]string, error) {
	s, err := cleanText(s)
	if err != nil {
		return nil, err
	}
	out := codes(s)
	for _, n := range out {
		if len([]rune(n)) > mostPhoto {
			return nil, wrong("value-photo", "write the photos' numbers, divided by blanks",
				"%s is longer than the number of a photo", show(n))
		}
	}
	if len(out) == 0 {
		return nil, nil
	}
	return out, nil
}
