package sheets

import (
	"cmp"
	"maps"
	"slices"
	"strconv"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/job"
)

// marksIn are the marks of some pieces that stand in words.
func marksIn(all map[string]*layout.Piece, phrase string) []string {
	var out []string
	for _, w := range strings.FieldsFunc(phrase, func(r rune) bool { return strings.ContainsRune(" ,;:()", r) }) {
		if all[w] != nil {
			out = append(out, w)
		}
	}
	return out
}

// One list of released pieces goes through everything: the shop drawings, the files for
// machines with their list, the cutting plan with its blanks, the crates, the labels and
// pieces.csv tell of the same ones, each once, and of each the same that it is cut from.
func TestOneListOfPieces(t *testing.T) {
	kinds := map[string]int{}
	look := func(name string, l *layout.Layout) {
		all, released := map[string]*layout.Piece{}, map[string]int{}
		for _, p := range l.Perimeters {
			for _, q := range p.Pieces {
				all[q.Mark] = q
				if l.Held.Released(q) {
					released[q.Mark] = 1
				}
			}
		}
		same := func(what string, got map[string]int, want map[string]int) {
			t.Helper()
			if !maps.Equal(got, want) {
				t.Errorf("%s, %s: %v, want %v", name, what, sorted(got), sorted(want))
			}
		}
		b := newBook(l, Options{})
		drawn, labels, crates, rows, cut := map[string]int{}, map[string]int{}, map[string]int{}, map[string]int{},
			map[string]int{}
		for _, g := range b.familyGroups() {
			for _, f := range g {
				for _, m := range marksIn(all, strings.Join(b.pieceMarks(f, true), " ")) {
					drawn[m]++
				}
			}
		}
		same("drawings", drawn, released)
		for _, s := range b.numbered(b.pieceLabels(), func(string) string { return "" }) {
			for _, x := range s.Scene.Texts() {
				if all[x.Words] != nil {
					labels[x.Words]++
				}
			}
		}
		same("labels", labels, released)
		for _, c := range l.Crates {
			for _, x := range c.Items {
				if x.Piece != nil {
					crates[x.Piece.Mark]++
				}
			}
		}
		same("crates", crates, released)
		routes := map[string]string{}
		for _, s := range Schedules(l) {
			if s.Name != "pieces.csv" {
				continue
			}
			for _, r := range s.Rows {
				if r[slices.Index(s.Header, "released")] == "yes" {
					rows[r[1]]++
					routes[r[1]] = r[slices.Index(s.Header, "cut from")]
				}
			}
		}
		same("pieces.csv", rows, released)
		own, blanks := cutting(t, name, l, cut, routes)
		for m := range own {
			cut[m]++
		}
		same("the cutting plan", cut, released)
		files := map[string]int{}
		for _, m := range Machines(l) {
			for _, n := range m.Drawing.Notes {
				if strings.Contains(n.Text, ": ") {
					for _, mark := range marksIn(all, n.Text) {
						files[mark]++
					}
				}
			}
		}
		for m := range files {
			files[m] /= max(1, len(b.l.FamilyOf(all[m]).Bodies))
		}
		same("the files of bodies", files, own)
		listed := map[string]int{}
		list := MachineLists(l)[0]
		for _, r := range list.Rows {
			n, _ := strconv.Atoi(r[slices.Index(list.Header, "quantity")])
			listed[r[slices.Index(list.Header, "mark")]] = n
		}
		for mark, n := range blanks {
			if listed[mark] != n {
				t.Errorf("%s: %d blanks of %s are cut, list.csv says %d", name, n, mark, listed[mark])
			}
		}
		for _, r := range routes {
			kinds[strings.Fields(r)[0]]++
		}
	}
	samples, err := sampleLayouts()
	if err != nil {
		t.Fatal(err)
	}
	for name, l := range samples {
		look(name, l)
		for _, other := range []job.ClosersFrom{job.FromStock, job.FromSheet} {
			j := *l.Job
			shop := *j.Shop
			shop.ClosersFrom, j.Shop = other, &shop
			look(name+" from "+map[job.ClosersFrom]string{job.FromStock: "stock", job.FromSheet: "sheet"}[other], build(t, &j))
		}
	}
	for _, c := range workshops() {
		look(c.name, c.layout)
	}
	for _, k := range []string{"sheet", "formed", "drop"} {
		if kinds[k] == 0 {
			t.Errorf("no piece is cut from a %s: %v", k, kinds)
		}
	}
}

// cutting counts what of a cutting plan is cut from formed caps, and returns the pieces
// that have blanks of their own and how many blanks there are by shop mark.
func cutting(t *testing.T, name string, l *layout.Layout, cut map[string]int, routes map[string]string) (own,
	blanks map[string]int) {
	own, blanks = map[string]int{}, map[string]int{}
	for _, lot := range l.CutLots() {
		for _, q := range lot.Bars {
			for _, bar := range q.Bars {
				for _, c := range bar.Cuts {
					cut[c.Mark]++
					from := "drop in hand"
					if bar.Mark != "" {
						from = "formed cap " + bar.Mark
					}
					if routes[c.Mark] != from {
						t.Errorf("%s: %s is cut from %s, pieces.csv says %q", name, c.Mark, from, routes[c.Mark])
					}
				}
			}
		}
		sheared := 0
		for _, x := range lot.Blanks {
			blanks[strings.Fields(x.Mark)[0]] += x.Count
			sheared += x.Count
		}
		planned := 0
		for _, r := range lot.Sheets {
			for _, s := range r.Strips {
				planned += r.Count * len(s.Cuts)
			}
		}
		if planned != sheared {
			t.Errorf("%s: %d blanks lie on the sheets of lot %q, its list has %d", name, planned, lot.Elevation, sheared)
		}
	}
	for _, lot := range l.PartLots {
		for _, b := range lot.Blanks {
			blanks[b.Part.Mark] += b.Count
		}
	}
	for _, f := range l.Families {
		for _, p := range f.Pieces {
			if routes[p.Mark] == "sheet" {
				own[p.Mark] = 1
			}
		}
		if n := blanks[f.Mark]; n > 0 { // as many for each of its bodies
			blanks[f.Mark] = n / len(f.Bodies)
		}
	}
	return own, blanks
}

func sorted(m map[string]int) []string {
	var out []string
	for k, n := range m {
		out = append(out, k+" "+strconv.Itoa(n))
	}
	slices.SortFunc(out, cmp.Compare[string])
	return out
}
