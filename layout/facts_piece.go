package layout

import (
	"cmp"
	"fmt"
	"strings"

	"copingset/layout/cap"
	"copingset/layout/crate"
	"copingset/layout/cut"
	"copingset/layout/fact"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
	"copingset/layout/shop"
)

// ofPiece is a piece as it is laid and as it is made.
func (b *facts) ofPiece(q *Piece) {
	b.about(fact.Piece, q.Mark)
	b.words("mark", q.Mark)
	b.count("laying", q.Laying)
	for i, t := range q.Parts {
		b.length(PartLength(i), t.Length())
	}
	b.kind = fact.Make
	b.place()
	b.words("perimeter", q.Perimeter.Job.Name)
	b.words("kind", q.KindName())
	b.said("hand", q.Hand.String())
	b.said("lot", q.Lot)
	for i, t := range q.Parts {
		n := fmt.Sprintf("-%d", i+1)
		front, rear := Shipped(q, i)
		b.words("run"+n, FactOfRun(b.l.runOf(t.Run.OnWall())))
		b.length("from"+n, t.Run.ToCrew(t.From))
		b.length("rear-length"+n, q.RearLength(i))
		b.length("shipped-front"+n, front)
		b.length("shipped-rear"+n, rear)
		b.length("inside"+n, t.Inside())
		b.length("girth"+n, b.l.Girth(t))
		b.slope("slope"+n, t.Slope(&b.l.Job.System))
		b.some("stands-off"+n, t.Mismatch(&b.l.Job.System))
	}
	for i, m := range q.Miters {
		n := fmt.Sprintf("-%d", i+1)
		b.words("miter"+n, m.Corner.Name)
		b.lengths("miter-trims"+n, m.Trim[:])
		b.lengths("miter-insides"+n, m.Inside[:])
	}
	if n := b.alike[q]; n > 0 {
		b.count("alike", n)
	}
	b.length("inside", q.Inside)
	b.length("wide", q.Wide)
	b.length("longest-side", crate.Shipped(q))
	b.length("shipped", q.Shipped())
	b.length("narrow", q.Narrow)
	b.length("girth", b.l.GirthOf(q))
	if q.Kind == cap.Transition {
		b.words("taper-at", strings.TrimSpace(q.Hand.String()+" "+[...]string{"front", "rear"}[q.Straight]+" straight"))
	}
	if t := q.Tee; t != nil {
		b.words("branch", t.Run.Name)
		b.length("branch-drop", t.Drop)
		b.lengths("branch-edges", t.Edge[:])
	}
	for _, e := range []struct {
		what string
		end  job.EndKind
	}{{"left-end", q.LeftEnd}, {"right-end", q.RightEnd}} {
		b.words(e.what, endName(e.end))
	}
	b.length("allowance", q.Allowance)
	if q.Allowance > 0 {
		b.words("cut-at", q.CutAt.String())
	}
	b.yes("closer", q.Closer)
	switch from := b.l.CutFrom(q); {
	case from.Sheet:
		b.words("cut-from", "sheet")
	case from.Known && from.Cap == "":
		b.words("cut-from", "drop in hand")
	case from.Known:
		b.words("cut-from", "formed cap "+from.Cap)
	}
	b.words("wind-zone", q.Zone.String())
	if q.Assembly != nil {
		b.words("assembly", q.Assembly.Name)
	}
	w := b.l.Weight(q)
	b.grams("weight", w.Laid)
	b.grams("weight-shipped", w.Shipped)
	b.words("lift", [...]string{"one person", "two persons", "mechanical"}[w.Lift])
	b.ofHoles(q)
	b.yes("released", b.l.Held.Released(q))
	b.words("holds", strings.Join(b.l.Held[q], " "))
}

// PartLength is what the length of one part of a piece along the cap line is
// called.
func PartLength(i int) string { return fmt.Sprintf("length-%d", i+1) }

func endName(k job.EndKind) string {
	return map[job.EndKind]string{
		job.EndTurn: "joint", job.EndFree: "free end", job.EndWall: "wall", job.EndStep: "step", job.EndTee: "tee",
	}[k]
}

