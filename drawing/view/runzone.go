package view

import (
	"slices"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// below sets the zones the carpenter cuts to: a swatch of each build-up with
// its words, the stations of its ends from the datum, the scales.
func (e *runElev) below(g *drawing.Scene) drawing.Unit {
	at := e.deep + 250
	kind := e.zoneStops()
	if !e.up.Surveyed {
		g.Text(drawing.Pt(e.left, at+400), e.say.Say(words.ViewUnsurveyed), drawing.Style{Size: drawing.Head, Face: drawing.Bold})
		return e.foot(g, at+700)
	}
	const swatch = 250
	low := at + swatch
	p := place.New(drawing.Box(runHead, at, e.width, at+5000))
	p.First = e.notesSoFar()
	for _, z := range kind {
		g.Hatch(z.hatch, drawing.Thin, drawing.Box(z.a, at, z.b, at+swatch).Corners()...)
	}
	p.Block(drawing.Box(0, at, e.width, at+swatch))
	for _, z := range kind {
		p.Stroke(20, drawing.Pt(z.a, at), drawing.Pt(z.a, at+5000))
		p.Stroke(20, drawing.Pt(z.b, at), drawing.Pt(z.b, at+5000))
	}
	for _, z := range kind {
		got := e.zoneLabel(p, z, at+swatch)
		e.stands(got)
		g.Add(got.Marks...)
		low = max(low, got.Box.Max.Y)
	}
	e.title(g, e.say.Say(words.ViewRowLayers), "", at+swatch)
	e.rowNotes = append(e.rowNotes, p.Notes()...)
	low = e.zoneStations(g, kind, at+swatch, low+runGap)
	return e.foot(g, low)
}

// runZone is a shim zone on paper.
type runZone struct {
	z      plan.BuildUp
	hatch  drawing.HatchKind
	a, b   drawing.Unit
	length string // empty if the window cuts it
}

// zoneStops brings the shim zones of the window to paper.
func (e *runElev) zoneStops() []runZone {
	var ends []length.Length
	zones := e.of.BuildUps
	for i, z := range zones {
		if i == 0 {
			ends = append(ends, e.of.ToCrew(z.From))
		}
		ends = append(ends, e.of.ToCrew(z.To))
	}
	_, parts := length.Chain(ends, e.tape.Step())
	var out []runZone
	for i, z := range zones {
		a, b, ok := e.cut(z.From, z.To)
		if !ok {
			continue
		}
		q := runZone{z: z, hatch: runPacking(z.Plies), a: e.x(a), b: e.x(b)}
		if a == z.From && b == z.To {
			q.length = e.long(parts[i])
		}
		out = append(out, q)
	}
	return out
}

// zoneWords says the build-up of a zone.
func (e *runElev) zoneWords(z plan.BuildUp) []string {
	layers := e.say.Count(words.ViewBuildLayers, z.Plies, words.In("n", runCount(z.Plies)))
	switch {
	case e.of.UnderChairs:
		layers = e.say.Say(words.ViewBuildChairs)
	case z.Plies == 0:
		layers = e.say.Say(words.ViewBuildShims)
	}
	front, rear := e.spread(z.FrontLeast, z.FrontMost), e.spread(z.RearLeast, z.RearMost)
	if front == rear {
		return []string{layers, front}
	}
	return []string{layers, e.say.Say(words.ViewBuildStreet, words.In("build", front)), e.say.Say(words.ViewBuildRoof, words.In("build", rear))}
}

func (e *runElev) spread(least, most length.Length) string {
	a, b := e.short(length.Max(0, least)), e.short(length.Max(0, most))
	if a == b {
		return a
	}
	return e.say.Say(words.ViewBuildRange, words.In("least", a), words.In("most", b))
}

// zoneLabel letters a zone's words under its swatch: in one line, in several,
// or as a note.
func (e *runElev) zoneLabel(p *place.Placer, z runZone, from drawing.Unit) place.Placement {
	said := e.zoneWords(z.z)
	flat := ""
	for i, w := range said {
		if i == 1 {
			flat += ": "
		} else if i > 0 {
			flat += ", "
		}
		flat += w
	}
	if z.length != "" {
		flat = z.length + ": " + flat
		said = append([]string{z.length}, said...)
	}
	mid := (z.a + z.b) / 2
	for _, lines := range [][]string{{flat}, said} {
		l := place.Label{Lines: lines, About: drawing.Pt(mid, from)}
		_, h := l.Extent()
		if got, ok := p.Try(l, place.At(mid, from+100+h/2)); ok {
			return got
		}
	}
	l := place.Label{Lines: said, About: drawing.Pt(mid, from+450), Note: flat,
		Where: e.say.Say(words.ViewBuildBetween, words.In("from", e.crew(z.z.From)), words.In("to", e.crew(z.z.To)))}
	return p.Number(l)
}

// zoneStations letters the stations of the zones' ends, from the datum.
func (e *runElev) zoneStations(g *drawing.Scene, zones []runZone, from, at drawing.Unit) drawing.Unit {
	v := &runLevels{f: e.runFrame, down: true, line: true, at: at + 50, ends: e.ends(), lo: runHead, hi: e.width}
	add := func(c length.Length) {
		if !e.shows(c) {
			return
		}
		v.stops = append(v.stops, runStop{at: e.x(c), from: from, note: e.say.Say(words.ViewNoteChange, words.In("station", e.station(c))), lines: []runLine{{e.station(c), drawing.Note, drawing.Regular, ""}}})
	}
	for i, z := range zones {
		if i == 0 {
			add(z.z.From)
		}
		add(z.z.To)
	}
	if len(v.stops) == 0 {
		return at
	}
	if at := e.of.Datum.At.X; e.shows(at) && at == e.of.FrontFrom {
		d := e.x(at)
		v.datum = &d
	}
	v.a, v.b = zones[0].a, zones[len(zones)-1].b
	box, bases := v.draw(g)
	y := v.at + 500
	if len(bases) > 0 {
		y = bases[0]
	}
	e.title(g, e.say.Say(words.ViewRowLayerZones), "", y)
	return box.Max.Y + runGap
}

// foot names the scales and lists the notes.
func (e *runElev) foot(g *drawing.Scene, from drawing.Unit) drawing.Unit {
	at := from
	if !e.cell {
		at = e.footRow(g, from, []runBar{{runAlong, e.along}, {runUp, e.cross}}, "", sentences(e.scaleWords(e.up.Slopes), e.setWords()))
	}
	return e.notes(g, at, e.placer.Notes(), e.bare)
}

// setWords say how high the set surface stands, which a level is set to.
func (e *runElev) setWords() string {
	if !e.up.Surveyed {
		return ""
	}
	left, right := e.up.Left.Real, e.up.Right.Real
	ends := []words.Slot{words.In("left", e.inWords(left)), words.In("right", e.inWords(right))}
	stands := e.say.Say(words.ViewSet, words.In("height", e.inWords(left)))
	switch {
	case left != right && e.up.Graded:
		stands = e.say.Say(words.ViewSetEnd, ends...)
	case left != right:
		stands = e.say.Say(words.ViewSetCorner, ends...)
	}
	roof, slope := "", ""
	if e.up.Slopes {
		roof = e.say.Say(words.ViewSetRoof)
	}
	if e.up.OnSlope {
		slope = e.say.Say(words.ViewSetSlope)
	}
	return sentences(stands, roof, slope)
}

// RunHatches lists the hatches the plan and the elevation of a window use, for
// the legend of their sheet.
func RunHatches(r *plan.Run, win Window) []LegendEntry {
	f := &runFrame{of: r, win: win}
	var out []LegendEntry
	for _, k := range []struct {
		corner bool
		as     LegendEntry
	}{{true, LegendEntry{drawing.ZoneCorner, "corner zone of wind pressure"}}, {false, LegendEntry{drawing.ZoneEdge, "edge zone of wind pressure"}}} {
		if slices.ContainsFunc(r.WindZones, func(z plan.WindZone) bool { return z.Corner == k.corner && f.overlaps(z.From, z.To) }) {
			out = append(out, k.as)
		}
	}
	if r.Elevation.Surveyed {
		layers := [4]string{"shims only", "1 layer of " + r.LayerName + " + shims", "2 layers of " + r.LayerName + " + shims", "3 layers or more of " + r.LayerName + " + shims"}
		if r.UnderChairs {
			layers[0] = "build-up under the chairs"
		}
		for k := range layers {
			if slices.ContainsFunc(r.BuildUps, func(z plan.BuildUp) bool { return min(z.Plies, 3) == k && f.overlaps(z.From, z.To) }) {
				out = append(out, LegendEntry{runPacking(k), layers[k]})
			}
		}
		if kind, name := runWallHatch(r); kind != drawing.NoHatch {
			out = append(out, LegendEntry{kind, "wall top: " + name})
		}
	}
	walled := win.From <= 0 && r.Left.Kind == plan.EndWall || win.To >= r.Cap.Real && r.Right.Kind == plan.EndWall
	if walled && (len(out) == 0 || out[len(out)-1].Kind != drawing.Masonry) {
		out = append(out, LegendEntry{drawing.Masonry, "higher wall"})
	}
	return out
}

// overlaps says whether some of a stretch lies in the window.
func (f *runFrame) overlaps(from, to length.Length) bool {
	_, _, ok := f.cut(from, to)
	return ok
}
