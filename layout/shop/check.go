package shop

import (
	"fmt"
	"math"
	"strings"

	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
)

// metal checks the radius against the metal, once for the job.
func (b *builder) metal() {
	if r := b.s.Profile.InsideR; r < b.shop.LeastRadius {
		b.found.Append(finding.Finding{
			Code: "radius-under-least", Severity: finding.Hold, At: b.s.At,
			What: "the inside bend radius is " + job.Both(r) + ", under the least this metal takes, " +
				job.Both(b.shop.LeastRadius),
			Why:  "bent tighter, the metal or its finish cracks",
			Mend: "ask the fabricator for the radius it bends this metal with",
		})
	}
	street, roof := b.s.Profile.Hems()
	for _, e := range []struct {
		name string
		kick job.Kick
		leg  length.Length
		hem  length.Length
	}{{"drip", b.s.Profile.Drip, b.s.FrontFoot(), street.Return}, {"hook", b.s.Profile.RearHook, b.s.RearFoot(),
		roof.Return}} {
		on, room := e.name, e.kick.Length
		if room == 0 {
			e.name, room = "leg", e.leg
		}
		if h := e.hem; h > room {
			b.found.Append(finding.Finding{
				Code: "hem-too-deep", Severity: finding.Hold, At: b.hemAt(on),
				What: "the hem returns " + job.Both(h) + " on a " + e.name + " of " + job.Both(room),
				Why:  "a hem lies flat on the flange it is folded from and cannot be deeper",
				Mend: "ask the fabricator for its hem and its " + e.name,
			})
		}
	}
	if b.s.Profile.Drip.Angle > b.shop.MostTurn || b.s.Profile.RearHook.Angle > b.shop.MostTurn {
		b.found.Append(finding.Finding{
			Code: "bend-over-most", Severity: finding.Hold, At: b.s.At,
			What: "the drip or the hook turns further than the brake bends, " + job.FormatAngle(b.shop.MostTurn),
			Mend: "ask the fabricator for its own drip and hook",
		})
	}
}

// check holds the pieces of a family that the shop cannot make as drawn.
func (b *builder) check(f *Family) {
	const meet = "make the flange deeper, the bend blunter or its radius smaller, or leave the hem off"
	switch {
	case f.crowded:
		b.every(f, "bends-meet", f.fails, "two bends that meet leave no flat between them", meet)
	case f.fails != "":
		b.every(f, "cannot-unfold", f.fails, "a flange shorter than its bends, or turned so far, has no flat pattern",
			"have the fabricator detail it by hand, or change the profile")
	}
	// Less than the job's own drop is a hold already.
	if f.Kind == cap.Tee && f.Pieces[0].Tee.Drop >= b.s.Tee.DropLeast && f.Pieces[0].Tee.Drop < b.shop.LeastFlange {
		b.everyAt(b.shop.FlangeAt, f, "flange-too-short",
			fmt.Sprintf("what is left of the roof-side leg over the branch is %s deep, "+
				"and the brake holds no less than %s",
				job.Both(f.Pieces[0].Tee.Drop), job.Both(b.shop.LeastFlange)),
			"a flange the brake cannot hold slips and bends askew", "a greater `tee: drop: least:`")
	}
	b.tested(f)
	for _, body := range f.Bodies {
		if name, least := narrowest(body); least < b.shop.LeastFlange.MM()-1e-6 {
			l := length.FromMM(least)
			b.everyAt(b.shop.FlangeAt, f, "flange-too-short", deepWords(name, body.Name, job.Both(l),
				job.Both(b.shop.LeastFlange)),
				"a flange the brake cannot hold slips and bends askew",
				"have the fabricator say how it makes this flange")
		}
		for _, p := range body.paths {
			b.hems(f, p)
		}
		if code, what, mend := b.machine(body.Name, body); code != "" {
			b.every(f, code, what, "", mend)
		}
		if !body.relieved {
			b.every(f, "relief-crowded", "the reliefs of the "+body.Name+" run into one another or into an edge", "",
				"make the relief smaller, or have the fabricator place it")
		}
		if l := length.FromMM(math.Floor(longest(body))); l > b.shop.Brake {
			b.every(f, "longer-than-brake", fmt.Sprintf("the %s bends over %s, and the brake takes %s", body.Name,
				job.Both(l), job.Both(b.shop.Brake)),
				"", "shorten `stock:` or name a longer brake")
		}
		if !b.fits(body) {
			mend := "add a wider or longer sheet under `shop: sheets:`"
			if trim := b.trimmedOff(body); trim != "" {
				mend = trim + ": check it, or " + mend
			}
			b.every(f, "no-sheet", fmt.Sprintf("the blank of the %s is %s wide and %s long, and no sheet takes it",
				body.Name, job.Both(body.Girth), job.Both(body.Length)),
				"the grain runs along the sheet and a blank is not turned", mend)
		}
	}
}

