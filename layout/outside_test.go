package layout_test

import (
	"math"
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/internal/outside"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// areas asks shapely for the ring between a closed cap line and its offset by the
// cap's width, for the union of the pieces in plan, and for what chairs share.
const areas = `
from shapely.geometry import Polygon
from shapely.ops import unary_union
answers = []
for p in problem:
    line = Polygon(p["line"])
    off = line.buffer(-p["width"] if p["inward"] else p["width"], join_style=2, mitre_limit=1000)
    ring = line.symmetric_difference(off)
    pieces = [Polygon(q) for q in p["pieces"]]
    chairs = [Polygon(q) for q in p["chairs"]]
    shared = 0.0
    for i in range(len(chairs)):
        for j in range(i):
            shared += chairs[i].intersection(chairs[j]).area
    whole = unary_union(pieces)
    answers.append({"ring": ring.area, "sum": sum(q.area for q in pieces), "union": whole.area,
                    "beyond": whole.difference(ring).area, "chairs": shared, "off": unary_union(chairs).difference(ring).area if chairs else 0.0})
print(json.dumps(answers))
`

type plane struct{ x, y, heading float64 }

// at is a point of a run's frame: along it, and from the cap line to the roof at
// the right hand. Paper's y goes down, so that a turn to the right is positive.
func (p plane) at(along, across float64) [2]float64 {
	s, c := math.Sincos(p.heading)
	return [2]float64{p.x + along*c - across*s, p.y + along*s + across*c}
}

// The plan of complete layouts: pieces and gaps fill the ring between the cap line
// and its offset and lie nowhere else, and no two chairs share a place.
func TestPlanAgainstAnotherProgram(t *testing.T) {
	const in = length.Inch
	sq, run := 90*job.Degree, jobtest.Run
	long := length.FromInches(300 + 240/math.Sqrt2) // so that the corner closes
	shapes := map[string]job.Perimeter{
		"a rectangle": jobtest.Rectangle(480*in, 300*in),
		"a jog in a side": jobtest.Perimeter("JOG", job.Roof, run("A", 300*in, -sq), run("B", 90*in, sq), run("C", 200*in,
			sq), run("D", 90*in, -sq), run("E", 300*in, sq),
			run("F", 390*in, sq), run("G", 800*in, sq), run("H", 390*in, sq)),
		"a well": jobtest.Perimeter("WELL", job.Well, run("A", 300*in, -sq), run("B", 200*in, -sq), run("C",
			300*in, -sq), run("D", 200*in, -sq)),
		"chamfered corner": jobtest.Perimeter("CUT", job.Roof, run("A", 300*in, 45*job.Degree), run("B", 240*in,
			45*job.Degree), run("C", 300*in, sq), run("D", long, sq), run("E", long, sq)),
	}
	type problem struct {
		Line   [][2]float64   `json:"line"`
		Width  float64        `json:"width"`
		Inward bool           `json:"inward"`
		Pieces [][][2]float64 `json:"pieces"`
		Chairs [][][2]float64 `json:"chairs"`
	}
	type answer struct{ Ring, Sum, Union, Beyond, Chairs, Off float64 }
	var asked []problem
	var names []string
	var gaps, slack []float64
	for name, shape := range shapes {
		j := woodJob()
		shape.MisclosureLength = 60 * in
		j.Perimeters = []job.Perimeter{shape}
		l := build(t, j)
		p := l.Perimeters[0]
		w := p.Runs[0].Outside.Inch()
		q := problem{Width: w, Inward: shape.Kind == job.Roof}
		frames := map[*cap.Run]plane{}
		f, gap := plane{}, 0.0
		for _, r := range p.Runs {
			frames[r.Run] = f
			q.Line = append(q.Line, f.at(0, 0))
			end := f.at(r.Cap.Inch(), 0)
			f.x, f.y = end[0], end[1]
			f.heading += r.Right.Corner.CapTurn.Degrees() * math.Pi / 180
			for _, x := range r.Joints {
				gap += x.Gap().Inch() * w
			}
			q.Chairs = append(q.Chairs, chairsOf(l, r, frames[r.Run])...)
		}
		for _, c := range p.Pieces {
			for i, part := range c.Parts {
				var trim [2]float64
				if i > 0 {
					trim[0] = c.Miters[i-1].Trim[1].Inch()
				}
				if i < len(c.Miters) {
					trim[1] = c.Miters[i].Trim[0].Inch()
				}
				g, a, b := frames[part.Run], part.From.Inch(), part.To.Inch()
				q.Pieces = append(q.Pieces, [][2]float64{g.at(a, 0), g.at(b, 0), g.at(b-trim[1], w), g.at(a+trim[0], w)})
			}
		}
		asked, names, gaps = append(asked, q), append(names, name), append(gaps, gap)
		// Each trim is rounded to a sixteenth once, and the line may not close.
		miss := math.Hypot(f.x, f.y)
		slack = append(slack, float64(len(p.Runs))*w/16+miss*w)
	}
	var answers []answer
	outside.Ask(t, "shapely", areas, asked, &answers)
	for i, a := range answers {
		if math.Abs(a.Sum+gaps[i]-a.Ring) > slack[i] {
			t.Errorf("%s: pieces %.2f and gaps %.2f of a ring of %.2f in2", names[i], a.Sum, gaps[i], a.Ring)
		}
		if a.Sum-a.Union > slack[i] || a.Beyond > slack[i] {
			t.Errorf("%s: pieces of %.2f in2 cover %.2f, %.3f of it beyond the ring", names[i], a.Sum, a.Union, a.Beyond)
		}
		if a.Chairs > 1e-6 || a.Off > 1e-6 {
			t.Errorf("%s: chairs share %.4f in2, and %.4f lies beyond the cap", names[i], a.Chairs, a.Off)
		}
	}
}

// chairsOf are the outlines of a run's chairs.
func chairsOf(l *layout.Layout, r *layout.Run, f plane) [][][2]float64 {
	s := &l.Job.System
	var out [][][2]float64
	for _, c := range r.Chairs {
		a, b := c.Left(s).Inch(), c.Right(s).Inch()
		y, z := (s.Metal.Thickness + s.Chair.FrontEdge).Inch(), (s.Metal.Thickness + c.Inside - s.Chair.RearEdge).Inch()
		out = append(out, [][2]float64{f.at(a, y), f.at(b, y), f.at(b, z), f.at(a, z)})
	}
	return out
}
