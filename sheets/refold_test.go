package sheets

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"testing"

	"copingset/drawing/dxf"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"

	"pgregory.net/rapid"
)

// What follows folds the files that are written, from their bytes alone: outlines of
// the DXF, bends of bends.csv, metal of list.csv. It shares nothing with what made
// the patterns, and compares what comes out with the job.

type pt struct{ x, y float64 }

func (a pt) sub(b pt) pt     { return pt{a.x - b.x, a.y - b.y} }
func (a pt) add(b pt) pt     { return pt{a.x + b.x, a.y + b.y} }
func (a pt) by(k float64) pt { return pt{a.x * k, a.y * k} }
func (a pt) turned(deg float64) pt {
	s, c := math.Sincos(deg * math.Pi / 180)
	return pt{a.x*c - a.y*s, a.x*s + a.y*c}
}

// cutOutline reads the first closed polyline of layer CUT, in millimetres.
func cutOutline(t testing.TB, file []byte) []pt {
	lines := strings.Split(strings.ReplaceAll(string(file), "\r", ""), "\n")
	unit, kind, layer := 0.0, "", ""
	var out []pt
	for i := 0; i+1 < len(lines); i += 2 {
		code, value := strings.TrimSpace(lines[i]), strings.TrimSpace(lines[i+1])
		switch {
		case code == "9" && value == "$INSUNITS":
			unit = map[string]float64{"1": 25.4, "4": 1}[strings.TrimSpace(lines[i+3])]
		case code == "0":
			if kind == "LWPOLYLINE" && layer == "CUT" && len(out) > 0 {
				return out
			}
			kind, layer, out = value, "", nil
		case code == "8":
			layer = value
		case kind == "LWPOLYLINE" && (code == "10" || code == "20"):
			v, err := strconv.ParseFloat(value, 64)
			if err != nil || unit == 0 {
				t.Fatalf("coordinate %q in unit %v", value, unit)
			}
			if code == "10" {
				out = append(out, pt{v * unit, 0})
			} else {
				out[len(out)-1].y = v * unit
			}
		}
	}
	t.Fatal("no outline on layer CUT")
	return nil
}

// sheetRow is a row of list.csv or bends.csv by its headings.
type sheetRow map[string]string

func (r sheetRow) mm(name string) float64 {
	v, _ := strconv.ParseFloat(r[name], 64)
	if r["unit"] == "in" {
		v *= 25.4
	}
	return v
}

func (r sheetRow) number(name string) float64 {
	v, _ := strconv.ParseFloat(r[name], 64)
	return v
}

func readRows(t testing.TB, s Schedule) []sheetRow {
	var b bytes.Buffer
	if err := WriteCSV(&b, s); err != nil {
		t.Fatal(err)
	}
	all, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []sheetRow
	for _, cells := range all[1:] {
		r := sheetRow{}
		for i, c := range cells {
			r[all[0][i]] = c
		}
		out = append(out, r)
	}
	return out
}

// written is a body as its files tell it.
type written struct {
	row     sheetRow
	outline []pt
	bends   []sheetRow
}

func writtenOf(t testing.TB, l *layout.Layout) []written {
	files := map[string][]byte{}
	for _, m := range Machines(l) {
		files[m.Name] = dxf.Encode(m.Drawing)
	}
	lists := MachineLists(l)
	bends := readRows(t, lists[1])
	var out []written
	for _, r := range readRows(t, lists[0]) {
		w := written{row: r, outline: cutOutline(t, files[r["file"]])}
		for _, b := range bends {
			if b["file"] == r["file"] {
				w.bends = append(w.bends, b)
			}
		}
		out = append(out, w)
	}
	return out
}

// refolded is a body bent up across its run: for each height on the blank a place
// of its finish face and of its back, y to the roof and z up, the street side's
// outer face of the front leg at y 0 and its fold at z 0.
type refolded struct {
	w     written
	t     float64
	spans []foldSpan // straights and bends from the street edge on
}

type foldSpan struct {
	name         string // of a straight
	from, to     float64
	at           pt // finish face where it begins
	dir          pt
	turn, radius float64 // of a bend
}

// bent reports whether all bends run along the blank.
func (w written) bent() bool {
	for _, b := range w.bends {
		if math.Abs(b.mm("y1")-b.mm("y2")) > 0.01 {
			return false
		}
	}
	return len(w.bends) > 0
}