func (b *facts) ofHoles(q *Piece) {
	for i, o := range q.Cutouts {
		k := fmt.Sprintf("hole-%d-", i+1)
		h := b.l.HoleOf(q, o)
		b.words(k+"for", o.Name)
		b.length(k+"from-left", h.FromLeft)
		b.length(k+"from-front", h.FromFront)
		b.length(k+"from-face", o.FromFace)
		b.lengths(k+"size", []length.Length{o.Extent, o.Depth})
	}
}

// ofFamilies are the pieces made alike and how they are bent.
func (b *facts) ofFamilies() {
	for _, f := range b.l.Families {
		b.about(fact.Family, FactOfFamily(f))
		b.place()
		b.words("mark", f.Mark)
		b.words("kind", f.Kind.String())
		b.said("hand", f.Hand.String())
		b.said("hand-sentence", b.l.Job.Units.OwnUnits(f.Sentence()))
		marks := make([]string, len(f.Pieces))
		for i, q := range f.Pieces {
			marks[i] = q.Mark
		}
		b.words("pieces", strings.Join(marks, " "))
		if f.Twin != nil {
			b.words("twin", f.Twin.Mark)
		}
		b.grams("weight", f.Grams)
		b.count("released", f.Released(b.l.Held))
		var sheet []string
		for _, q := range b.l.FromSheet(f) {
			sheet = append(sheet, q.Mark)
		}
		b.count("to-cut", len(sheet))
		b.said("from-sheet", strings.Join(sheet, " "))
		b.ofBodies(f, f.Bodies)
		b.ofMadeBodies(f)
		b.ofSeams(f)
	}
}

// ofParts are the small made parts.
func (b *facts) ofParts() {
	for _, p := range b.l.Parts {
		b.about(fact.Part, FactOfPart(p))
		b.place()
		b.words("mark", p.Mark)
		count, spares := p.Make(b.l.Held)
		b.words("kind", p.Kind.String())
		b.said("hand", p.Hand.String())
		ends := p.Ends()
		b.length("inside", p.Inside)
		b.length("inside-left", ends[0])
		b.length("inside-right", ends[1])
		b.words("metal", p.Metal)
		b.length("thickness", p.Thickness)
		b.length("radius", p.Radius)
		b.number("k-factor", p.K)
		b.count("count", p.Count())
		b.count("spare", p.Spare())
		b.count("to-make", count)
		b.count("spares", spares)
		b.count("to-cut", count+spares)
		b.said("assembly", p.Tested)
		b.ofFormedCap(p)
		holes := 0
		for _, x := range p.Bodies {
			holes += len(x.Holes)
		}
		b.count("holes", holes)
		b.holesDrilled(p)
		b.said("notes", strings.Join(p.Words, " "))
		b.grams("weight", p.Grams)
		if p.Twin != nil {
			b.words("twin", p.Twin.Mark)
		}
		b.said("fails", p.Fails)
		for i, x := range b.l.FormedPart(p).Faces {
			b.length(fmt.Sprintf("face-%d", i+1), x.Long)
		}
		b.words("for", strings.Join(p.For(b.l.Held, true), " "))
		b.words("for-held", strings.Join(p.For(b.l.Held, false), " "))
		b.words("holds", strings.Join(p.Holds, " "))
		b.ofBodies(p, p.Bodies)
	}
}

// ofFormedCap tells of a formed cap what outside programs need to fold it, as of a cap.
func (b *facts) ofFormedCap(p *MadePart) {
	if p.Kind != shop.FormedCap {
		return
	}
	const k = "body-1-"
	s := &b.l.Job.System.Profile
	b.length(k+"front-fold", p.Bodies[0].Length)
	b.slope(k+"slope", s.TopSlope)
	for _, end := range []string{"left", "right"} {
		b.length(k+"street-leg-"+end, s.FrontLeg.Length)
		b.length(k+"roof-leg-"+end, s.RearLeg.Length)
		b.words(k+end+"-end", endSquare)
	}
	b.length(k+"rear-fold", p.Bodies[0].Length)
	b.words(k+"street-leg-to", s.FrontLeg.To.String())
	b.words(k+"roof-leg-to", s.RearLeg.To.String())
}

