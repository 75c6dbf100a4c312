package view

import (
	"fmt"
	"strings"

	"copingset/layout/length"
	"copingset/layout/plan"
)

// short letters a length under a foot without its zero feet, with the unit
// where a list has no note to say it.
func (s *sectionView) short(l length.Length) string {
	if s.crew.Metric {
		return s.crew.Short(l) + " mm"
	}
	return s.crew.Short(l)
}

// thin letters a sheet thickness with as many decimals as it has, up to what a
// gauge reads.
func (s *sectionView) thin(l length.Length) string {
	if s.crew.Metric {
		return trimmed(length.Millimetres(l, 2)) + " mm"
	}
	return length.Decimal(l, 3)
}

// size letters a diameter, which is named and never rounded: 7.5 mm, 1/4".
func (s *sectionView) size(l length.Length) string {
	if s.crew.Metric {
		return s.crew.Exact(l) + " mm"
	}
	return s.crew.Exact(l)
}

// fine letters a sheet or shim to the shop's step.
func (s *sectionView) fine(l length.Length) string {
	if s.shop.Metric {
		return s.shop.Short(l) + " mm"
	}
	return s.shop.Short(l)
}

// floor letters what must not be taken for more than it is.
func (s *sectionView) floor(l length.Length) string { return s.short(length.FloorTo(l, s.crew.Step())) }

// trimmed is a number without the noughts its decimals end in.
func trimmed(number string) string {
	if !strings.Contains(number, ".") {
		return number
	}
	return strings.TrimRight(strings.TrimRight(number, "0"), ".")
}

// fallText letters a slope as a carpenter's level finds it.
func fallText(metric bool, f plan.Fall) string {
	switch {
	case f == 0:
		return "level top"
	case metric:
		return length.Millimetres(f.Over(length.Metre), 0) + " mm in 1000 mm"
	}
	return length.Inches(f.Over(length.Foot), 32) + ` in 12"`
}

// holds letter what the section itself shows to be wrong.
func (s *sectionView) holds() []string {
	var out []string
	lap := func(side string, c plan.Check) string {
		return fmt.Sprintf("%s leg laps the joint by %s, least %s", side, s.short(c.Has), s.short(c.Asked))
	}
	for _, c := range plan.Failing(s.of.Checks) {
		switch c.Code {
		case plan.WallWidth:
			out = append(out, "the wall is not surveyed here; its width is supposed")
		case plan.FrontLap:
			out = append(out, lap("front", c))
		case plan.RearLap:
			out = append(out, lap("rear", c))
		case plan.RearPlay:
			out = append(out, "rear play "+s.short(c.Has)+" is outside "+s.short(c.Asked)+" to "+s.short(c.Most))
		case plan.FrontStock:
			out = append(out, "no stock fastener fits the front row")
		case plan.RearStock:
			out = append(out, "no stock fastener fits the rear row")
		case plan.Movement:
			out = append(out, "the movement of the building joint is not stated")
		case plan.CapBends:
			out = append(out, "the cap cannot be bent as stated: drawn without what does not fit")
		case plan.ChairStated:
			// The list says so with the chair.
		case plan.ChairInPlace:
			out = append(out, "what hangs of the chair stands "+s.thin(-c.Has)+" in the wall or its membrane: it does not go down here")
		case plan.HookEngaged, plan.SnapEngaged:
			of := map[plan.Code]string{plan.HookEngaged: "hook", plan.SnapEngaged: "snap"}[c.Code]
			out = append(out, "the "+of+" takes hold by "+s.thin(max(0, c.Has))+" less tolerances, tested with "+s.thin(c.Asked))
		case plan.MetalClear:
			out = append(out, "metal stands "+s.thin(-c.Has)+" in other metal")
		case plan.Released:
			out = append(out, "piece "+c.Of+" is NOT RELEASED")
		default:
			panic("view: no words for the check " + string(c.Code))
		}
	}
	return out
}

// capWords names the cap with its outside dimensions.
func (s *sectionView) capWords() string {
	m := &s.of.Sheet
	w := "cap"
	if s.of.Joined != nil {
		w = "cap beyond the joint"
	}
	front, rear := m.Legs[0], m.Legs[1]
	w += ", " + m.Metal + " " + s.thin(m.Thickness) + ", " + m.Finish + "; outside: front leg " +
		s.short(front.Length) + " to " + front.To + ", rear leg " + s.short(rear.Length) + " to " + rear.To
	if front.Kick > 0 {
		w += ", drip " + s.short(front.Kick) + " out " + front.Turn
	}
	if rear.Kick > 0 {
		w += ", hook " + s.short(rear.Kick) + " in " + rear.Turn
	}
	switch street, roof := m.Hems[0], m.Hems[1]; {
	case street == roof && street.Return > 0:
		w += ", hems " + s.hemWords(street)
	case street != roof:
		w += ", hem at the street " + s.hemWords(street) + ", at the roof " + s.hemWords(roof)
	}
	return w
}

