package sheets

import (
	"fmt"
	"strings"
	"testing"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/crate"
	"copingset/layout/job"
	"copingset/layout/length"
)

// labelSize is the smallest lettering on a job's label sheets but for their frame.
func labelSize(t *testing.T, l *layout.Layout) drawing.Size {
	t.Helper()
	b := newBook(l, Options{})
	g := b.labelGrid()
	least := drawing.Display
	n := 0
	for _, s := range drawnPages(l, Options{}, (*book).pieceLabels) {
		for _, x := range s.Scene.Texts() {
			for i := range g.cols * g.rows {
				if g.at(i).Contains(drawing.Box(x.At.X, x.At.Y, x.At.X, x.At.Y)) {
					least = min(least, x.Size)
					n++
				}
			}
		}
	}
	if n == 0 {
		t.Fatal("no lettering on a label")
	}
	return least
}

// Labels are read at arm's length: letters of 3 mm, on the samples' own grids and
// on labels cut beforehand.
func TestLabelsAreLettered(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"rectangle", "l-shape", "metric"} {
		l := sampleLayout(t, name)
		if z := labelSize(t, l); z < drawing.Note {
			t.Errorf("%s: letters of %v mm on labels", name, drawing.Unit(z))
		}
		mm := length.Millimetre
		j, shop := *l.Job, *l.Job.Shop
		shop.Labels = job.Labels{Columns: 2, Rows: 6, Cut: &job.CutLabels{Width: 95 * mm, Height: 34 * mm, Left: 8 * mm, Top: 14 * mm, Across: 99 * mm, Down: 40 * mm}}
		j.Shop = &shop
		l = build(t, &j)
		if z := labelSize(t, l); z < drawing.Note {
			t.Errorf("%s: letters of %v mm on labels cut beforehand", name, drawing.Unit(z))
		}
	}
}

// Labels cut beforehand: nothing but the sheet's name is printed off them, and each
// stands whole on its own.
func TestCutLabelsKeepToTheirPlaces(t *testing.T) {
	t.Parallel()
	j := withShop(perimeters(ell(), open()))
	j.Paper.Lists = job.ANSIA
	mm := length.Millimetre
	j.Shop.Labels = job.Labels{Columns: 3, Rows: 7, Cut: &job.CutLabels{Width: 66 * mm, Height: 33 * mm, Left: 6 * mm, Top: 13 * mm, Across: 69 * mm, Down: 35 * mm}}
	l := build(t, j)
	g := newBook(l, Options{}).labelGrid()
	sheets := 0
	for _, s := range shopSheets(l, Options{}) {
		if s.Kind != PieceLabels {
			continue
		}
		sheets++
		off := 0
		for _, x := range s.Scene.Texts() {
			q := x.Quad()
			box := drawing.Box(q[0].X, q[0].Y, q[0].X, q[0].Y)
			for _, p := range q {
				box = drawing.Box(min(box.Min.X, p.X), min(box.Min.Y, p.Y), max(box.Max.X, p.X), max(box.Max.Y, p.Y))
			}
			on := false
			for i := range 21 {
				on = on || g.at(i).Contains(box)
			}
			if !on {
				off++
				if !strings.Contains(x.Words, "sheet "+s.Number) {
					t.Errorf("sheet %s: %q is on no label", s.Number, x.Words)
				}
			}
		}
		if off != 1 {
			t.Errorf("sheet %s: its name is in the margin %d times", s.Number, off)
		}
		if f := faults([]Sheet{s}); len(f) > 0 {
			t.Error(strings.Join(f, "\n"))
		}
	}
	if sheets == 0 {
		t.Fatal("no labels")
	}
	// On another paper than the labels are on, the job's grid is printed.
	z := job.ISOA3
	if other := newBook(l, Options{Lists: &z}).labelGrid(); other.cut || other.cols != 3 || other.rows != 7 {
		t.Errorf("on A3: %+v", other)
	}
}

