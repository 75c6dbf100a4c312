package sheets

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/job"
)

// What many tests read and none writes into is solved and drawn once here.

// drawn is a case with sheets of its packet.
type drawn struct {
	name   string
	layout *layout.Layout
	sheets []Sheet
}

// packets is every case with its whole packet.
var packets = sync.OnceValue(func() []drawn {
	return each(cases(), func(l *layout.Layout) []Sheet { return Packet(l, Options{}) })
})

// workshops is every case with a shop, and the sheets of its shop and yard.
var workshops = sync.OnceValue(func() []drawn {
	all := cases()
	for i := range all {
		withShop(all[i].job)
	}
	return each(all, func(l *layout.Layout) []Sheet {
		return drawnPages(l, Options{}, (*book).packingList, (*book).crates, (*book).shopPages)
	})
})

// each solves cases and draws them, on all cores.
func each(all []solvable, draw func(*layout.Layout) []Sheet) []drawn {
	out := make([]drawn, len(all))
	var wait sync.WaitGroup
	for i, c := range all {
		wait.Go(func() {
			l, found := layout.Build(c.job)
			if found.HasErrors() {
				panic(fmt.Sprintf("%s does not build: %v", c.name, found))
			}
			out[i] = drawn{c.name, l, draw(l)}
		})
	}
	wait.Wait()
	return out
}

// sampleLayouts is the layout of every sample, by its folder; it is for looking
// up alone.
var sampleLayouts = sync.OnceValues(func() (map[string]*layout.Layout, error) {
	jobs, err := filepath.Glob("../samples/*/job.yaml")
	if err != nil {
		return nil, err
	}
	out := map[string]*layout.Layout{}
	for _, path := range jobs {
		name := filepath.Base(filepath.Dir(path))
		j, found := job.Read(os.DirFS("../samples"), name+"/job.yaml")
		if found.HasErrors() {
			return nil, fmt.Errorf("%s: %v", name, found)
		}
		l, found := layout.Build(j)
		if found.HasErrors() {
			return nil, fmt.Errorf("%s: %v", name, found)
		}
		out[name] = l
	}
	return out, nil
})

// samplePackets is every sample with its whole packet, in the order of their names.
var samplePackets = sync.OnceValues(func() ([]drawn, error) {
	all, err := sampleLayouts()
	var out []drawn
	for name, l := range all {
		out = append(out, drawn{name: name, layout: l})
	}
	slices.SortFunc(out, func(a, b drawn) int { return strings.Compare(a.name, b.name) })
	var wait sync.WaitGroup
	for i := range out {
		wait.Go(func() { out[i].sheets = Packet(out[i].layout, Options{}) })
	}
	wait.Wait()
	return out, err
})

func sampleLayout(t *testing.T, name string) *layout.Layout {
	t.Helper()
	all, err := sampleLayouts()
	if err != nil {
		t.Fatal(err)
	}
	l, ok := all[name]
	if !ok {
		t.Fatalf("no sample %s", name)
	}
	return l
}

// drawnPages draws some of a packet's sheets, numbered by themselves: what the
// others would cost to lay out is saved. TestSomePagesAreThoseOfThePacket holds
// them against the packet's own.
func drawnPages(l *layout.Layout, o Options, some ...func(*book) []page) []Sheet {
	b := newBook(l, o)
	var pages []page
	for _, make := range some {
		pages = append(pages, make(b)...)
	}
	numbers := b.numbers(pages)
	return b.numbered(pages, func(id string) string {
		for i, p := range pages {
			if p.id == id {
				return numbers[i]
			}
		}
		return ""
	})
}

// numbered draws some pages, which refer to others.
func (b *book) numbered(pages []page, refer func(id string) string) []Sheet {
	out := make([]Sheet, len(pages))
	for i, number := range b.numbers(pages) {
		p := pages[i]
		out[i] = Sheet{ID: p.id, Number: number, Title: p.title, Kind: p.kind, Scene: b.draw(p, number, refer)}
	}
	return out
}

// shopSheets draws the sheets of the shop alone.
func shopSheets(l *layout.Layout, o Options) []Sheet { return drawnPages(l, o, (*book).shopPages) }

// runSheets draws the sheets of the runs alone.
func runSheets(l *layout.Layout, o Options) []Sheet {
	return drawnPages(l, o, (*book).runPages, (*book).seconds)
}

// Sheets drawn apart from the packet are the packet's, byte for byte.
func TestSomePagesAreThoseOfThePacket(t *testing.T) {
	for _, name := range []string{"two", "held"} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			for _, c := range workshops() {
				if c.name != name {
					continue
				}
				whole := map[string]Sheet{} // look-up only: by id
				all := Packet(c.layout, Options{})
				for _, s := range all {
					whole[s.ID] = s
				}
				b := newBook(c.layout, Options{})
				var pages []page
				for _, make := range []func(*book) []page{(*book).runPages, (*book).seconds, (*book).packingList, (*book).crates, (*book).shopPages} {
					pages = append(pages, make(b)...)
				}
				kinds := map[Kind]int{}
				for _, s := range b.numbered(pages, func(id string) string { return whole[id].Number }) {
					kinds[s.Kind]++
					if w, ok := whole[s.ID]; !ok || w.Number != s.Number || w.Title != s.Title || w.Kind != s.Kind || w.Scene.Dump() != s.Scene.Dump() {
						t.Errorf("%s: %q is not the packet's sheet", s.ID, s.Title)
					}
				}
				for _, s := range all {
					if s.Kind == RunSheet || s.Kind == Sections || s.Kind == PackingList || s.Kind == CrateList || s.Kind >= ShopSheet {
						kinds[s.Kind]--
					}
				}
				for k, n := range kinds {
					if n != 0 {
						t.Errorf("%v: %+d sheets", k, n)
					}
				}
			}
		})
	}
}

// faults are what a reader of any sheet would stumble over, in few words.
func faults(sheets []Sheet) []string {
	var out []string
	for _, s := range sheets {
		for i, p := range drawing.Check(s.Scene) {
			if i == 12 {
				out = append(out, "  and more")
				break
			}
			out = append(out, fmt.Sprintf("sheet %s %q: %v", s.Number, s.Title, p))
		}
	}
	return out
}

func wordsOf(s drawing.Scene) string {
	var b strings.Builder
	for _, t := range s.Texts() {
		b.WriteString(t.Words + "\n")
	}
	return b.String()
}
