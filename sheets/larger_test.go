package sheets

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/job"
	"copingset/layout/length/draws"
)

func TestLargerPapersAreOfTheSameSeries(t *testing.T) {
	for _, c := range []struct {
		of   job.PaperSize
		want []job.PaperSize
	}{
		{job.ANSIA, []job.PaperSize{job.ANSIB, job.ANSIC, job.ANSID}},
		{job.ANSIC, []job.PaperSize{job.ANSID}},
		{job.ANSID, nil},
		{job.ISOA4, []job.PaperSize{job.ISOA3, job.ISOA2}},
		{job.ISOA2, nil},
	} {
		for _, p := range []paper{landscape(c.of), portrait(c.of)} {
			if got := larger(p); !slices.Equal(got, c.want) {
				t.Errorf("larger than %v held %v: %v, want %v", c.of, p, got, c.want)
			}
		}
	}
}

func TestFittingTakesTheFirstPaperThatServes(t *testing.T) {
	for _, c := range []struct {
		name  string
		least drawing.Unit // the width that the view needs
		want  job.PaperSize
		on    string
	}{
		{"the job's own", 20000, job.ANSIA, ""},
		{"the next", 35000, job.ANSIB, "B"},
		{"the largest", 80000, job.ANSID, "D"},
		{"none serves", 200000, job.ANSIA, ""},
	} {
		p := fitting(words.Book{}, page{paper: landscape(job.ANSIA), scale: "as noted"}, func(r drawing.Rect) bool { return r.Width() >= c.least })
		if p.paper != landscape(c.want) || p.on != c.on {
			t.Errorf("%s: on %q, %v; want %q, %v", c.name, p.on, p.paper, c.on, landscape(c.want))
		}
		want := "as noted"
		if c.on != "" {
			want += "; on " + c.on + ": the drawing needs it"
		}
		if p.scale != want {
			t.Errorf("%s: scale %q, want %q", c.name, p.scale, want)
		}
	}
}

// A held job of two perimeters, on paper too small for some of its views: key
// plan, corners and sections stay readable, and a sheet of larger paper says so
// on itself and in the list of sheets.
func TestViewsAreCleanOnSmallPaper(t *testing.T) {
	t.Parallel()
	l := sampleLayout(t, "l-shape")
	if len(l.Holds()) == 0 {
		t.Fatal("the sample has no hold")
	}
	papers := []job.PaperSize{job.ANSIA, job.ISOA4}
	for _, own := range papers[:min(draws.Times(1), len(papers))] { // both where much is drawn
		t.Run(own.String(), func(t *testing.T) {
			t.Parallel()
			b := newBook(l, Options{Runs: &own, Lists: &own})
			pages := b.plan()
			refer := func(id string) string {
				return strconv.Itoa(1 + slices.IndexFunc(pages, func(p page) bool { return p.id == id }))
			}
			narrow, wide := size(own)
			sizes := larger(paper{narrow, wide})
			grew := func(s drawing.Scene) (job.PaperSize, bool) {
				i := slices.IndexFunc(sizes, func(z job.PaperSize) bool { return landscape(z) == (paper{s.W, s.H}) })
				if i < 0 {
					return own, s.W+s.H != narrow+wide
				}
				return sizes[i], true
			}
			listed, runs, grown := 0, 0, map[Kind]int{}
			for i, p := range pages {
				if p.kind != Index && p.kind != CornerSheet && p.kind != Sections {
					if p.on != "" {
						runs++ // run sheets are looked over with the whole packet
					}
					continue
				}
				s := b.draw(p, itoa(i+1), refer)
				for _, f := range drawing.Check(s) {
					t.Errorf("sheet %d (%s): %v", i+1, p.id, f)
				}
				on, large := grew(s)
				if large {
					if grown[p.kind]++; on == own {
						t.Errorf("sheet %d (%s) is %v by %v", i+1, p.id, s.W, s.H)
					}
				}
				said := false
				for _, x := range s.Texts() {
					said = said || strings.HasSuffix(x.Words, fmt.Sprintf("on %v: the drawing needs it", on))
					for _, z := range sizes {
						if strings.HasSuffix(x.Words, fmt.Sprintf("on %v)", z)) {
							listed++
						}
					}
				}
				if said != large {
					t.Errorf("sheet %d (%s), %v by %v: says that it is on larger paper: %v", i+1, p.id, s.W, s.H, said)
				}
			}
			total := grown[CornerSheet]
			for _, k := range []Kind{Index, Sections} {
				if total += grown[k]; grown[k] == 0 {
					t.Errorf("no %v sheet needed larger paper: the case tests nothing", k)
				}
			}
			if total += runs; listed != total {
				t.Errorf("%d sheets on larger paper, %d in the list", total, listed)
			}
		})
	}
}
