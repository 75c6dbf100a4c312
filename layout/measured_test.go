package layout_test

import (
	"bytes"
	"io/fs"
	"math"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"copingset/layout"
	"copingset/layout/anchor"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
	"copingset/layout/stand"
)

// What was once measured wrong on the samples and their like, each by its figures.

// A chair of 156 lb was said to pass: what a test of 98 psf as pulled over two proves on
// the cap's own 13.34 in and 29 in between chairs is 49 psf x 13.34 x 29 / 144 = 131.6 lb,
// not what it would be on the wider cap that was pulled.
func TestMeasuredResistanceOnTheCapsOwnWidth(t *testing.T) {
	const psf, pound = 47.88025898, 4.4482216152605
	j := woodJob()
	j.System.Widths = job.Widths{Offered: []length.Length{1324 * in / 100}}
	for i := range j.Assemblies {
		j.Assemblies[i].Up.Pa, j.Assemblies[i].ChairSpacing, j.Assemblies[i].WidthMost = 98*psf, 29*in, 20*in
	}
	l := build(t, j)
	c := l.Runs()[0].Chairs[2]
	if got := c.Load.Up.Holds / pound; math.Abs(got-131.65) > 0.05 {
		t.Errorf("a chair holds %.2f lb, by hand 131.65", got)
	}
}

// On the samples no chair is asked for more than was proved; N-C19 of the rectangle
// was at 118 per cent, E3-C1 of the L at 168 under two double miters, A-C30 of the
// metric one at 106.
func TestMeasuredOverloads(t *testing.T) {
	for _, c := range []struct{ sample, run string }{{"rectangle", "N"}, {"l-shape", "E3"}, {"metric", "A"}} {
		l, _ := solved(sampled(t, c.sample))
		n := 0
		for _, r := range l.Runs() {
			for _, k := range r.Chairs {
				if r.Name == c.run {
					n++
				}
				if k.Load.Over() || !k.Load.Known {
					t.Errorf("%s: chair %s is asked for %.0f per cent, known %v", c.sample, k.Name, 100*k.Load.Ratio(), k.Load.Known)
				}
			}
		}
		if _, held := coded(l, "chair-overloaded"); held || n == 0 {
			t.Errorf("%s: held %v, %d chairs on run %s", c.sample, held, n, c.run)
		}
	}
}

// The uplift of corner N/E acted 8 in outside the line through the two chairs at its
// legs' ends, and nothing was said. With chairs in its legs it still acts outside them:
// with supports that only bear it is a hold, with hooks it balances.
func TestMeasuredCornerHeldByTwoChairs(t *testing.T) {
	for _, hooked := range []bool{false, true} {
		j := sampled(t, "rectangle")
		if !hooked {
			j.System.Corner.Support.Hook = nil
		}
		l, _ := layout.Build(j)
		all := l.Perimeters[0].Turned
		i := slices.IndexFunc(all, func(q *anchor.Turned) bool { return q.Piece.Mark == "N/E" })
		if i < 0 {
			t.Fatal("no corner N/E")
		}
		off := all[i].Off.Inch()
		if all[i].Held != hooked || hooked && off != 0 || !hooked && (off <= 0 || off > 8) {
			t.Errorf("hooked %v: held %v, its uplift %.2f in outside", hooked, all[i].Held, off)
		}
		if _, held := coded(l, "corner-unheld"); held == hooked {
			t.Errorf("hooked %v: a hold %v", hooked, held)
		}
	}
}

// Three bays of a stock length of 138 in, tested at 46: the joint's half gaps made them
// 46.104 each; 84 in of metal at 28 likewise 28 1/16. Inner bays are the spacing itself,
// and what is more stands in the two bays beside the joints alone.
func TestMeasuredBays(t *testing.T) {
	const gap = 5 * in / 16
	for _, c := range []struct{ metal, spacing length.Length }{{138 * in, 46 * in}, {84 * in, 28 * in}} {
		p := stand.Part{Spacing: c.spacing, Chair: 13 * in, Ends: [2]stand.End{{Edge: gap / 2, At: 0, Chair: true},
			{Edge: c.metal + gap/2, At: c.metal + gap, Chair: true}}}
		r, why := stand.Row(p, length.Inch16)
		if why != stand.Stands || !slices.Equal(r.At, []length.Length{gap/2 + c.spacing, gap/2 + 2*c.spacing}) {
			t.Errorf("%v at %v: %v, chairs at %v", c.metal, c.spacing, why, r.At)
		}
	}
}

// No chair stands under the rod of the rectangle's first wall, at 13'-9", nor is one
// fastened with screws of two lengths.
func TestMeasuredChairUnderARod(t *testing.T) {
	l, _ := solved(sampled(t, "rectangle"))
	r := l.Runs()[0]
	p := l.Plan(r)
	i := slices.IndexFunc(p.Obstacles, func(o plan.Obstacle) bool { return o.Mark == "lightning rod" })
	if i < 0 || r.FrontStation(r.Job.Obstacles[i].Station) != 165*in {
		t.Fatalf("no rod at 13'-9\": %v", p.Obstacles)
	}
	for k, c := range p.Chairs {
		if plan.Deep(c.Ring, p.Obstacles[i].Ring, length.Inch16) > 0 {
			t.Errorf("chair %s stands under the rod", c.Mark)
		}
		if w := r.Chairs[k].Rows; w[0].Length != w[1].Length {
			t.Errorf("chair %s takes screws of %v and %v", c.Mark, w[0].Length, w[1].Length)
		}
	}
}

// A spacing of 12 ft under a stock of 10'-9", and one of 43 ft for 43 in, are refused at
// their line.
func TestMeasuredSpacings(t *testing.T) {
	for _, spacing := range []string{"12'-0\"", "43'-0\""} {
		samples := fstest.MapFS{}
		err := fs.WalkDir(os.DirFS("../samples"), ".", func(path string, e fs.DirEntry, err error) error {
			if err != nil || e.IsDir() {
				return err
			}
			text, err := fs.ReadFile(os.DirFS("../samples"), path)
			if strings.HasSuffix(path, "brindle-r8.yaml") {
				text = bytes.Replace(text, []byte(`chair_spacing: 43"`), []byte("chair_spacing: "+spacing), 1)
			}
			samples[path] = &fstest.MapFile{Data: text}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
		_, found := job.Read(samples, "rectangle/job.yaml")
		if !found.HasErrors() || !slices.ContainsFunc(found, func(f finding.Finding) bool { return strings.Contains(f.What, "chair_spacing") }) {
			t.Errorf("a tested spacing of %s passes: %v", spacing, found)
		}
	}
}
