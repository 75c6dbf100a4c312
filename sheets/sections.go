package sheets

import (
	"fmt"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/layout/plan"
)

// sections shows each distinct wall, assembly and width through a chair and
// through a joint.
func (b *book) sections() []page {
	cases := b.l.SectionCases()
	var out []page
	for _, c := range cases {
		var names []string
		for _, r := range c.Runs {
			names = append(names, r.Name)
		}
		p := page{id: b.id("sections", names[0], c.Chair.Assembly.Name), title: "Sections, runs " + strings.Join(names, ", ") + ", assembly " + c.Chair.Assembly.Name, kind: Sections, paper: b.runs, scale: "as noted",
			about: "Sections through a chair and through a joint, looking along growing stations."}
		for _, f := range b.l.Holds() {
			for _, r := range c.Runs {
				if f.Where.TouchesRun(r.Perimeter.Job.Name, r.Name) {
					p.holds = append(p.holds, f)
					break
				}
			}
		}
		p.banner = b.holdWords(p.holds)
		foot := list{items: []string{"Sections look along growing stations: street at the left, roof at the right. Assembly " + c.Chair.Assembly.Name + " (report " + c.Chair.Assembly.Report +
			"), inside width " + b.small(c.Chair.Inside) + ". Fasteners stand only in the holes punched for them."}, plain: true}
		shown := []string{"at a chair"}
		cuts := []plan.Section{b.l.Section(c.Run, c.Chair.At, c.Chair, nil)}
		for _, q := range c.Joints {
			cuts = append(cuts, b.l.SectionAtJoint(q.Run, q.Joint))
			shown = append(shown, [...]string{"at a joint", "at expansion joint " + q.Joint.Name, "at a kink"}[q.Joint.Kind])
		}
		p.hatches = view.SectionHatches(cuts...)
		var views []func(w, h drawing.Unit) drawing.Scene
		for _, q := range cuts {
			views = append(views, view.Sections(q))
		}
		out = append(out, b.sideBySide(p, foot, views, shown)...)
	}
	return out
}

// sideBySide puts two views on a page, or where it is too small to show them
// large, each on a page of its own, held the way that suits it, or on a larger
// paper.
func (b *book) sideBySide(p page, foot list, views []func(w, h drawing.Unit) drawing.Scene, names []string) []page {
	if p.paper.w >= 50000 {
		if out := b.shown(p, foot, p.paper, 2, views, names); out != nil {
			return out
		}
	}
	var out []page
	for i := range views {
		one, name := views[i:i+1], names[i:i+1]
		q := b.shown(p, foot, p.paper, 1, one, name)
		for _, try := range []struct {
			foot  list
			paper paper
		}{{foot, paper{p.paper.h, p.paper.w}}, {list{}, p.paper}, {list{}, paper{p.paper.h, p.paper.w}}} {
			if q == nil { // the view goes before the note
				q = b.shown(p, try.foot, try.paper, 1, one, name)
			}
		}
		for _, z := range larger(p.paper) {
			if q == nil {
				q = b.shown(p.printedOn(b.say, z), foot, landscape(z), 1, one, name)
			}
		}
		if q == nil {
			q = b.laidOut(p, foot, p.paper, 1, one, name)
		}
		out = append(out, q...)
	}
	for i := range out {
		out[i].id = p.id
		if i > 0 {
			out[i].id = b.id(p.id)
		}
	}
	return out
}

// shown is laidOut, nil where a view does not fit.
func (b *book) shown(p page, foot list, on paper, n int, views []func(w, h drawing.Unit) drawing.Scene, names []string) []page {
	cols, _ := b.viewRooms(p, foot, on, min(n, len(views)))
	for _, v := range views {
		if w, h := cols[0].Width(), cols[0].Height(); !sits(v(w, h), w, h) {
			return nil
		}
	}
	return b.laidOut(p, foot, on, n, views, names)
}

// viewRooms are the rooms of n views on a paper, and the note under them.
func (b *book) viewRooms(p page, foot list, on paper, n int) ([]drawing.Rect, laid) {
	room := on.room(p.banner != "")
	if len(foot.items) == 0 {
		return columns(room, n, gutter), laid{}
	}
	note, _ := foot.take(room.Width(), room.Height(), true)
	return columns(drawing.Box(room.Min.X, room.Min.Y, room.Max.X, room.Max.Y-note.h-between), n, gutter), note
}

// laidOut draws views n to a page, over a note.
func (b *book) laidOut(p page, foot list, on paper, n int, views []func(w, h drawing.Unit) drawing.Scene, names []string) []page {
	n = min(n, len(views))
	cols, note := b.viewRooms(p, foot, on, n)
	room := on.room(p.banner != "")
	var out []page
	for i := 0; i < len(views); i += n {
		q := p
		q.paper = on
		if i > 0 {
			q.id = b.id(p.id)
		}
		here := views[i:min(i+n, len(views))]
		if n == 1 || i > 0 {
			q.title += ": " + strings.Join(names[i:i+len(here)], ", ")
		}
		var scenes []drawing.Scene
		for k, v := range here {
			scenes = append(scenes, v(cols[k].Width(), cols[k].Height()))
		}
		q.foot = func(s *drawing.Scene, r drawing.Rect) { b.legend(s, r, view.Drawn(p.hatches, scenes...)) }
		q.draw = func(s *drawing.Scene, _ func(string) string) {
			for k, v := range scenes {
				centred(s, v, cols[k], fmt.Sprintf("v%d", k+1))
			}
			if note.draw != nil {
				note.draw(s, drawing.Pt(room.Min.X, room.Max.Y-note.h))
			}
		}
		out = append(out, q)
	}
	return out
}

// sits says that a view keeps to its room and can be read in it. A view that
// gave up its scale was squeezed.
func sits(v drawing.Scene, w, h drawing.Unit) bool {
	return !v.Squeezed && drawing.Box(0, 0, w, h).Contains(v.Bounds()) && len(drawing.Check(v)) == 0
}

// centred places a view in the middle of a rectangle.
func centred(s *drawing.Scene, v drawing.Scene, r drawing.Rect, prefix string) {
	place(s, v, drawing.Pt(r.Min.X+max(0, (r.Width()-v.W)/2), r.Min.Y+max(0, (r.Height()-v.H)/2)), prefix)
}
