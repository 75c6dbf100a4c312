package cap

import (
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
	"copingset/layout/wind"
)

// Frame gives every run its inside widths, its zones and the assemblies tested
// for them. Runs that turn into one another share one width at their corner;
// where one width from end to end would leave the rear leg more play than it
// can take up, and the fabricator makes transition pieces or corners of two
// widths, the runs are split (split.go). Build reports the play that is left.
// Runs of a perimeter that meets another are on a copy of it, whose cap lines
// begin behind its mains.
func Frame(j *job.Job, d wind.Demand, perims []*wall.Perimeter, grid length.Length) ([][]*Run, finding.List) {
	var found finding.List
	out := make([][]*Run, len(perims))
	of, mains := map[*wall.Run]*Run{}, map[*wall.Run]bool{} // look-up only
	for _, p := range perims {
		p.Tees(func(_ *wall.Run, t *wall.Tee, _ bool) { mains[t.Main] = true })
	}
	met := make([]*wall.Perimeter, len(perims))
	for _, i := range MainsFirst(perims) {
		p := stubEnds(j, perims[i], of, grid)
		met[i] = p
		var runs []*Run
		for k, w := range p.Runs {
			as := perims[i].Runs[k]
			r := &Run{Run: w, crossed: mains[as]}
			of[w], of[as] = r, r
			runs = append(runs, r)
		}
		zones(d, p, runs)
		for _, c := range chains(p, runs) {
			f := &frame{job: j, sys: &j.System, demand: d, grid: grid, all: runs, chain: c}
			f.solve()
			if f.short != nil {
				found.Append(notOffered(p, f))
			}
		}
		out[i] = runs
	}
	tees(j, met, of, grid, &found)
	return out, found
}

func notOffered(p *wall.Perimeter, f *frame) finding.Finding {
	need := f.short.Need + f.sys.FrontClearance + f.clearance()
	return finding.Finding{
		Code: "width-not-offered", Severity: finding.Hold, At: f.short.Job.At,
		Where: finding.Ref{Perimeter: p.Job.Name},
		What: "perimeter " + p.Job.Name + ": run " + f.short.Name + " needs an inside width of " +
			job.Both(need) + ", more than the widest offered, " + job.Both(f.widest()),
		Mend: "ask the fabricator for a wider cap and have it tested, or cut the wall back",
	}
}

// chain is runs that turn into one another, so that a width at one's end is
// that of the next one's beginning.
type chain struct {
	runs []*Run
	ring bool // the last turns into the first
}

// chains parts a perimeter at its ends and steps, where no width goes on.
func chains(p *wall.Perimeter, runs []*Run) []chain {
	n := len(runs)
	first := 0
	if p.Closed() {
		for first < n && runs[first].Left.Corner != nil {
			first++
		}
		if first == n {
			return []chain{{runs, true}}
		}
	}
	var out []chain
	for i := range n {
		r := runs[(first+i)%n]
		if i == 0 || r.Left.Corner == nil {
			out = append(out, chain{})
		}
		c := &out[len(out)-1]
		c.runs = append(c.runs, r)
	}
	return out
}

// frame finds the widths of one chain.
type frame struct {
	job    *job.Job
	sys    *job.System
	demand wind.Demand
	grid   length.Length
	all    []*Run // of the perimeter
	chain  chain
	short  *Run                      // needs more than the widest offered
	steps  []step                    // room for those of one pass
	widths []length.Length           // of a split
	meet   map[*wall.Corner][][]bool // pairs of a corner that were looked at
}

// clearance is the least room behind the wall at its worst reading: the
// system's rear clearance, and no less play than the rear leg can take up.
func (f *frame) clearance() length.Length { return length.Max(f.sys.RearClearance, f.sys.PlayLeast) }

func (f *frame) widest() length.Length {
	if n := len(f.sys.Widths.Offered); n > 0 {
		return f.sys.Widths.Offered[n-1]
	}
	w := f.sys.Widths
	return w.Least + length.FloorTo(w.Most-w.Least, w.Step)
}

// covering is the least inside width that covers a need, no more than is made.
func (f *frame) covering(need length.Length) length.Length {
	return length.Min(need+f.sys.FrontClearance+f.clearance(), f.widest())
}

// loosest is the greatest inside width whose play the rear leg takes up.
func (f *frame) loosest(need length.Length) length.Length {
	return need + f.sys.FrontClearance + f.sys.PlayMost
}

