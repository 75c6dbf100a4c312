package layout_test

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"math"
	"reflect"
	"testing"

	"copingset/layout"
	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
	"copingset/layout/wall"
	"copingset/layout/wind"

	"pgregory.net/rapid"
)

// digest is of everything that can be reached from a value, unexported fields
// too. Pointers are told apart by the order in which they are come to, so that it
// is of the shape as well and ends where values point at one another.
func digest(v any) string {
	d := digester{seen: map[seen]int64{}}
	d.walk(reflect.ValueOf(v))
	sum := sha256.Sum256(d.of)
	return hex.EncodeToString(sum[:])
}

type seen struct {
	at   uintptr
	kind reflect.Type
}

type digester struct {
	of   []byte
	seen map[seen]int64
}

// put adds a mark that tells kinds of values apart, and a number.
func (d *digester) put(mark byte, n uint64) {
	d.of = binary.LittleEndian.AppendUint64(append(d.of, mark), n)
}

func (d *digester) walk(v reflect.Value) {
	switch v.Kind() {
	case reflect.Invalid:
		d.put('0', 0)
	case reflect.Pointer:
		k := seen{v.Pointer(), v.Type()}
		n, known := d.seen[k]
		switch {
		case v.IsNil():
			d.put('0', 0)
		case known:
			d.put('p', uint64(n))
		default:
			d.seen[k] = int64(len(d.seen))
			d.walk(v.Elem())
		}
	case reflect.Interface:
		d.walk(v.Elem())
	case reflect.Struct:
		d.put('{', uint64(v.NumField()))
		for i := range v.NumField() {
			d.walk(v.Field(i))
		}
	case reflect.Slice, reflect.Array:
		d.put('[', uint64(v.Len()))
		for i := range v.Len() {
			d.walk(v.Index(i))
		}
	case reflect.Map: // has no order; its length tells whether anything was put in
		d.put('m', uint64(v.Len()))
	case reflect.String:
		d.put('s', uint64(v.Len()))
		d.of = append(d.of, v.String()...)
	case reflect.Bool:
		n := uint64(0)
		if v.Bool() {
			n = 1
		}
		d.put('b', n)
	case reflect.Float64:
		d.put('f', math.Float64bits(v.Float()))
	default:
		if v.CanInt() {
			d.put('i', uint64(v.Int()))
			return
		}
		d.put('u', v.Uint())
	}
}

// TestDigestSees makes sure that a change anywhere is one of the digest.
func TestDigestSees(t *testing.T) {
	type inner struct{ hidden []int }
	type outer struct {
		to   *inner
		back *outer
	}
	make := func() *outer {
		o := &outer{to: &inner{hidden: []int{1, 2}}}
		o.back = o
		return o
	}
	a, b := make(), make()
	if digest(a) != digest(b) {
		t.Error("alike values have two digests")
	}
	b.to.hidden[1] = 3
	if digest(a) == digest(b) {
		t.Error("a hidden value changed unseen")
	}
	b = make()
	b.back = make()
	if digest(a) == digest(b) {
		t.Error("another shape has the same digest")
	}
}

// capped is what package cap makes of one perimeter.
type capped struct {
	Runs   []*cap.Run
	Pieces []*cap.Piece
}

// keepsToItself goes through the rooms one by one and holds each to leaving
// alone what those before it have returned, and then a whole layout to the same.
func keepsToItself(t *rapid.T, j *job.Job) {
	grid := length.Crew(j.Units == job.Metric).Step()
	given := digest(j)
	walls, found := wall.Build(j, grid)
	if found.HasErrors() {
		t.Skip("no walls")
	}
	surveyed := digest(walls)
	demand, _ := wind.Build(j, func(of *job.Run) length.Length { return of.Length })
	frames, found := cap.Frame(j, demand, walls, grid)
	if found.HasErrors() {
		t.Skip("no widths")
	}
	all := make([]capped, len(walls))
	for _, i := range cap.MainsFirst(walls) {
		all[i].Runs = frames[i]
		all[i].Pieces, found = cap.Build(j, frames[i], grid)
		if teeRoom(found) {
			t.Skip("no room for a tee")
		}
	}
	if digest(walls) != surveyed {
		t.Fatal("package cap wrote into the walls")
	}
	cut := digest(all)
	for _, c := range all {
		anchor.Build(j, demand, c.Runs, c.Pieces, grid)
	}
	if digest(walls) != surveyed {
		t.Fatal("package anchor wrote into the walls")
	}
	if digest(all) != cut {
		t.Fatal("package anchor wrote into the caps")
	}

	l, found := layout.Build(j)
	if found.HasErrors() {
		t.Skip("not a layout")
	}
	whole := make([]capped, len(l.Perimeters))
	for i, p := range l.Perimeters {
		for _, r := range p.Runs {
			whole[i].Runs = append(whole[i].Runs, r.Run)
		}
		whole[i].Pieces = p.Pieces
		if p.Perimeter != p.Runs[0].OnWall().Perimeter {
			t.Fatalf("perimeter %s is on other walls than its runs", p.Job.Name)
		}
	}
	if frames, _ = cap.Frame(j, demand, walls, grid); digest(whole) != digest(byWays(t, j, l, frames)) {
		t.Fatal("a layout has other walls and caps than packages wall and cap have made")
	}
	if digest(j) != given {
		t.Fatal("somebody wrote into the job")
	}
}

// byWays is what package cap makes of widths in the ways that a layout took.
func byWays(t *rapid.T, j *job.Job, l *layout.Layout, frames [][]*cap.Run) []capped {
	out := make([]capped, len(frames))
	walls := make([]*wall.Perimeter, len(frames))
	for i, runs := range frames {
		walls[i] = runs[0].Perimeter
	}
	for _, i := range cap.MainsFirst(walls) {
		out[i].Runs = frames[i]
		out[i].Pieces, _ = cap.BuildBy(j, frames[i], l.Grid, l.Perimeters[i].Ways)
	}
	return out
}

func TestNoRoomWritesIntoAnothers(t *testing.T) {
	draws.Check(t, 4, func(t *rapid.T) {
		j := jobtest.Random(t)
		if rapid.Bool().Draw(t, "uneven") {
			j = jobtest.Uneven(t)
		}
		keepsToItself(t, j)
	})
}

// Where one perimeter meets another, the branch's cap lines begin behind the
// main's cap, which its walls do not know of.
func TestNoRoomWritesIntoAnothersAtTees(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) { keepsToItself(t, jobtest.RandomCross(t)) })
}
