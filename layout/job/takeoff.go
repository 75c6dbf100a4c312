package job

import (
	"io/fs"
	"math/big"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// Takeoff is what quantities and a price before the survey are reckoned by. Nothing
// of it reaches a sheet of the packet. Times are in thousandths of a minute, money in
// thousandths of the job's money; zero is not stated.
type Takeoff struct {
	At         finding.Place
	Uneven     length.Length // how much lower the wall tops are taken to lie at the middle of a run
	Metal      int           // per cent of metal over what the plan takes
	Labour     int           // per cent of time over what the rates give
	Unforeseen int           // per cent of the whole
	Rates      BidRates
	Options    []BidOption
}

// BidRates are the firm's own rates, for what no other part of the job prices.
type BidRates struct {
	Hour                                     int64 // of labour
	Cap, Special, Chair                      int64 // time to lay a straight piece, any other one, to set a chair
	SheetPrice                               MetalPrice
	Weld, Plate, Support, Cover, Tape, Nails int64 // a welded seam, ..., a roll of tape, a hundred nails
}

// MetalPrice is the price of sheet metal, by its area or by its weight.
type MetalPrice struct {
	Money    int64   // of one unit
	Square   float64 // the unit in square millimetres; zero: by weight
	Grams    float64 // the unit in grams; zero: by area
	Unit     string  // as it is written
	IsStated bool
}

// BidOption is one way to build that is set beside the job's own.
type BidOption struct {
	At           finding.Place
	Name         string
	Include      []string      // in place of the files that the job includes; none: those
	ChairSpacing length.Length // the most; zero: as tested
	Stock        length.Length // zero: the system's
	Packing      PackingMethod
	HasPacking   bool
}

// takeoffKey is where it stands in the file.
const takeoffKey = "takeoff"

// mostOptions is how many ways a sheet has room for, beside the job's own.
const mostOptions = 5

func (t *Takeoff) keys(k keys) {
	t.At = k.at
	k.lengthOrZero("uneven", &t.Uneven,
		"how much lower the wall tops are taken to lie at the middle of a run than at its ends", `3/4"`)
	k.group("allowances", "what is added, in per cent", func(k keys) {
		k.percent("metal", &t.Metal, "the metal over what the cutting plan takes", "5%")
		k.percent("labour", &t.Labour, "the time over what the rates give", "10%")
		k.percent("unforeseen", &t.Unforeseen, "the whole, for what nobody foresees", "5%")
	})
	k.group("rates", "the firm's own rates; what has none is listed as not priced", t.Rates.keys)
	list(k.may(), "options", "option", &t.Options, (*BidOption).keys, "other ways to build, set beside the job's own")
	if len(t.Options) > mostOptions {
		k.errorf("takeoff-many", t.Options[mostOptions].At, "write a second job file for the others",
			"%d options are named, and a sheet has room for %d", len(t.Options), mostOptions)
	}
}

func (r *BidRates) keys(k keys) {
	k.money("per_hour", &r.Hour, "the cost of an hour of labour, in the job's money", "60")
	k.may().minutes("per_cap", &r.Cap, "the time to lay a straight piece with its joint", "12 min")
	k.may().minutes("per_special", &r.Special, "the time to lay a corner, an end or another special piece", "30 min")
	k.may().minutes("per_chair", &r.Chair, "the time to set a chair to line and level", "6 min")
	price := withUnit("value-money", parseMetalPrice).in(func(MetalPrice) string { return "45.00 per m2" })
	value(k.may(), "metal", &r.SheetPrice, price,
		"the price of the sheet metal, where the shop's sheets state none", "4.20 per ft2")
	k.may().money("per_weld", &r.Weld, "what a welded or lapped seam costs, with its finish", "38.00")
	k.may().money("per_plate", &r.Plate, "the cost of a splice plate", "6.50")
	k.may().money("per_support", &r.Support, "the cost of a corner support", "11.00")
	k.may().money("per_cover", &r.Cover, "the cost of the cover plate of a building expansion joint", "46.00")
	k.may().money("per_roll", &r.Tape, "the cost of a roll of sealant tape", "9.50")
	k.may().money("per_100_nails", &r.Nails, "the cost of 100 nails of the plywood", "4.00")
}

func (o *BidOption) keys(k keys) {
	o.At = k.at
	k.name("name", &o.Name, "a short name for the way to build", "chairs at 24 in")
	k.may().files("include", &o.Include,
		"files in place of all that the job includes: another fabricator's system", "[../shop/other.yaml]")
	k.may().length("chair_spacing", &o.ChairSpacing, "chairs no further apart than this", `24"`)
	k.may().length("stock", &o.Stock, "the length of the caps", `12'-0"`)
	ways := []choice[PackingMethod]{{"continuous", PackContinuous}, {"chair", PackChairs}}
	word(k.may(), "packing", &o.Packing, ways,
		"how the wall top is built up: continuous, or under each chair alone", "chair")
	o.HasPacking = k.given("packing")
}

// parseMetalPrice reads a price by area or by weight.
func parseMetalPrice(s string) (MetalPrice, error) {
	const mend = "write it like 4.20 per ft2, 45 per m2, 3.10 per lb or 6.80 per kg"
	v, rest, ok := plainNumber(s)
	if !ok {
		return MetalPrice{}, wrong("value-money", mend, "%s is no price of metal", show(s))
	}
	rest, ok = strings.CutPrefix(strings.TrimSpace(rest), "per")
	unit := strings.ToLower(strings.TrimSpace(rest))
	p := MetalPrice{Unit: unit, IsStated: true}
	square := length.Foot.MM() * length.Foot.MM()
	switch unit {
	case "ft2", "sq ft":
		p.Square, p.Unit = square, "ft2"
	case "m2":
		p.Square = 1e6
	case "lb":
		p.Grams = 453.59237
	case "kg":
		p.Grams = 1000
	default:
		ok = false
	}
	n, fits := whole(times(v, 1000, 1))
	if !ok || !fits || v.Cmp(new(big.Rat)) <= 0 || n > 1_000_000_000 {
		return MetalPrice{}, wrong("value-money", mend, "%s is no price of metal", show(s))
	}
	p.Money = n
	return p, nil
}

// ReadTakeoff reads a job as ReadUnsurveyed does, for its quantities before anything
// is measured: surveys and readings are left out, and every run lies as drawn. The
// files of include, if any are named, stand in place of those that the job includes.
func ReadTakeoff(fsys fs.FS, name string, include []string) (*Job, finding.List) {
	d := newDecoder(fsys, name)
	d.unsurveyed, d.drawn, d.instead = true, true, include
	return d.job(name)
}