// holesDrilled are the diameters of the holes of a part's first body, in their order.
func (b *facts) holesDrilled(p *MadePart) {
	if len(p.Bodies) == 0 || len(p.Bodies[0].Holes) == 0 {
		return
	}
	var all []length.Length
	for i := range p.Bodies[0].Holes {
		all = append(all, b.l.HoleDiameter(p, i))
	}
	b.lengths("holes-drilled", all)
}

// FactOfPartLot is what the facts of parts cut from one metal are of, counted from
// nought.
func FactOfPartLot(i int) string { return fmt.Sprintf("part lot %d", i+1) }

// ofPartCutting is how the parts are cut, metal by metal.
func (b *facts) ofPartCutting() {
	for i, lot := range b.l.PartLots {
		b.about(fact.Cut, FactOfPartLot(i))
		b.words("metal", lot.Metal)
		b.length("thickness", lot.Thickness)
		var marks []string
		for _, q := range lot.Parts {
			marks = append(marks, q.Mark)
		}
		b.words("parts", strings.Join(marks, " "))
		var offcuts []string
		for _, x := range lot.Offcuts {
			offcuts = append(offcuts, fmt.Sprintf("%d x %s", x.Count, x.Part.Mark))
		}
		b.said("from-offcuts", strings.Join(offcuts, " "))
		if len(lot.Plan.Sheets) == 0 {
			continue
		}
		sheets := 0
		for _, r := range lot.Plan.Sheets {
			sheets += r.Count
		}
		bought, used := lot.Areas()
		b.sheetsUsed(sheets, bought, used)
		b.ofPlan("sheets-", PartPlan(lot))
		b.put("sheets-price", fact.Count, fmt.Sprint(lot.Plan.Price))
		for k, sheet := range lot.Plan.Sheets {
			n := fmt.Sprintf("sheet-%d-", k+1)
			size := lot.Stocks[sheet.Stock]
			b.lengths(n+"size", []length.Length{size.Width, size.Length})
			b.length(n+"size-width", size.Width)
			b.length(n+"size-length", size.Length)
			b.count(n+"count", sheet.Count)
			for m, strip := range sheet.Strips {
				b.words(fmt.Sprintf("%sstrip-%d-of", n, m+1), CutsOf(lot, strip))
				b.ofStrip(fmt.Sprintf("%sstrip-%d", n, m+1), strip, func(c int) (wide, long length.Length) {
					return lot.Blanks[c].Girth, lot.Blanks[c].Length
				}, func(c int) string { return lot.Blanks[c].Part.Mark })
			}
		}
	}
}

// CutsOf are the blanks of a strip of a lot of parts with their counts.
func CutsOf(lot *PartLot, s CutStrip) string {
	var out []string
	for i := 0; i < len(s.Cuts); {
		k, part := i, lot.Blanks[s.Cuts[i]].Part
		for k < len(s.Cuts) && lot.Blanks[s.Cuts[k]].Part == part && s.TurnedAt(k) == s.TurnedAt(i) {
			k++
		}
		out = append(out, fmt.Sprintf("%d × %s", k-i, part.Mark))
		i = k
	}
	return strings.Join(out, ", ")
}

// cuts are what is cut of one bar or strip, in their order, with what each becomes.
func (b *facts) cuts(k string, cuts []int, long func(i, c int) length.Length, mark func(int) string) {
	for i, c := range cuts {
		n := fmt.Sprintf("%s-cut-%d", k, i+1)
		b.length(n, long(i, c))
		b.said(n+"-mark", mark(c))
	}
}

// ofStrip is how a strip of a sheet is cut.
func (b *facts) ofStrip(k string, s cut.Strip, size func(int) (wide, long length.Length), mark func(int) string) {
	along := func(i, c int) length.Length {
		wide, long := size(c)
		_, long = s.Lies(i, wide, long)
		return long
	}
	all := []length.Length{s.Width}
	for i, c := range s.Cuts {
		all = append(all, along(i, c))
		if s.TurnedAt(i) {
			b.yes(fmt.Sprintf("%s-cut-%d-turned", k, i+1), true)
		}
	}
	b.lengths(k, append(all, s.Drop))
	b.length(k+"-wide", s.Width)
	b.length(k+"-drop", s.Drop)
	b.cuts(k, s.Cuts, along, mark)
}