// fits reports whether a sheet of the job takes a blank.
func (b *builder) fits(body Body) bool {
	for _, s := range b.shop.Sheets {
		if body.Girth <= s.Width-2*b.shop.EdgeTrim && body.Length <= s.Length-2*b.shop.EndTrim {
			return true
		}
	}
	return false
}

// trimmedOff names the trims without which a sheet would take a blank; empty if none
// would.
func (b *builder) trimmedOff(body Body) string {
	for _, s := range b.shop.Sheets {
		if body.Girth > s.Width || body.Length > s.Length {
			continue
		}
		var trims []string
		if body.Girth > s.Width-2*b.shop.EdgeTrim {
			trims = append(trims, "`edge_trim`, "+job.Both(b.shop.EdgeTrim))
		}
		if body.Length > s.Length-2*b.shop.EndTrim {
			trims = append(trims, "`end_trim`, "+job.Both(b.shop.EndTrim))
		}
		return "a sheet of " + job.Both(s.Width) + " by " + job.Both(s.Length) + " would take it but for its " +
			strings.Join(trims, " and its ")
	}
	return ""
}

func (b *builder) every(f *Family, code, what, why, mend string) {
	b.everyAt(b.shop.At, f, code, what, why, mend)
}

// everyAt is every at the line of the job that says what cannot be made.
func (b *builder) everyAt(at finding.Place, f *Family, code, what, why, mend string) {
	for _, p := range f.Pieces {
		b.holdAt(at, p, code, what, why, mend)
	}
}

// Hands of a family, as a person on the roof sees it: one sentence.
func (f *Family) Sentence() string {
	side := func(h cap.Hand) string { return h.String() + " hand" }
	p := f.Pieces[0]
	switch f.Kind {
	case cap.EndCap:
		return "Standing on the roof, the closed end is at your " + side(f.Hand) + "."
	case cap.WallEnd:
		return "Standing on the roof, the flange is at your " + side(f.Hand) + "."
	case cap.Corner, cap.DoubleMiter, cap.Combined:
		return corner(p) + f.covers()
	case cap.PitchMiter:
		return pitched(p)
	case cap.Tee:
		return teeSentence(p)
	case cap.Transition:
		return "Standing on the roof, the wide end is at your " + side(f.Hand) + "."
	}
	if p.Allowance > 0 {
		return "Standing on the roof, the end to cut is at your " + side(p.CutAt) + "."
	}
	if keyOf(p) != mirrorKey(p) {
		return "Standing on the roof, " + holes(p)
	}
	return NoHand
}

// NoHand is the sentence of a family that is its own mirror image.
const NoHand = "It has no hand: left and right are alike."

// holes tell the ends of a straight piece apart by what is cut out of it.
func holes(p *cap.Piece) string {
	q := p.Parts[0]
	var lean length.Length // of the holes' middles to the right of the middle
	for _, o := range p.Cutouts {
		lean += 2*(q.Run.ToCap(q.Run.FrontStation(o.Station))-q.From) - q.Length()
	}
	nearer := "hole is"
	if len(p.Cutouts) > 1 {
		nearer = "holes lie"
	}
	switch {
	case lean < 0:
		return "the " + nearer + " nearer your left hand."
	case lean > 0:
		return "the " + nearer + " nearer your right hand."
	}
	return "the holes are not alike at both hands: look at the drawing."
}

