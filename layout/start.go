package layout

import (
	"cmp"
	"slices"
)

// Start is how far a run can be laid while a piece is missing.
type Start struct {
	Run    *Run
	Free   bool     // the piece is none of its own
	Before []string // what is laid on the run before the piece, in the order of laying
}

// StartsWithout tells of each run how far it can be laid without a piece.
func (l *Layout) StartsWithout(missing *Piece) []Start {
	var out []Start
	for _, r := range l.Runs() {
		s := Start{Run: r, Free: true}
		var before []*Piece
		for _, t := range r.Parts {
			switch {
			case t.Piece == missing:
				s.Free = false
			case t.Piece.Laying < missing.Laying && !slices.Contains(before, t.Piece):
				before = append(before, t.Piece)
			}
		}
		if !s.Free {
			slices.SortFunc(before, func(a, b *Piece) int { return cmp.Compare(a.Laying, b.Laying) })
			for _, q := range before {
				s.Before = append(s.Before, q.Mark)
			}
		}
		out = append(out, s)
	}
	return out
}
