package job

import (
	"slices"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/length"
)

func (d *decoder) perimeters(root *part) []Perimeter {
	var all []Perimeter
	for _, p := range root.items("perimeters", "perimeter") {
		var survey string
		var at finding.Place
		if p == nil {
			all = append(all, Perimeter{})
		} else {
			all = append(all, d.perimeter(p))
			survey = p.text("survey")
			at = d.places[p.full("survey")]
		}
		d.surveyOf = append(d.surveyOf, survey)
		d.surveyAt = append(d.surveyAt, at)
	}
	return all
}

func (d *decoder) perimeter(p *part) Perimeter {
	close := p.sub("misclosure")
	m := Perimeter{
		At:               p.at,
		Name:             p.text("name"),
		Kind:             word(p, "kind", []choice[Kind]{{"roof", Roof}, {"well", Well}, {"open", Open}}),
		Wall:             p.text("wall"),
		Bearing:          p.angle("bearing", 0, 360*Degree),
		Raise:            p.length("raise", notNegative),
		MisclosureLength: close.length("length", notNegative),
		MisclosureAngle:  close.angle("angle", 0, 30*Degree),
	}
	kindKnown := d.has(p.full("kind"))
	switch {
	case !kindKnown:
	case m.Kind == Open:
		p.need("starts", ", and the perimeter is open")
		if p.given("starts") {
			m.Starts = d.freeEnd(p, "starts")
		}
	case p.given("starts"):
		d.errorf("end-closed", p.n.field("starts").at, "leave it out, or write `kind: open`",
			"%s: a closed perimeter does not start anywhere", p.label)
	}
	runs := p.items("runs", "run")
	for i, r := range runs {
		if r == nil {
			m.Runs = append(m.Runs, Run{})
			continue
		}
		last := i == len(runs)-1
		m.Runs = append(m.Runs, d.run(r, kindKnown, m.Kind == Open, last))
	}
	return m
}

func endKinds() []choice[EndKind] { return []choice[EndKind]{{"free", EndFree}, {"wall", EndWall}} }

// freeEnd reads how an open perimeter begins or ends: a word, or the run of
// another perimeter that it meets.
func (d *decoder) freeEnd(p *part, key string) End {
	e := End{At: p.n.field(key).at}
	if p.n.field(key).value.kind != mappingNode {
		e.Kind = word(p, key, endKinds())
		return e
	}
	t := p.sub(key)
	e.Kind, e.Tee = EndTee, &Tee{
		At: t.length("at", notNegative),
		Of: word(t, "of", []choice[TeeFace]{{"left face", TeeLeft}, {"right face", TeeRight}, {"centre", TeeCentre}}),
	}
	read(t, "tee", "value-tee", func(s string) (string, error) {
		i := strings.LastIndexByte(s, '/')
		if i < 0 {
			return "", wrong("value-tee", "write the perimeter and the run, like ROOF/N", "%s does not name a run of a perimeter", show(s))
		}
		e.Tee.Perimeter, e.Tee.Run = strings.TrimSpace(s[:i]), strings.TrimSpace(s[i+1:])
		return s, nil
	})
	return e
}

func (d *decoder) run(p *part, kindKnown, open, last bool) Run {
	r := Run{
		At:         p.at,
		Name:       p.text("name"),
		Wall:       p.maybe("wall"),
		Length:     p.length("length", positive),
		Face:       word(p, "face", faces()),
		Basis:      word(p, "basis", []choice[Basis]{{"measured", Measured}, {"drawing", Drawing}}),
		SurveyLine: p.text("survey_line"),
		Elevation:  p.maybe("elevation"),
		Right:      d.end(p, kindKnown, open, last),
		Line:       decodeLine(p),
	}
	r.StationFace = r.Face
	if p.given("stations") {
		r.StationFace = word(p, "stations", faces())
	}
	if r.Elevation == "" {
		r.Elevation = r.Name
	}
	if name := r.Name; d.has(p.full("name")) && !runName(name) {
		mend := "name it with one to four capital letters or digits, like N or W2"
		if up := strings.ToUpper(name); runName(up) {
			mend = "write " + up
		}
		d.errorf("run-name", p.n.field("name").value.at, mend, "the run's name %s does not fit on the marks of its pieces", show(name))
	}
	if p.given("grade") {
		g := read(p, "grade", "value-slope", parseGrade)
		r.Grade = &g
	}
	datum := p.sub("datum")
	r.Datum = Datum{Mark: datum.text("mark"), At: datum.length("at", notNegative)}
	for _, i := range p.items("obstacles", "obstacle") {
		r.Obstacles = append(r.Obstacles, d.obstacle(i))
	}
	for _, i := range p.items("expansion_joints", "expansion joint") {
		r.Expansion = append(r.Expansion, d.expansionJoint(i))
	}
	for _, i := range p.items("cleared", "cleared entry") {
		r.Cleared = append(r.Cleared, d.cleared(i))
	}
	for _, i := range p.items("readings", "reading") {
		if row, ok := d.reading(i); ok {
			r.Readings = append(r.Readings, row)
		} else {
			d.unsure = true
		}
	}
	return r
}

