package takeoff

import (
	"cmp"
	"slices"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/crate"
	"copingset/layout/job"
	"copingset/layout/length"
)

// Group of lines of a takeoff.
type Group int

// The groups, in their order.
const (
	Metal Group = iota
	Hardware
	BuildUp
	Labour
)

// Groups are all of them.
func Groups() []Group { return []Group{Metal, Hardware, BuildUp, Labour} }

// What a line counts.
type What int

// What is counted.
const (
	Caps What = iota
	Closers
	Special // a piece by its kind
	Seams
	Sheets // of metal, by their size
	Area   // of metal
	Weight // of metal
	Chairs // by their assembly
	Supports
	Plates
	Covers
	Screws // by name and length
	Tape
	Shims // by thickness
	Plywood
	Layers // of plywood, running length
	Nails
	SetChairs
	LayCaps
	LaySpecial
	Level
)

// Unit of a quantity.
type Unit int

// The units: things, nanometres, square millimetres, grams, thousandths of a minute.
const (
	Each Unit = iota
	Running
	Square
	Grams
	Time
)

// Price says how a line is priced.
type Price int

// A line has a price, has none that the job states, is within the price of another
// line, or is told and never priced.
const (
	Priced Price = iota
	Unstated
	Within
	Told
)

// Line is one thing that is counted.
type Line struct {
	Group    Group
	What     What
	Name     string // the kind of a piece, the name of an assembly or of a screw
	Size     [2]length.Length
	Unit     Unit
	Quantity int64
	Added    int64 // spares, or the allowance
	Percent  int   // that they are of
	Rate     int64 // thousandths of the job's money, of Per units; zero: none
	Per      int64
	Money    int64
	Price    Price
}

// Total is the quantity with what is added.
func (l *Line) Total() int64 { return l.Quantity + l.Added }

// Same says that lines of two options count the same thing.
func (l *Line) Same(o *Line) bool {
	return l.Group == o.Group && l.What == o.What && l.Name == o.Name && l.Size == o.Size && l.Unit == o.Unit
}

// counting counts one option.
type counting struct {
	l  *layout.Layout
	by job.Takeoff
	o  *Option
}

func (c *counting) all() {
	for _, r := range c.l.Runs() {
		c.o.Run += r.Front
	}
	c.pieces()
	c.metal()
	c.chairs()
	c.hardware()
	c.buildUp()
	c.labour()
	sum := map[Group]int64{} // look-up only
	for i := range c.o.Lines {
		l := &c.o.Lines[i]
		if l.Price == Unstated {
			c.o.Unpriced = append(c.o.Unpriced, *l)
		}
		sum[l.Group] += l.Money
	}
	for _, g := range Groups() {
		c.o.Groups = append(c.o.Groups, Money{g, sum[g]})
		c.o.Sum += sum[g]
	}
	c.o.Unforeseen = (c.o.Sum*int64(c.by.Unforeseen) + 50) / 100
	c.o.Whole = c.o.Sum + c.o.Unforeseen
}

// add counts a thing of which there is any. rate is of per units.
func (c *counting) add(l Line, rate, per int64) {
	if l.Quantity == 0 {
		return
	}
	if l.Price == Priced {
		l.Rate, l.Per = rate, per
		if rate == 0 {
			l.Price = Unstated
		}
		whole, part := l.Total()/per, l.Total()%per // so that no product passes its room
		l.Money = whole*rate + (part*rate+per/2)/per
	}
	c.o.Lines = append(c.o.Lines, l)
}

