package sheets

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// slipped puts slips of the tape and bad wood into a wall.
func slipped(j *job.Job) *job.Job {
	for p := range j.Perimeters {
		for r := range j.Perimeters[p].Runs {
			rd := j.Perimeters[p].Runs[r].Readings
			for i := range rd {
				switch {
				case i%9 == 3:
					rd[i].Width += 2 * in
				case i%9 == 5:
					rd[i].TopOutside += 3 * in
				case i%9 == 7:
					rd[i].Offset -= 2 * in
				case i%9 == 8:
					rd[i].Conditions = []job.Condition{job.Rotten, job.Wet}
					rd[i].Photos = []string{fmt.Sprint(i)}
				case i%9 == 1:
					rd[i].Conditions = []job.Condition{job.Pipes}
				}
			}
		}
	}
	return j
}

// preBid are the sheets of the visit before the bid; those that are drawn for
// every packet are left out.
func preBid(l *layout.Layout, o Options) []Sheet {
	o.For = PreBid
	var out []Sheet
	for _, s := range Packet(l, o) {
		if s.Kind != Index {
			out = append(out, s)
		}
	}
	return out
}

func TestWallReportsAreCleanOnEveryPaper(t *testing.T) {
	for _, slips := range []bool{false, true} {
		for _, u := range []job.Units{job.Imperial, job.Metric} {
			j := perimeters(ell(), open())
			if slips {
				slipped(j)
			}
			j.Units = u
			l := build(t, j)
			for _, z := range papers() {
				t.Run(fmt.Sprint(slips, u, z), func(t *testing.T) {
					t.Parallel()
					b := newBook(l, Options{Runs: &z, Lists: &z})
					var pages []page
					pages = append(pages, b.levelling()...)
					pages = append(pages, b.wallReports()...)
					pages = append(pages, b.rfis()...)
					for i, p := range pages {
						for _, f := range drawing.Check(b.draw(p, itoa(i+1), func(string) string { return "9" })) {
							t.Errorf("%s: %v", p.title, f)
						}
					}
				})
			}
		}
	}
}

func TestRandomWallReportsAreClean(t *testing.T) {
	for seed := range 3 * randomJobs {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			t.Parallel()
			j := named(rapid.Custom(jobtest.Random).Example(seed))
			if seed%2 == 1 {
				slipped(j)
			}
			l, found := layout.Build(j)
			if found.HasErrors() {
				t.Skip("not a layout")
			}
			z := papers()[seed%7]
			b := newBook(l, Options{Runs: &z, Lists: &z})
			for i, p := range append(append(b.levelling(), b.wallReports()...), b.rfis()...) {
				for _, f := range drawing.Check(b.draw(p, itoa(i+1), func(string) string { return "9" })) {
					t.Errorf("%s: %v", p.title, f)
				}
			}
			for _, r := range l.Runs() {
				room := b.runs.room(true)
				of := l.WallReport(r)
				parts := view.WallParts(of, room.Width())
				for i, q := range parts {
					if v := view.WallReport(words.Book{}, of, q, room.Width(), room.Height()-view.ReportNotes); v.H > room.Height() || v.Bounds().Max.X > room.Width() {
						t.Errorf("run %s: a report of %v by %v in a room of %v by %v", r.Name, v.Bounds().Max.X, v.H, room.Width(), room.Height())
					}
					if i > 0 && q.From != parts[i-1].To || i == 0 && q.From != 0 || i == len(parts)-1 && q.To != r.Front {
						t.Errorf("run %s: part %d goes from %v to %v", r.Name, i, q.From, q.To)
					}
				}
			}
		})
	}
}

// A doubted reading is ringed once, numbered, told with what its neighbours
// say, and asked about on the list for the general contractor.
func TestDoubtedReadingsAreShown(t *testing.T) {
	t.Parallel()
	j := perimeters(jobtest.Rectangle(700*in, 420*in))
	for i := range j.Perimeters[0].Runs {
		rd := j.Perimeters[0].Runs[i].Readings
		for k := range rd {
			rd[k] = job.Reading{Station: rd[k].Station, Width: 12*in + length.Length(k%2)*length.Inch16}
		}
	}
	q := &j.Perimeters[0].Runs[0].Readings[6]
	q.Width, q.Photos = 15*in, []string{"41"}
	l := build(t, j)
	sheets := preBid(l, Options{})
	var report, rfi string
	rings := 0
	for _, s := range sheets {
		switch {
		case s.Kind == RFIList:
			rfi += wordsOf(s.Scene)
		case strings.HasPrefix(s.ID, "wall-roof-a"):
			report += wordsOf(s.Scene)
			s.Scene.Walk(func(_ drawing.Layer, m drawing.Mark) {
				if a, ok := m.(drawing.Arc); ok && a.Full() && a.Fill == drawing.None && a.Pen == drawing.Hold {
					rings++
				}
			})
		}
	}
	for _, want := range []string{"Q1: width 15″", "by the readings beside it: 12", "1 READING IN DOUBT", "measure again", "15′-0″"} {
		if !strings.Contains(report, want) {
			t.Errorf("the report does not say %q", want)
		}
	}
	if rings != 1 {
		t.Errorf("%d rings for one doubted reading", rings)
	}
	for _, want := range []string{"15′-0″", "41", "Answer"} {
		if !strings.Contains(rfi, want) {
			t.Errorf("the list for the general contractor does not say %q", want)
		}
	}
}

// The packet for the visit holds what the visit is about and nothing else.
func TestPreBidPacket(t *testing.T) {
	t.Parallel()
	kinds := map[Kind]int{}
	for _, s := range Packet(build(t, slipped(perimeters(ell()))), Options{For: PreBid}) {
		kinds[s.Kind]++
	}
	if kinds[Index] == 0 || kinds[WallReport] < 6 || kinds[RFIList] == 0 || kinds[Levelling] == 0 || kinds[Plywood] == 0 || len(kinds) != 5 {
		t.Errorf("the packet holds %v", kinds)
	}
}