// solve gives the chain one width, or its split.
func (f *frame) solve() {
	least, most := length.Length(0), length.Length(0)
	first := true
	for _, r := range f.chain.runs {
		if r.Surveyed || len(r.Readings) > 0 {
			if f.short == nil || r.Need > f.short.Need {
				f.short = r
			}
		}
		for _, q := range r.Readings {
			w := f.covering(q.Need)
			if first || w < least {
				least = w
			}
			most, first = length.Max(most, w), false
		}
	}
	if f.short != nil && f.short.Need+f.sys.FrontClearance+f.clearance() <= f.widest() {
		f.short = nil
	}
	one, _ := Offer(f.sys.Widths, most)
	held := false
	for _, r := range f.chain.runs {
		choose(f.job, f.demand, r, []length.Length{one})
		r.setBands(one, nil, f.sys.Metal.Thickness)
		for _, q := range r.Readings {
			held = held || f.loosest(q.Need) < one
		}
	}
	if held && f.sys.SplitsWidths() {
		f.split(thinned(offered(f.sys.Widths, least, one)))
	}
	for _, r := range f.chain.runs {
		r.keepChoices()
	}
}

// offered lists the widths made from the one that covers least to most.
func offered(w job.Widths, least, most length.Length) []length.Length {
	var out []length.Length
	for at := least; ; {
		o, ok := Offer(w, at)
		if !ok || o > most {
			break
		}
		out = append(out, o)
		at = o + 1
	}
	return out
}

// widthsMost is how many widths a plan is made up from. A shop that makes
// every millimetre offers more than a wall can tell apart.
const widthsMost = 24

// thinned leaves every nth of too many widths, counted from the widest.
func thinned(w []length.Length) []length.Length {
	n := (len(w) + widthsMost - 1) / widthsMost
	var out []length.Length
	for i := (len(w) - 1) % max(n, 1); i < len(w); i += n {
		out = append(out, w[i])
	}
	return out
}

// play measures the rear play at every reading against the width there, and
// where a transition begins and ends to taper. What the rear leg cannot take
// up is a hold at its station.
func (b *builder) play(r *Run) {
	s := b.sys
	r.Play = nil
	for i, q := range r.Readings {
		at := r.ToCap(q.Station)
		play := r.PlayAt(s, at)
		r.Play = append(r.Play, play)
		if i == 0 || play < r.PlayLeast {
			r.PlayLeast = play
		}
		if i == 0 || play > r.PlayMost {
			r.PlayMost = play
		}
		if play < s.PlayLeast || play > s.PlayMost {
			b.loose(r, q.Job.At, q.Station, r.InsideAt(at), play)
		}
	}
	for _, t := range r.Tapers {
		for _, at := range []length.Length{t.From, t.To} {
			if play := r.PlayAt(s, at); play < s.PlayLeast || play > s.PlayMost {
				b.loose(r, r.Job.At, r.ToFront(at), r.InsideAt(at), play)
			}
		}
	}
}

// loose holds a station whose rear play the leg cannot take up.
func (b *builder) loose(r *Run, at finding.Place, station, inside, play length.Length) {
	why := "one inside width of " + job.Both(inside) + " goes through all corners"
	if b.sys.Corner.TwoWidths != nil {
		why = "the inside width there is " + job.Both(inside) +
			", and no corner of two widths within the job's mismatch would change it"
	}
	mend := "measure the width again; if it is right this stretch needs a transition to another width: ask the " +
		"fabricator whether one is made and write `transition:` with its length, its legs and the most it changes; " +
		"or fur out the roof face"
	if b.sys.Transition.Offered() {
		why = "the inside width there is " + job.Both(inside) +
			", and no transition has room, or none tapers as fast as this wall"
		mend = "measure the width again; if it is right, a shorter transition or one of a greater change, or furring " +
			"on the roof face"
	}
	f := refOf(r)
	f.Station, f.HasStation = station, true
	b.hold("rear-play", at, f, "run "+r.Name+" at station "+job.Both(r.CrewAt(station))+
		": play at the roof side would be "+
		job.Both(play)+
		", the roof-side leg takes up "+job.Both(b.sys.PlayLeast)+" to "+job.Both(b.sys.PlayMost), why, mend)
}

// Offer rounds a width up to what the fabricator makes. When none is wide
// enough it returns the widest and false.
func Offer(w job.Widths, least length.Length) (length.Length, bool) {
	if len(w.Offered) > 0 {
		for _, o := range w.Offered {
			if o >= least {
				return o, true
			}
		}
		return w.Offered[len(w.Offered)-1], false
	}
	if least <= w.Least {
		return w.Least, true
	}
	o := w.Least + length.CeilTo(least-w.Least, w.Step)
	if o > w.Most {
		return w.Most, false
	}
	return o, true
}
