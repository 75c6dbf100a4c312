package sheets

import (
	"strings"

	"copingset/drawing"
	blocks "copingset/drawing/block"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/length"
)

// plywood is what the carpenter cuts and nails where the wall top is built up with
// plywood along it: each strip where it lies, and the sheets that the strips are ripped
// from. The shims over it stand in the runs' own tables.
func (b *book) plywood() []page {
	if b.j.Packing.Method == job.PackChairs {
		return nil
	}
	first := page{id: b.id("plywood"), title: b.say.Say(words.PlywoodSheet), kind: Plywood, paper: b.runs,
		about: b.say.Say(words.PlywoodAbout)}
	var tables []table
	strips := false
	for _, p := range b.l.Perimeters {
		lie := b.stripTable(p).naming(stripNames(p))
		strips = strips || len(lie.rows) > 0
		for _, t := range []table{lie, b.ripTable(p).naming(ripNames(p))} {
			if len(t.rows) > 0 {
				tables = append(tables, t)
			}
		}
	}
	if !strips {
		return nil
	}
	spec := blocks.Spec{Gap: between, Gutter: gutter, Flow: []blocks.Flow{flowing{"nails", b.plywoodNotes()}}}
	for _, t := range tables {
		spec.Columns = max(spec.Columns, min(t.width(), first.paper.room(false).Width()))
		spec.Flow = append(spec.Flow, flowing{t.title, t})
	}
	return b.composed(first, spec, composing{caution: true})
}

// plywoodNotes say what is cut, how it is nailed and how the tables are read.
func (b *book) plywoodNotes() list {
	k := &b.j.Packing
	of := func(what ...string) string { return factsOf("packing", what...) }
	nails, nailed := b.say.Say(words.PlywoodNailsUnstated), ""
	if n := &k.Nail; n.Name != "" {
		nailed = of("nail", "nail-rows", "nail-spacing")
		nails = b.say.Count(words.PlywoodNails, n.Rows, words.In("nail", n.Name), words.In("rows", itoa(n.Rows)),
			words.In("spacing", b.exactly(n.Spacing)))
	}
	out := list{title: b.say.Say(words.PlywoodNotes)}
	out.say(b.say.Say(words.PlywoodLayer, words.In("layer", k.LayerName), words.In("thickness", b.exactly(k.Layer))),
		of("layer-name", "layer"))
	out.say(nails, nailed)
	out.say(b.say.Say(words.PlywoodEnds), "")
	out.say(b.say.Say(words.PlywoodBearing), "")
	return out
}

// titleOf is the title of a table, with its perimeter where the job has several.
func (b *book) titleOf(p *layout.Perimeter, k words.Key) string {
	title := b.say.Say(k)
	if len(b.l.Perimeters) > 1 {
		return b.say.Say(words.PlywoodOf, words.In("title", title), words.In("perimeter", prose(p.Job.Name)))
	}
	return title
}

// layerZones are the stretches of one number of layers, with how the shims over them
// run.
func (b *book) layerZones(p *layout.Perimeter) table {
	say := b.say.Say
	right := func(k words.Key) column { return column{head: say(k), align: drawing.Right} }
	t := table{title: b.titleOf(p, words.PlywoodZones), cols: []column{{head: say(words.PlywoodRun)},
		right(words.PlywoodFrom), right(words.PlywoodTo), right(words.PlywoodLayers),
		right(words.PlywoodStreet), right(words.PlywoodRoof), right(words.PlywoodNailed)}}
	between := func(from, to length.Length) string {
		if from == to {
			return b.short(from)
		}
		return say(words.PlywoodBetween, words.In("from", b.short(from)), words.In("to", b.short(to)))
	}
	for _, r := range p.Runs {
		for _, z := range r.BuildUp {
			for i, s := range z.Tapers {
				nails := dash(z.Nails)
				if i > 0 {
					nails = "" // those of the zone stand in its first row
				}
				t.rows = append(t.rows, []string{r.Name, b.station(r, s.From), b.station(r, s.To), itoa(z.Layers),
					between(s.FrontFrom, s.FrontTo), between(s.RearFrom, s.RearTo), nails})
			}
			if len(z.Tapers) == 0 {
				t.rows = append(t.rows, []string{r.Name, b.station(r, z.From), b.station(r, z.To), itoa(z.Layers),
					between(z.FrontLeast, z.FrontMost), between(z.RearLeast, z.RearMost), dash(z.Nails)})
			}
		}
	}
	return t
}

// stripTable lists the plywood as it lies on the wall.
func (b *book) stripTable(p *layout.Perimeter) table {
	say := b.say.Say
	right := func(k words.Key) column { return column{head: say(k), align: drawing.Right} }
	t := table{title: b.titleOf(p, words.PlywoodStrips), cols: []column{{head: say(words.PlywoodRun)},
		right(words.PlywoodLayerN), right(words.PlywoodFrom), right(words.PlywoodTo),
		right(words.PlywoodLength), right(words.PlywoodWidth), {head: say(words.PlywoodSheetRip)},
		{head: say(words.PlywoodSet), align: drawing.Middle}}}
	for _, r := range p.Runs {
		for _, s := range r.Strips {
			from := "–"
			if s.Sheet > 0 {
				from = itoa(s.Sheet) + ", " + itoa(s.Rip)
			}
			t.rows = append(t.rows, []string{r.Name, itoa(s.Layer), b.station(r, s.From), b.station(r, s.To),
				b.long(s.Length()), b.short(s.Width), from, tickBox})
		}
	}
	return t
}

// ripTable says how each sheet is ripped, and each rip cut to lengths.
func (b *book) ripTable(p *layout.Perimeter) table {
	k, say := &b.j.Packing.Sheet, b.say.Say
	t := table{title: b.titleOf(p, words.PlywoodRips), cols: []column{{head: say(words.PlywoodSheetN),
		align: drawing.Right}, {head: say(words.PlywoodRip), align: drawing.Right},
		{head: say(words.PlywoodWidth), align: drawing.Right}, {head: say(words.PlywoodCuts), flex: true}}}
	if k.Stated() {
		t.title = say(words.PlywoodSaw, words.In("title", t.title), words.In("width", b.exactly(k.Width)),
			words.In("length", b.exactly(k.Length)), words.In("kerf", b.exactly(k.Kerf)))
		t.about = factsOf("packing", "sheet", "sheet-kerf")
	}
	for _, s := range p.Packing.Sheets {
		for i, r := range s.Rips {
			var cuts []string
			for _, c := range r.Cuts {
				cuts = append(cuts, b.long(c))
			}
			t.rows = append(t.rows, []string{itoa(s.N), itoa(i + 1), b.short(r.Width), strings.Join(cuts, " + ")})
		}
	}
	return t
}