// refold bends a body up, bends DOWN away from the finish face.
func refold(w written) refolded {
	out := refolded{w: w, t: w.row.mm("thickness")}
	bends := append([]sheetRow(nil), w.bends...)
	sort.SliceStable(bends, func(i, j int) bool { return bends[i].mm("y1") > bends[j].mm("y1") })
	hi, lo := math.Inf(-1), math.Inf(1)
	for _, p := range w.outline {
		hi, lo = math.Max(hi, p.y), math.Min(lo, p.y)
	}
	at, dir, s := pt{}, pt{1, 0}, 0.0
	flat := func(name string, to float64) {
		out.spans = append(out.spans, foldSpan{name: name, from: s, to: to, at: at, dir: dir})
		at, s = at.add(dir.by(to-s)), to
	}
	last := math.Inf(1)
	for i, b := range bends {
		if y := b.mm("y1"); math.Abs(y-last) < 0.01 {
			continue // the second half of a bend that an opening parts
		} else {
			last = y
		}
		ba, turn, r := b.mm("bend allowance"), b.number("turn"), b.mm("inside radius")
		if b["up or down"] == "down" {
			turn = -turn
		}
		// The straight before it is the one it shares with no bend before.
		name := b["between"]
		if i+1 < len(bends) && (name == bends[i+1]["between"] || name == bends[i+1]["and"]) {
			name = b["and"]
		}
		flat(name, hi-b.mm("y1")-ba/2)
		out.spans = append(out.spans, foldSpan{from: s, to: s + ba, at: at, dir: dir, turn: turn, radius: r})
		side, reach := pt{-dir.y, dir.x}, r // to the finish
		if turn < 0 {
			side, reach = side.by(-1), r+out.t
		}
		c := at.add(side.by(reach))
		at, dir, s = c.add(at.sub(c).turned(turn)), dir.turned(turn), s+ba
	}
	final := bends[len(bends)-1]
	name := final["and"]
	for _, n := range out.spans {
		if n.name == name {
			name = final["between"]
		}
	}
	flat(name, hi-lo)
	return out
}

// skins are the finish face and the back at a place from the street edge on.
func (r refolded) skins(s float64) (finish, back pt) {
	for i, n := range r.spans {
		if s > n.to && i < len(r.spans)-1 {
			continue
		}
		left := pt{-n.dir.y, n.dir.x}
		if n.turn == 0 {
			finish = n.at.add(n.dir.by(s - n.from))
			return finish, finish.sub(left.by(r.t))
		}
		side, in, outer := left, n.radius, n.radius+r.t
		if n.turn < 0 {
			side, in, outer = left.by(-1), n.radius+r.t, n.radius
		}
		c := n.at.add(side.by(in))
		u := side.by(-1).turned(n.turn * (s - n.from) / (n.to - n.from))
		return c.add(u.by(in)), c.add(u.by(outer))
	}
	return pt{}, pt{}
}

func (r refolded) straight(name string) (foldSpan, bool) {
	for _, n := range r.spans {
		if n.name == name && n.turn == 0 {
			return n, true
		}
	}
	return foldSpan{}, false
}

// stand turns a cap so that its front leg is plumb, its street face at y 0 and the
// mold line of its front fold at z 0.
func (r *refolded) stand() bool {
	leg, ok := r.straight("front leg")
	top, ok2 := r.straight("top")
	if !ok || !ok2 {
		return false
	}
	turn := 90 - math.Atan2(leg.dir.y, leg.dir.x)*180/math.Pi
	for i := range r.spans {
		r.spans[i].at, r.spans[i].dir = r.spans[i].at.turned(turn), r.spans[i].dir.turned(turn)
	}
	leg, _ = r.straight("front leg")
	top, _ = r.straight("top")
	k := (leg.at.x - top.at.x) / top.dir.x
	mold := pt{leg.at.x, top.at.y + k*top.dir.y}
	for i := range r.spans {
		r.spans[i].at = r.spans[i].at.sub(mold)
	}
	return true
}

