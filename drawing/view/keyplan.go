package view

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// Room the lettering round a plan is given, and the height of the strip that
// heads it.
const (
	keySide  = 30 * drawing.MM
	keyTop   = 14 * drawing.MM
	keyHead  = 17 * drawing.MM
	keyWall  = 120 // least thickness a wall is drawn with
	keyBand  = 320 // width of the zone band
	keyBandO = 110 // its distance from the wall
)

// keyPlan draws the perimeters of a job to one scale.
type keyPlan struct {
	of    plan.KeyPlan
	say   words.Book
	crew  length.Style
	s     *drawing.Scene
	notes []drawing.Said // what found no room on the plan

	brief    bool // names of runs alone
	part     bool // of a stretch of a perimeter
	nameless int  // runs whose names found no room
}

// KeyPlan draws every perimeter to the largest usual scale that fits: walls,
// runs with names and lengths, corners, zones, holds, north. Perimeters whose
// place to each other nobody measured stand in panels of their own.
func KeyPlan(say words.Book, of plan.KeyPlan, w, h drawing.Unit) drawing.Scene {
	k := &keyPlan{of: of, say: say, crew: length.Crew(of.Metric)}
	return k.scene(w, h)
}

// scene draws the plan in a room.
func (k *keyPlan) scene(w, h drawing.Unit) drawing.Scene {
	say := k.say
	var shapes []keyShape
	for _, p := range k.of.Perimeters {
		sh := keyShapeOf(p)
		if k.part {
			sh.cutOff()
		}
		shapes = append(shapes, sh)
	}
	groups := groupsOf(shapes)
	// What finds no room on the plan goes to the notes under it, and longer
	// notes leave less room for the plan: try until the strip is high enough.
	foot := k.footHeight(w, nil, shapes)
	var s drawing.Scene
	const tries = 5
	for i := range tries {
		s = drawing.Scene{Name: "key-plan", Title: say.Say(words.KeyplanTitle), W: w, H: h}
		s.Desc = say.Say(words.KeyplanAbout)
		k.s, k.notes, k.nameless = &s, nil, 0
		area := drawing.Box(0, 0, w, max(h-foot, h/3))
		scale, boxes := k.fit(groups, area)
		if k.crowded(shapes, scale) {
			k.nameless = len(shapes[0].runs)
			s.Squeezed = true
			return s
		}
		for i, g := range groups {
			k.panel(g, boxes[i], scale, len(groups) > 1)
		}
		need := k.footHeight(w, k.notes, shapes)
		if need <= foot || i == tries-1 {
			k.foot(drawing.Box(0, h-foot, w, h), scale, shapes)
			break
		}
		foot = need
	}
	return s
}

// crowded says that the walls are too short on paper for the names of their runs to stand
// along them: nothing is gained by looking for their places.
func (k *keyPlan) crowded(shapes []keyShape, scale Scale) bool {
	each := 12.0
	if k.brief {
		each = 9
	}
	if scale.Ratio <= 0 {
		return k.brief
	}
	long, names := 0.0, 0.0
	for _, sh := range shapes {
		for _, r := range sh.runs {
			long, names = long+r.long/float64(scale.Ratio), names+each
		}
	}
	return names > long && names > 25*each
}

// keyScales are those of plans of whole sites too: the next of ISO 5455 and of the
// engineer's scale.
func keyScales(metric bool) []Scale {
	if metric {
		return append(Scales(metric), Scale{"1:2000", 2000}, Scale{"1:5000", 5000}, Scale{"1:10000", 10000})
	}
	return append(Scales(metric), Scale{`1" = 200'-0"`, 2400}, Scale{`1" = 400'-0"`, 4800})
}

