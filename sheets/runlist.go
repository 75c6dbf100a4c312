package sheets

import (
	"fmt"
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/layout"
	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
)

// runLists are the lists beside the chair table.
func (b *book) runLists(p *layout.Perimeter, r *layout.Run, together bool) []block {
	var blocks []block
	if !b.runs.broad() { // the strip has no room for them
		wins, _ := view.Windows(b.l, r, b.runs.room(false).Width())
		var hatches []view.LegendEntry
		for _, w := range wins {
			for _, e := range view.RunHatches(b.l, r, w) {
				if !slices.Contains(hatches, e) {
					hatches = append(hatches, e)
				}
			}
		}
		blocks = append(blocks, fixed(3600, func(s *drawing.Scene, box drawing.Rect) { b.key(r, hatches)(s, box) }))
	}
	blocks = append(blocks, b.lineFacts(p, r))
	if t, ok := b.gapTable(r); ok {
		blocks = append(blocks, t)
	}
	if n := b.runNotes(r); len(n) > 0 {
		blocks = append(blocks, list{title: "Notes", items: n})
	}
	return append(blocks, list{title: "Order of work", items: b.orderOfWork(r), numbered: true, together: together})
}

// chairTable is one row for each chair, with a box to tick.
func (b *book) chairTable(r *layout.Run) table {
	layers := b.j.Packing.Method == job.PackContinuous && b.j.Packing.Layer > 0
	pilots := false
	for _, c := range r.Chairs {
		pilots = pilots || c.Rows[0].Pilot > 0 || c.Rows[1].Pilot > 0
	}
	types := fastenerTypes(r)
	t := table{title: prose("Chairs of run " + r.Name + ", stations to the chair's centre"), cols: []column{
		{head: "Chair"}, {head: "Station", align: drawing.Right}, {head: "Stands at"},
	}}
	if layers {
		t.cols = append(t.cols, column{head: "Ply layers", align: drawing.Middle})
	}
	t.cols = append(t.cols,
		column{head: "Pack front", align: drawing.Right}, column{head: "shims front", align: drawing.Left},
		column{head: "Pack rear", align: drawing.Right}, column{head: "shims rear", align: drawing.Left},
		column{head: "Screws front"}, column{head: "Screws rear"})
	if pilots {
		t.cols = append(t.cols, column{head: "Pilot depth"})
	}
	t.cols = append(t.cols, column{head: "Set", align: drawing.Middle})
	for _, c := range r.Chairs {
		row := []string{fmt.Sprintf("C%d", c.N), b.long(r.ToCrew(c.At)), b.standsAt(c)}
		if layers {
			row = append(row, itoa(c.Layers))
		}
		row = append(row, b.short(c.PackFront), b.shims(c.ShimFront), b.short(c.PackRear), b.shims(c.ShimRear), b.screws(c.Rows[0], len(types) > 1), b.screws(c.Rows[1], len(types) > 1))
		if pilots {
			row = append(row, b.pilot(c))
		}
		t.rows = append(t.rows, append(row, tickBox))
	}
	return t
}

func (b *book) standsAt(c *layout.Chair) string {
	switch c.Kind {
	case anchor.AtJoint:
		return "joint " + local(c.Joint.Name, c.Run.Name)
	case anchor.AtExpansion:
		return "exp. joint " + local(c.Joint.Name, c.Run.Name)
	case anchor.AtEnd:
		return "end"
	}
	return "between"
}

// local drops the run's name from the name of a joint or chair: on the run's
// own sheet it would only repeat.
func local(name, run string) string { return strings.TrimPrefix(name, run+"-") }

// shims letters a stack, equal ones counted.
func (b *book) shims(of []length.Length) string {
	if len(of) == 0 {
		return "–"
	}
	var out []string
	for i := 0; i < len(of); {
		k := i
		for k < len(of) && of[k] == of[i] {
			k++
		}
		s := b.short(of[i])
		if k-i > 1 {
			s = fmt.Sprintf("%d×%s", k-i, s)
		}
		out = append(out, s)
		i = k
	}
	return strings.Join(out, " + ")
}

// fastenerTypes are the kinds of fastener a run takes.
func fastenerTypes(r *layout.Run) []*layout.Fastener {
	var out []*layout.Fastener
	for _, c := range r.Chairs {
		for _, w := range c.Rows {
			if w.Fastener != nil && !slices.Contains(out, w.Fastener) {
				out = append(out, w.Fastener)
			}
		}
	}
	return out
}

// screws letters one row of a chair, with the name where the run has several.
func (b *book) screws(w anchor.Row, named bool) string {
	if w.Fastener == nil || w.Length == 0 {
		return "HOLD"
	}
	if named {
		return fmt.Sprintf("%d × %s %s", w.Count, prose(w.Fastener.Name), b.short(w.Length))
	}
	return fmt.Sprintf("%d × %s", w.Count, b.short(w.Length))
}