// end is where the blank is cut at a place from its street edge on, at its right or left.
func (w written) end(s float64, right bool) float64 {
	hi := math.Inf(-1)
	for _, p := range w.outline {
		hi = math.Max(hi, p.y)
	}
	y, best := hi-s, math.Inf(1)
	for i, a := range w.outline {
		b := w.outline[(i+1)%len(w.outline)]
		if (a.y-y)*(b.y-y) > 0 || a.y == b.y {
			continue
		}
		x := a.x + (y-a.y)/(b.y-a.y)*(b.x-a.x)
		if right {
			x = -x
		}
		best = math.Min(best, x)
	}
	if right {
		return -best
	}
	return best
}

// extreme is the least and greatest of what is told of both faces between two places.
func (r refolded) extreme(from, to float64, of func(pt) float64) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	const n = 400
	for k := range n + 1 {
		f, b := r.skins(from + (to-from)*float64(k)/n)
		for _, p := range []pt{f, b} {
			lo, hi = math.Min(lo, of(p)), math.Max(hi, of(p))
		}
	}
	return lo, hi
}

// facts are what a folded cap is held to.
func (r refolded) check(t rapid.TB, j *job.Job) {
	name := r.w.row["file"]
	s := &j.System
	near := func(what string, got, want float64) {
		if math.Abs(got-want) > 0.05 {
			t.Errorf("%s: %s folds to %.3f mm, the job says %.3f", name, what, got, want)
		}
	}
	front, _ := r.straight("front leg")
	rear, ok := r.straight("rear leg")
	if !ok {
		t.Errorf("%s has no rear leg", name)
		return
	}
	top, _ := r.straight("top")
	near("inside width", rear.at.x-front.at.x-2*r.t, r.w.row.mm("inside width"))
	if got := -top.dir.y / top.dir.x; math.Abs(got-r.w.row.number("slope")) > 1e-6 {
		t.Errorf("%s: the top falls %.6f, want %.6f", name, got, r.w.row.number("slope"))
	}
	end := r.spans[len(r.spans)-1].to
	// A leg to its tangent is its lowest metal, to the mold line where the outer
	// faces of leg and kick cross; the fold of the rear leg is where faces cross.
	k := (rear.at.x - top.at.x) / top.dir.x
	rearFold := top.at.y + k*top.dir.y
	reach := func(leg, kick string, stated job.Leg, down float64, street bool) {
		n, _ := r.straight(leg)
		q, has := r.straight(kick)
		switch {
		case !has && s.Profile.HemReturn == 0:
			lo, _ := r.extreme(n.from, n.to, func(p pt) float64 { return p.y })
			near(leg, down-lo, stated.Length.MM())
		case !has || stated.To == job.ToTangent:
			a, z := n.from, end
			if street {
				a, z = 0, n.to
			}
			if has && street {
				a = q.to
			} else if has {
				z = q.from
			}
			lo, _ := r.extreme(a, z, func(p pt) float64 { return p.y })
			near(leg+" to tangent", down-lo, stated.Length.MM())
		default:
			// The outer face of the bend is the finish where it turns down.
			off := 0.0
			turnUp := s.Profile.Drip.Length > 0 && street
			if turnUp {
				off = r.t
			}
			a, b := n.at.sub(pt{-n.dir.y, n.dir.x}.by(off)), q.at.sub(pt{-q.dir.y, q.dir.x}.by(off))
			u := (a.x - b.x) / q.dir.x
			near(leg+" to mold line", down-(b.y+u*q.dir.y), stated.Length.MM())
		}
	}
	reach("front leg", "drip", s.Profile.FrontLeg, 0, true)
	reach("rear leg", "hook", s.Profile.RearLeg, rearFold, false)
	r.clash(t, name)
}

// clash finds metal in metal of one section: places that are not neighbours keep
// a thickness apart.
func (r refolded) clash(t rapid.TB, name string) {
	end := r.spans[len(r.spans)-1].to
	const step = 0.4
	n := int(end / step)
	mid := make([]pt, n+1)
	for i := range mid {
		f, b := r.skins(end * float64(i) / float64(n))
		mid[i] = f.add(b).by(0.5)
	}
	// Along the sheet two places that near one another by a bend are no clash.
	var apart float64
	for _, s := range r.spans {
		if s.turn != 0 {
			apart = math.Max(apart, math.Pi*(s.radius+r.t)+2*r.t)
		}
	}
	for i := 0; i <= n; i++ {
		for k := i + int(apart/step) + 1; k <= n; k++ {
			d := math.Hypot(mid[i].x-mid[k].x, mid[i].y-mid[k].y)
			if d < r.t-0.05 {
				t.Errorf("%s: metal in metal: places %.1f and %.1f mm from its street edge stand %.3f mm apart, and it is %.3f thick", name, step*float64(i), step*float64(k), d, r.t)
				return
			}
		}
	}
}

