package view

import (
	"copingset/drawing"
	"copingset/drawing/words"
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
	if r.Diameter.Real > 0 {
		return d.say.Say(words.FlatReliefDrilled, words.In("diameter", drawing.Letter(d.st.Exact(r.Diameter.Real))))
	}
	return d.say.Say(
		words.FlatRelief,
		words.In("width", drawing.Letter(d.st.Exact(r.Width.Real))),
		words.In("depth", drawing.Letter(d.st.Exact(r.Depth.Real))),
	)
}
