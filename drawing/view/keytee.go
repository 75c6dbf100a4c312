package view

import (
	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/layout/job"
	"copingset/layout/wall"
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
	for _, p := range d.l.Perimeters {
		if p == d.sh.per {
			continue
		}
		other := keyShapeOf(p, d.l.Job)
		done := false
		join := func(branch *wall.Run, t *wall.Tee, starts bool, main, own keyShape) {
			m, b := runIn(main, t.Main), runIn(own, branch)
			if m == nil || b == nil || done {
				return
			}
			done = true // by its first tee: the other end lies where the drawing has it
			scale := m.long / max(t.Main.Front.MM(), 1)
			at := m.at(t.Place(branch, starts).Corner.MM()*scale, m.wide)
			end := b.o
			if !starts {
				end = b.at(b.long, 0)
			}
			if main.per == d.sh.per { // the whole branch moves here
				by := at.sub(end)
				for _, r := range other.runs {
					r.o = r.o.add(by)
					out = append(out, metRun{r, r.Name})
				}
				return
			}
			r := *m
			r.o = r.o.add(end.sub(at))
			out = append(out, d.cutShort(r, end))
		}
		p.Tees(func(r *wall.Run, t *wall.Tee, starts bool) {
			if t.Main.Perimeter == d.sh.per.Perimeter {
				join(r, t, starts, d.sh, other)
			}
		})
		d.sh.per.Tees(func(r *wall.Run, t *wall.Tee, starts bool) {
			if t.Main.Perimeter == p.Perimeter {
				done = false // each end shows its own main
				join(r, t, starts, other, d.sh)
			}
		})
	}
	return out
}

// cutShort leaves of a main run what lies near the branch's end.
func (d *keyDrawing) cutShort(r keyRun, end xy) metRun {
	const half = 12 * drawing.MM
	to := end.sub(r.o)
	u := float64(to.x*r.dir.x) + float64(to.y*r.dir.y)
	from, upto := max(0, u-d.real(half)), min(r.long, u+d.real(half))
	r.o, r.long = r.at(from, 0), upto-from
	return metRun{r, "RUN " + r.Name}
}

func runIn(k keyShape, w *wall.Run) *keyRun {
	for i := range k.runs {
		if k.runs[i].OnWall() == w {
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
		l := place.Label{Lines: []string{r.name}, Face: drawing.Bold, Pad: besideLine, Bare: true, About: d.m.at(r.at(r.long/2, d.wide(r.keyRun)))}
		spots := l.Fan(place.Fan{Toward: tenths(r.dir.roofward()), From: 200, To: 3000, Step: 200, Spread: 75, Reach: 600})
		spots = append(spots, l.Fan(place.Fan{Toward: tenths(r.dir.roofward().times(-1)), From: 200, To: 3000, Step: 200, Spread: 75, Reach: 600,
			Tips: []drawing.Point{d.m.at(r.at(r.long/2, 0))}})...)
		got, ok := d.c.Try(l, spots...)
		g.Add(got.Marks...)
		if !ok {
			d.notes = append(d.notes, "On the panel of perimeter "+d.sh.per.Job.Name+" the wall of run "+r.Name+" stands without its name.")
		}
	}
}

// unplaced says that a perimeter neither meets another nor is met.
func (k *keyPlan) unplaced(shapes []keyShape) bool {
	if len(shapes) < 2 {
		return false
	}
	placed := map[*wall.Perimeter]bool{} // look-up only
	for _, sh := range shapes {
		sh.per.Tees(func(_ *wall.Run, t *wall.Tee, _ bool) {
			placed[sh.per.Perimeter], placed[t.Main.Perimeter] = true, true
		})
	}
	for _, sh := range shapes {
		if !placed[sh.per.Perimeter] {
			return true
		}
	}
	return false
}

// teeFace names what a tee's station is taped to.
func teeFace(f job.TeeFace) string { return [...]string{"left face", "right face", "centre"}[f] }