// seams measures how far the metal of both legs of a corner stands off the plumb
// plane that bisects its turn.
func seams(t rapid.TB, j *job.Job, all []written) (seen int) {
	relief := j.Shop.Relief.Stated()
	for _, w := range all {
		turn, err := strconv.ParseFloat(w.row["turn"], 64)
		side := 1.0
		if err != nil || turn == 0 || w.row["body"] != "left leg" && w.row["body"] != "right leg" || !w.bent() || j.System.Corner.TwoWidths != nil || w.row["lap"] != "" {
			continue // tabs of a lap are folded by a test of the shop's own
		}
		if w.row["body"] == "right leg" {
			side = -1
		}
		r := refold(w)
		if !r.stand() {
			continue
		}
		fold, _ := r.straight("front leg")
		long := w.row.mm("front fold, left end to right end")
		var corner float64
		if side > 0 {
			corner = w.end(fold.to, false) + long
		} else {
			corner = w.end(fold.to, true) - long
		}
		seen++
		gap := w.row.mm("seam gap")
		sin, cos := math.Sincos(turn / 2 * math.Pi / 180)
		end := r.spans[len(r.spans)-1].to
		least, most := math.Inf(1), math.Inf(-1)
		const n = 1500
		for k := 1; k < n; k++ {
			s := end * float64(k) / n
			x := side * (w.end(s, side > 0) - corner)
			f, b := r.skins(s)
			d := math.Min(-x*cos-f.x*sin, -x*cos-b.x*sin)
			least = math.Min(least, d)
			most = math.Max(most, d)
		}
		if least < gap/2-0.05 {
			t.Errorf("%s: metal stands %.3f mm off the seam's plane, half the gap is %.3f", w.row["file"], least, gap/2)
		}
		if !relief && most > gap/2+0.05 {
			t.Errorf("%s: metal stands up to %.3f mm off the seam's plane, half the gap is %.3f", w.row["file"], most, gap/2)
		}
	}
	return seen
}

// plates measures the least distance of an end plate to the metal it stands in.
func plates(t rapid.TB, all []written) (seen int) {
	for i, w := range all {
		if w.row["body"] != "end plate" || i == 0 {
			continue
		}
		r := refold(all[i-1])
		if !all[i-1].bent() || !r.stand() {
			continue
		}
		seen++
		// Seen with the street at the side that its sheet names: a plate stands upright,
		// its middle in the middle of the cap, so measure from the side edges.
		lo, hi := pt{math.Inf(1), math.Inf(1)}, pt{math.Inf(-1), math.Inf(-1)}
		for _, p := range w.outline {
			lo, hi = pt{math.Min(lo.x, p.x), math.Min(lo.y, p.y)}, pt{math.Max(hi.x, p.x), math.Max(hi.y, p.y)}
		}
		gap := w.row.mm("seam gap")
		inside := w.row.mm("inside width")
		if got := hi.x - lo.x; math.Abs(got-(inside-2*gap)) > 0.05 {
			t.Errorf("%s: the plate is %.3f wide, inside %.3f less two gaps of %.3f", w.row["file"], got, inside, gap)
		}
		best, drop := math.Inf(1), plateDrop(r, gap)
		front, _ := r.straight("front leg")
		var skin []pt
		const n = 3000
		for k := range n {
			f, b := r.skins(r.spans[len(r.spans)-1].to * float64(k) / n)
			skin = append(skin, f.add(pt{0, drop}), b.add(pt{0, drop}))
		}
		for _, flip := range []float64{1, -1} { // its street side is the higher
			least := math.Inf(1)
			high := 0.0
			for _, p := range w.outline {
				high = math.Max(high, p.y)
			}
			place := func(p pt) pt {
				x := p.x - lo.x
				if flip < 0 {
					x = hi.x - p.x
				}
				return pt{front.at.x + r.t + gap + x, p.y - high}
			}
			for i, p := range w.outline {
				a, b := place(p), place(w.outline[(i+1)%len(w.outline)])
				for _, m := range skin {
					least = math.Min(least, off(m, a, b))
				}
			}
			if math.Abs(least-gap) < math.Abs(best-gap) {
				best = least
			}
		}
		if math.Abs(best-gap) > 0.06 {
			t.Errorf("%s: the plate stands %.3f mm off the metal, want %.3f", w.row["file"], best, gap)
		}
	}
	return seen
}

