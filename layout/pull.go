package layout

import (
	"fmt"

	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wind"
)

// Pull is what the wind asks of one chair, at the allowable level: its share
// of the run is half way to the chairs beside it, or all the metal up to an
// end, a miter or an expansion joint.
type Pull struct {
	Chair     *Chair
	Zone      wind.Zone
	Tributary length.Length // along the run
	Up, Out   float64       // N; out on the front leg alone
	Across    float64       // N, square to the wall on both legs in the case that governs
	Case      wind.Case
}

// GreatestPulls are the greatest pulls on one chair of each zone, the first of
// several; without a chair in a zone that has none.
func (l *Layout) GreatestPulls() [2]Pull {
	var most [2]Pull
	for _, r := range l.Runs() {
		for _, p := range l.Pulls(r) {
			if p.Up > most[p.Zone].Up {
				most[p.Zone] = p
			}
		}
	}
	return most
}

// Pulls lists the chairs of a run with their pull; none if there is no demand.
func (l *Layout) Pulls(r *Run) []Pull {
	if !l.Demand.Known() || len(r.Parts) == 0 {
		return nil
	}
	var out []Pull
	for i, c := range r.Chairs {
		from, to := r.Parts[0].From, r.Parts[len(r.Parts)-1].To
		if i > 0 {
			from = length.Min(c.At, between(r.Chairs[i-1], c, false))
		}
		if i+1 < len(r.Chairs) {
			to = length.Max(c.At, between(c, r.Chairs[i+1], true))
		}
		p := Pull{Chair: c, Zone: zoneOf(c), Tributary: to - from}
		p.Up = wind.AllowablePa(l.Demand.Up[p.Zone]) * metres(r.Outside) * metres(p.Tributary)
		p.Out = wind.AllowablePa(l.Demand.Out[p.Zone]) * metres(l.Job.System.FrontFoot()) * metres(p.Tributary)
		for _, c := range wind.Cases() {
			if across := l.across(c, p.Zone).sum() * metres(p.Tributary); across > p.Across {
				p.Across, p.Case = across, c
			}
		}
		out = append(out, p)
	}
	return out
}

// between is where the share of one chair ends and that of the next begins; at
// an expansion joint each takes its own cap.
func between(a, b *Chair, left bool) length.Length {
	if a.Joint != nil && a.Joint == b.Joint && a.Joint.Kind == cap.Expansion {
		if left {
			return a.Joint.From
		}
		return a.Joint.To
	}
	return a.At + (b.At-a.At)/2
}

// zoneOf is the more onerous zone of the pieces a chair carries.
func zoneOf(c *Chair) wind.Zone {
	z := wind.Edge
	if c.Piece != nil {
		z = c.Piece.Zone
	}
	if c.Joint != nil && c.Joint.Kind != cap.Expansion {
		for _, p := range []*Piece{c.Joint.Left, c.Joint.Right} {
			if p != nil {
				z = max(z, p.Zone)
			}
		}
	}
	return z
}

func metres(l length.Length) float64 { return float64(l) / float64(length.Metre) }

// threadOf is how much thread a fastener has to hold with: what the job states,
// or else no more than the embedment its report asks for, for a shank is often
// smooth above that.
func threadOf(f *Fastener) length.Length {
	if f.Thread > 0 {
		return f.Thread
	}
	return f.Embedment
}

// pulls are the findings of the two.
func (l *Layout) pulls() finding.List {
	var found finding.Set
	found.Append(l.screwFindings()...)
	found.Append(l.anchorage()...)
	found.Append(l.unchecked()...)
	return found.List()
}

// unchecked notes what the cross-checks leave out because the job does not say
// what they take.
func (l *Layout) unchecked() finding.List {
	var found finding.List
	if !l.Demand.Known() {
		return found
	}
	seen := map[string]bool{}
	note := func(code, key string, at finding.Place, mend, format string, args ...any) {
		if !seen[code+key] {
			seen[code+key] = true
			found.Notef(code, at, mend, format, args...)
		}
	}
	for _, r := range l.Runs() {
		w := r.Wall
		switch a := w.Nailer; {
		case a == nil && len(w.Layers) > 0 && (w.Layers[0].Material == job.Wood || w.Layers[0].Material == job.Plywood):
			note("nailer-not-stated", w.Name, w.At,
				"write `nailer:` under the wall, with its anchor, report and allowable",
				"wall %s: what anchors %s is not stated, and the anchorage is not checked", w.Name, w.Layers[0].Name)
		case a != nil && a.Shear == 0:
			note("nailer-shear", w.Name, a.At, "write `shear` of the anchor, from its report",
				"wall %s: the shear of %s is not stated, and the push on the legs is not in its spacing", w.Name,
				a.Anchor)
		}
		for _, c := range r.Chairs {
			if c.Assembly == nil || c.Assembly.Substrate != job.Wood && c.Assembly.Substrate != job.Plywood {
				continue
			}
			for _, y := range w.Layers {
				if y.Material == c.Assembly.Substrate {
					if y.Gravity == 0 {
						note("withdrawal-unchecked", "wall "+w.Name, w.At, "write `gravity` of the layer",
							"wall %s: the specific gravity of %s is not stated, and the screws' withdrawal is not "+
								"checked", w.Name, y.Name)
					}
					break
				}
			}
			for _, row := range c.Rows {
				f := row.Fastener
				if f == nil {
					continue
				}
				if f.Kind == "" {
					note("withdrawal-unchecked", "fastener "+f.Name, f.At, "write `kind` of the fastener",
						"fastener %s: what it is in wood is not stated, and its withdrawal is not checked", f.Name)
				}
				if f.Shear == 0 && f.Yield == nil {
					note("shear-unchecked", f.Name, f.At,
						"write `shear` of the fastener from its report, or `yield` for the wood "+
							"standard",
						"fastener %s: what it carries across is not stated, and the push of the wind on the legs is "+
							"not checked", f.Name)
				}
			}
		}
	}
	return found
}

func onRun(r *Run) finding.Ref {
	return finding.Ref{Perimeter: r.Perimeter.Job.Name, Run: r.Name}
}

func force(n float64) string { return fmt.Sprintf("%.0f lb (%.2f kN)", n/4.4482216152605, n/1000) }

// areas compares the effective wind area that computed pressures took with
// what chairs gather: over a larger area the coefficients are less.
func (l *Layout) areas() finding.List {
	var found finding.List
	if !l.Demand.Computed || l.Job.Wind.Area <= 0 {
		return found
	}
	var least float64
	var at *Chair
	for _, r := range l.Runs() {
		for _, p := range l.Pulls(r) {
			a := wind.EffectiveArea(metres(p.Tributary), metres(r.Outside))
			if at == nil || a < least {
				least, at = a, p.Chair
			}
		}
	}
	stated := l.Job.Wind.Area
	// Up to 10 ft2 the coefficients do not change.
	const level = 10 * 0.09290304
	if at == nil || stated <= max(least, level) {
		return found
	}
	f := finding.New(finding.Hold, "wind-area", l.Job.Wind.At, "leave `effective_area` out, or write that of the "+
		"chair that gathers least",
		"the effective wind area of %.1f ft2 (%.2f m2) is more than the %.1f ft2 (%.2f m2) that chair %s gathers",
		stated/0.09290304, stated, least/0.09290304, least, at.Name)
	f.Why = "over a larger area the standard's coefficients are less, and that chair is pulled by more than was " +
		"computed"
	found.Append(f)
	return found
}
