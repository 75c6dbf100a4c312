package shop

import (
	"fmt"
	"strconv"
	"strings"

	"copingset/layout/cap"
	"copingset/layout/job"
)

func itoa(n int) string { return strconv.Itoa(n) }

// A shop mark is a plain number of three digits or more, which no run, chair, joint,
// support, piece or assembly is called: families of pieces from firstMark on in
// station order, parts that go under them from the next hundred.
const firstMark = 101

// partsFrom is the mark of the first part where so many families are made.
func partsFrom(families int) int { return firstMark + (families+99)/100*100 }

// madeTurn is the turn a miter is made to.
func madeTurn(m cap.Miter) job.Angle { return m.Corner.CapTurn }

// keyOf tells pieces apart that are not made alike.
func keyOf(p *cap.Piece) string { return key(p, false) }

// mirrorKey is the key of a piece's mirror image.
func mirrorKey(p *cap.Piece) string { return key(p, true) }

func key(p *cap.Piece, mirrored bool) string {
	if p.Kind == cap.Tee {
		return teeKey(p, mirrored)
	}
	var parts []string
	at := func(i, n int) int {
		if mirrored {
			return n - 1 - i
		}
		return i
	}
	n := len(p.Parts)
	for i := range n {
		q := p.Parts[at(i, n)]
		parts = append(parts, fmt.Sprint("l", int64(q.Length()), "/", int64(q.Inside())))
		for k := range p.Cutouts {
			o := p.Cutouts[at(k, len(p.Cutouts))]
			if !ofRun(o, q) {
				continue
			}
			front := q.Run.FrontStation(o.Station)
			x := q.Run.ToCap(front) - q.From
			if mirrored {
				x = q.Length() - x
			}
			parts = append(parts, fmt.Sprint("o", int64(x), "/", int64(q.Run.At(front).Gap+o.FromFace), "/",
				int64(o.Extent), "/", int64(o.Depth)))
		}
	}
	for i := range p.Miters {
		m := p.Miters[at(i, len(p.Miters))]
		arrive, leave := m.Trim[0], m.Trim[1]
		if mirrored {
			arrive, leave = leave, arrive
		}
		made := fmt.Sprint("m", int64(arrive), "/", int64(leave), "/", int64(madeTurn(m)))
		if m.Corner.Straight() {
			made = fmt.Sprint("p", int64(m.Corner.Bend))
		}
		parts = append(parts, made)
	}
	left, right, hand := p.LeftEnd, p.RightEnd, p.CutAt
	if mirrored {
		left, right = right, left
		hand = other(hand)
	}
	if p.Allowance == 0 {
		hand = cap.NoHand
	}
	if p.Kind == cap.Transition {
		wide := p.Hand
		if mirrored {
			wide = other(wide)
		}
		parts = append(parts, fmt.Sprint("t", int64(p.Wide), "/", int64(p.Narrow), "/", int(wide)))
	}
	parts = append(parts, fmt.Sprint("e", int(left), "/", int(right)), fmt.Sprint("w", int64(p.Inside)),
		fmt.Sprint("a", int64(p.Allowance), "/", int(hand)))
	return strings.Join(parts, " ")
}

func other(h cap.Hand) cap.Hand {
	switch h {
	case cap.LeftHand:
		return cap.RightHand
	case cap.RightHand:
		return cap.LeftHand
	}
	return h
}