func TestMarksInShort(t *testing.T) {
	for _, c := range []struct{ marks, want string }{
		{"N-01", "N-01"},
		{"N-01 N-02", "N-01, N-02"},
		{"N-01 N-02 N-03 E-01 E-02 E-03 E-05", "N-01 to N-03, E-01 to E-03, E-05"},
		{"N-06 N-05 N-04 N-05 N-06", "N-06 to N-04, N-05, N-06"},
		{"N/E E/S N-T1 N-T2 N-09 N-10 N-11", "N/E, E/S, N-T1, N-T2, N-09 to N-11"},
	} {
		k := &crate.Crate{}
		for _, m := range strings.Fields(c.marks) {
			k.Items = append(k.Items, crate.Item{Mark: m})
		}
		if got := new(book).marksShort(k); got != c.want {
			t.Errorf("%s: %q, want %q", c.marks, got, c.want)
		}
	}
}

// A crate label says what the list says: number, turn, weight, lift and count.
func TestCrateLabelsSayTheWeight(t *testing.T) {
	t.Parallel()
	j := withShop(perimeters(ell(), open()))
	for _, tare := range []int64{0, 30000} {
		j.Crating.Tare = tare
		l := build(t, j)
		b := newBook(l, Options{})
		var labels, lists string
		for _, s := range drawnPages(l, Options{}, (*book).crates, (*book).crateLabels) {
			switch s.Kind {
			case CrateLabels:
				labels += flatWords(s.Scene)
			case CrateList:
				lists += flatWords(s.Scene)
			}
		}
		for _, c := range l.Crates {
			want := []string{fmt.Sprintf("CRATE %d of %d", c.N, len(l.Crates)), b.openedWhen(c), "THIS SIDE UP", "KEEP DRY"}
			if g := c.Gross(); g > 0 {
				want = append(want, "GROSS WEIGHT "+b.weight(g))
				if !strings.Contains(lists, "GROSS WEIGHT "+b.weight(g)) {
					t.Errorf("crate %d: no list says its gross weight", c.N)
				}
			} else {
				want = append(want, "GROSS WEIGHT NOT KNOWN")
			}
			if c.Kind != crate.Hardware {
				want = append(want, plural(len(c.Items), "piece"), "Longest piece: "+b.text(c.Longest))
			}
			for _, w := range want {
				if !strings.Contains(labels, w) {
					t.Errorf("tare %d, crate %d: no label says %q", tare, c.N, w)
				}
			}
		}
		for _, w := range []string{"BEFORE YOU SIGN THE DELIVERY TICKET", "94-110", "Code of Practice", "14.3", "developed area"} {
			if !strings.Contains(lists, w) {
				t.Errorf("no list says %q", w)
			}
		}
	}
}

func flatWords(s drawing.Scene) string { return strings.ReplaceAll(wordsOf(s), "\n", " ") }

// The packing list is the crates bottom up, with what is kept out said.
func TestPackingListIsBottomUp(t *testing.T) {
	for _, c := range workshops() {
		l := c.layout
		b := newBook(l, Options{})
		text := ""
		for _, s := range c.sheets {
			if s.Kind == PackingList {
				text += wordsOf(s.Scene)
			}
		}
		for _, k := range l.Crates {
			if k.Kind == crate.Hardware {
				continue
			}
			t0 := b.packingTable(k)
			for i, row := range t0.rows {
				if want := k.Items[len(k.Items)-1-i].Mark; row[1] != want {
					t.Errorf("%s: crate %d, row %d is %s, want %s", c.name, k.N, i+1, row[1], want)
				}
				if !strings.Contains(text, row[1]+"\n") {
					t.Errorf("%s: %s is not on the packing list", c.name, row[1])
				}
			}
		}
		for _, q := range l.Withheld {
			if !strings.Contains(strings.ReplaceAll(text, "\n", " "), b.pieceMark(q)) {
				t.Errorf("%s: the packing list does not say that %s is kept out", c.name, q.Mark)
			}
		}
	}
}
