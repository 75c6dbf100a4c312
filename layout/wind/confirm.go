package wind

import (
	"fmt"
	"math"
	"strings"

	"copingset/layout/confirm"
	"copingset/layout/fact"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// Zoned is a run with its zones, as a confirmation covers them.
type Zoned struct {
	Perimeter, Run string
	Front          length.Length // of its wall line
	Zones          []Stretch
}

// Confirm sets computed pressures, with the zones that were laid out by them,
// against what a licensed engineer confirmed. The confirmation is over the text
// of every input and result as printed; where one differs nothing is confirmed,
// and the finding says what has changed.
func Confirm(j *job.Job, d Demand, runs []Zoned) (Demand, finding.List) {
	if !d.Computed {
		return d, nil
	}
	d.Signed = signed(d.Basis, runs, j.WindUnits() == job.Metric)
	d.List = ListOf(d.Signed)
	f := finding.New(finding.Hold, "pressures-computed", j.Wind.At, "",
		"the design pressures are computed from %s and are to be confirmed by a licensed engineer", d.Edition)
	f.Why = "the standards' figures were read in second sources, and some are from memory; the basis of design " +
		"marks them"
	f.Mend = fmt.Sprintf("have the list of the basis of design confirmed by its check code, now %s, and write "+
		"`confirmed:` with by, on, document and code "+
		"under `wind:`; or write the engineer's `pressures:`", d.List.Code())
	switch c := j.Wind.Confirmed; {
	case c == nil:
	case c.Code == d.List.Code():
		d.Confirmed, d.By, d.Document = c, c.By, c.Document
		f.Severity, f.Mend = finding.Note, "keep the confirmation with the submittal"
		f.What = fmt.Sprintf("the design pressures are computed from %s and are confirmed by %s, %s, check code "+
			"%s", d.Edition, c.By, c.Document, c.Code)
		if c.List != nil && c.List.Code() != c.Code {
			f.What += fmt.Sprintf(
				"; the list given beside it has %s and is not the one that was confirmed",
				c.List.Code(),
			)
			f.Mend = "name the list that was confirmed: with another one a later change cannot be told"
		}
	default:
		f.Code, f.At = "confirmation-differs", c.CodeAt
		if f.At.IsZero() {
			f.At = c.At
		}
		f.What, f.Why = d.differs(c)
		f.Mend = fmt.Sprintf("have the list confirmed anew by its check code, now %s, and write that as `code`; "+
			"or take the change back", d.List.Code())
	}
	return d, finding.List{f}
}

// signedOf begins the name of what a fact under a confirmation is of.
const signedOf = "confirm"

// signedFact is a line of the list as a fact: what stands before the last point of its
// name is what it is of.
func signedFact(name, value string) fact.Fact {
	of, what := signedOf, name
	if i := strings.LastIndexByte(name, '.'); i >= 0 {
		of, what = signedOf+" "+name[:i], name[i+1:]
	}
	return fact.Fact{Kind: fact.Confirmed, Of: of, What: what, Unit: fact.Words, Value: value}
}

// ListOf is the list that the facts under a confirmation in a ledger make; no other
// fact counts. It is nil where there are none.
func ListOf(l fact.Ledger) confirm.List {
	var out confirm.List
	for _, f := range l {
		if f.Kind != fact.Confirmed {
			continue
		}
		name := f.What
		if of := strings.TrimPrefix(f.Of, signedOf+" "); of != f.Of {
			name = of + "." + f.What
		}
		out = append(out, confirm.Line{Name: name, Value: f.Value})
	}
	if out == nil {
		return nil
	}
	return out.Sorted()
}

// signed is what a confirmation is over: each step of the basis, and for each run
// where its corner zones lie. The length of a wall line counts to the foot or the
// decimetre: a tape's quarter inch changes no zone. Values are as they are printed.
func signed(basis []Step, runs []Zoned, metric bool) fact.Ledger {
	var out []fact.Fact
	for _, s := range basis {
		value := s.Said
		if value == "" {
			value = s.Letter()
		}
		out = append(out, signedFact(s.Fact, value))
	}
	for _, r := range runs {
		add := func(what, value string) {
			out = append(out, signedFact(zoneName(r.Perimeter, r.Run, what), value))
		}
		left, right := "none", "none"
		for i, z := range r.Zones {
			switch {
			case z.Zone != Corner:
			case len(r.Zones) == 1:
				left, right = "all", "all"
			case i == 0:
				left = along(z.To-z.From, metric)
			default:
				right = along(z.To-z.From, metric)
			}
		}
		add("corner-left", left)
		add("corner-right", right)
		if metric {
			add("wall", fmt.Sprintf("%.1f m", math.Round(feetOf(r.Front)*metresPerFoot*10)/10))
		} else {
			add("wall", fmt.Sprintf("%.0f ft", math.Round(feetOf(r.Front))))
		}
	}
	return fact.Sorted(out)
}

// along letters a length of the crew's.
func along(l length.Length, metric bool) string {
	if metric {
		return length.Millimetres(l, 0) + " mm"
	}
	return length.Feet(l, 16)
}

// most is how many results a finding names; inputs are all named.
const most = 14

// differs says what is no longer as it was confirmed, and why that counts.
func (d Demand) differs(c *job.Confirmed) (what, why string) {
	says := fmt.Sprintf("%s confirmed the list of check code %s (%s)", c.By, c.Code, c.Document)
	now := d.List.Code()
	inputs := d.inputs()
	switch {
	case c.List == nil:
		var all []string
		for _, x := range d.List {
			if inputs[x.Name] {
				all = append(all, x.Name+" "+x.Value)
			}
		}
		return fmt.Sprintf("%s, and the list now has %s: any of its %d values may have changed, or the code was "+
				"copied wrongly; "+
				"its inputs are now %s", says, now, len(d.List), strings.Join(all, "; ")),
			"only the `list:` that was confirmed tells what has changed"
	case c.List.Code() == now:
		return says + fmt.Sprintf(", and the list given beside it, which is as the job is now, has %s: nothing "+
				"has changed since that list was written", now),
			"the code was copied wrongly, or the list is not the one that was confirmed"
	case c.List.Code() != c.Code:
		return says + fmt.Sprintf(", and the list given beside it has %s: it is not the one that was confirmed. "+
				"The list now has %s", c.List.Code(), now),
			"what has changed can be told from the confirmed list alone"
	}
	var changed, results []string
	for _, x := range confirm.Diff(c.List, d.List) {
		switch {
		case x.Is == "" || inputs[x.Name]:
			changed = append(changed, x.String())
		case !strings.HasSuffix(x.Name, ".strength"): // named at the allowable level
			results = append(results, x.String())
		}
	}
	if len(changed) == 0 {
		changed = []string{"no input as the list letters it"}
	}
	what = says + "; changed since: " + strings.Join(changed, "; ")
	if len(results) > 0 {
		what += "; and by that: " + some(results)
	}
	return what, "the confirmation covers every input and result of the pressures, and the zones of each run"
}

// some names the first of many.
func some(all []string) string {
	if len(all) <= most {
		return strings.Join(all, "; ")
	}
	return strings.Join(all[:most], "; ") + fmt.Sprintf("; and %d more", len(all)-most)
}

// inputs are the names of the list that the job states, or leaves to the edition
// or to a perimeter of it: what a person may have changed, not what follows.
func (d Demand) inputs() map[string]bool {
	out := map[string]bool{"least.dimension": true, "area": true, "corner.turn": true, "exposure.floor": true,
		"option.parapet_note": true, "option.wall_reduction": true}
	for _, s := range d.Basis {
		if s.Sure == Stated {
			out[s.Fact] = true
		}
	}
	return out
}

// zoneName is the name of a line on the zones of a run. What divides a line into
// name and value does not stand in a name.
func zoneName(perimeter, run, what string) string {
	return strings.ReplaceAll("zone."+perimeter+"."+run+"."+what, "=", "~")
}

// ZoneLine is what the list says of the zones of a run: corner-left, corner-right
// or wall. Empty where there is no list.
func (d Demand) ZoneLine(perimeter, run, what string) string {
	f := signedFact(zoneName(perimeter, run, what), "")
	return d.Signed.Value(f.Of, f.What)
}

// ZoneFact is the name of the fact of that line.
func ZoneFact(perimeter, run, what string) string {
	return signedFact(zoneName(perimeter, run, what), "").Name()
}
