package sheets

import (
	"io"
	"slices"
	"strings"
	"time"

	"copingset/drawing"
	"copingset/drawing/pdf"
	"copingset/drawing/view"
	"copingset/layout"
	"copingset/layout/job"
)

// PDF writes sheets as one document. Its date is the job's date of issue.
func PDF(w io.Writer, l *layout.Layout, sheets []Sheet) error {
	return writePDF(w, l, sheets, "metal coping: shop drawings and installation sheets")
}

func writePDF(w io.Writer, l *layout.Layout, sheets []Sheet, what string) error {
	b := newBook(l, Options{})
	in := l.Job.Info
	d := pdf.Document{
		Title:    document(in.Name, in.Number, what),
		Author:   b.firm(),
		Subject:  document("Metal parapet coping", in.Address),
		Keywords: "coping, parapet, shop drawings, installation, " + in.Number,
		Lang:     "en-US",
		Compress: true,
	}
	if in.Issued != (job.Date{}) {
		d.Date = time.Date(in.Issued.Year, time.Month(in.Issued.Month), in.Issued.Day, 0, 0, 0, 0, time.UTC)
	}
	here := map[string]bool{} // look-up only
	for _, s := range sheets {
		here[s.ID] = true
	}
	for _, s := range sheets {
		s.Scene.Marks = leading(s.Scene.Marks, here)
		d.Pages = append(
			d.Pages, pdf.Page{Scene: s.Scene, ID: s.ID, Label: s.Number, Outline: s.Number + "  " + s.Title},
		)
	}
	return pdf.Write(w, d)
}

// leading leaves out what leads to sheets that a part of a packet does not have: the
// number of the sheet stays lettered.
func leading(marks []drawing.Mark, here map[string]bool) []drawing.Mark {
	out := make([]drawing.Mark, 0, len(marks))
	for _, m := range marks {
		switch m := m.(type) {
		case drawing.Link:
			if !here[m.Target] {
				continue
			}
		case drawing.Group:
			m.Marks = leading(m.Marks, here)
			out = append(out, m)
			continue
		}
		out = append(out, m)
	}
	return out
}

// document joins what there is.
func document(parts ...string) string {
	var out []string
	for _, p := range parts {
		if p != "" {
			out = append(out, prose(p))
		}
	}
	return strings.Join(out, ", ")
}

// The room views get that stand by themselves.
const (
	viewWide drawing.Unit = 40000
	viewHigh drawing.Unit = 24000
)

// Views are the drawings by themselves, one scene each: key plan, each run in plan
// and elevation, corners, sections, patterns and formed pieces. Of some runs alone, by
// their names, they are those runs.
func Views(l *layout.Layout, runs ...string) []drawing.Scene {
	b := newBook(l, Options{})
	var out []drawing.Scene
	add := func(s drawing.Scene, words ...string) {
		s.Name = b.id(words...)
		out = append(out, s)
	}
	if len(runs) == 0 {
		for _, s := range b.keyAlone() {
			add(s, "key plan")
		}
	}
	for _, p := range l.Perimeters {
		for _, r := range p.Runs {
			if len(runs) > 0 && !slices.Contains(runs, r.Name) {
				continue
			}
			_, strips := b.on(p.Job).strips(r, viewWide)
			for _, q := range strips {
				add(q.Scene(), "run", p.Job.Name, r.Name)
			}
		}
	}
	if len(runs) > 0 {
		return out
	}
	for _, g := range l.CornerGroups() {
		if !byHand(g[0]) {
			say := b.on(g[0].Perimeter.Job).say
			add(view.CornerPlan(say, l.Corner(g[0])).Scene("", viewWide, viewHigh), "corner", g[0].Mark)
		}
	}
	for _, c := range l.SectionCases() {
		say := b.on(c.Run.Perimeter.Job).say
		add(view.Section(say, l.Section(c.Run, c.Chair.At, c.Chair, nil), view.SectionDetailed).Scene("", viewWide,
			viewHigh), "section", c.Chair.Name)
		for _, q := range c.Joints {
			say := b.on(q.Run.Perimeter.Job).say
			add(view.Section(say, l.SectionAtJoint(q.Run, q.Joint), view.SectionDetailed).Scene("", viewWide,
				viewHigh), "section", q.Joint.Name)
		}
	}
	for _, f := range l.Families {
		for _, q := range b.blanksOf(f) {
			add(view.FlatPattern(b.say, f.Mark, q, viewWide, viewHigh), "flat", f.Mark, q.Name)
		}
		if len(f.Bodies) > 0 {
			add(view.FormedTop(b.say, b.formedOf(f), viewHigh/3, viewHigh/4), "top", f.Mark)
			add(view.FormedSolid(b.say, b.formedOf(f), viewHigh/3, viewHigh/4), "formed", f.Mark)
		}
	}
	return out
}
