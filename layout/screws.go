package layout

import (
	"copingset/layout/assembly"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wind"
	"copingset/layout/withdrawal"
)

// Withdrawal is the cross-check of the screws of the chair that they hold
// least in proportion, for one assembly on one run: pulled up by the top, and
// sheared by both legs.
type Withdrawal struct {
	Run       *Run
	Pull      Pull
	Assembly  *job.Assembly
	Layer     job.Layer
	Fastener  *Fastener
	Count     int           // in the chair
	Thread    length.Length // least of its rows
	Allowable float64       // N, the chair, in pull
	Carries   float64       // N, the chair, in shear; zero: not checked, Unsheared says why
	Unsheared string
	Across    []wind.Step // how the shear follows; none where the job states it
	One       withdrawal.Result
}

// Ratio is the upward pull over what the screws hold by the formulas.
func (w Withdrawal) Ratio() float64 { return w.Pull.Up / w.Allowable }

// Combined is the share of the screws that pull and shear take together; the
// pull alone where the shear is not checked.
func (w Withdrawal) Combined() float64 {
	if w.Carries == 0 {
		return w.Ratio()
	}
	return withdrawal.Combined(w.Pull.Up, w.Allowable, w.Pull.Across, w.Carries)
}

// Short says that pull and shear together take more than the screws have.
func (w Withdrawal) Short() bool { return w.Combined() > 1 }

// Withdrawals checks every chair that is screwed into wood of a stated
// gravity, and gives the worst of each assembly on each run. It stands beside
// the test and never in its place.
func (l *Layout) Withdrawals() []Withdrawal {
	var out []Withdrawal
	for _, r := range l.Runs() {
		var of []Withdrawal
		for _, p := range l.Pulls(r) {
			w, ok := l.withdrawalOf(r, p)
			if !ok {
				continue
			}
			i := 0
			for i < len(of) && of[i].Assembly != w.Assembly {
				i++
			}
			switch {
			case i == len(of):
				of = append(of, w)
			case w.Combined() > of[i].Combined():
				of[i] = w
			}
		}
		out = append(out, of...)
	}
	return out
}

func (l *Layout) withdrawalOf(r *Run, p Pull) (Withdrawal, bool) {
	c := p.Chair
	w := Withdrawal{Run: r, Pull: p, Assembly: c.Assembly}
	if c.Assembly == nil {
		return w, false
	}
	if _, ok := assembly.Holding(r.Wall.Layers, c.Assembly.Substrate); !ok {
		return w, false
	}
	for _, layer := range r.Wall.Layers {
		if layer.Material == c.Assembly.Substrate {
			w.Layer = layer
			break
		}
	}
	chair := l.Job.System.ChairOf(c.Assembly).Thickness
	var between length.Length // of what lies between chair and wood, the membrane left out
	for _, row := range c.Rows {
		if row.Fastener == nil || row.Count == 0 {
			continue
		}
		thread := length.Min(length.Min(row.Into-row.Fastener.Tip, w.Layer.Thickness), threadOf(row.Fastener))
		if w.Fastener == nil || thread < w.Thread {
			w.Fastener, w.Thread = row.Fastener, thread
		}
		w.Count += row.Count
		between = length.Max(between, row.Above-chair-l.Job.Membrane.Thickness)
	}
	if w.Fastener == nil {
		return w, false
	}
	metric := l.Job.Units == job.Metric
	one, ok := withdrawal.Of(withdrawal.Fastener{Kind: w.Fastener.Kind, Diameter: w.Fastener.Diameter, Thread: w.Thread,
		Gravity: w.Layer.Gravity, Wet: w.Layer.Wet}, metric)
	w.One, w.Allowable = one, one.Newtons*float64(w.Count)
	l.sheared(&w, between, metric)
	return w, ok
}

// onPacking is why the shear of a chair's screws is not reckoned.
const onPacking = "on build-up"

// sheared finds what the screws of a chair carry across: what their report
// allows, or else the yield limits of the wood standard, which know nothing of
// packing between the chair and the wood.
func (l *Layout) sheared(w *Withdrawal, between length.Length, metric bool) {
	f := w.Fastener
	switch {
	case between > 0:
		w.Unsheared = onPacking
	case f.Shear > 0:
		w.Carries = f.Shear * float64(w.Count)
	case f.Yield == nil:
		w.Unsheared = "not stated"
	default:
		one, why := withdrawal.OfLateral(withdrawal.Lateral{Kind: f.Kind, Root: f.Yield.Root, Bending: f.Yield.Bending,
			SideBearing: f.Yield.Bearing,
			Side:        l.Job.System.ChairOf(w.Assembly).Thickness, Depth: w.Thread, Gravity: w.Layer.Gravity,
			Wet: w.Layer.Wet}, metric)
		w.Carries, w.Across, w.Unsheared = one.Newtons*float64(w.Count), one.Steps, why
	}
}

// screwFindings are what the cross-check of the screws has found.
func (l *Layout) screwFindings() finding.List {
	var found finding.Set
	rows := l.Withdrawals()
	for _, w := range rows {
		if !w.Short() {
			continue
		}
		f := finding.New(finding.Hold, "withdrawal-short", w.Fastener.At,
			"check thread, wood and report; have the engineer of record settle it",
			"run %s: chair %s is pulled up by %s, and by the wood formulas its %d screws hold %s",
			w.Run.Name, w.Pull.Chair.Name, force(w.Pull.Up), w.Count, force(w.Allowable))
		if w.Ratio() <= 1 {
			f = finding.New(finding.Hold, "screws-combined", w.Fastener.At, f.Mend,
				"run %s: chair %s is pulled up by %s and pushed towards %s by %s; its %d screws hold %s and carry "+
					"%s, and both "+
					"together take %.2f of them",
				w.Run.Name, w.Pull.Chair.Name, force(w.Pull.Up), w.Pull.Case.Towards(), force(w.Pull.Across), w.Count,
				force(w.Allowable), force(w.Carries), w.Combined())
		}
		f.Why = "the test covers the zone, and pull and shear on the screws say otherwise"
		f.Where = onRun(w.Run)
		found.Append(f)
	}
	wet := map[string]bool{}
	for _, w := range rows {
		if w.Layer.Service || wet[w.Run.Wall.Name] {
			continue
		}
		wet[w.Run.Wall.Name] = true
		found.Notef("wood-dry", w.Run.Wall.At, "write `service: dry` or `service: wet` for the layer",
			"wall %s: the screws' withdrawal takes %s as dry in service, which the job does not say", w.Run.Wall.Name,
			w.Layer.Name)
	}
	return found.List()
}

// OnPacking counts the chairs whose screws pass through packing before they reach
// what holds them: nothing here reckons their shear.
func (l *Layout) OnPacking() int {
	n := 0
	for _, r := range l.Runs() {
		for _, p := range l.Pulls(r) {
			if w, ok := l.withdrawalOf(r, p); ok && w.Unsheared == onPacking {
				n++
			}
		}
	}
	return n
}