func (b *book) pilot(c *layout.Chair) string {
	f, r := c.Rows[0].Pilot, c.Rows[1].Pilot
	if f == r {
		return b.short(f)
	}
	return b.short(f) + " / " + b.short(r)
}

// lineFacts are what the crew strings and checks before the first chair.
func (b *book) lineFacts(p *layout.Perimeter, r *layout.Run) table {
	start := "plumbed left-hand corner of the wall, front face"
	switch {
	case r.Job.Datum.Mark != "":
		start = r.Job.Datum.Mark
	case r.Left.Kind == job.EndFree:
		start = "left-hand end of the wall, plumbed"
	case r.Left.Kind == job.EndWall:
		start = "face of the higher wall at the left hand"
	}
	begins := b.long(length.Abs(r.Datum)) + " left of the start"
	if r.Datum < 0 {
		begins = b.long(-r.Datum) + " right of the start"
	}
	measured := "measured"
	if r.Job.Basis == job.Drawing {
		measured = "FROM A DRAWING, not measured"
	}
	rows := [][]string{
		{"Stations start", prose(start)},
		{"Cap line begins", begins},
		{"Cap line", b.long(r.Cap) + ", pieces and gaps together"},
		{"Wall line", b.long(r.Front) + ", " + measured},
		{"String", "along the chairs’ front edges, from the first chair to the last"},
	}
	if n := len(r.Readings); n > 0 {
		at := func(gap length.Length) string {
			d := b.l.StringToFace(gap)
			if d < 0 {
				return b.short(-d) + " in front of it"
			}
			return b.short(d) + " behind it"
		}
		rows = append(rows,
			[]string{"Wall face from string", "left end " + at(r.Readings[0].Gap) + "; right end " + at(r.Readings[n-1].Gap) +
				"; most " + at(r.GapMost) + " at " + b.long(r.ToCrew(r.ToCap(r.GapMostAt)))},
			[]string{"Wall width", b.short(r.WidthLeast) + " to " + b.short(r.WidthMost)},
			[]string{"Width needed", b.short(r.Need) + " at " + b.long(r.ToCrew(r.ToCap(r.NeedAt)))},
		)
	}
	rows = append(rows, []string{"Cap width", "inside " + b.short(r.Inside) + ", outside " + b.short(r.Outside)})
	if len(r.Play) > 0 {
		rows = append(rows, []string{"Play at the rear", b.short(r.PlayLeast) + " to " + b.short(r.PlayMost)})
	}
	rows = append(rows, []string{"Packing", b.short(r.PackLeast) + " to " + b.short(r.PackMost)})
	surface := "level along the run"
	if p.Cross != 0 {
		surface += ", falls to the roof by " + slope(p.Cross, b.metric)
	} else {
		surface += " and across"
	}
	rows = append(rows, []string{"Set surface", surface})
	for _, f := range fastenerTypes(r) {
		rows = append(rows, []string{"Screws", prose(f.Name) + ", " + b.shopShort(f.Diameter) + " diameter"})
	}
	t := facts("String, width, surface and screws", rows)
	t.fill = true
	return t
}

// slope letters a fall in the trade's way.
func slope(s job.Slope, metric bool) string {
	if metric {
		return fmt.Sprintf("%.1f%%", float64(s)/1e7)
	}
	return drawing.Letter(length.Inches(s.Rise(length.Foot), 16)) + " in 12″"
}

// gapTable gives the gap to set by the temperature of the metal.
func (b *book) gapTable(r *layout.Run) (table, bool) {
	classes := b.l.Gaps(r)
	temps := b.j.Site.InstallMetalT
	if len(classes) == 0 || len(temps) == 0 {
		return table{}, false
	}
	t := table{title: "Joint gap by METAL temperature, not air", cols: []column{{head: "Metal at"}}}
	for _, c := range classes {
		t.cols = append(t.cols, column{head: jointNames(c.Joints), flex: true, align: drawing.Middle})
	}
	for i, temp := range temps {
		row := []string{b.temperature(temp)}
		for _, c := range classes {
			row = append(row, b.short(c.At[i]))
		}
		t.rows = append(t.rows, row)
	}
	return t, true
}

// jointNames lists joints of one run, neighbours as a range: J2 to J7, J9.
func jointNames(joints []*layout.Joint) string {
	var out []string
	for i := 0; i < len(joints); {
		k := i
		for k+1 < len(joints) && follows(joints[k], joints[k+1]) {
			k++
		}
		a, z := local(joints[i].Name, joints[i].Run.Name), local(joints[k].Name, joints[k].Run.Name)
		switch k - i {
		case 0:
			out = append(out, a)
		case 1:
			out = append(out, a, z)
		default:
			out = append(out, a+" to "+z)
		}
		i = k + 1
	}
	return strings.Join(out, ", ")
}