// plateDrop is how far the highest point of a plate lies below the mold line of
// the front fold: on the line the gap under the top, where that leaves the fold's
// own radius, or the plate's corner beside the front leg if the gap is the wider.
func plateDrop(r refolded, gap float64) float64 {
	front, _ := r.straight("front leg")
	top, _ := r.straight("top")
	under := top.at.sub(pt{-top.dir.y, top.dir.x}.by(r.t + gap))
	x := math.Max(front.at.x+r.t+gap, under.x)
	high := under.y + (x-under.x)*top.dir.y/top.dir.x
	for _, s := range r.spans {
		if s.from == front.to && s.radius > gap { // round the fold the highest point is square over its middle
			c := s.at.sub(pt{-s.dir.y, s.dir.x}.by(s.radius + r.t)) // of the bend
			high = math.Max(high, c.y+s.radius-gap)
		}
	}
	return -high
}

// off is how far a point stands off a line between two.
func off(p, a, b pt) float64 {
	u := b.sub(a)
	l := u.x*u.x + u.y*u.y
	if l == 0 {
		return math.Hypot(p.x-a.x, p.y-a.y)
	}
	v := p.sub(a)
	k := math.Max(0, math.Min(1, (v.x*u.x+v.y*u.y)/l))
	return math.Hypot(v.x-k*u.x, v.y-k*u.y)
}

// foldAll folds what is written of a layout and counts what it looked at.
func foldAll(t rapid.TB, tb testing.TB, l *layout.Layout) (caps, corners, closed int) {
	all := writtenOf(tb, l)
	for _, w := range all {
		if !w.bent() || w.row["kind"] == "transition" || w.row["kind"] == "tee" {
			continue
		}
		r := refold(w)
		if r.stand() && w.row["street-side leg"] != "" {
			r.check(t, l.Job)
			caps++
		} else {
			r.clash(t, w.row["file"])
		}
	}
	return caps, seams(t, l.Job, all), plates(t, all)
}

// What is written of every sample and of the test jobs folds to what the job says.
func TestWrittenFilesFold(t *testing.T) {
	folded := 0
	jobs, err := filepath.Glob("../samples/*/job.yaml")
	if err != nil || len(jobs) == 0 {
		t.Fatal(jobs, err)
	}
	for _, path := range jobs {
		j, found := job.Read(os.DirFS(".."), filepath.ToSlash(strings.TrimPrefix(path, "../")))
		if found.HasErrors() {
			t.Fatalf("%s: %v", path, found)
		}
		caps, corners, closed := foldAll(t, t, build(t, j))
		t.Logf("%s: %d caps, %d legs at seams, %d end plates", path, caps, corners, closed)
		folded += caps
	}
	for _, c := range workshops() {
		caps, corners, closed := foldAll(t, t, c.layout)
		t.Logf("%s: %d caps, %d legs at seams, %d end plates", c.name, caps, corners, closed)
		folded += caps
	}
	if folded == 0 {
		t.Error("nothing is written that folds")
	}
}

