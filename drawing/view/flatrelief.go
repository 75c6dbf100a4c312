package view

import (
	"copingset/drawing"
)

// reliefs mark the places of the outline where it is relieved.
func (d *flat) reliefs(g *drawing.Scene) {
	for _, p := range d.Reliefs {
		g.Circle(drawing.Thin, d.m.at(p), 130)
	}
}

// reliefWords say what is cut there, once for the drawing; nothing where
// nothing is.
func (d *flat) reliefWords() string {
	if len(d.Reliefs) == 0 {
		return ""
	}
	r := d.Relief
	if r.Diameter > 0 {
		return " Relief drilled Ø\u00a0" + drawing.Letter(d.st.Exact(r.Diameter)) + " at every bend end marked with a ring."
	}
	return " Relief " + drawing.Letter(d.st.Exact(r.Width)+" wide × "+d.st.Exact(r.Depth)) + " deep along the bend at every bend end marked with a ring, and as deep both ways where two bends cross."
}
