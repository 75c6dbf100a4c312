package drawing

import (
	"fmt"
	"strings"

	"copingset/layout/length"
)

// Sum says that lengths printed one after the other make up the distance
// between two printed stations. A chain of dimensions carries it in its Group,
// as it is lettered, so that Check can add up what the reader would.
type Sum struct {
	What  string   // "chair to chair"
	Parts []string // as lettered
	From  string   // as lettered; empty: zero
	To    string
}

// Claim appends a sum to the scene.
func (s *Scene) Claim(sum Sum) { s.Add(Group{Sums: []Sum{sum}}) }

// check adds a sum up; it returns what is wrong, or nothing.
func (u Sum) check() string {
	var total length.Length
	for _, p := range u.Parts {
		l, err := lettered(p)
		if err != nil {
			return fmt.Sprintf("%s: %q is no length", u.What, p)
		}
		total += l
	}
	from, err := lettered(u.From)
	if err != nil {
		return fmt.Sprintf("%s: %q is no station", u.What, u.From)
	}
	to, err := lettered(u.To)
	if err != nil {
		return fmt.Sprintf("%s: %q is no station", u.What, u.To)
	}
	if from+total != to {
		return fmt.Sprintf(
			"%s: from %s the printed parts %s do not come to %s",
			u.What,
			or(u.From, "0"),
			strings.Join(u.Parts, " + "),
			u.To,
		)
	}
	return ""
}

// lettered reads a length as it is lettered on a sheet; a bare number is
// millimetres.
func lettered(s string) (length.Length, error) {
	if s == "" {
		return 0, nil
	}
	return length.ParseIn(strings.ReplaceAll(s, fractionGap, " "), length.Millimetre)
}

func or(s, other string) string {
	if s == "" {
		return other
	}
	return s
}