// pieces counts caps, closers and what else is laid, and the seams in them.
func (c *counting) pieces() {
	n := map[string]int64{} // look-up only
	var kinds []string
	var caps, closers, seams int64
	for _, p := range c.l.Perimeters {
		for _, q := range p.Pieces {
			seams += int64(len(q.Miters))
			switch {
			case q.Kind == cap.Straight && q.Closer:
				closers++
			case q.Kind == cap.Straight:
				caps++
			default:
				k := q.KindName()
				if n[k] == 0 {
					kinds = append(kinds, k)
				}
				n[k]++
			}
		}
	}
	stock := [2]length.Length{c.l.Job.System.Stock}
	c.add(Line{What: Caps, Size: stock, Quantity: caps, Price: Told}, 0, 1)
	c.add(Line{What: Closers, Quantity: closers, Price: Told}, 0, 1)
	slices.Sort(kinds)
	for _, k := range kinds {
		c.add(Line{What: Special, Name: k, Quantity: n[k], Price: Told}, 0, 1)
	}
	c.add(Line{What: Seams, Quantity: seams}, c.by.Rates.Weld, 1)
}

// metal is the sheets of the cutting plan, all pieces released, or the area and the
// weight of the blanks where no shop is stated.
func (c *counting) metal() {
	c.add(Line{What: Weight, Unit: Grams, Quantity: c.l.GramsShipped(), Price: Told}, 0, 1)
	order := c.l.CutAll()
	if order == nil {
		c.bare(c.area(), c.l.GramsShipped())
		return
	}
	used := map[int]int64{} // look-up only
	for _, lot := range order.Lots {
		for _, s := range lot.Sheets.Sheets {
			used[s.Stock] += int64(s.Count)
		}
	}
	for i, s := range c.l.Job.Shop.Sheets {
		if used[i] == 0 {
			continue
		}
		more := (used[i]*int64(c.by.Metal) + 99) / 100
		line := Line{What: Sheets, Size: [2]length.Length{s.Width, s.Length}, Quantity: used[i], Added: more,
			Percent: c.by.Metal}
		if s.Price > 0 || !c.by.Rates.SheetPrice.IsStated {
			c.add(line, s.Price, 1)
			continue
		}
		line.Price = Told
		c.add(line, 0, 1)
		area := s.Width.MM() * s.Length.MM() * float64(used[i])
		c.bare(int64(area), int64(area*c.l.Job.System.Metal.Thickness.MM()*c.l.Job.System.Metal.Density/1e6))
	}
}

// area of the blanks of all pieces, by girth and length.
func (c *counting) area() int64 {
	var mm2 float64
	for _, p := range c.l.Perimeters {
		for _, q := range p.Pieces {
			for i, t := range q.Parts {
				front, rear := layout.Shipped(q, i)
				mm2 += c.l.Girth(t).MM() * max(front, rear).MM()
			}
		}
	}
	return int64(mm2)
}

// bare is metal by the area or the weight that its price is of.
func (c *counting) bare(mm2, grams int64) {
	p := c.by.Rates.SheetPrice
	line := Line{What: Area, Unit: Square, Quantity: mm2, Percent: c.by.Metal}
	per := max(1, int64(p.Square))
	if p.Grams > 0 {
		line = Line{What: Weight, Name: "bought", Unit: Grams, Quantity: grams, Percent: c.by.Metal}
		per = int64(p.Grams)
	}
	line.Added = line.Quantity * int64(c.by.Metal) / 100
	c.add(line, p.Money, per)
}

// chairs are counted by the assembly that they are tested with, which prices them.
func (c *counting) chairs() {
	n := map[*job.Assembly]int64{} // look-up only
	var of []*job.Assembly
	for _, r := range c.l.Runs() {
		for _, ch := range r.Chairs {
			if n[ch.Assembly] == 0 {
				of = append(of, ch.Assembly)
			}
			n[ch.Assembly]++
		}
	}
	slices.SortStableFunc(of, func(a, b *job.Assembly) int { return cmp.Compare(nameOf(a), nameOf(b)) })
	spare := c.l.Job.Crating.SpareChair
	for _, a := range of {
		line := Line{Group: Hardware, What: Chairs, Name: nameOf(a), Quantity: n[a], Percent: spare,
			Added: int64(crate.Spare(int(n[a]), spare))}
		cost := int64(0)
		if a != nil {
			line.Size, cost = [2]length.Length{a.ChairSpacing}, a.Cost
		}
		c.add(line, cost, 1)
	}
}

func nameOf(a *job.Assembly) string {
	if a == nil {
		return ""
	}
	return a.Name
}

