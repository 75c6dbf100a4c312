package view

import (
	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/plan"
)

// Where two perimeters meet in a tee, each is drawn in outline on the panel of
// the other: the branch whole on its main's, the main run on its branch's.

// metRun is a run of another perimeter, laid out on this panel.
type metRun struct {
	keyRun
	name string
}

// met are the runs of other perimeters that this one meets or is met by.
func (d *keyDrawing) met() []metRun {
	var out []metRun
	for _, p := range d.of.Perimeters {
		if p.Name == d.sh.per.Name {
			continue
		}
		other := keyShapeOf(p)
		for _, t := range p.Tees { // by its first tee: the other end lies where the drawing has it
			if t.Perimeter != d.sh.per.Name {
				continue
			}
			at, end, ok := joined(t, d.sh, other)
			if !ok {
				continue
			}
			for _, r := range other.runs { // the whole branch moves here
				r.o = r.o.add(at.sub(end))
				out = append(out, metRun{r, r.Name})
			}
			break
		}
		for _, t := range d.sh.per.Tees { // each end shows its own main
			if t.Perimeter != p.Name {
				continue
			}
			if at, end, ok := joined(t, other, d.sh); ok {
				r := *runIn(other, t.Main)
				r.o = r.o.add(end.sub(at))
				out = append(out, d.cutShort(r, end))
			}
		}
	}
	return out
}

// joined is where a tee stands on its main as drawn, and the end of its branch.
func joined(t plan.KeyTee, main, branch keyShape) (at, end xy, ok bool) {
	m, b := runIn(main, t.Main), runIn(branch, t.Run)
	if m == nil || b == nil {
		return at, end, false
	}
	end = b.o
	if !t.Starts {
		end = b.at(b.long, 0)
	}
	scale := m.long / max(m.Front.Real.MM(), 1)
	return m.at(t.At.MM()*scale, m.wide), end, true
}

// cutShort leaves of a main run what lies near the branch's end.
func (d *keyDrawing) cutShort(r keyRun, end xy) metRun {
	const half = 12 * drawing.MM
	to := end.sub(r.o)
	u := float64(to.x*r.dir.x) + float64(to.y*r.dir.y)
	from, upto := max(0, u-d.real(half)), min(r.long, u+d.real(half))
	r.o, r.long = r.at(from, 0), upto-from
	return metRun{r, d.say.Say(words.KeyplanRunLarge, words.In("name", r.Name))}
}

func runIn(k keyShape, name string) *keyRun {
	for i := range k.runs {
		if k.runs[i].Name == name {
			return &k.runs[i]
		}
	}
	return nil
}

// meetingWalls draws the walls of other perimeters that meet this one.
func (d *keyDrawing) meetingWalls(g *drawing.Scene) {
	for _, r := range d.met() {
		q := d.m.all(r.at(0, 0), r.at(r.long, 0), r.at(r.long, d.wide(r.keyRun)), r.at(0, d.wide(r.keyRun)))
		g.Fill(drawing.White, drawing.NoPen, q...)
		g.Line(drawing.Medium, q[0], q[1])
		g.Line(drawing.Medium, q[3], q[2])
		d.c.Area(q...)
	}
}

// meetingWords names them.
func (d *keyDrawing) meetingWords(g *drawing.Scene) {
	for _, r := range d.met() {
		l := place.Label{
			Lines: []string{r.name},
			Face:  drawing.Bold,
			Pad:   besideLine,
			Bare:  true,
			About: d.m.at(r.at(r.long/2, d.wide(r.keyRun))),
		}
		spots := l.Fan(
			place.Fan{Toward: tenths(r.dir.roofward()), From: 200, To: 3000, Step: 200, Spread: 75, Reach: 600},
		)
		spots = append(
			spots,
			l.Fan(
				place.Fan{
					Toward: tenths(r.dir.roofward().times(-1)),
					From:   200,
					To:     3000,
					Step:   200,
					Spread: 75,
					Reach:  600,
					Tips:   []drawing.Point{d.m.at(r.at(r.long/2, 0))},
				},
			)...)
		got, ok := d.c.Try(l, spots...)
		g.Add(got.Marks...)
		if !ok {
			d.notes = append(d.notes, drawing.Said{Words: d.say.Say(words.KeyplanPanel,
				words.In("name", d.sh.per.Name), words.In("run", r.Name))})
		}
	}
}

// unplaced says that a perimeter neither meets another nor is met.
func (k *keyPlan) unplaced(shapes []keyShape) bool {
	if len(groupsOf(shapes)) < 2 {
		return false
	}
	placed := map[string]bool{} // look-up only
	in := map[int]int{}         // look-up only: perimeters of a group
	for _, sh := range shapes {
		in[sh.per.Group]++
	}
	for _, sh := range shapes {
		for _, t := range sh.per.Tees {
			placed[sh.per.Name], placed[t.Perimeter] = true, true
		}
	}
	for _, sh := range shapes {
		if !placed[sh.per.Name] && in[sh.per.Group] < 2 {
			return true
		}
	}
	return false
}
