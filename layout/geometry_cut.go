package layout

import (
	"fmt"
	"math"

	"copingset/layout/cap"
	"copingset/layout/cut"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/plan"
	"copingset/layout/shop"
)

// AfterJoining says of pieces when they are finished.
const AfterJoining = cap.AfterJoining

// CutLots are the lots of the cutting plan, in their order.
func (l *Layout) CutLots() []plan.CutLot {
	if l.Cutting == nil {
		return nil
	}
	var out []plan.CutLot
	for i := range l.Cutting.Lots {
		lot := &l.Cutting.Lots[i]
		k := plan.Key(Named(FactOfLot(i), ""))
		x := plan.CutLot{Key: k, Elevation: lot.Elevation, Bare: lot.Bare, Sheets: l.CutSheets(lot, k),
			Blanks: l.CutBlanks(lot, k), Plan: sheetPlan(lot.Sheets, l.Job.Shop.Sheets)}
		x.Bought, x.Used = l.CutAreas(lot)
		for _, b := range x.Blanks {
			x.Plan.Cuts += b.Count
		}
		for i, o := range lot.Bars {
			of := k.Of(fmt.Sprintf("caps-%d-", i+1))
			x.Bars = append(x.Bars, plan.CutBars{Key: of, Inside: o.Inside, Plan: barPlan(o), Bars: l.CutBars(o, of)})
		}
		out = append(out, x)
	}
	return out
}

// PartPlan is what the cutting of a lot of parts takes.
func PartPlan(lot *PartLot) plan.CutPlan { return sheetPlan(lot.Plan, lot.Stocks) }

func barPlan(o shop.BarOrder) plan.CutPlan {
	p := plan.CutPlan{Cuts: len(o.Closers), Cost: o.Plan.Price, Bound: o.Plan.Bound, Best: o.Plan.Proven}
	var dearest, longest int64
	for k, n := range o.Plan.Used(len(o.Stocks)) {
		s := o.Stocks[k]
		dearest, longest = max(dearest, s.Price), max(longest, int64(s.Length))
		if n > 0 {
			p.From = append(p.From, plan.CutStock{Count: n, Length: s.Length})
		}
	}
	return proven(p, dearest, longest)
}

// sheetPlan is the plan of sheets; where no price is stated they are counted by
// their area.
func sheetPlan(of cut.SheetPlan, stocks []job.ShopSheet) plan.CutPlan {
	p := plan.CutPlan{Cost: of.Price, Bound: of.Bound, Best: of.Proven}
	count := make([]int, len(stocks))
	for _, r := range of.Sheets {
		count[r.Stock] += r.Count
	}
	var dearest, largest int64
	for k, s := range stocks {
		dearest, largest = max(dearest, s.Price), max(largest, int64(s.Width.MM()*s.Length.MM()*10+0.5))
		if count[k] > 0 {
			p.From = append(p.From, plan.CutStock{Count: count[k], Width: s.Width, Length: s.Length})
		}
	}
	return proven(p, dearest, largest)
}

// proven says how good a plan is known to be, by the most that one cap or sheet
// counts for: its price, or where none is stated its size.
func proven(p plan.CutPlan, price, size int64) plan.CutPlan {
	most := size
	if p.Priced = price > 0; p.Priced {
		most = price
	}
	if p.Bounded = p.Bound > 0 && most > 0; p.Bounded {
		p.AtLeast = int((p.Bound + most - 1) / most)
		p.Within = float64(p.Cost-p.Bound) * 100 / float64(p.Bound)
	}
	return p
}

// Trials are the strips to bend and measure before the first blank is cut.
func (l *Layout) Trials() []plan.Trial {
	var out []plan.Trial
	for _, t := range shop.Trials(l.Job, l.Families) {
		x := plan.Trial{Turn: t.Turn, Up: t.Up, Down: t.Down, Length: t.Length, Line: t.Line,
			Tangent: t.To == fold.ToTangent, Leg: t.Leg, Deduction: t.Deduction, Of: t.Of, Section: t.Section}
		if t.Stated != nil {
			x.Stated, x.StatedDeduction, x.StatedStrip = true, t.Stated.Deduction, t.Stated.Strip
		}
		out = append(out, x)
	}
	return out
}

// NilTurn is the turn, in degrees, at which the deduction to the tangent comes to nothing
// for the caps' metal as the shop bends it: 2 (R + T) = (pi/180) turn (R + K T).
func (l *Layout) NilTurn() float64 {
	r, t := l.Job.System.Profile.InsideR.MM(), l.Job.System.Metal.Thickness.MM()
	return 2 * (r + t) / (r + l.Job.Shop.K*t) * 180 / math.Pi
}

// Tooling is how far the order of bends was checked against the shop's machine.
func (l *Layout) Tooling() plan.Tooling {
	return [...]plan.Tooling{shop.NoMachine: plan.NoMachine, shop.FlatsAlone: plan.FlatsAlone,
		shop.ToolsToo: plan.ToolsToo}[shop.ToolingOf(l.Job.Shop)]
}

// SeamFaces are the faces of one of a family's seams: front leg, top, rear leg.
func SeamFaces(f *Family, seam int) []plan.SeamFace {
	var out []plan.SeamFace
	for _, q := range f.Joints[seam].Faces {
		out = append(out, plan.SeamFace{Name: q.Name, Plain: q.Plain, Back: q.Back, Opening: q.Opening, Lap: q.Lap,
			Over: q.Over.String()})
	}
	return out
}

// Deductions are those of a body's bends in their order.
func Deductions(b Body) []plan.BlankDeduction {
	var out []plan.BlankDeduction
	for _, d := range shop.Deductions(b) {
		out = append(out, plan.BlankDeduction{Turn: d.Turn, Less: d.Less, Hem: d.Hem})
	}
	return out
}