// ofCutting is the cutting plan, lot by lot.
func (b *facts) ofCutting() {
	if b.l.Cutting == nil {
		return
	}
	all := 0 // sheets
	for i := range b.l.Cutting.Lots {
		lot := &b.l.Cutting.Lots[i]
		b.about(fact.Cut, FactOfLot(i))
		b.said("elevation", lot.Elevation)
		b.said("bare", lot.Bare)
		blanks := 0
		for k, x := range lot.Blanks {
			n := fmt.Sprintf("blank-%d-", k+1)
			blanks += x.Count
			b.said(n+"mark", x.Mark())
			b.length(n+"girth", x.Girth)
			b.length(n+"length", x.Length)
			b.count(n+"count", x.Count)
		}
		for k, o := range lot.Bars {
			n := fmt.Sprintf("caps-%d-", k+1)
			b.length(n+"inside", o.Inside)
			b.count(n+"pieces", len(o.Closers))
			b.ofPlan(n, barPlan(o))
			b.put(n+"price", fact.Count, fmt.Sprint(o.Plan.Price))
			b.put(n+"bound", fact.Count, fmt.Sprint(o.Plan.Bound))
			for m, bar := range o.Plan.Bars {
				cuts := []length.Length{o.Stocks[bar.Stock].Length}
				for _, c := range bar.Cuts {
					cuts = append(cuts, o.Closers[c].Shipped())
				}
				b.lengths(fmt.Sprintf("%sbar-%d", n, m+1), append(cuts, bar.Drop))
				b.words(fmt.Sprintf("%sbar-%d-mark", n, m+1), cmp.Or(capMark(o.Caps[bar.Stock]), "drop in hand"))
				b.count(fmt.Sprintf("%sbar-%d-count", n, m+1), bar.Count)
				b.length(fmt.Sprintf("%sbar-%d-stock", n, m+1), o.Stocks[bar.Stock].Length)
				b.length(fmt.Sprintf("%sbar-%d-drop", n, m+1), bar.Drop)
				b.cuts(fmt.Sprintf("%sbar-%d", n, m+1), bar.Cuts,
					func(_, c int) length.Length { return o.Closers[c].Shipped() },
					func(c int) string { return o.Closers[c].Mark })
			}
		}
		bought, used := b.l.CutAreas(lot)
		sheets := 0
		for _, r := range lot.Sheets.Sheets {
			sheets += r.Count
		}
		all += sheets
		b.sheetsUsed(sheets, bought, used)
		b.count("blanks", blanks)
		b.ofPlan("sheets-", sheetPlan(lot.Sheets, b.l.Job.Shop.Sheets))
		b.put("sheets-price", fact.Count, fmt.Sprint(lot.Sheets.Price))
		b.put("sheets-bound", fact.Count, fmt.Sprint(lot.Sheets.Bound))
		for k, sheet := range lot.Sheets.Sheets {
			n := fmt.Sprintf("sheet-%d-", k+1)
			b.count(n+"stock", sheet.Stock+1)
			size := b.l.Job.Shop.Sheets[sheet.Stock]
			bought, used := b.l.sheetAreas(lot, sheet)
			b.lengths(n+"size", []length.Length{size.Width, size.Length})
			b.length(n+"size-width", size.Width)
			b.length(n+"size-length", size.Length)
			b.count(n+"yield-percent", int(100*used/bought))
			b.length(n+"rest", sheet.Rest)
			b.count(n+"count", sheet.Count)
			for m, strip := range sheet.Strips {
				b.ofStrip(fmt.Sprintf("%sstrip-%d", n, m+1), strip, func(c int) (wide, long length.Length) {
					return lot.Blanks[c].Girth, lot.Blanks[c].Length
				}, func(c int) string { return lot.Blanks[c].Mark() })
			}
		}
	}
	b.about(fact.Cut, "cutting")
	b.sheetsUsed(all, b.l.Cutting.Bought, b.l.Cutting.Used)
}

// sheetsUsed are how many sheets are cut, and what of them becomes blanks.
func (b *facts) sheetsUsed(n int, bought, used float64) {
	b.count("sheets", n)
	b.number("bought-mm2", bought)
	b.number("used-mm2", used)
	b.number("wasted-mm2", bought-used)
	if bought > 0 {
		b.count("yield-percent", int(100*used/bought))
	}
}

