package sheets

import (
	"slices"
	"strings"

	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// runParticulars are what is particular to runs and not said on their first sheet.
func (b *book) runParticulars(lined bool, runs ...*layout.Run) []block {
	var rows [][]lineRow
	notes := list{title: b.say.Say(words.RunNotes), tight: true}
	for _, r := range runs {
		rows = append(rows, b.lineFacts(r))
		for _, n := range b.runNotes(r) {
			if len(runs) > 1 {
				n.words = r.Name + ": " + n.words
			}
			notes.say(n.words, n.names)
		}
	}
	if !lined {
		var lines []string
		for _, r := range runs {
			if said := view.ElevationLines(b.say, b.planOf(r)); said != "" && !slices.Contains(lines, said) {
				lines = append(lines, said)
			}
		}
		notes.items = append(notes.items, lines...)
	}
	out := []block{b.lineTable(b.say.Say(words.RunLineTitle), merged(runs, rows))}
	if len(notes.items) > 0 {
		out = append(out, notes)
	}
	return out
}

// runNotes are what is true of this run alone.
func (b *book) runNotes(r *layout.Run) (out []lettered) {
	switch {
	case len(r.Chairs) == 0 && len(r.Joints) == 0 && len(r.Parts) > 0:
		var marks []string
		for _, t := range r.Parts {
			marks = append(marks, t.Piece.Mark)
		}
		out = append(out, lettered{words: b.say.Say(words.RunElsewhere, words.In("pieces", strings.Join(marks, ", ")))})
	case len(r.Chairs) == 0:
		out = append(out, lettered{words: b.say.Say(words.RunChairless)})
	}
	for _, q := range b.l.Pitches(r) {
		if q.Over() {
			out = append(out, lettered{b.say.Say(words.RunPitch, words.In("name", prose(q.Assembly.Name)),
				words.In("most", b.small(q.Most)), words.In("tested", b.small(q.Assembly.ChairSpacing))),
				layout.AllNamed(factsOf(layout.FactOfRun(r), layout.PitchOf(q.Assembly)),
					factsOf(layout.FactOfAssembly(q.Assembly), "name", "chair-spacing"))})
		}
	}
	for _, q := range b.l.LooseJoints(r) {
		joint, gap, plate := words.In("joint", local(q.Mark, r.Name)), words.In("gap", b.small(q.Gap)),
			words.In("plate", b.small(q.Plate))
		note, names := b.say.Say(words.RunLooseNoteUnstated, joint, gap, plate), []string{"gap", "plate"}
		if q.Moves {
			note = b.say.Say(words.RunLooseNote, joint, gap, plate, words.In("move", b.small(q.Movement)))
			names = append(names, "movement")
		}
		out = append(out, lettered{sentences(note, b.say.Say(side(q, words.RunLooseNoteLeft, words.RunLooseNoteRight))),
			factsOf(q.Mark, names...)})
	}
	for _, o := range b.planOf(r).Obstacles {
		for _, h := range o.Holes {
			hole := b.holeOf(o.Mark, []length.Length{o.Extent, o.Depth}, h.FromLeft, h.FromFront, o.FromFace)
			out = append(out, lettered{b.say.Say(words.RunHole, words.In("piece", h.Piece), words.In("hole", hole)),
				b.holeNamed(h.Piece, o.Mark)})
		}
	}
	return out
}

// holeNamed names what is lettered of the hole of a piece that an obstacle asks for.
func (b *book) holeNamed(piece, obstacle string) string {
	for _, p := range b.l.Perimeters {
		for _, q := range p.Pieces {
			for i, o := range q.Cutouts {
				if q.Mark == piece && o.Name == obstacle {
					return holeFacts(q.Mark, i)
				}
			}
		}
	}
	return ""
}

// side is what is said of the side on which the plate of a loose joint is fixed.
func side(q plan.JointRow, left, right words.Key) words.Key {
	if q.Fixed == plan.LeftHand.String() {
		return left
	}
	return right
}

// sentences are whole sentences one after the other, without the empty ones.
func sentences(all ...string) string {
	return strings.Join(slices.DeleteFunc(all, func(s string) bool { return s == "" }), " ")
}
