package wall

import (
	"fmt"
	"math/bits"
	"strconv"
	"strings"

	"copingset/layout/job"
	"copingset/layout/length"
)

// Taper is a stretch of a zone over which the shims over the layers run evenly
// from one thickness to another.
type Taper struct {
	From, To  length.Length
	FrontFrom length.Length // over the layers, at the outside edge
	FrontTo   length.Length
	RearFrom  length.Length // the same at the inside edge
	RearTo    length.Length
}

// Level reports whether the shims are alike from end to end.
func (t Taper) Level() bool { return t.FrontFrom == t.FrontTo && t.RearFrom == t.RearTo }

// Strip is one piece of plywood of a layer, as it lies on the wall. Stations
// are on the front face.
type Strip struct {
	Layer    int // from 1, the lowest
	From, To length.Length
	Width    length.Length // across the wall
	Sheet    int           // the sheet it is cut from, from 1 in its perimeter; zero: sheets are not stated
	Rip      int           // the rip of that sheet, from 1
}

// Length of the strip.
func (s Strip) Length() length.Length { return s.To - s.From }

// Sheet is one sheet of plywood and the strips ripped out of it.
type Sheet struct {
	N    int // from 1 in its perimeter
	Rips []Rip
}

// Rip is one strip the length of a sheet, sawn across into lengths.
type Rip struct {
	Width length.Length
	Cuts  []length.Length // lengths in order of sawing; what is left over is waste
}

// Effort is what one way to pack takes.
type Effort struct {
	Layers  length.Length // running length of all layers
	Pieces  int           // pieces set: strips and shims
	Strips  int           // of plywood
	Shims   int
	Cuts    int // saw cuts, along and across
	Sheets  int // of plywood
	Nails   int
	Missing int   // stacks that the layers and shims of the job do not make
	Minutes int64 // labour, in thousandths of a minute
	Money   int64 // labour and material, in thousandths of the job's money
}

// Packing sets the two ways to pack beside each other: plywood layers the
// length of the wall with shims over them at the chairs, or shims at the chairs
// alone.
type Packing struct {
	Continuous, Chairs Effort
	Sheets             []Sheet           // ripping plan of the continuous layers
	SheetsLeast        int               // no plan needs fewer, by area
	Known              bool              // the job states what a recommendation needs
	Unknown            []string          // keys that the job does not state, if not
	Recommended        job.PackingMethod // continuous or chairs, when Known
	Taken              job.PackingMethod // what the layout is made with
	Reason             string            // of the recommendation, or why there is none
}

// Overridden reports whether the job packs otherwise than recommended.
func (p *Packing) Overridden() bool { return p.Known && p.Taken != p.Recommended }

// cost adds up labour and money by the job's rates.
func (e *Effort) cost(r *job.Rates) {
	e.Pieces = e.Strips + e.Shims
	if r == nil {
		return
	}
	e.Minutes = int64(e.Cuts)*r.Cut + int64(e.Pieces)*r.Piece +
		int64(length.MulDiv(e.Layers, r.Foot, int64(length.Foot)))
	e.Money = int64(length.MulDiv(length.Length(e.Minutes), r.Hour, 60_000)) + int64(e.Sheets)*r.Sheet +
		int64(e.Shims)*r.Shim
}

func (e *Effort) add(o Effort) {
	e.Layers += o.Layers
	e.Pieces += o.Pieces
	e.Strips += o.Strips
	e.Shims += o.Shims
	e.Cuts += o.Cuts
	e.Sheets += o.Sheets
	e.Nails += o.Nails
	e.Missing += o.Missing
	e.Minutes += o.Minutes
	e.Money += o.Money
}

// Compare completes a comparison whose pieces, cuts and sheets are counted. A
// way that cannot make every stack with the layers and shims of the job gives
// way to one that can; else the one that costs less by the job's rates is
// recommended, then the one of fewer pieces, then the continuous one.
func (p *Packing) Compare(k *job.Packing) {
	p.Taken = k.Method
	p.Unknown = nil
	if k.Layer <= 0 {
		p.Unknown = append(p.Unknown, "packing: layer")
	}
	if !k.Sheet.Stated() {
		p.Unknown = append(p.Unknown, "packing: sheet")
	}
	if k.Rates == nil {
		p.Unknown = append(p.Unknown, "packing: rates")
	}
	p.Continuous.cost(k.Rates)
	p.Chairs.cost(k.Rates)
	p.recommend()
}

func (p *Packing) recommend() {
	p.Known = len(p.Unknown) == 0
	if !p.Known {
		p.Reason = "no recommendation: the job does not state " + strings.Join(p.Unknown, ", ")
		return
	}
	a, b := &p.Continuous, &p.Chairs
	p.Recommended = job.PackContinuous
	switch {
	case a.Layers == 0:
		if p.Taken == job.PackChairs {
			p.Recommended = job.PackChairs
		}
		p.Reason = "no plywood layer fits under the set surface, so that both ways are the same"
	case a.Missing != b.Missing:
		less, more := "continuous build-up", b.Missing
		if b.Missing < a.Missing {
			p.Recommended, less, more = job.PackChairs, "build-up under the chairs alone", a.Missing
		}
		p.Reason = less + ": the shims of the job do not make " + strconv.Itoa(more) +
			" of the build-ups of the other way"
	case a.Money != b.Money:
		p.Reason = "continuous build-up costs " + money(a.Money) + ", build-up under the chairs alone " + money(b.Money)
		if b.Money < a.Money {
			p.Recommended = job.PackChairs
			p.Reason = "build-up under the chairs alone costs " + money(b.Money) + ", continuous build-up " +
				money(a.Money)
		}
	case b.Pieces < a.Pieces:
		p.Recommended = job.PackChairs
		p.Reason = "both cost " + money(a.Money) + "; build-up under the chairs alone has fewer pieces"
	default:
		p.Reason = "both cost " + money(a.Money) + "; continuous build-up has no more pieces and bears the whole length"
	}
}

// money is an amount in the job's money, to its hundredth.
func money(m int64) string {
	c := (m + 5) / 10
	return fmt.Sprintf("%d.%02d", c/100, c%100)
}

// TotalPacking adds up the comparisons of a job's perimeters. Each has its own
// ripping plan.
func TotalPacking(all []Packing) Packing {
	var out Packing
	for i := range all {
		q := &all[i]
		out.Continuous.add(q.Continuous)
		out.Chairs.add(q.Chairs)
		out.SheetsLeast += q.SheetsLeast
		if i == 0 {
			out.Taken, out.Unknown = q.Taken, q.Unknown
		}
	}
	out.recommend()
	return out
}

// SetAt is the height of the set surface at the front-face line, at a station
// of the front face, up to the nanometre. It is straight between the wall's
// corners and level beyond them.
func (r *Run) SetAt(station length.Length) length.Length {
	switch {
	case r.SetLeft == r.SetRight || station <= 0 || r.Front <= 0:
		return r.SetLeft
	case station >= r.Front:
		return r.SetRight
	}
	// From the lower end up, so that a wall and its mirror round alike.
	low, rise, d := r.SetLeft, r.SetRight-r.SetLeft, station
	if rise < 0 {
		low, rise, d = r.SetRight, -rise, r.Front-station
	}
	hi, lo := bits.Mul64(uint64(rise), uint64(d))
	q, rest := bits.Div64(hi, lo, uint64(r.Front)) // d < Front, so q < rise
	if rest > 0 {
		q++
	}
	return low + length.Length(q)
}
