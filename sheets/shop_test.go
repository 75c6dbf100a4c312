package sheets

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/shop"
)

// withShop gives a job a shop that makes what the cases draw.
func withShop(j *job.Job) *job.Job {
	j.System.RearClearance = 3 * in / 8 // its hook reaches in so far
	j.Shop = &job.Shop{K: 0.41, KSource: "bend test 31", LeastRadius: in / 32, LeastFlange: in / 4, Brake: 2000 * in, MostTurn: 170 * job.Degree, WeldGap: in / 32, Film: "finish side, out",
		Sheets: []job.ShopSheet{{Width: 60 * in, Length: 200 * in, Price: 100}}, Kerf: in / 8, EndTrim: in / 4, EdgeTrim: in / 4, LeastDrop: 28 * in, Effort: 20,
		Labels: job.Labels{Columns: 2, Rows: 5}, Relief: job.Relief{Width: in / 8, Depth: in / 8}}
	return withParts(j)
}

func TestShopSheetsAreCleanOnEveryPaper(t *testing.T) {
	for k, c := range workshops() {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			l := c.layout
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
	for seed := range randomJobs {
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
	t.Parallel()
	for _, c := range workshops() {
		l := c.layout
		b := newBook(l, Options{})
		var drawings, labels, cutting, hands string
		for _, s := range c.sheets {
			switch s.Kind {
			case ShopSheet:
				drawings += wordsOf(s.Scene)
			case PieceLabels:
				labels += wordsOf(s.Scene)
			case CuttingPlan:
				cutting += wordsOf(s.Scene)
			case HandCheck:
				hands += wordsOf(s.Scene)
			}
		}
		for _, p := range l.Perimeters {
			for _, q := range p.Pieces {
				if !strings.Contains(drawings, q.Mark) {
					t.Errorf("%s: piece %s is on no shop drawing", c.name, q.Mark)
				}
				on := strings.Contains(labels, q.Mark+"\n") // a mark stands alone on its label
				if on != c.layout.Held.Released(q) {
					t.Errorf("%s: piece %s, released %v, has a label: %v", c.name, q.Mark, c.layout.Held.Released(q), on)
				}
				if !c.layout.Held.Released(q) && !strings.Contains(cutting, b.pieceMark(q)) {
					t.Errorf("%s: the cutting plan does not say that %s is left out", c.name, q.Mark)
				}
			}
		}
		for _, f := range l.Families {
			if f.Released(c.layout.Held) == 0 && !strings.Contains(drawings, "NOT RELEASED") {
				t.Errorf("%s: no drawing says that %s is not released", c.name, f.Mark)
			}
			there := strings.Contains(hands, f.Mark+"  "+f.Pieces[0].KindName())
			if trimmed(f) { // a row of a table, its mark alone in a cell
				there = strings.Contains(hands, "\n"+f.Mark+"\n")
			}
			if len(f.Bodies) > 0 && handed(f) && !there {
				t.Errorf("%s: family %s is not on the hand check", c.name, f.Mark)
			}
		}
		for _, m := range Machines(l) {
			for _, f := range l.Families {
				if f.Released(c.layout.Held) == 0 && fileOf(m.Name, f.Mark) {
					t.Errorf("%s: %s is of a family that is not released", c.name, m.Name)
				}
			}
		}
	}
}

// Without the shop's data there is none of it, and the piece schedule says why.
func TestNoShopSaysSo(t *testing.T) {
	t.Parallel()
	l := build(t, perimeters(jobtest.Rectangle(700*in, 420*in)))
	said := false
	for _, s := range Packet(l, Options{For: Shop}) {
		if s.Kind >= ShopSheet {
			t.Errorf("sheet %q of a job without a shop", s.Title)
		}
		said = said || s.Kind == PieceSchedule && strings.Contains(strings.ReplaceAll(wordsOf(s.Scene), "\n", " "), "no flat patterns")
	}
	if !said {
		t.Error("the piece schedule does not say why there are no flat patterns")
	}
}

// Twins stand on facing sheets that name each other by number.
func TestTwinsNameEachOthersSheet(t *testing.T) {
	t.Parallel()
	jobs := rapid.Custom(jobtest.Random)
	seen := 0
	for seed := 0; seed < 200 && seen < 4; seed++ {
		l, found := layout.Build(withShop(named(jobs.Example(seed))))
		if found.HasErrors() || !slices.ContainsFunc(l.Families, func(f *layout.Family) bool { return f.Twin != nil && f.Kind != cap.Straight && len(f.Bodies) > 0 }) {
			continue
		}
		number := map[string]string{} // of the sheet of an id; look-up only
		text := map[string]string{}
		sheets := shopSheets(l, Options{})
		for _, s := range sheets {
			number[s.ID], text[s.ID] = s.Number, strings.ReplaceAll(wordsOf(s.Scene), "\n", " ")
		}
		var before *layout.Family
		for _, g := range newBook(l, Options{}).familyGroups() {
			f := g[0]
			if len(g) == 1 && f.Twin != nil && f.Kind != cap.Straight && len(f.Bodies) > 0 {
				seen++
				twin := familyID([]*layout.Family{f.Twin})
				if want := f.Twin.Mark + " on sheet " + number[twin] + " is its mirror image:"; !strings.Contains(text[familyID(g)], want) {
					t.Errorf("seed %d: the sheet of %s does not say %q", seed, f.Mark, want)
				}
				if before != f.Twin && number[twin] < number[familyID(g)] && len(number[twin]) == len(number[familyID(g)]) {
					t.Errorf("seed %d: %s does not follow its twin", seed, f.Mark)
				}
			}
			before = f
		}
	}
	if seen == 0 {
		t.Error("no job has twins")
	}
}

// Every bend distance, corner, hole and length of a family is on its sheets,
// however they are laid out.
func TestShopSheetsLoseNothing(t *testing.T) {
	t.Parallel()
	for _, c := range workshops() {
		l := c.layout
		b := newBook(l, Options{})
		var all string
		for _, s := range c.sheets {
			if s.Kind == ShopSheet {
				all += wordsOf(s.Scene) + "\n"
			}
		}
		step := shop.Step(b.metric)
		for _, f := range l.Families {
			for i, x := range f.Bodies {
				var want []string
				for _, q := range x.Bends {
					if q.Level() && !q.Across() {
						want = append(want, b.inBlank(q.FromStreet), b.inBlank(q.FromRoof))
					}
				}
				if !x.Square() {
					for _, p := range x.CutPoints(step) {
						want = append(want, b.inBlankLong(p.FromLeft), b.inBlank(p.FromStreet))
					}
				}
				want = append(want, b.inBlankLong(x.Length))
				for _, w := range want {
					if !strings.Contains(all, w) {
						t.Errorf("%s, %s body %d: %q is on no shop drawing", c.name, f.Mark, i, w)
					}
				}
			}
		}
	}
}
