package shop

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"math"
	"strconv"
	"strings"

	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/record"
)

// shapes writes down all that makes a part what it is, to be digested: two parts of one
// digest are made alike, and a shop mark stands for one digest for ever.
type shapes struct{ strings.Builder }

func (s *shapes) add(what ...any) {
	for _, v := range what {
		fmt.Fprintf(s, "%v\n", v)
	}
}

// hundredth is the step to which a pattern is digested, in millimetres: finer than any
// shop cuts, and coarser than two processors differ by.
const hundredth = 0.01

// ring adds an outline.
func (s *shapes) ring(pts []fold.Point) {
	for _, p := range pts {
		s.add(int64(math.Round(p.X/hundredth)), int64(math.Round(p.Y/hundredth)))
	}
	s.add("")
}

func (s *shapes) bodies(all []Body) {
	for _, b := range all {
		s.add(b.Name)
		s.ring(b.Outline())
		for _, h := range b.Holes {
			s.ring(h)
		}
		for _, q := range b.Bends {
			s.add(q.Order, q.Hem, int64(math.Round(q.Line.Turn*100)))
		}
	}
}

// digest is the first half of the SHA-256, which no two parts of a building share.
func (s *shapes) digest() string {
	sum := sha256.Sum256([]byte(s.String()))
	return hex.EncodeToString(sum[:16])
}

// shapeOf is the digest of a family.
func (b *builder) shapeOf(f *Family) string {
	var s shapes
	m := &b.s.Metal
	s.add("piece", keyOf(f.Pieces[0]), f.Kind, f.Hand, m.Name, int64(m.Thickness), m.Finish, b.shop.K)
	s.bodies(f.Bodies)
	return s.digest()
}

// shapeOfPart is the digest of a small part.
func shapeOfPart(p *Part) string {
	var s shapes
	s.add("part", p.key, p.Kind, p.Hand, p.Metal, int64(p.Thickness), int64(p.Radius), p.K, p.Tested)
	s.bodies(p.Bodies)
	return s.digest()
}

// markGiver gives shop marks: to what was issued its own, to all else numbers that were
// never given. Without an issue they run in order.
type markGiver struct {
	last *record.Record // nil: none
	next int
}

// newMarks begins after all that were ever given, at from where none was.
func newMarks(j *job.Job, from int) *markGiver {
	m := &markGiver{last: j.Issued, next: from}
	if m.last != nil {
		for _, s := range m.last.Shop {
			if n, err := strconv.Atoi(s.Mark); err == nil {
				m.next = max(m.next, n+1)
			}
		}
	}
	return m
}

func (m *markGiver) of(shape string) string {
	if m.last != nil {
		for _, s := range m.last.Shop {
			if s.Shape == shape {
				return s.Mark
			}
		}
	}
	m.next++
	return itoa(m.next - 1)
}