// ofPlan is what a plan of cutting takes, and how good it is known to be.
func (b *facts) ofPlan(k string, p plan.CutPlan) {
	var from []string
	for _, s := range p.From {
		from = append(from, fmt.Sprintf("%d x %d x %d", s.Count, int64(s.Width), int64(s.Length)))
	}
	b.words(k+"from", strings.Join(from, ", "))
	b.yes(k+"proven", p.Best)
	b.count(k+"at-least", p.AtLeast)
	b.number(k+"within-percent", p.Within)
}

// ofCrates is what travels in what.
func (b *facts) ofCrates() {
	for _, c := range b.l.Crates {
		b.about(fact.Crate, FactOfCrate(c))
		b.place()
		b.count("number", c.N)
		b.count("of", len(b.l.Crates))
		b.count("lines", len(c.Items))
		b.grams("tare", c.Tare)
		b.words("kind", c.Kind.String())
		b.said("perimeter", c.Perimeter)
		b.grams("weight", c.Grams)
		b.grams("gross", c.Gross())
		b.length("longest", c.Longest)
		b.ofLots(c)
		for i, x := range c.Items {
			k := CrateLine(i)
			b.count(k+"number", i+1)
			b.count(k+"count", x.Count)
			b.count(k+"needed", x.Count-x.Spare)
			b.count(k+"spare-percent", x.Percent)
			if x.Box > 0 {
				b.count(k+"box", x.Box)
				b.count(k+"boxes", (x.Count+x.Box-1)/x.Box)
			}
			if x.Piece == nil {
				b.some(k+"inside", x.Inside)
			}
			if x.Piece != nil {
				b.count(k+"packed", len(c.Items)-i) // the last laid goes in first
			}
			b.count(k+"spare", x.Spare)
			if x.Later > 0 {
				b.count(k+"later", x.Later)
			}
			b.words(k+"what", x.What)
			b.words(k+"sort", sortName(x.Sort))
			b.said(k+"mark", x.Mark)
			b.said(k+"lot", x.Lot)
			b.length(k+"length", x.Length)
			b.grams(k+"weight", x.Grams)
			for i := range b.l.Job.Fasteners {
				if f := &b.l.Job.Fasteners[i]; x.Piece == nil && f.Name == x.What {
					b.length(k+"diameter", f.Diameter)
				}
			}
		}
	}
	b.about(fact.Crate, "withheld")
	for i, q := range b.l.Withheld {
		k := fmt.Sprintf("line-%d-", i+1)
		b.words(k+"mark", q.Mark)
		b.count(k+"count", 1)
		b.count(k+"spare", 0)
	}
}

// FactOfCrate is what the facts of a crate are of.
func FactOfCrate(c *crate.Crate) string { return fmt.Sprintf("crate %d", c.N) }

// CrateLine begins the facts of a line of a crate's list, counted from nought.
func CrateLine(i int) string { return fmt.Sprintf("line-%d-", i+1) }

// CrateLot is what a lot of a crate is called, counted from nought.
func CrateLot(i int) string { return fmt.Sprintf("lot-%d", i+1) }

// ofLots are the lots in a crate, and how many pieces each has.
func (b *facts) ofLots(c *crate.Crate) {
	for i, name := range c.Lots() {
		n := 0
		for _, x := range c.Items {
			if x.Lot == name {
				n++
			}
		}
		b.words(CrateLot(i), name)
		b.count(CrateLot(i)+"-pieces", n)
	}
}

// ofCrating are the spares that the job sends, in percent.
func (b *facts) ofCrating() {
	k := &b.l.Job.Crating
	b.about(fact.Job, "crating")
	b.count("spare-chair", k.SpareChair)
	b.count("spare-plate", k.SpareSplice)
	b.count("spare-fastener", k.SpareFastener)
	b.count("spare-support", k.SpareSupport)
	b.count("spare-shim", k.SpareShim)
	b.count("spare-tape", k.SpareTape)
}

// sortName is the sort of a line of a packing list.
func sortName(s crate.Sort) string {
	return [...]string{"cap", "chair", "support", "plate", "screw", "shim", "tape"}[s]
}
