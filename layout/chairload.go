package layout

import (
	"slices"

	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/job"
)

// LoadRow is what the wind asks of the chairs of one assembly on one run: of each
// load case the chair that is asked the most of what it holds.
type LoadRow struct {
	Run        *Run
	Assembly   *job.Assembly
	Chairs     int
	Up, Out    ChairLoading
	Rear       ChairLoading // nothing where no pressure on it is known
	Hook, Snap ChairLoading // the top at the chair's two edges; nothing where the report does not part them
	Beam       ChairLoading // the top as one stiff cap; nothing where the report does not say how the specimen stood
	Worst      float64      // the greatest ratio
	Passes     bool
	ByTheChair bool // the report gives the force of one chair
}

// ChairLoading is one load case of a chair.
type ChairLoading struct {
	Chair *Chair
	anchor.Loading
}

// ChairLoads lists them in the order of the runs and their chairs; none where no
// pressures are known.
func (l *Layout) ChairLoads() []LoadRow {
	var out []LoadRow
	for _, r := range l.Runs() {
		first := len(out)
		for _, c := range r.Chairs {
			if !c.Load.Known || c.Assembly == nil {
				continue
			}
			k := slices.IndexFunc(out[first:], func(o LoadRow) bool { return o.Assembly == c.Assembly })
			if k < 0 {
				k = len(out) - first
				out = append(out, LoadRow{Run: r, Assembly: c.Assembly, Passes: true,
					ByTheChair: c.Assembly.OneChair != nil})
			}
			o := &out[first+k]
			o.Chairs++
			for _, q := range []struct {
				to   *ChairLoading
				load anchor.Loading
			}{{&o.Up, c.Load.Up}, {&o.Out, c.Load.Out}, {&o.Rear, c.Load.Rear}, {&o.Beam, c.Load.Beam},
				{&o.Hook, c.Load.Hook}, {&o.Snap, c.Load.Snap}} {
				if q.load.Holds > 0 && (q.to.Chair == nil || q.load.Ratio() > q.to.Ratio()) {
					*q.to = ChairLoading{c, q.load}
				}
			}
			o.Worst, o.Passes = max(o.Worst, c.Load.Ratio()), o.Passes && !c.Load.Over()
		}
	}
	return out
}

// TurnedRow is how a piece that turns is held down.
type TurnedRow struct {
	*anchor.Turned
	Kind     string
	Chairs   int
	Supports []*Support
	Hooked   bool    // its supports hold it down
	Worst    float64 // of its hooked supports: demand over what somebody answers for; zero where that is not compared
	Passes   bool
}

// TurnedRows lists the pieces that turn, in the order of the perimeters.
func (l *Layout) TurnedRows() []TurnedRow {
	var out []TurnedRow
	for _, p := range l.Perimeters {
		for _, t := range p.Turned {
			row := TurnedRow{Turned: t, Kind: t.Piece.KindName(), Passes: t.Held || t.Covered}
			for _, r := range l.Runs() {
				for _, c := range r.Chairs {
					on := c.Piece == t.Piece || c.Joint != nil && c.Joint.Kind != cap.Expansion &&
						c.Joint.Right == t.Piece
					if on {
						row.Chairs++
					}
				}
			}
			for _, s := range p.Supports {
				if s.Piece != t.Piece {
					continue
				}
				row.Supports = append(row.Supports, s)
				row.Hooked = row.Hooked || s.Load.Holds > 0
				row.Worst = max(row.Worst, s.Load.Ratio())
			}
			row.Passes = row.Passes && row.Worst <= 1+1e-6
			out = append(out, row)
		}
	}
	return out
}