// fit chooses the largest usual scale at which the panels of all shapes find
// their place. If none does, each panel is drawn as large as it goes, and the
// plan says that it is not to scale.
func (k *keyPlan) fit(shapes []keyGroup, area drawing.Rect) (Scale, []drawing.Rect) {
	for _, sc := range keyScales(k.of.Metric) {
		if sc.Ratio < 12 {
			continue
		}
		if boxes, ok := shelves(shapes, sc, area); ok {
			return sc, boxes
		}
	}
	n := len(shapes)
	cols := int(math.Ceil(math.Sqrt(float64(n))))
	rows := (n + cols - 1) / cols
	var boxes []drawing.Rect
	for i := range shapes {
		c, r := drawing.Unit(i%cols), drawing.Unit(i/cols)
		w, h := area.Width()/drawing.Unit(cols), area.Height()/drawing.Unit(rows)
		boxes = append(boxes, drawing.Box(area.Min.X+c*w, area.Min.Y+r*h, area.Min.X+(c+1)*w, area.Min.Y+(r+1)*h))
	}
	return Scale{Name: k.say.Say(words.KeyplanNotScale)}, boxes
}

// shelves stands the panels side by side, row under row, and shares out what
// room is left.
func shelves(shapes []keyGroup, sc Scale, area drawing.Rect) ([]drawing.Rect, bool) {
	type shelf struct {
		of   []int
		w, h drawing.Unit
	}
	var all []shelf
	size := make([]drawing.Point, len(shapes))
	for i, sh := range shapes {
		ew, eh := sh.extent(float64(sc.Ratio) * keyWall / 100).size()
		need := drawing.Point{X: max(sc.Units(ew)+2*keySide, 80*drawing.MM), Y: sc.Units(eh) + 2*keyTop + keyHead}
		size[i] = need
		if need.X > area.Width() {
			return nil, false
		}
		if n := len(all); n == 0 || all[n-1].w+need.X > area.Width() {
			all = append(all, shelf{})
		}
		s := &all[len(all)-1]
		s.of, s.w, s.h = append(s.of, i), s.w+need.X, max(s.h, need.Y)
	}
	var high drawing.Unit
	for _, s := range all {
		high += s.h
	}
	if high > area.Height() {
		return nil, false
	}
	boxes := make([]drawing.Rect, len(shapes))
	y := area.Min.Y
	for _, s := range all {
		h := s.h + (area.Height()-high)/drawing.Unit(len(all))
		x := area.Min.X
		for _, i := range s.of {
			w := size[i].X + (area.Width()-s.w)/drawing.Unit(len(s.of))
			boxes[i] = drawing.Box(x, y, x+w, y+h)
			x += w
		}
		y += h
	}
	return boxes, true
}

// branchFaces say what of a branch its station is taped to.
var branchFaces = map[string]words.Key{
	"left": words.KeyplanFaceLeft, "right": words.KeyplanFaceRight, "center": words.KeyplanFaceCenter,
}

// footWords is what the strip under the plans says of all of them.
func (k *keyPlan) footWords(shapes []keyShape) []drawing.Said {
	phrase := drawing.Plain(k.say.Say(words.KeyplanHow), k.say.Say(words.KeyplanLengths))
	plain := func(words string) { phrase = append(phrase, drawing.Said{Words: words}) }
	adjusted, slopes := false, false
	for _, sh := range shapes {
		slopes = slopes || slices.ContainsFunc(sh.per.Runs, func(r plan.KeyRun) bool { return r.Slopes })
		adjusted = adjusted || sh.per.Misses.Real > 0
	}
	if slopes {
		plain(k.say.Say(words.KeyplanSlopes))
	}
	if adjusted {
		plain(k.say.Say(words.KeyplanAdjusted))
	}
	for _, sh := range shapes {
		if slices.ContainsFunc(sh.per.Runs, func(r plan.KeyRun) bool { return r.Held }) {
			plain(k.say.Say(words.KeyplanHold))
			break
		}
	}
	if k.unplaced(shapes) {
		plain(k.say.Say(words.KeyplanUnplaced))
	}
	for _, sh := range shapes {
		for _, t := range sh.per.Tees {
			phrase = append(phrase, drawing.Said{Words: k.say.Say(words.KeyplanMeets, words.In("run", t.Run),
				words.In("name", sh.per.Name), words.In("main", t.Main), words.In("perimeter", t.Perimeter),
				words.In("taped", k.crew.InText(t.Taped.Real)), words.In("face", k.say.Say(branchFaces[t.Face]))),
				Fact: t.Taped.Fact})
		}
	}
	for _, sh := range shapes {
		if !sh.per.Closed() && !k.part {
			plain(k.say.Say(words.KeyplanConfirm, words.In("name", sh.per.Name)))
		}
		for _, r := range sh.runs {
			if r.Unmeasured != "" && !k.brief {
				plain(k.say.Say(words.KeyplanDashed, words.In("name", r.Name), words.In("unmeasured", r.Unmeasured)))
			}
		}
	}
	return append(phrase, k.notes...)
}

