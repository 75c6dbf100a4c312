package layout

import (
	"strings"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wind"
)

// Across is what the wind asks of a coping square to the wall, in newtons a
// metre along it at the allowable level, on each leg over its whole depth. Both
// legs push one way in a case.
type Across struct {
	Case        wind.Case
	Front, Rear float64
}

func (a Across) sum() float64 { return a.Front + a.Rear }

// across is the pressure of a case on the two legs of the profile.
func (l *Layout) across(c wind.Case, z wind.Zone) Across {
	s := &l.Job.System
	front, rear := l.Demand.Legs(c, z)
	return Across{Case: c, Front: wind.AllowablePa(front) * metres(s.FrontFoot()),
		Rear: wind.AllowablePa(rear) * metres(s.RearFoot())}
}

// Nailer is what the wind asks of the anchors of a wall's top layer in one zone
// of a run, and how far apart they may stand.
type Nailer struct {
	Run     *Run
	Zone    wind.Zone
	Anchor  *job.Nailer
	Up      float64       // N a metre along the wall, allowable, on the cap's outside width
	Cases   []Across      // every case, in order
	Governs Across        // the one that asks for the closest anchors
	Spacing length.Length // down to the grid; zero: the job does not say how far apart they may stand
	Sheared bool          // the legs are in the spacing: the anchor's shear is stated
}

// Stands reports whether anchors may stand as close as the wind asks.
func (n Nailer) Stands() bool { return n.Spacing > 0 && n.Spacing >= n.Anchor.Least }

// Across is the governing push on both legs, N a metre.
func (n Nailer) Across() float64 { return n.Governs.sum() }

// Nailers lists the anchorage of the runs whose wall states its anchors. Up is
// the upward pressure on the cap's width and acts in both cases of a parapet;
// across is that on both legs in the case that asks for more. The shares of an
// anchor in pull and in shear are added up.
func (l *Layout) Nailers() []Nailer {
	if !l.Demand.Known() {
		return nil
	}
	var out []Nailer
	for _, r := range l.Runs() {
		a := r.Wall.Nailer
		if a == nil {
			continue
		}
		for z := wind.Edge; z <= wind.Corner; z++ {
			if !inZone(r, z) {
				continue
			}
			n := Nailer{Run: r, Zone: z, Anchor: a, Sheared: a.Shear > 0}
			n.Up = wind.AllowablePa(l.Demand.Up[z]) * metres(r.Outside)
			for _, c := range wind.Cases() {
				k := l.across(c, z)
				if n.Cases = append(n.Cases, k); len(n.Cases) == 1 || k.sum() > n.Governs.sum() {
					n.Governs = k
				}
			}
			if a.Most > 0 && a.Least > 0 {
				n.Spacing = anchorSpacing(a, n.Up, n.Across(), l.Grid)
			}
			out = append(out, n)
		}
	}
	return out
}

// NailerAssumptions says in words what the spacing of anchors takes for granted.
func (l *Layout) NailerAssumptions() []string {
	u := l.Job.Units
	s := &l.Job.System
	out := []string{
		"Case A, windward: the street side is pressed inward and the roof side pulled, both towards the roof. Case " +
			"B, leeward: the street side is pulled and the roof side pressed, both towards the street. The top is " +
			"pulled up in both, at the same time. The case that asks for more governs.",
		u.InUnits("Pressures act on the cap’s outside width and on the whole depth of each leg, " +
			"" + job.Both(s.FrontFoot()) + " to " + s.Profile.Drip.Foot().String() +
			" at the street side and " + job.Both(s.RearFoot()) + " to " + s.Profile.RearHook.Foot().String() +
			" at the roof side, kicks and hems left out."),
		"The shares of an anchor in pull and in shear are added up. No lever arm and no weight are reckoned with. " +
			"Allowables of the anchors: their report, as the job states it. The strength of the wall is by others.",
	}
	if words := l.Demand.Taken(); len(words) > 0 {
		out = append(out, strings.Join(words, " "))
	}
	return out
}

// anchorSpacing is the greatest spacing at which an anchor takes its share of
// the demand for each metre, rounded down to the grid and no more than the job
// allows.
func anchorSpacing(a *job.Nailer, up, across float64, grid length.Length) length.Length {
	perMetre := up / a.Pull
	if a.Shear > 0 {
		perMetre += across / a.Shear
	}
	s := a.Most
	if perMetre > 0 && float64(length.Metre)/perMetre < float64(s) {
		s = length.FloorTo(length.Length(float64(length.Metre)/perMetre), grid)
	}
	return s
}

func inZone(r *Run, z wind.Zone) bool {
	for _, s := range r.Zones {
		if s.Zone == z {
			return true
		}
	}
	return false
}

// anchorage are the findings on the anchors of nailers.
func (l *Layout) anchorage() finding.List {
	var found finding.Set
	said := map[*Run]bool{}
	for _, n := range l.Nailers() {
		a := n.Anchor
		if n.Spacing == 0 {
			if !said[n.Run] {
				said[n.Run] = true
				f := finding.New(finding.Hold, "nailer-spacing", a.At,
					"write `spacing_most` and `spacing_least` of the "+
						"nailer, from the anchor's report and the engineer of record",
					"run %s: the job does not say how far apart, and how close, %s may stand, and no spacing is given",
					n.Run.Name,
					a.Anchor)
				f.Why = "by their pull alone anchors would stand as far apart as the wind allows, which no nailer does"
				f.Where = onRun(n.Run)
				found.Append(f)
			}
			continue
		}
		if n.Stands() {
			continue
		}
		f := finding.New(finding.Hold, "nailer-anchorage", a.At,
			"name a stronger anchor, or have the engineer of record "+
				"settle the anchorage",
			"run %s: the %s zone asks for %s every %s, and they may stand no closer than %s", n.Run.Name, n.Zone,
			a.Anchor,
			job.Both(n.Spacing), job.Both(a.Least))
		f.Why = "parapet case " + n.Governs.Case.String() + " governs"
		f.Where = onRun(n.Run)
		found.Append(f)
	}
	return found.List()
}
