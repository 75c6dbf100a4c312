package sheets

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
)

// withShop gives a job a shop that makes what the cases draw.
func withShop(j *job.Job) *job.Job {
	j.Shop = &job.Shop{K: 0.41, KSource: "bend test 31", LeastRadius: in / 32, LeastFlange: in / 4, Brake: 2000 * in, MostTurn: 170 * job.Degree, WeldGap: in / 32, Film: "finish side, out",
		Sheets: []job.ShopSheet{{Width: 60 * in, Length: 200 * in, Price: 100}}, Kerf: in / 8, EndTrim: in / 4, EdgeTrim: in / 4, LeastDrop: 28 * in, Effort: 20,
		Labels: job.Labels{Columns: 2, Rows: 5}, Relief: job.Relief{Width: in / 8, Depth: in / 8}}
	return withParts(j)
}

func shopSheets(l *layout.Layout, o Options) []Sheet {
	o.For = Shop
	var out []Sheet
	for _, s := range Packet(l, o) {
		if s.Kind >= ShopSheet {
			out = append(out, s)
		}
	}
	return out
}

func TestShopSheetsAreCleanOnEveryPaper(t *testing.T) {
	for k, c := range cases() {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			l := build(t, withShop(c.job))
			for i := range 2 { // each case on two papers, all papers among the cases
				z := job.PaperSize((2*k + i) % (int(job.ISOA2) + 1))
				if f := faults(shopSheets(l, Options{Runs: &z, Lists: &z})); len(f) > 0 {
					t.Errorf("%v: %s", z, strings.Join(f, "\n"))
				}
			}
		})
	}
}

func TestRandomShopSheetsAreClean(t *testing.T) {
	jobs := rapid.Custom(jobtest.Random)
	for seed := range *randomJobs {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			t.Parallel()
			l, found := layout.Build(withShop(named(jobs.Example(seed))))
			if found.HasErrors() {
				t.Skip("not a layout")
			}
			z := job.PaperSize(seed % (int(job.ISOA2) + 1))
			if f := faults(shopSheets(l, Options{Runs: &z, Lists: &z})); len(f) > 0 {
				t.Errorf("%v: %s", z, strings.Join(f, "\n"))
			}
		})
	}
}

// Every piece is on a shop drawing; what is not released is on no label and in
// no DXF, and its drawing and the cutting plan say so.
func TestShopSheetsTellWhatIsReleased(t *testing.T) {
	for _, c := range cases() {
		l := build(t, withShop(c.job))
		b := newBook(l, Options{})
		var drawings, labels, cutting, hands string
		for _, s := range shopSheets(l, Options{}) {
			switch s.Kind {
			case ShopSheet:
				drawings += words(s.Scene)
			case PieceLabels:
				labels += words(s.Scene)
			case CuttingPlan:
				cutting += words(s.Scene)
			case HandCheck:
				hands += words(s.Scene)
			}
		}
		for _, p := range l.Perimeters {
			for _, q := range p.Pieces {
				if !strings.Contains(drawings, q.Mark) {
					t.Errorf("%s: piece %s is on no shop drawing", c.name, q.Mark)
				}
				on := strings.Contains(labels, q.Mark+"\n") // a mark stands alone on its label
				if on != q.Released() {
					t.Errorf("%s: piece %s, released %v, has a label: %v", c.name, q.Mark, q.Released(), on)
				}
				if !q.Released() && !strings.Contains(cutting, b.pieceMark(q)) {
					t.Errorf("%s: the cutting plan does not say that %s is left out", c.name, q.Mark)
				}
			}
		}
		for _, f := range l.Families {
			if f.Released() == 0 && !strings.Contains(drawings, "NOT RELEASED") {
				t.Errorf("%s: no drawing says that %s is not released", c.name, f.Mark)
			}
			if len(f.Bodies) > 0 && handed(f) && !strings.Contains(hands, f.Mark+"  "+f.Kind.String()) {
				t.Errorf("%s: family %s is not on the hand check", c.name, f.Mark)
			}
		}
		for _, m := range Machines(l) {
			for _, f := range l.Families {
				if f.Released() == 0 && (m.Name == "flat-"+slug(f.Mark)+".dxf" || strings.HasPrefix(m.Name, "flat-"+slug(f.Mark)+"-")) {
					t.Errorf("%s: %s is of a family that is not released", c.name, m.Name)
				}
			}
		}
	}
}

// Without the shop's data there is none of it, and the piece schedule says why.
func TestNoShopSaysSo(t *testing.T) {
	l := build(t, perimeters(jobtest.Rectangle(700*in, 420*in)))
	said := false
	for _, s := range Packet(l, Options{For: Shop}) {
		if s.Kind >= ShopSheet {
			t.Errorf("sheet %q of a job without a shop", s.Title)
		}
		said = said || s.Kind == PieceSchedule && strings.Contains(strings.ReplaceAll(words(s.Scene), "\n", " "), "no flat patterns")
	}
	if !said {
		t.Error("the piece schedule does not say why there are no flat patterns")
	}
}