// columns of the strip under the plans.
func footColumns(w drawing.Unit) (title, notes drawing.Unit, beside bool) {
	title = 72 * drawing.MM
	notes = w - title - 62*drawing.MM
	if notes < 70*drawing.MM {
		return title, w - 400, false
	}
	return title, notes, true
}

func (k *keyPlan) footHeight(w drawing.Unit, notes []drawing.Said, shapes []keyShape) drawing.Unit {
	old := k.notes
	k.notes = notes
	defer func() { k.notes = old }()
	_, nw, beside := footColumns(w)
	h := listHeight(nw, k.footWords(shapes), drawing.Style{})
	if beside {
		return max(h, 30*drawing.MM) + 400
	}
	return h + 34*drawing.MM
}

func (k *keyPlan) foot(box drawing.Rect, scale Scale, shapes []keyShape) {
	tw, nw, beside := footColumns(box.Width())
	k.s.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		top := drawing.Point{X: box.Min.X + 150, Y: box.Min.Y + 200}
		k.s.Squeezed = scale.Ratio <= 0 || k.nameless > 0
		captioned(k.say, g, k.of.Metric, top, tw-600, drawing.Said{Words: k.say.Say(words.KeyplanTitleLarge)},
			drawing.Said{}, scale)
		directionKey(k.say, g, drawing.Point{X: box.Max.X - 5300, Y: box.Min.Y + 200})
		at := drawing.Point{X: box.Min.X + tw, Y: box.Min.Y + 200}
		if !beside {
			at = drawing.Point{X: box.Min.X + 150, Y: box.Min.Y + 32*drawing.MM}
		}
		list(g, at, nw, k.footWords(shapes), drawing.Style{})
	})
}

// panel draws a group of perimeters in its box: a strip with their names and north, the
// plan below.
func (k *keyPlan) panel(sh keyGroup, box drawing.Rect, scale Scale, framed bool) {
	if framed {
		k.s.Rect(drawing.Thin, box.Inset(60))
	}
	e := sh.extent(float64(max(scale.Ratio, 1)) * keyWall / 100)
	ratio := float64(scale.Ratio)
	room := drawing.Box(box.Min.X, box.Min.Y+keyHead, box.Max.X, box.Max.Y).Inset(100)
	if scale.Ratio <= 0 {
		ratio = math.Max((e.hi.x-e.lo.x)/math.Max((room.Width()-2*keySide).Millimetres(), 10),
			(e.hi.y-e.lo.y)/math.Max((room.Height()-2*keyTop).Millimetres(), 10))
		ratio = math.Max(ratio, 1)
	}
	mid := e.lo.between(e.hi)
	c := room.Centre()
	m := paperMap{
		ratio:  ratio,
		origin: drawing.Point{X: c.X - drawing.Round(mid.x/ratio), Y: c.Y - drawing.Round(mid.y/ratio)},
	}
	k.head(sh, drawing.Box(box.Min.X, box.Min.Y, box.Max.X, box.Min.Y+keyHead))
	stands := place.New(room)
	var all []*keyDrawing
	for _, one := range sh {
		all = append(all, newKeyDrawing(k, one, m, stands))
	}
	for _, d := range all {
		d.others = all
		d.marks()
	}
	for _, d := range all {
		d.letters()
	}
}

