package view

import (
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
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
func fallText(say words.Book, metric bool, f plan.Fall) string {
	switch {
	case f == 0:
		return say.Say(words.SectionLevel)
	case metric:
		return say.Say(words.UnitFallMm, words.In("rise", length.Millimetres(f.Over(length.Metre), 0)))
	}
	return say.Say(words.UnitFallFoot, words.In("rise", length.Inches(f.Over(length.Foot), 32)))
}

// holds letter what the section itself shows to be wrong.
func (s *sectionView) holds() []drawing.Said {
	var out []drawing.Said
	say := func(k words.Key, in ...words.Slot) { out = append(out, s.said(s.say.Say(k, in...))) }
	has := func(c plan.Check) []words.Slot {
		return []words.Slot{words.In("has", s.short(c.Has)), words.In("least", s.short(c.Asked))}
	}
	for _, c := range plan.Failing(s.of.Checks) {
		s.also(c.Facts[:lettered(c)]...)
		switch c.Code {
		case plan.WallWidth:
			say(words.SectionHoldWidth)
		case plan.FrontLap:
			say(words.SectionHoldLapStreet, has(c)...)
		case plan.RearLap:
			say(words.SectionHoldLapRoof, has(c)...)
		case plan.RearPlay:
			say(words.SectionHoldPlay, append(has(c), words.In("most", s.short(c.Most)))...)
		case plan.FrontStock:
			say(words.SectionHoldStockStreet)
		case plan.RearStock:
			say(words.SectionHoldStockRoof)
		case plan.Movement:
			say(words.SectionHoldMovement)
		case plan.CapBends:
			say(words.SectionHoldBends)
		case plan.ChairStated:
			// The list says so with the chair.
		case plan.Edge:
			say(words.SectionHoldEdge, has(c)...)
		case plan.BaseBears:
			say(words.SectionHoldBears, has(c)...)
		case plan.BaseOver:
			say(words.SectionHoldOver, words.In("has", s.thin(-c.Has)), words.In("most", s.thin(-c.Asked)))
		case plan.ChairInPlace:
			if c.Has < 0 {
				say(words.SectionHoldChair, words.In("depth", s.thin(-c.Has)))
				break
			}
			say(words.SectionHoldClear, words.In("has", s.thin(c.Has)), words.In("least", s.thin(c.Asked)))
		case plan.HookEngaged:
			say(words.SectionHoldHook, words.In("has", s.thin(max(0, c.Has))), words.In("tested", s.thin(c.Asked)))
		case plan.SnapEngaged:
			say(words.SectionHoldSnap, words.In("has", s.thin(max(0, c.Has))), words.In("tested", s.thin(c.Asked)))
		case plan.MetalClear:
			say(words.SectionHoldMetal, words.In("depth", s.thin(-c.Has)))
		case plan.Released:
			say(words.SectionHoldReleased, words.In("piece", c.Of))
		default:
			panic("view: no words for the check " + string(c.Code))
		}
	}
	return out
}

// lettered is how many of the three lengths of a check a hold letters.
func lettered(c plan.Check) int {
	switch {
	case c.Code == plan.RearPlay:
		return 3
	case c.Code == plan.MetalClear, c.Code == plan.ChairInPlace && c.Has < 0:
		return 1
	}
	return 2
}

// capWords names the cap with its outside dimensions.
func (s *sectionView) capWords() string {
	m, say := &s.of.Sheet, s.say.Say
	key := words.SectionCap
	if s.of.Joined != nil {
		key = words.SectionCapBeyond
	}
	s.also(m.Named)
	metal := []words.Slot{words.In("metal", m.Metal), words.In("thickness", s.thin(s.is(m.Thickness))),
		words.In("finish", m.Finish)}
	if s.told == SectionPlain {
		return say(key, metal...)
	}
	front, rear := m.Legs[0], m.Legs[1]
	s.also(s.dim(plan.FrontFoot).Fact, s.dim(plan.RearFoot).Fact)
	all := []string{say(key, metal...),
		say(words.SectionLegStreet, words.In("length", say(s.measureKey(front.To),
			words.In("length", s.short(front.Length))))),
		say(words.SectionLegRoof, words.In("length", say(s.measureKey(rear.To),
			words.In("length", s.short(rear.Length)))))}
	if front.Kick.Real > 0 {
		s.also(front.Turned)
		all = append(all, say(words.SectionDrip, words.In("length", s.short(s.is(front.Kick))),
			words.In("angle", front.Turn)))
	}
	if rear.Kick.Real > 0 {
		s.also(rear.Turned)
		all = append(all, say(words.SectionHook, words.In("length", s.short(s.is(rear.Kick))),
			words.In("angle", rear.Turn)))
	}
	switch street, roof := m.Hems[0], m.Hems[1]; {
	case street == roof && street.Return.Real > 0:
		all = append(all, say(words.SectionHems, words.In("hem", s.hemWords(street))))
	case street != roof:
		all = append(all, say(words.SectionHemsTwo, words.In("street", s.hemWords(street)),
			words.In("roof", s.hemWords(roof))))
	}
	return strings.Join(all, " ")
}

// hemWords are a hem's return and how it lies.
func (s *sectionView) hemWords(h plan.Hem) string {
	switch {
	case h.Return.Real == 0:
		return s.say.Say(words.SectionHemNone)
	case h.Lies == "":
		return s.short(s.is(h.Return))
	}
	return s.say.Say(words.SectionHem, words.In("return", s.short(s.is(h.Return))), words.In("lies", h.Lies),
		words.In("inside", s.short(s.is(h.Inside))))
}

// plateWords name the plate of a joint.
func (s *sectionView) plateWords() string {
	j := s.of.Joined
	key := words.SectionPlate
	if s.expansion() {
		if key = words.SectionCoverRight; j.Held == "left" {
			key = words.SectionCoverLeft
		}
	}
	shape := ""
	if !j.Stated {
		shape = s.say.Say(words.SectionPrinciple)
	}
	return sentences(s.say.Say(key, words.In("length", s.short(s.is(j.Plate)))), shape)
}

// chairWords name the chair and who stands behind it.
func (s *sectionView) chairWords() string {
	c := s.of.Seat
	unstated := ""
	if !c.Stated {
		unstated = s.say.Say(words.SectionChairUnstated)
	}
	s.also(c.Reported)
	return sentences(s.say.Say(words.SectionChair, words.In("chair", c.Name),
		words.In("length", s.short(s.is(c.Length))), words.In("thickness", s.thin(s.is(c.Thickness))),
		words.In("report", c.Report)), unstated)
}

// rowWords says what goes into one row of the chair's holes.
func (s *sectionView) rowWords(i int) string {
	row, say := s.of.Seat.Rows[i], s.say.Say
	if !row.Fits {
		return say([...]words.Key{words.SectionRowStreetNone, words.SectionRowRoofNone}[i])
	}
	s.also(row.Counted)
	w := say([...]words.Key{words.SectionRowStreet, words.SectionRowRoof}[i],
		words.In("count", strconv.Itoa(row.Count)), words.In("fastener", row.Fastener),
		words.In("diameter", s.size(s.is(row.Diameter))), words.In("length", s.short(s.is(row.Length))),
		words.In("into", s.floor(s.is(row.Into))), words.In("substrate", say(MaterialKey(s.of.Seat.Substrate))),
		words.In("thread", s.short(s.is(row.Asked))), words.In("tip", s.short(s.is(row.Tip))))
	if row.Pilot.Real == 0 {
		return w
	}
	below := words.SectionPilotBuild
	if row.Packing == 0 {
		below = words.SectionPilotWall
	}
	return sentences(w, say(below, words.In("diameter", s.size(s.is(row.PilotDia))),
		words.In("depth", s.short(s.is(row.Pilot)))))
}

// packWords says how the build-up at both faces is made up.
func (s *sectionView) packWords() string {
	p, say := &s.of.Packing, s.say.Say
	made := func(of []length.Length) string {
		var t []string
		if p.Layers > 0 {
			t = append(t, strconv.Itoa(p.Layers)+" × "+s.fine(p.Layer.Real))
		}
		for _, x := range of {
			t = append(t, s.fine(x))
		}
		if len(t) < 2 && p.Layers == 0 {
			return ""
		}
		return " = " + strings.Join(t, " + ")
	}
	s.also(s.dim(plan.FrontPacked).Fact, s.dim(plan.RearPacked).Fact)
	for i, of := range p.Shims {
		if p.Layers > 0 || len(of) > 1 {
			s.also(p.Shimmed[i])
		}
	}
	if p.Layers > 0 {
		s.also(p.Counted, p.Layer.Fact, p.Named)
	}
	all := []string{say(words.SectionPack, words.In("street", s.short(s.of.PackFront)+made(p.Shims[0])),
		words.In("roof", s.short(s.of.PackRear)+made(p.Shims[1])))}
	if p.Layers > 0 {
		all = append(all, say(words.SectionPackLayers, words.In("layer", p.LayerName)))
	}
	if s.stacked() {
		all = append(all, say(words.SectionPackStack))
	}
	return strings.Join(all, " ")
}

// stacked says that shims lie under the chair.
func (s *sectionView) stacked() bool {
	return len(s.of.Packing.Shims[0])+len(s.of.Packing.Shims[1]) > 0
}

// lapWords states a lap against the least.
func (s *sectionView) lapWords(k words.Key, joint plan.DimKind, code plan.Code) string {
	c, _ := plan.Of(s.of.Checks, code)
	s.also(c.Facts[:2]...)
	under := ""
	if c.Fails() {
		under = s.say.Say(words.SectionLapUnder)
	}
	return sentences(s.say.Say(k, words.In("cover", s.short(s.is(s.dim(joint).Value))), words.In("lap", s.short(c.Has)),
		words.In("least", s.short(c.Asked))), under)
}

// hungWords list an extender, with its standing.
func (s *sectionView) hungWords(h plan.Hung) string {
	key, shape := words.SectionExtenderRoof, ""
	if h.Front {
		key = words.SectionExtenderStreet
	}
	if !h.Stated {
		shape = s.say.Say(words.SectionPrinciple)
	}
	return sentences(s.say.Say(key, words.In("high", s.short(s.is(h.Height))),
		words.In("tested", s.say.Say(s.measureKey(h.To), words.In("length", s.short(s.is(h.Tested))))),
		words.In("needed", s.short(s.is(h.Leg)))), shape, s.say.Say(words.SectionExtenderHold))
}

// items lists what the section shows, with the place each number points at.
func (s *sectionView) items() {
	of := &s.of
	add := func(w string, tip plan.Pt, where keyPlace) {
		s.keys = append(s.keys, sectionKey{s.said(w), tip, where})
	}
	across := func(of plan.Ring, f float64) plan.Pt { return overAt(of, lerp(s.lo.X, s.hi.X, f)) }
	if s.told == SectionBrief {
		add(s.say.Say(words.SectionCapShort), across(s.cap.Ring, 0.86), inRow)
	} else {
		add(s.capWords(), across(s.cap.Ring, 0.86), inRow)
	}
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
		add(s.say.Say(words.SectionTape, words.In("tape", s.short(s.is(of.Joined.Tape)))), tip, inRow)
	}
	if c := of.Seat; c != nil {
		add(s.chairWords(), overAt(s.chair.Ring, lerp(c.Front, c.Rear, 0.5)), inRow)
		for i, row := range c.Rows {
			if row.Fastener != "" && s.told != SectionBrief {
				add(s.rowWords(i), row.Head, inRow)
			}
		}
	}
	if of.Membrane.Name != "" && s.told != SectionBrief {
		x := lerp(of.Street, of.Roof, 0.3)
		tip := plan.Pt{X: x, Y: of.Joints[0].Y}
		if p := of.Of(plan.MembraneLayer); len(p) > 0 {
			tip = overAt(p[0].Ring, x)
		}
		s.also(of.Membrane.Named)
		add(s.say.Say(words.SectionMembrane, words.In("membrane", of.Membrane.Name),
			words.In("thickness", s.thin(s.is(of.Membrane.Thickness)))), tip, inRow)
	}
	if p := of.Of(plan.Shim, plan.PackingSheet, plan.Shimmed); of.Seat != nil && s.told != SectionBrief && len(p) > 0 &&
		(of.PackFront > 0 || of.PackRear > 0) {
		last := p[len(p)-1] // the stack at the roof side, where there is one
		lo, hi := last.Ring.Bounds()
		x := lerp(lo.X, hi.X, 0.75)
		add(s.packWords(), plan.Pt{X: x, Y: overAt(last.Ring, x).Y}, inRow)
	}
	low := length.Min(length.Min(of.Feet[0].Y, of.Feet[1].Y), s.lo.Y)
	for i, p := range of.Of(plan.WallLayer) {
		lo, hi := p.Ring.Bounds()
		if hi.Y > low-20*length.Millimetre && (s.told != SectionBrief || s.expansion()) {
			thick := words.In("thickness", s.short(s.is(of.Layers[i].Thickness)))
			name := s.say.Say(words.SectionLayer, words.In("layer", of.Layers[i].Name), thick)
			if s.expansion() {
				name = s.say.Say(words.SectionLayerBeyond, words.In("layer", of.Layers[i].Name), thick,
					words.In("gap", s.short(s.is(of.Joined.Gap))))
			}
			add(name, plan.Pt{X: (lo.X + hi.X) / 2, Y: (lo.Y + hi.Y) / 2}, onLayer)
		}
	}
	add(s.lapWords(words.SectionLapStreet, plan.FrontCover, plan.FrontLap), of.Joints[0], atFront)
	add(s.lapWords(words.SectionLapRoof, plan.RearCover, plan.RearLap), of.Joints[1], atRear)
	for _, h := range of.Hung {
		add(s.hungWords(h), plan.Pt{X: h.Foot.X, Y: lerp(h.Foot.Y, h.Top.Y, 0.2)}, map[bool]keyPlace{true: atFront,
			false: atRear}[h.Front])
	}
}