// hemWords are a hem's return and how it lies.
func (s *sectionView) hemWords(h plan.Hem) string {
	switch {
	case h.Return == 0:
		return "none"
	case h.Lies == "":
		return s.short(h.Return)
	}
	return s.short(h.Return) + " " + h.Lies + ", inside radius " + s.short(h.Inside)
}

// plateWords name the plate of a joint.
func (s *sectionView) plateWords() string {
	j := s.of.Joined
	w := "splice plate, " + s.short(j.Plate) + " long, centred on the joint"
	if s.expansion() {
		w = "cover plate, " + s.short(j.Plate) + " long; HELD ON THE " + strings.ToUpper(j.Held) +
			" CAP ONLY, free on the other; no chair, nailer, plywood or fixed plate crosses the joint"
	}
	if !j.Stated {
		w += "; shape in principle"
	}
	return w
}

// chairWords name the chair and who stands behind it.
func (s *sectionView) chairWords() string {
	c := s.of.Seat
	w := "anchor chair " + c.Name + ", " + s.short(c.Length) + " × " + s.thin(c.Thickness) + ", made and holed as in test report " + c.Report
	if !c.Stated {
		w += "; ITS SECTION IS NOT STATED: broken lines are the room it takes"
	}
	return w
}

// rowWords says what goes into one row of the chair's holes.
func (s *sectionView) rowWords(i int) string {
	row := s.of.Seat.Rows[i]
	side := [...]string{"front", "rear"}[i]
	if !row.Fits {
		return side + " row: NO FASTENER LENGTH FITS, HOLD"
	}
	w := fmt.Sprintf("%s row: %d × %s %s × %s; %s into %s (least %s thread + %s tip)", side, row.Count, row.Fastener,
		s.size(row.Diameter), s.short(row.Length), s.floor(row.Into), s.of.Seat.Substrate, s.short(row.Asked), s.short(row.Tip))
	if row.Pilot > 0 {
		below := "the top of the packing"
		if row.Packing == 0 {
			below = "the top of the wall"
		}
		w += "; pilot " + s.size(row.PilotDia) + " dia., " + s.short(row.Pilot) + " deep, measured below " + below
	}
	return w
}

// packWords says how the packing at both faces is made up.
func (s *sectionView) packWords() string {
	p := &s.of.Packing
	made := func(of []length.Length) string {
		var t []string
		if p.Layers > 0 {
			t = append(t, fmt.Sprintf("%d × %s", p.Layers, s.fine(p.Layer)))
		}
		for _, x := range of {
			t = append(t, s.fine(x))
		}
		if len(t) < 2 && p.Layers == 0 {
			return ""
		}
		return " = " + strings.Join(t, " + ")
	}
	w := "packing at the wall's front face " + s.short(s.of.PackFront) + made(p.Shims[0]) + "; at its rear face " + s.short(s.of.PackRear) + made(p.Shims[1])
	if p.Layers > 0 {
		w += "; layers of " + p.LayerName
	}
	if s.stacked() {
		w += "; shims in a stack towards each face, full bearing under the chair"
	}
	return w
}

// stacked says that shims lie under the chair.
func (s *sectionView) stacked() bool {
	return len(s.of.Packing.Shims[0])+len(s.of.Packing.Shims[1]) > 0
}

// lapWords states a lap against the least.
func (s *sectionView) lapWords(side string, cover length.Length, code plan.Code) string {
	c, _ := plan.Of(s.of.Checks, code)
	w := fmt.Sprintf("joint under the %s leg, %s below the wall top: lap %s, least %s", side, s.short(cover), s.short(c.Has), s.short(c.Asked))
	if c.Fails() {
		w += ": UNDER THE LEAST, HOLD"
	}
	return w
}

// hungWords list an extender, with its standing.
func (s *sectionView) hungWords(h plan.Hung) string {
	w := "extender piece below the " + map[bool]string{true: "front", false: "rear"}[h.Front] + " leg, separate, " + s.short(h.Height) +
		" high with its lap; leg tested up to " + s.short(h.Tested) + " to " + h.To + ", " + s.short(h.Leg) + " would be needed; "
	if !h.Stated {
		w += "shape in principle, "
	}
	return w + "fastening by others: HOLD"
}

