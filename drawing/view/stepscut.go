package view

import (
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// section is the cut that the pictures of the order of work open up: their lines
// stand apart where true ones would print as one.
type section struct {
	l     *layout.Layout
	r     *layout.Run
	chair *layout.Chair // nil: none is cut
	sys   *job.System
	p     profile
	of    plan.Section
}

func newSection(l *layout.Layout, r *layout.Run, at length.Length) *section {
	s := &section{l: l, r: r, sys: &l.Job.System}
	s.of.At = at
	s.solve()
	return s
}

func (s *section) setChair(c *layout.Chair) {
	s.chair = c
	s.solve()
}

func (s *section) solve() {
	s.of = s.l.Section(s.r, s.of.At, s.chair, nil)
	s.p = profileAt(s.sys, s.of.Inside, s.of.Street, s.of.Roof-s.of.Street, s.of.PackFront, s.of.PackRear)
	s.p.setFolds(s.of.FoldFront, s.of.FoldRear)
}