// follows reports whether two joints of a run stand next to each other.
func follows(a, z *layout.Joint) bool {
	i := slices.Index(a.Run.Joints, a)
	return i >= 0 && i+1 < len(a.Run.Joints) && a.Run.Joints[i+1] == z
}

// orderOfWork is the sequence of the trade with this run's own figures.
func (b *book) orderOfWork(r *layout.Run) []string {
	s, pk := &b.j.System, &b.j.Packing
	var steps []string
	add := func(f string, a ...any) { steps = append(steps, fmt.Sprintf(f, a...)) }
	membrane := "Lay the " + b.j.Membrane.Name + " over the wall top and fasten its edges, before any metal."
	switch {
	case pk.Method == job.PackContinuous:
		add("Check the nailer: sound, dry, fast. Build it up with %s in the zones drawn, then the shims of the table under each chair, full bearing.", pk.LayerName)
		add("%s", membrane)
	case pk.AboveMembrane:
		add("Check the nailer: sound, dry, fast.")
		add("%s", membrane)
		add("Packing goes ABOVE the membrane, under each chair, by the table; full bearing.")
	default:
		add("Check the nailer: sound, dry, fast. Packing goes BELOW the membrane, under each chair, by the table; full bearing.")
		add("%s", membrane)
	}
	add("Set the corner chairs and corner supports, then the corner and end pieces by their sheets.")
	add("Pull the string between the front edges of the end chairs. Check it against the wall face.")
	pilot := ""
	for _, c := range r.Chairs {
		if c.Rows[0].Pilot > 0 {
			pilot = " Drill pilots of " + b.small(c.Rows[0].Fastener.PilotDia) + " diameter to the depth of the table."
			break
		}
	}
	add("Set the chairs to the string at their stations, in the holes punched for it, screws by the table.%s", pilot)
	add("At each joint: splice plate centred, sealant tape each side, %s from the centre line to the middle of the strip.", b.small(s.Splice.Tape))
	add("Peel the film, wipe the plates. Hook the front leg of the cap first.")
	add("Set the gap for the metal's temperature. Joint centres stay where they are drawn.")
	add("Turn the cap down until the rear leg snaps on all its chairs.")
	field := false
	for _, q := range r.Parts {
		field = field || q.Piece.Allowance > 0
	}
	if field {
		add("The closer ships long by %s: check the chairs, then cut the end that is marked.", b.small(s.Joint.Allowance))
	}
	add("Check along the whole rear leg, the gaps, the line and the lap.")
	return steps
}

// runNotes are what is true of this run alone.
func (b *book) runNotes(r *layout.Run) []string {
	var out []string
	if len(r.Chairs) == 0 {
		out = append(out, "No chair stands on this run: its pieces are carried beyond its corners.")
	}
	for _, q := range b.l.Pitches(r) {
		if q.Over() {
			out = append(out, fmt.Sprintf("Assembly %s: chairs stand up to %s apart. The tested spacing of %s counts on the metal of one piece; across a joint the pitch is greater by the joint’s share.",
				prose(q.Assembly.Name), b.small(q.Most), b.small(q.Assembly.ChairSpacing)))
		}
	}
	for _, q := range r.Joints {
		if q.Kind != cap.Expansion {
			continue
		}
		m := "movement NOT STATED"
		if q.Movement != nil {
			m = "movement " + b.small(*q.Movement) + " either way"
		}
		out = append(out, fmt.Sprintf("%s stands over the building expansion joint: gap %s, %s, cover plate %s long, fixed on the %s side only. Nothing crosses the joint.",
			local(q.Name, r.Name), b.small(q.Gap()), m, b.small(q.Plate), q.Held))
	}
	for i := range r.Job.Obstacles {
		o := &r.Job.Obstacles[i]
		words := prose(o.Name) + " at " + b.text(r.ToCrew(r.ToCap(r.FrontStation(o.Station)))) + ": " + does(o.Does)
		if o.Does&job.Pierces != 0 {
			who := o.Collar
			if who == "" {
				who = "NOBODY NAMED"
			}
			words += "; sealed collar by " + who
		}
		out = append(out, words+".")
	}
	return out
}

func does(d job.Does) string {
	var out []string
	for _, q := range []struct {
		bit  job.Does
		word string
	}{{job.BlocksChair, "no chair"}, {job.BlocksJoint, "no joint"}, {job.Pierces, "comes through the cap"}} {
		if d&q.bit != 0 {
			out = append(out, q.word)
		}
	}
	return strings.Join(out, ", ")
}
