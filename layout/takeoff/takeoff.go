// Package takeoff counts and prices a coping before anything is measured: from the
// lengths of the drawing and the widths that the walls are drawn with, laid out as
// the job's own system and, beside it, in other ways. Nothing is released from it:
// what it lays out is counted and thrown away.
package takeoff

import (
	"slices"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// Takeoff is the ways to build, the job's own first.
type Takeoff struct {
	Job     *job.Job
	By      job.Takeoff // what it is reckoned by
	Options []Option
	Widths  []Width
}

// Width is the drawn width of a wall, and the runs that stand on it.
type Width struct {
	Wall  string
	Width length.Length
	Runs  []string
}

// Option is one way to build, counted.
type Option struct {
	Name   string // empty: as the job states it
	System string
	Lines  []Line
	Groups []Money // what each group costs, in their order
	// Labour and whole are with their allowances.
	Sum, Unforeseen, Whole int64
	Unpriced               []Line       // lines with a count and no price, which no sum holds
	Failed                 finding.List // why it cannot be laid out; it has no lines then
	Holds                  []Held       // what would keep its pieces from release, walls measured as drawn
	Run                    length.Length
}

// Held is holds of one code.
type Held struct {
	Code  string
	Count int
}

// Money is what a group of lines costs, in thousandths of the job's money.
type Money struct {
	Group Group
	Sum   int64
}

// Reader reads the job with other files included in place of its own; with none as it
// is.
type Reader func(include []string) (*job.Job, finding.List)

// Of reckons a takeoff. What stops the job's own way is in the list; what stops
// another is said of that one.
func Of(read Reader) (*Takeoff, finding.List) {
	j, found := read(nil)
	if found.HasErrors() {
		return nil, found
	}
	t := &Takeoff{Job: j}
	if j.Takeoff != nil {
		t.By = *j.Takeoff
	}
	if found = drawn(j); found.HasErrors() {
		return nil, found
	}
	t.Widths = widths(j)
	own := t.option(job.BidOption{}, *j)
	if own.Failed.HasErrors() {
		return nil, own.Failed
	}
	t.Options = append(t.Options, own)
	for _, o := range t.By.Options {
		other := *j
		if len(o.Include) > 0 {
			k, found := read(o.Include)
			if found = append(found, drawn(k)...); found.HasErrors() {
				t.Options = append(t.Options, Option{Name: o.Name, Failed: onlyErrors(found)})
				continue
			}
			other = *k
		}
		t.Options = append(t.Options, t.option(o, other))
	}
	return t, nil
}

func onlyErrors(all finding.List) finding.List {
	var out finding.List
	for _, f := range all {
		if f.Severity == finding.Error {
			out = append(out, f)
		}
	}
	return out
}

// option lays one way out and counts it.
func (t *Takeoff) option(o job.BidOption, j job.Job) Option {
	out := Option{Name: o.Name, System: j.System.Name}
	if f := changed(&j, o); f.HasErrors() {
		out.Failed = f
		return out
	}
	suppose(&j, t.By.Uneven)
	l, found := layout.Build(&j)
	if found.HasErrors() {
		out.Failed = onlyErrors(found)
		return out
	}
	for _, f := range l.Holds() {
		at := slices.IndexFunc(out.Holds, func(h Held) bool { return h.Code == f.Code })
		if at < 0 {
			at = len(out.Holds)
			out.Holds = append(out.Holds, Held{Code: f.Code})
		}
		out.Holds[at].Count++
	}
	c := counting{l: l, by: t.By, o: &out}
	c.all()
	return out
}

// changed makes the job what an option has of its own.
func changed(j *job.Job, o job.BidOption) finding.List {
	var found finding.List
	if o.Stock > 0 {
		j.System.Stock = o.Stock
	}
	if o.HasPacking {
		j.Packing.Method = o.Packing
		if o.Packing == job.PackContinuous && j.Packing.Layer == 0 {
			found.Append(finding.New(finding.Error, "takeoff-packing", o.At, "state `layer:` under `packing:`",
				"option %s: continuous build-up takes plywood, and the job has none", o.Name))
		}
	}
	if o.ChairSpacing == 0 {
		return found
	}
	widest := length.Length(0)
	j.Assemblies = slices.Clone(j.Assemblies)
	for i := range j.Assemblies {
		a := &j.Assemblies[i]
		widest = length.Max(widest, a.ChairSpacing)
		a.ChairSpacing = length.Min(a.ChairSpacing, o.ChairSpacing)
	}
	if o.ChairSpacing > widest {
		found.Append(finding.New(finding.Error, "takeoff-spacing", o.At, "write a spacing that a report covers",
			"option %s: chairs %s apart stand in no test; the widest tested is %s", o.Name, job.Both(o.ChairSpacing),
			job.Both(widest)))
	}
	return found
}

// drawn asks for the widths that walls are drawn with, once for each wall.
func drawn(j *job.Job) finding.List {
	var out finding.List
	if j == nil {
		return out
	}
	for i := range j.Perimeters {
		p := &j.Perimeters[i]
		for k := range p.Runs {
			if len(p.Runs[k].Readings) > 0 {
				continue
			}
			name := wallOf(p, &p.Runs[k])
			at := p.Runs[k].At
			if w := slices.IndexFunc(j.Walls, func(w job.Wall) bool { return w.Name == name }); w >= 0 {
				at = j.Walls[w].At
			}
			f := finding.New(finding.Error, "takeoff-width", at,
				"write `width:` with what the drawing shows under the wall "+name,
				"wall %s does not say how wide it is drawn, and a takeoff rests on it", name)
			if !slices.ContainsFunc(out, func(o finding.Finding) bool { return o.At == f.At }) {
				out.Append(f)
			}
		}
	}
	return out
}

func wallOf(p *job.Perimeter, r *job.Run) string {
	if r.Wall != "" {
		return r.Wall
	}
	return p.Wall
}

// widths are the walls in use with their runs.
func widths(j *job.Job) []Width {
	var out []Width
	for i := range j.Perimeters {
		p := &j.Perimeters[i]
		for k := range p.Runs {
			r := &p.Runs[k]
			name := wallOf(p, r)
			at := slices.IndexFunc(out, func(w Width) bool { return w.Wall == name })
			if at < 0 {
				at = len(out)
				out = append(out, Width{Wall: name, Width: r.Readings[0].Width})
			}
			out[at].Runs = append(out[at].Runs, p.Name+"/"+r.Name)
		}
	}
	return out
}

// reach is how far apart the supposed readings of an uneven top stand.
const reach = 3 * length.Foot

// suppose lays the walls out as drawn: straight, of one width, their tops as uneven as
// they are taken to be. They count as measured, since nothing of this layout is ever
// drawn or released.
func suppose(j *job.Job, uneven length.Length) {
	j.Perimeters = slices.Clone(j.Perimeters)
	for i := range j.Perimeters {
		p := &j.Perimeters[i]
		p.Runs = slices.Clone(p.Runs)
		for k := range p.Runs {
			r := &p.Runs[k]
			r.Supposed, r.Basis = false, job.Measured
			r.Readings = tops(r, uneven)
		}
	}
}

// tops are readings whose tops sag evenly from both ends to the middle of the run.
func tops(r *job.Run, uneven length.Length) []job.Reading {
	first, last := r.Readings[0], r.Readings[len(r.Readings)-1]
	if uneven == 0 {
		return []job.Reading{first, last}
	}
	n := 2 * max(1, int((last.Station-first.Station+2*reach-1)/(2*reach)))
	out := make([]job.Reading, n+1)
	for i := range out {
		q := first
		q.Station = first.Station + length.MulDiv(last.Station-first.Station, int64(i), int64(n))
		low := length.MulDiv(uneven, int64(2*min(i, n-i)), int64(n))
		q.TopOutside, q.TopInside = first.TopOutside-low, first.TopInside-low
		out[i] = q
	}
	return out
}