// items lists what the section shows, with the place each number points at.
func (s *sectionView) items() {
	of := &s.of
	add := func(w string, tip plan.Pt, where keyPlace) { s.keys = append(s.keys, sectionKey{w, tip, where}) }
	across := func(of plan.Ring, f float64) plan.Pt { return overAt(of, lerp(s.lo.X, s.hi.X, f)) }
	add(s.capWords(), across(s.cap.Ring, 0.86), inRow)
	if of.Joined != nil {
		if p := of.Of(plan.PlateMetal); len(p) > 0 {
			add(s.plateWords(), across(p[0].Ring, 0.62), inRow)
		} else {
			add(s.plateWords(), across(s.cap.Ring, 0.62), inRow)
		}
		tip := across(s.cap.Ring, 0.4)
		if p := of.Of(plan.Tape); len(p) > 0 {
			tip = across(p[0].Ring, 0.4)
		}
		add("sealant tape, two strips, "+s.short(of.Joined.Tape)+" each side of the joint's centre line", tip, inRow)
	}
	if c := of.Seat; c != nil {
		add(s.chairWords(), overAt(s.chair.Ring, lerp(c.Front, c.Rear, 0.5)), inRow)
		for i, row := range c.Rows {
			if row.Fastener != "" {
				add(s.rowWords(i), row.Head, inRow)
			}
		}
	}
	if of.Membrane.Name != "" {
		x := lerp(of.Street, of.Roof, 0.3)
		tip := plan.Pt{X: x, Y: of.Joints[0].Y}
		if p := of.Of(plan.MembraneLayer); len(p) > 0 {
			tip = overAt(p[0].Ring, x)
		}
		add(of.Membrane.Name+", "+s.thin(of.Membrane.Thickness)+", over the top and down both faces", tip, inRow)
	}
	if p := of.Of(plan.Shim, plan.PackingSheet, plan.Shimmed); of.Seat != nil && len(p) > 0 && (of.PackFront > 0 || of.PackRear > 0) {
		last := p[len(p)-1] // the stack at the roof side, where there is one
		lo, hi := last.Ring.Bounds()
		x := lerp(lo.X, hi.X, 0.75)
		add(s.packWords(), plan.Pt{X: x, Y: overAt(last.Ring, x).Y}, inRow)
	}
	low := length.Min(length.Min(of.Feet[0].Y, of.Feet[1].Y), s.lo.Y)
	for i, p := range of.Of(plan.WallLayer) {
		lo, hi := p.Ring.Bounds()
		if hi.Y > low-20*length.Millimetre {
			beyond := ""
			if s.expansion() {
				beyond = ", beyond the gap of " + s.short(of.Joined.Gap)
			}
			add(of.Layers[i].Name+", "+s.short(of.Layers[i].Thickness)+beyond, plan.Pt{X: (lo.X + hi.X) / 2, Y: (lo.Y + hi.Y) / 2}, onLayer)
		}
	}
	add(s.lapWords("front", of.CoverFront, plan.FrontLap), of.Joints[0], atFront)
	add(s.lapWords("rear", of.CoverRear, plan.RearLap), of.Joints[1], atRear)
	for _, h := range of.Hung {
		add(s.hungWords(h), plan.Pt{X: h.Foot.X, Y: lerp(h.Foot.Y, h.Top.Y, 0.2)}, map[bool]keyPlace{true: atFront, false: atRear}[h.Front])
	}
}

// lines are the notes under the numbered list.
func (s *sectionView) lines() []string {
	return []string{
		"The top " + s.fallWords() + ". Rear play here " + s.short(s.of.Play) + ", allowed " + s.short(s.of.PlayLeast) + " to " + s.short(s.of.PlayMost) + ".",
		"Metal is drawn with its thickness, bends and hems; what would print under 0.35 mm a little heavier.",
	}
}

func (s *sectionView) fallWords() string {
	where := ", formed in chair and cap"
	if s.of.Sheet.ByPacking {
		where = ", made by the packing"
	}
	if s.of.Fall == 0 {
		return "is level"
	}
	return "falls to the roof " + fallText(s.of.Metric, s.of.Fall) + where
}

// lerp is the place a share of the way between two.
func lerp(a, b length.Length, f float64) length.Length { return a + length.FromMM((b-a).MM()*f) }

// overAt is the highest place of a ring at a place across it; its middle where it
// does not reach there.
func overAt(r plan.Ring, x length.Length) plan.Pt {
	var best plan.Pt
	found := false
	for i, p := range r {
		q := r[(i+1)%len(r)]
		if (p.X > x) == (q.X > x) {
			continue
		}
		z := p.Y + length.FromMM((q.Y-p.Y).MM()*((x-p.X).MM()/(q.X-p.X).MM()))
		if !found || z > best.Y {
			best, found = plan.Pt{X: x, Y: z}, true
		}
	}
	if !found {
		lo, hi := r.Bounds()
		return plan.Pt{X: (lo.X + hi.X) / 2, Y: (lo.Y + hi.Y) / 2}
	}
	return best
}