// runName says whether a name fits piece marks: one to four of A-Z and 0-9.
func runName(s string) bool {
	for i := range len(s) {
		if c := s[i]; (c < 'A' || c > 'Z') && (c < '0' || c > '9') {
			return false
		}
	}
	return len(s) >= 1 && len(s) <= 4
}

// end reads how a run ends at the right: by a turn into the next run, except
// for the last run of an open perimeter.
func (d *decoder) end(p *part, kindKnown, open, last bool) End {
	var given []string
	for _, k := range []string{"turn", "included", "step", "pitch", "ends"} {
		if p.given(k) {
			given = append(given, k)
		}
	}
	atEnd := open && last
	switch {
	case len(given) == 0 && !kindKnown:
		return End{}
	case len(given) == 0 && atEnd:
		p.missing("ends", ", and it is the last run of an open perimeter")
		return End{}
	case len(given) == 0:
		p.missing("turn", ", and the wall turns into another run")
		return End{}
	case len(given) > 1:
		d.conflict("key-both", p.n.field(given[1]).at, p.n.field(given[0]).at, "keep one of them",
			"%s: `%s` and `%s` both say how the run ends", p.label, given[0], given[1])
		return End{}
	}
	e := End{At: p.n.field(given[0]).at}
	switch given[0] {
	case "turn":
		e.Turn = read(p, "turn", "value-angle", ParseTurn)
	case "included":
		e.Turn = read(p, "included", "value-angle", ParseIncluded)
	case "step":
		e.Kind, e.Step = EndStep, read(p, "step", "value-step", parseStep)
	case "pitch":
		e.Kind, e.Pitch = EndPitch, word(p, "pitch", []choice[Pitch]{{"peak", Peak}, {"valley", Valley}})
	case "ends":
		e = d.freeEnd(p, "ends")
		if kindKnown && !atEnd {
			why, mend := "only the last run of an open perimeter ends", "write how the wall turns into the next run, for example `turn: right 90`"
			if !open {
				mend += ", or make the perimeter `kind: open`"
			}
			d.errorf("end-early", e.At, mend, "%s: %s", p.label, why)
		}
	}
	if atEnd && given[0] != "ends" {
		d.errorf("end-turn", e.At, "write `ends: free`, `ends: wall`, or the run that it meets", "%s: the last run of an open perimeter has no run to turn into", p.label)
	}
	return e
}

func (d *decoder) obstacle(p *part) Obstacle {
	if p == nil {
		return Obstacle{}
	}
	o := Obstacle{
		At:       p.at,
		Name:     p.text("name"),
		Station:  p.length("at", notNegative),
		Extent:   p.length("extent", positive),
		FromFace: p.length("from_face", positive),
		Depth:    p.length("across", positive),
		Collar:   p.maybe("collar"),
	}
	for _, does := range readAll(p, "does", "value-word", func(s string) (Does, error) {
		return pick(strings.Join(strings.Fields(strings.NewReplacer("_", " ", "-", " ").Replace(s)), " "), "value-word",
			[]choice[Does]{{"block chair", BlocksChair}, {"block joint", BlocksJoint}, {"pierce", Pierces}})
	}) {
		o.Does |= does
	}
	if !d.has(p.full("does")) {
		return o
	}
	for _, key := range []string{"from_face", "across", "collar"} {
		if o.Does&Pierces != 0 {
			if key != "collar" { // not naming who seals it is a hold of the pieces, found later
				p.need(key, ", and the obstacle pierces the cap")
			}
		} else if p.given(key) {
			d.notef("obstacle-unpierced", p.n.field(key).at, "add pierce to what it does, if it comes through the cap",
				"%s is not used, since the obstacle does not pierce the cap", p.called(key))
		}
	}
	return o
}

func (d *decoder) expansionJoint(p *part) ExpansionJoint {
	if p == nil {
		return ExpansionJoint{}
	}
	e := ExpansionJoint{At: p.at, Station: p.length("at", notNegative), Gap: p.length("gap", positive)}
	if p.given("movement") {
		m := p.length("movement", notNegative)
		e.Movement = &m
	}
	return e
}

// reading is an inline row of the survey; ok if all of it could be read.
func (d *decoder) reading(p *part) (r Reading, ok bool) {
	if p == nil {
		return Reading{}, false
	}
	low := func(name string) *length.Length {
		if !p.given(name) {
			return nil
		}
		l := p.length(name, anySign)
		return &l
	}
	r = Reading{
		At:         p.at,
		Station:    p.length("station", anySign),
		Width:      p.length("width", anySign),
		TopOutside: p.length("top_outside", anySign),
		TopInside:  p.length("top_inside", anySign),
		Offset:     p.length("offset", anySign),
		WidthLow:   low("width_low"),
		OffsetLow:  low("offset_low"),
		Conditions: joined(p, "condition", "value-condition", parseConditions),
		Photos:     joined(p, "photo", "value-photo", parsePhotos),
		Note:       p.maybe("note"),
	}
	for _, k := range d.keys.within[readingTable] {
		if (k.Required || p.given(k.Name())) && !d.has(p.full(k.Name())) {
			return Reading{}, false
		}
	}
	return r, true
}

// known are the names of parts, for references and did-you-mean.
func known[T any](all []T, name func(T) string) []string {
	var names []string
	for _, v := range all {
		if n := name(v); n != "" && !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	return names
}
