package view

import (
	"fmt"
	"strings"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// section is a cut across a run, looking along growing stations: the street at
// the left, the roof at the right.
type section struct {
	l     *layout.Layout
	r     *layout.Run
	chair *layout.Chair // nil over a building expansion joint
	joint *layout.Joint // nil at a chair
	sys   *job.System
	crew  length.Style
	shop  length.Style
	p     profile
	of    plan.Section
	hang  []layout.Extender

	keys []sectionKey
}

// sectionKey is one numbered item of the list, with the place it is about.
type sectionKey struct {
	words string
	tip   xy
	where keyPlace
}

// keyPlace is where the number of an item stands.
type keyPlace int

const (
	inRow   keyPlace = iota // in the row above the cap
	onLayer                 // on the layer of the wall it names
	atFront                 // in the wall, beside its front face
	atRear                  // the same at its rear face
)

// SectionAtChair cuts through a chair: wall, packing, membrane, chair,
// fasteners and cap, with the laps and clearances at that station.
func SectionAtChair(l *layout.Layout, r *layout.Run, c *layout.Chair, w, h drawing.Unit) drawing.Scene {
	s := newSection(l, r, c.At)
	s.setChair(c)
	return s.scene("section-"+fileName(c.Name), "SECTION AT CHAIR "+c.Name, w, h)
}

// SectionAtJoint cuts through the gap of a joint: the splice plate and its two
// strips of sealant tape over the chair, the next cap seen behind the cut. A
// building expansion joint has no chair under it.
func SectionAtJoint(l *layout.Layout, r *layout.Run, j *layout.Joint, w, h drawing.Unit) drawing.Scene {
	s := newSection(l, r, j.Centre())
	s.joint = j
	s.solve()
	title := "SECTION AT JOINT " + j.Name
	if j.Kind == cap.Expansion {
		title = "SECTION AT EXPANSION JOINT " + j.Name
	}
	for _, c := range r.Chairs {
		if c.Joint == j && c.Kind == anchor.AtJoint {
			s.setChair(c)
		}
	}
	return s.scene("section-"+fileName(j.Name), title, w, h)
}

// fileName makes a name safe for a file.
func fileName(name string) string {
	return strings.Map(func(r rune) rune {
		if r == '/' || r == '\\' || r == ' ' || r == ':' {
			return '-'
		}
		return r
	}, name)
}

func newSection(l *layout.Layout, r *layout.Run, at length.Length) *section {
	s := &section{l: l, r: r, sys: &l.Job.System, crew: Crew(l), shop: Shop(l), hang: hanging(l, r)}
	s.of.At = at
	s.solve()
	return s
}

func (s *section) setChair(c *layout.Chair) {
	s.chair = c
	s.solve()
}

func (s *section) solve() {
	s.of = s.l.Section(s.r, s.of.At, s.chair, s.joint)
	s.p = profileAt(s.sys, s.of.Inside, s.of.Street, s.of.Roof-s.of.Street, s.of.PackFront, s.of.PackRear)
	s.p.setFolds(s.of.FoldFront, s.of.FoldRear)
}

// expansion says that the cut goes through a building expansion joint.
func (s *section) expansion() bool { return s.joint != nil && s.joint.Kind == cap.Expansion }

// short letters a length under a foot without its zero feet, with the unit
// where a list has no note to say it.
func (s *section) short(l length.Length) string {
	if s.crew.Metric {
		return s.crew.Short(l) + " mm"
	}
	return s.crew.Short(l)
}

// thin letters a sheet thickness with as many decimals as it has, up to what a
// gauge reads.
func (s *section) thin(l length.Length) string {
	if s.crew.Metric {
		return trimmed(length.Millimetres(l, 2)) + " mm"
	}
	return length.Decimal(l, 3)
}

// size letters a diameter, which is named and never rounded: 7.5 mm, 1/4".
func (s *section) size(l length.Length) string {
	if s.crew.Metric {
		return s.crew.Exact(l) + " mm"
	}
	return s.crew.Exact(l)
}

// trimmed is a number without the noughts its decimals end in.
func trimmed(number string) string {
	if !strings.Contains(number, ".") {
		return number
	}
	return strings.TrimRight(strings.TrimRight(number, "0"), ".")
}

// holds letter what the section itself shows to be wrong.
func (s *section) holds() []string {
	var out []string
	lap := func(side string, c plan.Check) string {
		return fmt.Sprintf("%s leg laps the joint by %s, least %s", side, s.short(c.Has), s.short(c.Asked))
	}
	for _, c := range plan.Failing(s.of.Checks) {
		switch c.Code {
		case plan.WallWidth:
			out = append(out, "the wall is not surveyed here; its width is supposed")
		case plan.FrontLap:
			out = append(out, lap("front", c))
		case plan.RearLap:
			out = append(out, lap("rear", c))
		case plan.RearPlay:
			out = append(out, "rear play "+s.short(c.Has)+" is outside "+s.short(c.Asked)+" to "+s.short(c.Most))
		case plan.FrontStock:
			out = append(out, "no stock fastener fits the front row")
		case plan.RearStock:
			out = append(out, "no stock fastener fits the rear row")
		case plan.Movement:
			out = append(out, "the movement of the building joint is not stated")
		case plan.Released:
			out = append(out, "piece "+c.Of+" is NOT RELEASED")
		default:
			panic("view: no words for the check " + string(c.Code))
		}
	}
	return out
}

// capWords names the cap with its outside dimensions.
func (s *section) capWords() string {
	m, p := &s.sys.Metal, &s.sys.Profile
	w := "cap"
	if s.joint != nil {
		w = "cap beyond the joint"
	}
	w += ", " + m.Name + " " + s.thin(m.Thickness) + ", " + m.Finish + "; outside: front leg " +
		s.short(s.sys.FrontFoot()) + " to " + p.Drip.Foot().String() +
		", rear leg " + s.short(s.sys.RearFoot()) + " to " + p.RearHook.Foot().String()
	if p.Drip.Length > 0 {
		w += ", drip " + s.short(p.Drip.Length) + " out " + job.FormatAngle(p.Drip.Angle)
	}
	if p.RearHook.Length > 0 {
		w += ", hook " + s.short(p.RearHook.Length) + " in " + job.FormatAngle(p.RearHook.Angle)
	}
	switch street, roof := p.Hems(); {
	case street == roof && street.Return > 0:
		w += ", hems " + s.hemWords(street)
	case street != roof:
		w += ", hem at the street " + s.hemWords(street) + ", at the roof " + s.hemWords(roof)
	}
	return w
}

// hemWords are a hem's return and how it lies.
func (s *section) hemWords(h job.Hem) string {
	switch {
	case h.Return == 0:
		return "none"
	case h.Kind == job.ClosedHem:
		return s.short(h.Return)
	}
	return s.short(h.Return) + " " + h.Kind.String() + ", inside radius " + s.short(h.Inside)
}

// rowWords says what goes into one row of the chair's holes.
func (s *section) rowWords(i int) string {
	row := s.chair.Rows[i]
	side := [...]string{"front", "rear"}[i]
	if row.Fastener == nil || row.Length == 0 {
		return side + " row: NO FASTENER LENGTH FITS, HOLD"
	}
	f := row.Fastener
	w := fmt.Sprintf("%s row: %d × %s %s × %s; %s into %s (least %s thread + %s tip)", side, row.Count, f.Name,
		s.size(f.Diameter), s.short(row.Length), s.floor(row.Into), s.chair.Assembly.Substrate, s.short(f.Embedment), s.short(f.Tip))
	if row.Pilot > 0 {
		below := "the top of the packing"
		if row.Packing == 0 {
			below = "the top of the wall"
		}
		w += "; pilot " + s.size(f.PilotDia) + " dia., " + s.short(row.Pilot) + " deep, measured below " + below
	}
	return w
}

// floor letters what must not be taken for more than it is.
func (s *section) floor(l length.Length) string { return s.short(length.FloorTo(l, s.crew.Step())) }

// packWords says how the packing at both faces is made up.
func (s *section) packWords() string {
	if s.chair == nil {
		return "packing at the wall's front face " + s.short(s.of.PackFront) + ", at its rear face " + s.short(s.of.PackRear)
	}
	c, p := s.chair, &s.l.Job.Packing
	made := func(of []length.Length) string {
		var t []string
		if c.Layers > 0 {
			t = append(t, fmt.Sprintf("%d × %s", c.Layers, s.fine(p.Layer)))
		}
		for _, x := range of {
			t = append(t, s.fine(x))
		}
		if len(t) < 2 && c.Layers == 0 {
			return ""
		}
		return " = " + strings.Join(t, " + ")
	}
	w := "packing at the wall's front face " + s.short(s.of.PackFront) + made(c.ShimFront) + "; at its rear face " + s.short(s.of.PackRear) + made(c.ShimRear)
	if c.Layers > 0 {
		w += "; layers of " + p.LayerName
	}
	if s.stacked() {
		w += "; shims in a stack towards each face, full bearing under the chair"
	}
	return w
}

// stacked says that shims lie under the chair.
func (s *section) stacked() bool {
	return s.chair != nil && len(s.chair.ShimFront)+len(s.chair.ShimRear) > 0
}

// fine letters a sheet or shim to the shop's step.
func (s *section) fine(l length.Length) string {
	if s.shop.Metric {
		return s.shop.Short(l) + " mm"
	}
	return s.shop.Short(l)
}

// lapWords states a lap against the least.
func (s *section) lapWords(side string, cover length.Length, code plan.Code) string {
	c, _ := plan.Of(s.of.Checks, code)
	w := fmt.Sprintf("joint under the %s leg, %s below the wall top: lap %s, least %s", side, s.short(cover), s.short(c.Has), s.short(c.Asked))
	if c.Fails() {
		w += ": UNDER THE LEAST, HOLD"
	}
	return w
}

// SectionHatches lists what the hatches of sections through a run mean; see
// Drawn for those of one section.
func SectionHatches(l *layout.Layout, r *layout.Run) []LegendEntry {
	var out []LegendEntry
	seen := map[drawing.HatchKind]bool{}
	add := func(k drawing.HatchKind, words string) {
		if k != drawing.NoHatch && !seen[k] {
			seen[k] = true
			out = append(out, LegendEntry{k, words})
		}
	}
	for _, y := range r.Wall.Layers {
		add(layerHatch(y.Material), y.Material)
	}
	layers, shims := false, false
	for _, c := range r.Chairs {
		layers = layers || c.Layers > 0
		shims = shims || len(c.ShimFront)+len(c.ShimRear) > 0
	}
	if layers {
		add(drawing.Plywood, "plywood packing")
	}
	if shims {
		add(drawing.Shims, "shims")
	}
	return out
}

// layerHatch is the drafting sign of a material.
func layerHatch(material string) drawing.HatchKind {
	switch material {
	case job.Wood:
		return drawing.Wood
	case job.Plywood:
		return drawing.Plywood
	case job.Masonry:
		return drawing.Masonry
	case job.Concrete:
		return drawing.Concrete
	case job.Steel:
		return drawing.Metal
	}
	return drawing.NoHatch
}