// bendable is a random system that a shop can bend, round one corner of any angle
// and hand, closed at one end.
func bendable(t *rapid.T) *job.Job {
	mm := func(name string, lo, hi float64) length.Length {
		return length.FromMM(math.Round(rapid.Float64Range(lo, hi).Draw(t, name)*100) / 100)
	}
	turn := job.Angle(rapid.IntRange(20, 120).Draw(t, "turn")) * job.Degree
	if rapid.Bool().Draw(t, "inside corner") {
		turn = -turn
	}
	p := jobtest.Perimeter("ANY", job.Open, jobtest.Run("A", 300*in, turn), jobtest.Run("B", 300*in, 0))
	p.Starts = job.End{Kind: job.EndFree}
	p.Runs[1].Right = job.End{Kind: rapid.SampledFrom([]job.EndKind{job.EndFree, job.EndWall}).Draw(t, "end")}
	j := named(jobtest.Job())
	j.Perimeters = []job.Perimeter{p}
	j.System.Profile.FrontLeg.Length, j.System.Profile.RearLeg.Length = 6*in, 4*in
	j = withShop(j)
	j.Units = rapid.SampledFrom([]job.Units{job.Imperial, job.Metric}).Draw(t, "units")
	j.Shop.Relief = job.Relief{}
	j.Shop.WeldGap = mm("gap", 0, 1.5)
	j.Shop.K = math.Round(rapid.Float64Range(0.3, 0.5).Draw(t, "K")*100) / 100
	s := &j.System
	s.Metal.Thickness = mm("thickness", 0.6, 1.3)
	for i := range j.Assemblies {
		j.Assemblies[i].ThicknessLeast = s.Metal.Thickness
	}
	s.Profile.InsideR = mm("radius", 0.8, 2.5)
	s.Profile.HemReturn = mm("hem", 8, 10)
	if rapid.IntRange(0, 2).Draw(t, "raw") == 0 {
		s.Profile.HemReturn = 0
	}
	s.Profile.Drip = job.Kick{Length: mm("drip", 16, 24), Angle: job.Angle(rapid.IntRange(15, 55).Draw(t, "drip turn")) * job.Degree}
	s.Profile.RearHook = job.Kick{Length: mm("hook", 20, 26), Angle: job.Angle(rapid.IntRange(100, 150).Draw(t, "hook turn")) * job.Degree}
	s.Profile.RearLeg.To = job.ToTangent
	return j
}

// Random systems fold to what their jobs say, whatever the corner and its hand.
func TestWrittenFilesFoldForAnySystem(t *testing.T) {
	caps, corners, closed := 0, 0, 0
	draws.Check(t, 25, func(r *rapid.T) {
		l, found := layout.Build(bendable(r))
		if found.HasErrors() {
			r.Skip("not a layout")
		}
		a, b, c := foldAll(r, t, l)
		caps, corners, closed = caps+a, corners+b, closed+c
	})
	if caps == 0 || corners == 0 || closed == 0 {
		t.Errorf("%d caps, %d legs at seams, %d end plates", caps, corners, closed)
	}
}

// Another program folds the same files, with libraries of others, to the same
// inside widths, slopes and lowest metal.
func TestAnotherProgramFolds(t *testing.T) {
	python := ""
	for _, p := range []string{"python3", "/usr/bin/python3"} {
		if python == "" && exec.Command(p, "-c", "import ezdxf, numpy").Run() == nil {
			python = p
		}
	}
	if python == "" {
		t.Skip("python3-ezdxf and python3-numpy are not installed: the patterns are not folded by another program")
	}
	j := withShop(named(jobtest.Job()))
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(700*in, 420*in)}
	j.System.Profile.RearHook = job.Kick{Length: in, Angle: 146 * job.Degree}
	j.System.Profile.HemReturn = 3 * in / 8
	l := build(t, j)
	dir := t.TempDir()
	write := func(name string, b []byte) {
		if err := os.WriteFile(filepath.Join(dir, name), b, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	for _, m := range Machines(l) {
		write(m.Name, dxf.Encode(m.Drawing))
	}
	rows := map[string]sheetRow{}
	for _, s := range MachineLists(l) {
		var b bytes.Buffer
		if err := WriteCSV(&b, s); err != nil {
			t.Fatal(err)
		}
		write(s.Name, b.Bytes())
	}
	for _, r := range readRows(t, MachineLists(l)[0]) {
		rows[r["file"]] = r
	}
	raw, err := exec.Command(python, "testdata/fold.py", dir).CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, raw)
	}
	var got map[string]struct{ Inside, Slope, Rear float64 }
	if err := json.Unmarshal(raw, &got); err != nil {
		t.Fatalf("%v: %s", err, raw)
	}
	if len(got) < 3 {
		t.Fatalf("%d caps folded: %s", len(got), raw)
	}
	for name, g := range got {
		r := rows[name]
		if math.Abs(g.Inside-r.mm("inside width")) > 0.05 || math.Abs(g.Slope-r.number("slope")) > 1e-5 || math.Abs(g.Rear-j.System.Profile.RearLeg.Length.MM()) > 0.05 {
			t.Errorf("%s: inside %.3f, slope %.5f, rear leg %.3f; the job says %s, %s, %.3f", name, g.Inside, g.Slope, g.Rear, r["inside width"], r["slope"], j.System.Profile.RearLeg.Length.MM())
		}
	}
}
