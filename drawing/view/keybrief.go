package view

import (
	"slices"
	"strconv"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// KeyPlanBrief is the key plan of a perimeter with the names of its runs alone: lengths
// and corners stand in a table, whose runs go by the same names. It says whether every
// name found room.
func KeyPlanBrief(say words.Book, of plan.KeyPlan, w, h drawing.Unit) (drawing.Scene, bool) {
	k := &keyPlan{of: of, say: say, crew: length.Crew(of.Metric), brief: true}
	s := k.scene(w, h)
	return s, k.nameless == 0
}

// KeyPlanPart is a stretch of a perimeter, from a run to before another, drawn in brief
// as large as the room allows.
func KeyPlanPart(say words.Book, of plan.KeyPlan, from, to int, w, h drawing.Unit) (drawing.Scene, bool) {
	p := of.Perimeters[0]
	p.Runs = p.Runs[from:to]
	p.Tees = slices.DeleteFunc(slices.Clone(p.Tees), func(t plan.KeyTee) bool {
		return !slices.ContainsFunc(p.Runs, func(r plan.KeyRun) bool { return r.Name == t.Run })
	})
	of.Perimeters = []plan.KeyPerimeter{p}
	k := &keyPlan{of: of, say: say, crew: length.Crew(of.Metric), brief: true, part: true}
	s := k.scene(w, h)
	return s, k.nameless == 0
}

// KeyPlanOfParts is a perimeter in outline with its parts named by their number, each of
// which has a sheet: part n begins with the run of that index.
func KeyPlanOfParts(say words.Book, of plan.KeyPlan, begins []int, w, h drawing.Unit) drawing.Scene {
	s := drawing.Scene{Name: "key-plan", Title: say.Say(words.KeyplanTitle), Desc: say.Say(words.KeyplanAbout),
		W: w, H: h}
	sh := keyShapeOf(of.Perimeters[0])
	c := place.New(drawing.Box(0, 0, w, h))
	s.Group(drawing.KeyPlan, "", func(g *drawing.Scene) {
		g.Draw(drawing.NorthArrow{At: drawing.Pt(w-1150, 1100), R: 480, North: of.North}.Figure())
		c.Area(drawing.Box(w-2200, 60, w-60, 2200).Corners()...)
		d := keyDrawing{keyPlan: &keyPlan{of: of, say: say, crew: length.Crew(of.Metric)}, sh: sh,
			m: smallMap(sh, drawing.Box(0, 0, w, h).Inset(1500)), c: c}
		for i, r := range sh.runs {
			a, b := d.m.at(r.o), d.m.at(r.at(r.long, 0))
			g.Line(drawing.Medium, a, b)
			c.Stroke(60, a, b)
			if slices.Contains(begins, i) {
				in := r.dir.roofward()
				g.Line(drawing.Thick, off(a, in, -350), off(a, in, 350))
			}
		}
		var all []saying
		for n, from := range begins {
			to := len(sh.runs)
			if n+1 < len(begins) {
				to = begins[n+1]
			}
			all = append(all, d.partName(n+1, from, to))
		}
		for _, got := range c.PlaceAll(wishesOf(all)) {
			g.Add(got.Marks...)
		}
	})
	return s
}

// partName is the number of a part in a balloon, at the middle of its runs.
func (d *keyDrawing) partName(n, from, to int) saying {
	r := d.sh.runs[(from+to)/2]
	l := place.Label{Lines: []string{strconv.Itoa(n)}, Balloon: true, About: d.m.at(r.at(r.long/2, 0))}
	return saying{Wish: place.Wish{Label: l, Spots: l.Fan(place.Fan{Toward: tenths(r.dir.roofward()), From: 300,
		To: 6000, Step: 300, Spread: 180, Reach: 500})}}
}

// briefNames letters each run's name on its roof side, on a leader where it must.
func (d *keyDrawing) briefNames(g *drawing.Scene) {
	var all []saying
	for i, r := range d.sh.runs {
		l := d.runName(i, r.Name)
		l.LeadSize = drawing.Note
		middle := d.m.all(r.at(r.long/2, d.wide(r)/2))
		fan := func(toward xy, from, to drawing.Unit, spread int, tips []drawing.Point) []place.Spot {
			return l.Fan(place.Fan{Toward: tenths(toward), From: from, To: to, Step: 250, Spread: spread, Reach: 500,
				Tips: tips})
		}
		spots := fan(r.dir.roofward(), 250, 900, 45, nil)
		spots = append(spots, fan(d.inwards(i), 350, 4500, 90, middle)...)
		spots = append(spots, fan(r.dir.roofward().times(-1), 200, 6000, 90,
			d.m.all(r.at(r.long/2, -d.real(keyBandO+keyBand))))...)
		all = append(all, saying{Wish: place.Wish{Label: l, Spots: spots}})
	}
	for _, got := range d.c.TryAll(wishesOf(all)) {
		g.Add(got.Marks...)
		if !got.Stands() {
			d.nameless++
		}
	}
}
