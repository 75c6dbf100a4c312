package shop

import (
	"fmt"
	"slices"
	"strings"

	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/job"
)

// seam checks how the seams of pieces are joined. Where the job does not say how, their
// gap alone is judged: nothing is known to stand behind it.
func (b *builder) seam(families []*Family) {
	for _, f := range families {
		switch r := b.shop.Seam; {
		case len(f.Bodies) < 2:
		case r != nil:
			b.seamOf(f, r)
		case b.shop.WeldGap > b.s.Metal.Thickness:
			b.gapWide(f)
		}
	}
}

// gapWide holds a piece whose edges stand farther apart than its metal is thick, with
// nothing behind them.
func (b *builder) gapWide(f *Family) {
	b.everyAt(b.shop.WeldGapAt, f, "seam-gap",
		"the seams stand "+job.Both(b.shop.WeldGap)+" open, and the metal is "+thin(b.s.Metal.Thickness)+" thick",
		"a weld without a backer does not bridge more than the metal is thick",
		"a smaller `weld_gap:`, or a backer under `seam:`")
}

func (b *builder) seamOf(f *Family, r *job.SeamRules) {
	n := 0
	for _, body := range f.Bodies {
		if body.Name != "end plate" {
			n++
		}
	}
	coated := b.coated(r)
	unlapped := n > 1 && r.Backer == "" && b.butts(f) > 0
	backer := "name the backer or the lap under `seam:`"
	if r.Lap != nil {
		backer = "name the `backer:` under `seam:` that such a butt is made on, beside the laps of the others"
	}
	switch {
	case r.Process == job.Weld && coated != "":
		b.everyAt(r.At, f, "weld-on-coating", "the seams are welded, and the metal "+coated,
			"the heat of a weld burns a coating off and boils zinc away",
			"the fabricator confirms its weld on this metal, or `seam:` says solder, or rivet and seal, or finish: "+
				"after")
	case r.Process == job.Weld && r.Backer == "" && b.shop.WeldGap > b.s.Metal.Thickness:
		b.gapWide(f)
	case r.Process == job.RivetAndSeal && unlapped:
		b.everyAt(r.At, f, "seam-backer",
			"the seams are riveted and sealed, and no backer is stated for "+b.whichButt(f),
			"two edges that only meet hold no rivet", backer)
	case r.Process == job.Solder && unlapped:
		b.everyAt(r.At, f, "seam-backer", "the seams are soldered, and no backer is stated for "+b.whichButt(f),
			"solder holds between two faces, and two edges that only meet have none", backer)
	case r.Lap != nil && unlapped:
		b.everyAt(r.Lap.At, f, "seam-unlapped", "the seams are to lap, and "+b.whichButt(f)+" has none",
			"the legs would only meet there, with nothing behind the weld",
			"name the `backer:` under `seam:` that such a butt is made on, or leave `lap:` out where the fabricator "+
				"welds butts")
	}
	if lap := r.Lap; lap != nil && f.Covering != cap.NoHand && lap.Width < b.shop.LeastFlange {
		b.everyAt(lap.At, f, "lap-narrow",
			"the seams lap "+job.Both(lap.Width)+", and the brake holds no flange under "+job.Both(b.shop.LeastFlange),
			"the tabs are bent like any flange", "a wider lap under `seam:`")
	}
	if q := r.Rivets; q != nil && r.Lap != nil && f.Covering != cap.NoHand && 2*q.Edge > r.Lap.Width {
		b.everyAt(r.At, f, "rivet-off-lap",
			"its rivets stand "+job.Both(q.Edge)+" from an edge, and the seams lap "+job.Both(r.Lap.Width),
			"a rivet stands as far from the edge of the tab as from that of the metal over it",
			"a wider lap, or a smaller `edge:`")
	}
}

// coated says why a weld burns the metal; nothing where it does not.
func (b *builder) coated(r *job.SeamRules) string {
	metal, finish := strings.ToLower(b.s.Metal.Name), strings.ToLower(b.s.Metal.Finish)
	switch {
	case strings.Contains(metal, "zinc"), strings.Contains(metal, "galvan"):
		return "is " + b.s.Metal.Name
	case !r.After && finish != "" && !strings.Contains(finish, "mill"):
		return "is finished before it is joined (" + b.s.Metal.Finish + ")"
	}
	return ""
}

// butts counts the seams of a piece that have no lap.
func (b *builder) butts(f *Family) int {
	p := f.Pieces[0]
	if len(p.Miters) == 0 || p.Kind == cap.Tee || p.Kind == cap.Transition {
		return 1
	}
	n := 0
	for _, m := range p.Miters {
		if _, ok := b.lapped(m); !ok {
			n++
		}
	}
	return n
}

// whichButt says which seams of a piece have no lap, and why.
func (b *builder) whichButt(f *Family) string {
	p := f.Pieces[0]
	switch {
	case b.shop.Seam.Lap == nil:
		return "them, nor a lap"
	case p.Kind == cap.Tee, p.Kind == cap.Transition:
		return fmt.Sprintf("the butt that a %s has", p.KindName())
	}
	if slices.ContainsFunc(p.Miters, cap.Miter.Two) {
		return "the butt of a corner of two widths"
	}
	return "a turn so small that its tab is wider than the lap"
}

// cutBack ends hems, hooks and drips before a seam, by the job: a hem together with its
// fold and the flange that it lies on.
func (b *builder) cutBack(p fold.Path, c fold.Cut) fold.Cut {
	if b.shop.Seam == nil || b.shop.Seam.CutBack == 0 {
		return c
	}
	l, back := p.Lay(), b.shop.Seam.CutBack.MM()
	joined := false
	for i, g := range p.Segs {
		if g.Name != "hem" && g.Name != "hook" && g.Name != "drip" {
			joined = false
			continue
		}
		from, to := l.Span(i)
		if joined {
			c.Notches[len(c.Notches)-1].To = to
		} else {
			c.Notches = append(c.Notches, fold.Notch{From: from, To: to, Back: back})
		}
		joined = true
	}
	return c
}