// head names the perimeters of a group and shows north.
func (k *keyPlan) head(sh keyGroup, box drawing.Rect) {
	var names []string
	for _, one := range sh {
		names = append(names, one.per.Name)
	}
	k.s.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		right := box.Max.X - 21*drawing.MM
		at := drawing.Point{X: box.Min.X + 250, Y: box.Min.Y + 200 + drawing.Unit(drawing.Title)}
		g.Text(at, strings.Join(names, ", "), drawing.Style{Size: drawing.Title, Face: drawing.Bold})
		var phrase []drawing.Said
		for _, one := range sh {
			said := k.headWords(one.per)
			if len(sh) > 1 {
				all := drawing.Said{Words: one.per.Name + ":"}
				for _, q := range said {
					all = drawing.Said{Words: all.Words + " " + q.Words, Fact: drawing.FactNames(all.Fact, q.Fact)}
				}
				said = []drawing.Said{all}
			}
			phrase = append(phrase, said...)
		}
		list(g, drawing.Point{X: at.X, Y: at.Y + 150}, right-at.X-200, phrase, drawing.Style{})
		g.Draw(
			drawing.NorthArrow{
				At:    drawing.Point{X: box.Max.X - 1150, Y: box.Min.Y + 1100},
				R:     480,
				North: k.of.North,
			}.Figure(),
		)
	})
}

// headWords say what a perimeter is and whether it closes.
func (k *keyPlan) headWords(p plan.KeyPerimeter) []drawing.Said {
	phrase := []drawing.Said{{Words: k.kindWords(p), Fact: p.Count}}
	if p.Misses.Real > 0 && !k.part {
		misses := words.In("misses", inSentence(k.crew, p.Misses.Real))
		if p.Within.Pass {
			phrase = append(phrase, drawing.Said{Words: k.say.Say(words.KeyplanCloses, misses,
				words.In("limit", inSentence(k.crew, p.Within.Most))),
				Fact: drawing.FactNames(p.Misses.Fact, p.Within.Facts[2])})
		} else {
			phrase = append(phrase, drawing.Said{Words: k.say.Say(words.KeyplanMisses, misses), Fact: p.Misses.Fact})
		}
	}
	return phrase
}

func (k *keyPlan) kindWords(p plan.KeyPerimeter) string {
	if k.part {
		return k.say.Say(words.KeyplanPart, words.In("from", p.Runs[0].Name),
			words.In("to", p.Runs[len(p.Runs)-1].Name))
	}
	key := words.KeyplanOpen
	switch p.Lying {
	case plan.AroundRoof:
		key = words.KeyplanRoof
	case plan.AroundWell:
		key = words.KeyplanWell
	}
	return k.say.Count(key, len(p.Runs), words.In("n", strconv.Itoa(len(p.Runs))))
}

// KeyPlanHatches lists what the hatches of the key plan mean.
func KeyPlanHatches(say words.Book, k plan.KeyPlan) []LegendEntry {
	var edge, corner, wall bool
	for _, p := range k.Perimeters {
		for _, r := range p.Runs {
			for _, z := range r.Zones {
				edge, corner = edge || !z.Corner, corner || z.Corner
			}
			wall = wall || r.Ends[0].Kind == plan.KeyDies || r.Ends[1].Kind == plan.KeyDies
		}
	}
	var out []LegendEntry
	if edge {
		out = append(out, LegendEntry{Kind: drawing.ZoneEdge, Words: say.Say(words.KeyplanZoneEdge)})
	}
	if corner {
		long := words.In("corner-zone", length.Crew(k.Metric).InText(k.CornerZone.Real))
		said, names := say.Say(words.KeyplanZoneCorner, long), k.CornerZone.Fact
		if k.CornerTurn > 0 {
			said = say.Say(words.KeyplanZoneCornerTurn, long, words.In("angle", length.FormatAngle(k.CornerTurn)))
			names = drawing.FactNames(names, k.Begun)
		}
		out = append(out, LegendEntry{Kind: drawing.ZoneCorner, Words: said, Fact: names})
	}
	if wall {
		out = append(out, LegendEntry{Kind: drawing.Masonry, Words: say.Say(words.KeyplanLegendWall)})
	}
	return out
}