// lines are the notes under the numbered list.
func (s *sectionView) lines() []drawing.Said {
	if s.like != nil {
		return drawing.Plain(s.say.Say(words.SectionRest, words.In("mark", s.like.Mark)))
	}
	if s.told == SectionBrief {
		return drawing.Plain(s.say.Say(words.SectionBrief))
	}
	top := words.SectionTopChair
	switch {
	case s.of.Fall == 0:
		top = words.SectionTopLevel
	case s.of.Sheet.ByPacking:
		top = words.SectionTopBuild
	}
	var fall []words.Slot
	if s.of.Fall != 0 {
		s.also(s.of.Falls)
		fall = []words.Slot{words.In("fall", fallText(s.say, s.of.Metric, s.of.Fall))}
	}
	return []drawing.Said{s.said(sentences(s.say.Say(top, fall...), s.say.Say(words.SectionPlay,
		words.In("play", s.short(s.is(s.dim(plan.RearClear).Value))),
		words.In("least", s.short(s.is(s.of.PlayLeast))), words.In("most", s.short(s.is(s.of.PlayMost))))))}
}

// fall letters the fall of the top over the cap.
func (s *sectionView) fall() string {
	if s.of.Fall == 0 {
		return s.say.Say(words.SectionLevel)
	}
	return s.say.Say(words.SectionFalls, words.In("fall", fallText(s.say, s.of.Metric, s.of.Fall)))
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
