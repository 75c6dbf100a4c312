package setplane

import (
	"math"
	"math/rand/v2"
	"testing"

	"copingset/layout/internal/outside"
	"copingset/layout/length"
)

// lowest is the linear program as it stands in words: heights at the corners, each
// point cleared, each grade kept, least area.
const lowest = `
from scipy.optimize import linprog
answers = []
for p in problem:
    n = p["corners"]
    c = [0.0]*n
    A, b = [], []
    for i, r in enumerate(p["runs"]):
        j = (i+1) % n
        c[i] += r["length"]/2; c[j] += r["length"]/2
        for at, least in r["points"]:
            row = [0.0]*n
            row[i] -= 1 - at/r["length"]; row[j] -= at/r["length"]
            A.append(row); b.append(-least)
        for sign, most in ((1, r["up"]), (-1, r["down"])):
            row = [0.0]*n
            row[j] += sign; row[i] -= sign
            A.append(row); b.append(most)
    res = linprog(c, A_ub=A, b_ub=b, bounds=[(None, None)]*n, method="highs")
    answers.append(res.fun if res.status == 0 else None)
print(json.dumps(answers))
`

// The least area under the surface is what another program finds.
func TestAgainstAnotherProgram(t *testing.T) {
	type run struct {
		Length float64      `json:"length"`
		Points [][2]float64 `json:"points"`
		Up     float64      `json:"up"`
		Down   float64      `json:"down"`
	}
	type problem struct {
		Corners int   `json:"corners"`
		Runs    []run `json:"runs"`
	}
	const grid = length.Inch16
	var asked []problem
	var mine []float64
	r := rand.New(rand.NewPCG(20261125, 11))
	for k := range 40 {
		closed := k%2 == 0
		var runs []Run
		q := problem{}
		for range 3 + r.IntN(6) {
			u := Run{Length: length.Length(40+r.IntN(600)) * length.Inch, Rise: length.Length(1+r.IntN(48)) * grid, OneWay: r.IntN(3) - 1}
			if closed {
				u.OneWay = 0
			}
			v := run{Length: u.Length.Inch(), Up: u.Rise.Inch(), Down: u.Rise.Inch()}
			if u.OneWay > 0 {
				v.Down = 0
			} else if u.OneWay < 0 {
				v.Up = 0
			}
			for range 2 + r.IntN(6) {
				p := Point{At: length.Length(r.Int64N(int64(u.Length/length.Inch16))) * length.Inch16, Least: length.Length(r.IntN(64)) * grid}
				u.Points = append(u.Points, p)
				v.Points = append(v.Points, [2]float64{p.At.Inch(), p.Least.Inch()})
			}
			runs, q.Runs = append(runs, u), append(q.Runs, v)
		}
		q.Corners = Corners(len(runs), closed)
		s, ok := Solve(runs, closed, grid)
		if !ok {
			t.Fatal("no surface")
		}
		area, _ := Area(runs, s.Exact).Float64()
		perInch := float64(length.Inch) * float64(length.Inch)
		asked, mine = append(asked, q), append(mine, area/perInch)
	}
	var answers []*float64
	outside.Ask(t, "scipy", lowest, asked, &answers)
	for i, a := range answers {
		if a == nil || math.Abs(mine[i]-*a) > 1e-6*math.Max(1, math.Abs(*a)) {
			t.Errorf("chain %d: area %.6f, the other program's %v", i+1, mine[i], a)
		}
	}
}
