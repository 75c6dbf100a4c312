package wind

import "copingset/layout/job"

// Case is one of the two ways in which the wind takes a parapet by the clause
// on parapets of ASCE 7 (7-10 section 30.9).
type Case int

// The cases. In both the top is pulled up by the roof zone beside it.
const (
	Windward Case = iota // A: the outside face pressed, the roof face pulled
	Leeward              // B: the outside face pulled, the roof face pressed
)

// Cases lists them.
func Cases() []Case { return []Case{Windward, Leeward} }

// String is the letter of the standard.
func (c Case) String() string { return [...]string{"A", "B"}[c] }

// Towards is where both legs are pushed.
func (c Case) Towards() string { return [...]string{"the roof", "the street"}[c] }

// Legs is the pressure on the front and on the rear leg in a case. An inward
// pressure that is not stated is taken as the outward one, which no wall
// coefficient of ASCE 7 exceeds; a pull on the rear leg that is not stated as
// that on the top, whose roof zone it takes.
func (d Demand) Legs(c Case, z Zone) (front, rear job.Pressure) {
	in := d.In[z]
	if in.Pa == 0 {
		in = d.Out[z]
	}
	if c == Leeward {
		return d.Out[z], in
	}
	if rear = d.Rear[z]; rear.Pa == 0 {
		rear = d.Up[z]
	}
	return in, rear
}

// Taken says which pressures of Legs stand in for others that nobody stated.
func (d Demand) Taken() []string {
	var out []string
	if d.In[Edge].Pa == 0 || d.In[Corner].Pa == 0 {
		out = append(out, "The pressure inward on a leg is not stated: the outward one is taken for it, which no wall "+
			"coefficient of ASCE 7 exceeds.")
	}
	if !d.RearKnown() {
		out = append(
			out,
			"The pull on the rear leg is not stated: that on the top is taken for it, whose roof zone it has.",
		)
	}
	return out
}
