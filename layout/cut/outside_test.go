package cut

import (
	"math/rand/v2"
	"testing"

	"copingset/layout/internal/outside"
	"copingset/layout/length"
)

// milp assigns each piece to one bar of its own list, fewest bars' price first:
// a whole-number program solved by another program, HiGHS, in another form than
// the patterns of this package.
const milp = `
import numpy as np
from scipy.optimize import milp, LinearConstraint, Bounds
answers = []
for p in problem:
    lens, stocks, kerf, trim = p["lengths"], p["stocks"], p["kerf"], p["trim"]
    n = len(lens)
    bars = [(s["length"], s["price"]) for s in stocks for _ in range(p["bars"])]
    m = len(bars)
    c = np.concatenate([np.zeros(n*m), [b[1] for b in bars]])
    rows, lo, hi = [], [], []
    for i in range(n):
        r = np.zeros(n*m+m); r[i*m:(i+1)*m] = 1
        rows.append(r); lo.append(1); hi.append(1)
    for k in range(m):
        r = np.zeros(n*m+m)
        for i in range(n):
            r[i*m+k] = lens[i] + kerf
        r[n*m+k] = -(bars[k][0] - 2*trim + kerf)
        rows.append(r); lo.append(-np.inf); hi.append(0)
    for s in range(len(stocks)):
        for k in range(s*p["bars"], (s+1)*p["bars"]-1):  # used in order
            r = np.zeros(n*m+m); r[n*m+k] = 1; r[n*m+k+1] = -1
            rows.append(r); lo.append(0); hi.append(np.inf)
    res = milp(c, constraints=LinearConstraint(np.array(rows), lo, hi), integrality=np.ones(n*m+m), bounds=Bounds(0, 1), options={"time_limit": 60})
    answers.append(round(float(res.fun), 6) if res.status == 0 else -1)
print(json.dumps(answers))
`

// Plans proven to be the best cost what another program's best one costs.
func TestAgainstAnotherSolver(t *testing.T) {
	type stock struct {
		Length float64 `json:"length"`
		Price  float64 `json:"price"`
	}
	type problem struct {
		Lengths []float64 `json:"lengths"`
		Stocks  []stock   `json:"stocks"`
		Kerf    float64   `json:"kerf"`
		Trim    float64   `json:"trim"`
		Bars    int       `json:"bars"`
	}
	var asked []problem
	var mine []Plan
	r := rand.New(rand.NewPCG(20261125, 7))
	for k := range 8 {
		stocks := []Stock{{Length: 120 * in, Price: 60}}
		if k%2 == 1 {
			stocks = append(stocks, Stock{Length: 96 * in, Price: 50})
		}
		rules := Rules{Nodes: 2000, Kerf: length.Length(k%3) * length.Inch16, EndTrim: length.Length(k%2) * in / 4}
		var items []Item
		q := problem{Kerf: rules.Kerf.Inch(), Trim: rules.EndTrim.Inch(), Bars: 5}
		for range 8 {
			l := length.Length(20*16+r.IntN(50*16)) * length.Inch16
			items = append(items, Item{l, 1})
			q.Lengths = append(q.Lengths, l.Inch())
		}
		for _, s := range stocks {
			q.Stocks = append(q.Stocks, stock{s.Length.Inch(), float64(s.Price)})
		}
		p, err := Lengths(stocks, items, rules)
		if err != nil {
			t.Fatal(err)
		}
		asked, mine = append(asked, q), append(mine, p)
	}
	var answers []float64
	outside.Ask(t, "scipy", milp, asked, &answers)
	for i, a := range answers {
		if a < 0 {
			t.Errorf("order %d: the other program found no answer in time", i+1)
			continue
		}
		if !mine[i].Proven || float64(mine[i].Price) != a {
			t.Errorf("order %d: price %d (proven %v), the other program's %g", i+1, mine[i].Price, mine[i].Proven, a)
		}
	}
}
