package finding

import (
	"cmp"
	"slices"
)

// Codes finds, of very many findings, the codes of those that touch a piece,
// without looking at each. It answers as Ref.TouchesPiece does of each.
type Codes struct {
	pieces map[string][]first    // by the marks that findings list
	runs   map[[2]string][]first // else by perimeter and run, either empty where not narrowed down
}

// first is a code and where in the list it comes first.
type first struct {
	at   int
	code string
}

// NewCodes looks through a list once.
func NewCodes(l List) *Codes {
	x := &Codes{pieces: map[string][]first{}, runs: map[[2]string][]first{}}
	add := func(to []first, f first) []first {
		if slices.ContainsFunc(to, func(o first) bool { return o.code == f.code }) {
			return to
		}
		return append(to, f)
	}
	for i, f := range l {
		switch w := f.Where; {
		case len(w.Pieces) > 0:
			for _, mark := range w.Pieces {
				x.pieces[mark] = add(x.pieces[mark], first{i, f.Code})
			}
		case w.Part == "" && len(w.Chairs) == 0:
			for _, run := range append([]string{w.Run}, w.Runs...) {
				k := [2]string{w.Perimeter, run}
				x.runs[k] = add(x.runs[k], first{i, f.Code})
			}
		}
	}
	return x
}

// Touching are the codes of the findings that touch a piece of any of the runs
// it stands on, given as perimeter and run, each once, in list order.
func (x *Codes) Touching(mark string, on ...[2]string) []string {
	all := slices.Clone(x.pieces[mark])
	for _, r := range on {
		for _, k := range [][2]string{{"", ""}, {r[0], ""}, {"", r[1]}, r} {
			all = append(all, x.runs[k]...)
		}
	}
	slices.SortFunc(all, func(a, b first) int { return cmp.Compare(a.at, b.at) })
	var out []string
	for _, f := range all {
		if !slices.Contains(out, f.code) {
			out = append(out, f.code)
		}
	}
	return out
}