// corner tells the legs of a mitered piece apart.
func corner(p *cap.Piece) string {
	first, last := p.Parts[0].Length(), p.Parts[len(p.Parts)-1].Length()
	s := "Standing on the roof, "
	switch {
	case len(p.Miters) == 0:
		return s + "both ends are closed."
	case first > last:
		s += "the longer leg is at your left hand"
	case first < last:
		s += "the longer leg is at your right hand"
	case p.Narrow == p.Wide:
		s += "both end legs are alike"
	default:
		s += "both end legs are equally long"
	}
	s += widerLeg(p)
	for i, m := range p.Miters {
		turn := "an outside corner"
		if m.Corner.Turn < 0 {
			turn = "an inside corner"
		}
		if i == 0 {
			s += "; it turns " + turn
		} else {
			s += ", then " + turn
		}
	}
	switch {
	case p.LeftEnd != job.EndTurn:
		s += "; the closed end is at your left hand"
	case p.RightEnd != job.EndTurn:
		s += "; the closed end is at your right hand"
	}
	return s + "."
}

// widerLeg tells the legs of a corner of two widths apart.
func widerLeg(p *cap.Piece) string {
	if p.Narrow == p.Wide {
		return ""
	}
	first, last := p.Parts[0].Inside(), p.Parts[len(p.Parts)-1].Inside()
	switch {
	case first > last:
		return "; the wider leg is at your left hand"
	case first < last:
		return "; the wider leg is at your right hand"
	case first == p.Wide:
		return "; its middle is narrower than its end legs"
	}
	return "; its middle is wider than its end legs"
}

// pitched tells the legs of a pitch miter apart.
func pitched(p *cap.Piece) string {
	over := "over a " + p.Miters[0].Corner.Pitch.String()
	switch left, right := p.Parts[0].Length(), p.Parts[1].Length(); {
	case left > right:
		return "Standing on the roof, the longer leg is at your left hand, " + over + "."
	case left < right:
		return "Standing on the roof, the longer leg is at your right hand, " + over + "."
	}
	return NoHand
}

// tested holds pieces whose front edge is hemmed in another way than the report of
// their assembly says: what hooks the front is a part of what was tested.
func (b *builder) tested(f *Family) {
	street, _ := b.s.Profile.Hems()
	if street.Return == 0 {
		return
	}
	for _, p := range f.Pieces {
		if a := p.Assembly; a != nil && a.FrontHem != street.Kind {
			b.holdAt(b.shop.At, p, "hem-not-tested", testedWords(street.Kind, a),
				"the hem is what holds the front down",
				"the hem of the report, or an assembly tested with this one (`front_hem:`)")
		}
	}
}

// hemAt is where the job writes the hem that lies on a flange.
func (b *builder) hemAt(flange string) finding.Place {
	p := &b.s.Profile
	switch {
	case p.RearHem != nil && (flange == "hook" || flange == "rear leg"):
		return p.RearHemAt
	case !p.HemAt.IsZero():
		return p.HemAt
	}
	return b.s.At
}

// hems holds a body whose hem does not lie on its own flange: the leaf reaches
// past the tangent of the next bend, or the folded section runs into itself.
func (b *builder) hems(f *Family, p fold.Path) {
	for i, s := range p.Segs {
		if !p.Hem(i) {
			continue
		}
		flange := 1
		if i > 0 {
			flange = i - 1
		}
		if over := s.Flat - p.Segs[flange].Flat; over > 1e-6 {
			on := p.Segs[flange]
			b.everyAt(b.hemAt(on.Name), f, "hem-over-bend", hemWords(job.Both(length.FromMM(s.Flat)),
				job.Both(length.FromMM(on.Flat)), on.Name),
				"a hem that reaches across the bend beside it can be neither folded flat nor bent",
				"a shorter hem, or a longer "+on.Name)
			return
		}
	}
	if c, bad := p.Lay().Clash(); bad {
		b.every(f, "metal-in-metal", fmt.Sprintf("the %s and the %s would stand %s in one another", c.A, c.B,
			thin(length.FromMM(c.Deep))),
			"", "a shorter hook or hem, a blunter turn, or a greater radius")
	}
}