// hardware is what the first crate holds beside the chairs, with the job's spares.
func (c *counting) hardware() {
	r := c.by.Rates
	for _, x := range c.l.Crates {
		if x.Kind != crate.Hardware {
			continue
		}
		for _, i := range x.Items {
			line := Line{Group: Hardware, Size: [2]length.Length{0, i.Inside},
				Quantity: int64(i.Count - i.Spare), Added: int64(i.Spare), Percent: i.Percent}
			rate := int64(0)
			switch i.Sort {
			case crate.Support:
				line.What, rate = Supports, r.Support
			case crate.Plate:
				line.What, rate = Plates, r.Plate
				if i.Mark != "" {
					line.What, rate = Covers, r.Cover
				}
			case crate.Screw:
				line.What, line.Name, line.Size[0], line.Price = Screws, i.What, i.Length, Within
			case crate.Tape:
				line.What, line.Size[0], rate = Tape, i.Length, r.Tape
			case crate.Shim:
				line.What, line.Group, line.Size[0] = Shims, BuildUp, i.Length
				if p := c.l.Job.Packing.Rates; p != nil {
					rate = p.Shim
				}
			default:
				continue
			}
			c.merge(line, rate)
		}
	}
}

// merge adds to a line that counts the same: each cover plate is an item of its own.
func (c *counting) merge(l Line, rate int64) {
	at := slices.IndexFunc(c.o.Lines, func(o Line) bool { return o.Same(&l) })
	if at < 0 {
		c.add(l, rate, 1)
		return
	}
	o := &c.o.Lines[at]
	o.Quantity, o.Added = o.Quantity+l.Quantity, o.Added+l.Added
	if o.Price == Priced {
		o.Money = o.Total() * o.Rate
	}
}

// effort is the way of building up that is taken.
func (c *counting) effort() (sheets, nails int, layers length.Length, minutes int64) {
	v := c.l.Levelling(&c.l.Packing)
	e := v.Continuous
	if c.l.Packing.Taken == job.PackChairs {
		e = v.Chairs
	}
	return e.Sheets, e.Nails, e.Layers, e.Minutes * 1000
}

// buildUp is the wood of the wall top.
func (c *counting) buildUp() {
	sheets, nails, layers, _ := c.effort()
	rate := int64(0)
	if p := c.l.Job.Packing.Rates; p != nil {
		rate = p.Sheet
	}
	c.add(Line{Group: BuildUp, What: Layers, Unit: Running, Quantity: int64(layers), Price: Told}, 0, 1)
	c.add(Line{Group: BuildUp, What: Plywood, Quantity: int64(sheets)}, rate, 1)
	c.add(Line{Group: BuildUp, What: Nails, Quantity: int64(nails)}, c.by.Rates.Nails, 100)
}

// labour is the time by the firm's rates, with its allowance.
func (c *counting) labour() {
	r := c.by.Rates
	var straight, special, chairs int64
	for _, p := range c.l.Perimeters {
		for _, q := range p.Pieces {
			if q.Kind == cap.Straight {
				straight++
			} else {
				special++
			}
		}
	}
	for _, run := range c.l.Runs() {
		chairs += int64(len(run.Chairs))
	}
	hour := r.Hour
	p := c.l.Job.Packing.Rates
	if hour == 0 && p != nil {
		hour = p.Hour
	}
	time := func(what What, n, each int64) {
		line := Line{Group: Labour, What: what, Unit: Time, Quantity: n * each, Percent: c.by.Labour}
		if each == 0 && n > 0 { // told by its count, since nobody said how long it takes
			line.Unit, line.Quantity, line.Percent = Each, n, 0
			c.add(line, 0, 1)
			return
		}
		line.Added = line.Quantity * int64(c.by.Labour) / 100
		c.add(line, hour, 60_000)
	}
	time(SetChairs, chairs, r.Chair)
	time(LayCaps, straight, r.Cap)
	time(LaySpecial, special, r.Special)
	if _, _, _, minutes := c.effort(); p != nil {
		time(Level, 1, minutes)
	}
}
