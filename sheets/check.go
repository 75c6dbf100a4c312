package sheets

import (
	"fmt"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
)

// Fault is something a reader of a sheet or of a view would stumble over.
type Fault struct {
	Sheet   string // "sheet 4 (run-roof-n)" or "view plan-roof-n"
	Problem drawing.Problem
}

func (f Fault) String() string { return fmt.Sprintf("%s: %v", f.Sheet, f.Problem) }

// Check draws the whole packet and every view and looks each over: texts over
// texts or across thick lines, marks outside the frame, lettering too small or
// without a glyph, chains whose printed parts do not sum, drawings with nothing
// in them.
func Check(l *layout.Layout, o Options) []Fault { return CheckDrawn(l, Packet(l, o)) }

// Look looks one sheet over. A sheet with faults says so in its strip, for whoever holds
// its print.
func Look(l *layout.Layout, o Options, p *Sheet) []Fault {
	var out []Fault
	for _, q := range drawing.Check(p.Scene) {
		out = append(out, Fault{"sheet " + p.Number + " (" + p.ID + ")", q})
	}
	if len(out) > 0 {
		r := paper{p.Scene.W, p.Scene.H}.room(false)
		p.Scene.Group(drawing.Holds, "", func(g *drawing.Scene) {
			g.Text(drawing.Pt(r.Min.X, r.Max.Y+370), o.words(l.Job).Count(words.FrameFaults, len(out),
				words.In("n", itoa(len(out)))), drawing.Style{Size: drawing.Small, Face: drawing.Bold})
		})
	}
	return out
}

// CheckDrawn is Check for a packet that is drawn already.
func CheckDrawn(l *layout.Layout, packet []Sheet) []Fault {
	var out []Fault
	add := func(where string, s drawing.Scene) {
		for _, p := range drawing.Check(s) {
			out = append(out, Fault{where, p})
		}
	}
	for _, p := range packet {
		add("sheet "+p.Number+" ("+p.ID+")", p.Scene)
	}
	for _, v := range Views(l) {
		add("view "+v.Name, v)
	}
	return out
}
