package layout

import (
	"fmt"
	"strconv"

	"copingset/layout/fact"
	"copingset/layout/job"
)

// FactOfWall is what the facts of a wall's construction are of.
func FactOfWall(w *job.Wall) string { return "wall " + w.Name }

// FactOfAssembly is what the facts of a tested assembly are of.
func FactOfAssembly(a *job.Assembly) string { return "assembly " + a.Name }

// ofWalls are the layers that walls are built of, from the top.
func (b *facts) ofWalls() {
	for i := range b.l.Job.Walls {
		w := &b.l.Job.Walls[i]
		b.about(fact.Job, FactOfWall(w))
		for k, y := range w.Layers {
			n := fmt.Sprintf("layer-%d", k+1)
			b.words(n, y.Name)
			b.length(n+"-thickness", y.Thickness)
		}
	}
}

// ofTested are the tested assemblies.
func (b *facts) ofTested() {
	for i := range b.l.Job.Assemblies {
		a := &b.l.Job.Assemblies[i]
		b.about(fact.Assembly, FactOfAssembly(a))
		b.words("name", a.Name)
		b.said("report", a.Report)
		b.length("chair-spacing", a.ChairSpacing)
	}
}

// ofSections are the sections that are shown: one of each wall, assembly and width
// through a chair, and one through each kind of joint.
func (b *facts) ofSections() {
	seen := map[string]bool{} // look-up only
	show := func(r *Run, c *Chair, joints []JointCase) {
		b.ofSection(b.l.sectionPlan(r, c.At, c, nil), seen)
		for _, q := range joints {
			b.ofSection(b.l.sectionAtJoint(q.Run, q.Joint), seen)
		}
	}
	for _, c := range b.l.SectionCases() {
		show(c.Run, c.Chair, c.Joints)
	}
	for _, c := range b.l.SectionDrawings() {
		show(c.Run, c.Chair, c.Joints)
	}
}

// ofSection are the lengths that a section alone works out, once.
func (b *facts) ofSection(s *sectionBuilder, seen map[string]bool) {
	of := s.named()
	if seen[of] {
		return
	}
	seen[of] = true
	b.about(fact.Section, of)
	b.put("fall", fact.Slope, strconv.FormatInt(int64(s.of.Fall), 10))
	for i, what := range s.own {
		b.length(what, s.lengths[i])
	}
}

// FactOfCase is what the facts of what covers a zone are of, counted from nought.
func FactOfCase(i int) string { return fmt.Sprintf("case %d", i+1) }

// FactOfTestedSection is what the facts of a section beside its test are of.
func FactOfTestedSection(i int) string { return fmt.Sprintf("tested section %d", i+1) }

// Fact is what a quantity of a limit is called.
func (m Limit) Fact(what string) string { return fmt.Sprintf("limit-%d-%s", m.Kind+1, what) }

// ofLimits are the limits of the test of an assembly beside what is built.
func (b *facts) ofLimits(c AssemblyCase) {
	for _, m := range b.l.Limits(c) {
		switch m.Kind {
		case LimitMetal, LimitSubstrate:
			b.said(m.Fact("tested"), m.TestedWords)
			b.said(m.Fact("built"), m.HasWords)
		case LimitFasteners:
			b.said(m.Fact("fastener"), m.TestedWords)
			b.count(m.Fact("tested-front"), m.TestedCount[0])
			b.count(m.Fact("tested-rear"), m.TestedCount[1])
			b.count(m.Fact("built-front"), m.HasCounts[0])
			b.count(m.Fact("built-rear"), m.HasCounts[1])
		default:
			b.length(m.Fact("tested"), m.Tested)
			b.length(m.Fact("built"), m.Built)
			if m.Kind == LimitSpacing {
				b.length(m.Fact("pitch"), m.Pitch)
			}
		}
	}
}

// ofTestedSections are the limits beside the sections of the assemblies.
func (b *facts) ofTestedSections() {
	for i, c := range b.l.SectionCases() {
		if c.Chair.Assembly != nil {
			b.about(fact.Assembly, FactOfTestedSection(i))
			b.ofLimits(b.l.CaseOf(c))
		}
	}
}
