package shop

import (
	"errors"
	"fmt"
	"math"

	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/job"
)

// tee are the two bodies of a tee: the main cap, and the stub of the branch.
//
// The stub is cut square and stands in the plane of the main's rear leg, its
// front leg, top and rear leg against the edges of an opening in that leg. What
// the opening leaves under the main's rear fold reaches down to the branch's
// top: a strip that is as deep as the drop at the branch's front fold and
// deeper, by the fall of the top, at its rear fold. The gap of the weld comes
// off the stub.
func (b *builder) tee(p *cap.Piece, m measures) []raw {
	t := p.Tee
	wide, stub := (p.Inside + 2*b.s.Metal.Thickness).MM(), (t.Inside + 2*b.s.Metal.Thickness).MM()
	from, to := (t.Edge[0] - t.From).MM(), (t.Edge[1] - t.From).MM()
	long := p.Parts[0].Length().MM()
	deep := [2]float64{t.Drop.MM() + m.slope*(to-from), t.Drop.MM()}
	if p.Hand == cap.LeftHand { // the high edge is at the left hand
		deep[0], deep[1] = deep[1], deep[0]
	}
	main := raw{name: "main"}.tray(b.teeMain(m, wide, long, from, to, deep))
	stubLong, gap := p.Parts[1].Length().MM(), b.shop.WeldGap.MM()
	left, right := square(gap), square(stubLong)
	if !t.Starts {
		left, right = square(0), square(stubLong-gap)
	}
	branch := b.sheet(raw{name: "branch"}, m, section{stub, m.slope}, fold.Cut{Seam: left}, fold.Cut{Seam: right})
	return []raw{main, branch}
}

// errOpeningInFold: a branch that stands so high leaves nothing of the rear leg to
// bend.
var errOpeningInFold = errors.New("the opening for the branch reaches into the roof-side fold")

// teeMain is a cap of a length whose rear leg has an opening between two
// stations, open at the foot, under a slanting edge: so deep below the rear fold
// at its left end and at its right. The foot is in two, each with its hook.
func (b *builder) teeMain(m measures, wide, long, from, to float64, deep [2]float64) (fold.Tray, error) {
	at := func(x, y float64) fold.Vec { return fold.FromLayout(x, y, -m.slope*y) }
	out := fold.Tray{Face: fold.Face{Name: "top", Corners: []fold.Vec{at(0, wide), at(long, wide), at(long, 0),
		at(0, 0)}}}
	for _, edge := range []int{2, 0} {
		c := out.Face.Corners
		path, err := b.wing(m, c[edge], c[edge+1], edge == 2)
		if err != nil {
			return out, err
		}
		w := fold.Wing{Edge: edge, Path: path, Street: edge == 2, Left: fold.Cut{Seam: fold.Square(0, false)},
			Right: fold.Cut{Seam: fold.Square(long, true)}}
		if edge == 0 {
			// A depth below the mold line on what the leg is developed to.
			s := func(d float64) float64 {
				return path.Segs[0].Arc + d - path.Outside(0, fold.ToMoldLine, fold.ToMoldLine) + path.Segs[0].Flat
			}
			end := path.Girth() - path.Segs[0].Flat
			if s(math.Min(deep[0], deep[1])) < path.Segs[0].Arc {
				return out, errOpeningInFold
			}
			w.Mouth = []fold.Point{{X: from, Y: end}, {X: from, Y: s(deep[0])}, {X: to, Y: s(deep[1])}, {X: to, Y: end}}
		}
		out.Wings = append(out.Wings, w)
	}
	return out, nil
}

// teeKey tells tees apart, and is that of the mirror image where asked.
func teeKey(p *cap.Piece, mirrored bool) string {
	hand := p.Hand
	if mirrored {
		hand = other(hand)
	}
	t := p.Tee
	return fmt.Sprint("y", int64(p.Parts[0].Length()), "/", int64(p.Parts[1].Length()), "/", int64(t.Edge[0]-t.From),
		"/", int64(p.Inside), "/",
		int64(t.Inside), "/", int64(t.Drop), "/", int(hand))
}

// teeSentence says how a tee lies, by what a person on the roof sees.
func teeSentence(p *cap.Piece) string {
	end := "R" // of the branch's own drawing, whose hands are those of one who looks out over the branch
	if p.Tee.Starts {
		end = "L"
	}
	return "Standing on the roof facing the street, the branch comes towards you and its high, " +
		"street-side edge is at your " +
		p.Hand.String() +
		" hand; each leg is " + job.Both(p.Tee.Edge[0]-p.Tee.From) + " and the branch " +
		job.Both(p.Parts[1].Length()) + " long. The branch's flat pattern is welded to the main at its " + end +
		" edge."
}
