package job

import (
	"math/big"
	"slices"
	"strings"

	"copingset/layout/length"
)

func decodePacking(p *part) Packing {
	if p == nil {
		return Packing{}
	}
	layer := p.sub("layer")
	k := Packing{
		At: p.at,
		Method: word(p, "method", []choice[PackingMethod]{
			{"continuous", PackContinuous}, {"chair", PackChairs}, {"recommended", PackRecommended}}),
		AboveMembrane: p.yes("above_membrane"),
		Least:         p.length("least", notNegative),
		Most:          p.length("most", notNegative),
		LayerName:     layer.text("name"),
		Layer:         layer.length("thickness", positive),
		Shims:         p.lengths("shims", positive),
		Grade:         read(p, "grade", "value-slope", ParseSlope),
		Twist:         p.length("twist", notNegative),
		Sheet:         decodeSheet(p.sub("sheet")),
		Nail:          decodeNail(p.sub("nail")),
		Rates:         decodeRates(p.sub("rates")),
	}
	if p.d.has(p.full("method")) {
		if k.Method != PackContinuous {
			p.need("above_membrane", ", and the packing may be under each chair alone")
		}
		if k.Method != PackChairs {
			p.need("layer", ", and the packing may be continuous")
		}
		if k.Method == PackRecommended {
			p.need("sheet", ", and the two ways to pack are to be compared")
			p.need("rates", ", and the two ways to pack are to be compared")
		}
	}
	if k.Grade > 0 {
		p.need("twist", ", and the set surface may have a grade")
	}
	slices.Sort(k.Shims)
	slices.Reverse(k.Shims)
	return k
}

func decodeSheet(p *part) Sheet {
	return Sheet{Width: p.length("width", positive), Length: p.length("length", positive), Kerf: p.length("kerf", notNegative)}
}

func decodeNail(p *part) LayerNail {
	return LayerNail{Name: p.text("name"), Spacing: p.length("spacing", positive), Rows: read(p, "rows", "value-count", parseCount)}
}

func decodeRates(p *part) *Rates {
	if p == nil {
		return nil
	}
	minutes := func(key string) int64 { return read(p, key, "value-minutes", parseMinutes) }
	money := func(key string) int64 { return read(p, key, "value-money", parseMoney) }
	return &Rates{
		At:  p.at,
		Cut: minutes("per_cut"), Piece: minutes("per_piece"), Foot: minutes("per_foot"),
		Hour: money("per_hour"), Sheet: money("per_sheet"), Shim: money("per_shim"),
	}
}

// parseMinutes gives thousandths of a minute.
func parseMinutes(s string) (int64, error) {
	const mend = "write it like 1.5 min"
	v, rest, ok := plainNumber(s)
	if !ok || rest != "min" && rest != "s" {
		return 0, wrong("value-minutes", mend, "%s is not a time in minutes or seconds", show(s))
	}
	if rest == "s" {
		v = new(big.Rat).Quo(v, big.NewRat(60, 1))
	}
	n, ok := whole(times(v, 1000, 1))
	if !ok || n < 0 || n > 1_000_000 {
		return 0, wrong("value-minutes", mend, "%s is not the time of one cut, piece or foot", show(s))
	}
	return n, nil
}

// parseStep reads a step in the wall top: up 8" or down 8".
func parseStep(s string) (length.Length, error) {
	const mend = "write how much higher or lower the next run's top is, like up 8\" or down 200 mm"
	way, rest, _ := strings.Cut(strings.TrimSpace(s), " ")
	up, err := pick(way, "value-step", []choice[bool]{{"up", true}, {"down", false}})
	if err != nil {
		return 0, wrong("value-step", mend, "%s is no step of a wall top", show(s))
	}
	l, err := lengthOf(positive)(strings.TrimSpace(rest))
	if err != nil {
		return 0, wrong("value-step", mend, "%s is no step of a wall top", show(s))
	}
	if !up {
		l = -l
	}
	return l, nil
}

// parseGrade reads the grade of a run: level, or a slope that it may not pass,
// after rising or falling where it may go one way alone.
func parseGrade(s string) (Grade, error) {
	const mend = "write level, or the slope it may not pass, like 1/4\" in 12\" or rising 4\" in 12\""
	s = strings.TrimSpace(s)
	if strings.EqualFold(s, "level") {
		return Grade{}, nil
	}
	var g Grade
	if way, rest, two := strings.Cut(s, " "); two {
		switch strings.ToLower(way) {
		case "rising":
			g.Way, s = Rising, rest
		case "falling":
			g.Way, s = Falling, rest
		}
	}
	most, err := ParseSlope(s)
	if err != nil || most <= 0 {
		return Grade{}, wrong("value-slope", mend, "%s is no grade of a wall top", show(s))
	}
	g.Most = most
	return g, nil
}
