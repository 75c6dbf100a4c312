package sheets

import (
	"fmt"
	"strconv"

	"copingset/drawing"
	"copingset/layout"
)

// chairLoads compares what the wind asks of the chairs with what was proved for
// one, by run and assembly: of each load case the chair that is asked the most.
func (b *book) chairLoads() table {
	rear := b.l.Demand.RearKnown()
	t := table{title: "Load per chair, at the allowable level: demand of what is proved for one chair",
		cols: []column{{head: "Run"}, {head: "Assembly"}, {head: "Chairs", align: drawing.Right}, {head: "Up, by shares", flex: true},
			{head: "Up, as a stiff cap", flex: true}, {head: "Out, front leg", flex: true}, {head: "Rear leg", flex: true}, {head: "Ratio", align: drawing.Right}, {head: "Result"}}}
	var held []bool
	for _, r := range b.l.ChairLoads() {
		beam, back := "NOT COMPARED", "not compared"
		if r.Beam.Chair != nil {
			beam = b.chairLoading(r.Beam)
		}
		if rear && r.Rear.Chair != nil {
			back = b.chairLoading(r.Rear)
		}
		word := "pass"
		switch {
		case !r.Passes:
			word = "NO: HOLD"
		case b.l.Demand.ToConfirm():
			word = "HOLD: not confirmed"
		}
		held = append(held, word != "pass")
		t.rows = append(t.rows, []string{b.runHead(r.Run), prose(r.Assembly.Name), itoa(r.Chairs), b.chairLoading(r.Up), beam, b.chairLoading(r.Out), back,
			strconv.FormatFloat(r.Worst, 'f', 2, 64), word})
	}
	t.bold = func(row, col int) bool { return held[row] && col == 8 }
	return t
}

// chairLoading letters one load case: C7, 108 lb of 137 lb, 0.79.
func (b *book) chairLoading(c layout.ChairLoading) string {
	if c.Chair == nil {
		return "–"
	}
	return fmt.Sprintf("C%d: %s of %s, %.2f", c.Chair.N, b.force(c.Demand), b.force(c.Holds), c.Ratio())
}

// turnedRows tell how the pieces that turn are held down.
func (b *book) turnedRows() table {
	t := table{title: "Pieces that turn: held in force and moment",
		cols: []column{{head: "Piece"}, {head: "Kind", flex: true}, {head: "Chairs", align: drawing.Right}, {head: "Corner supports", flex: true},
			{head: "Round the miter, longer face", flex: true}, {head: "Uplift acts", flex: true}, {head: "Result", flex: true}}}
	var held []bool
	for _, r := range b.l.TurnedRows() {
		sup := "none"
		if n := len(r.Supports); n > 0 {
			sup = fmt.Sprintf("%d, bearing only", n)
			if r.Hooked {
				worst := r.Supports[0]
				for _, s := range r.Supports {
					if s.Load.Ratio() > worst.Load.Ratio() {
						worst = s
					}
				}
				sup = fmt.Sprintf("%d, hooked: %s of %s, %.2f", n, b.force(worst.Load.Demand), b.force(worst.Load.Holds), worst.Load.Ratio())
			}
		}
		bay, off := "half the spacing each side", "within its hold-downs"
		if r.Spacing > 0 {
			bay = b.shopText(r.Bay) + " of " + b.shopText(r.Spacing)
		}
		if r.Off > 0 {
			off = b.shopText(r.Off) + " outside its hold-downs"
		}
		word := "balanced"
		switch k := b.j.System.Corner.Covered; {
		case !r.Passes:
			word = "NO: HOLD"
		case !r.Held:
			word = "covered by " + prose(k.By) + ", " + prose(k.Document)
		case b.l.Demand.ToConfirm():
			word = "HOLD: not confirmed"
		}
		held = append(held, word == "NO: HOLD")
		t.rows = append(t.rows, []string{r.Piece.Mark, prose(r.Kind), itoa(r.Chairs), sup, bay, off, word})
	}
	t.bold = func(row, col int) bool { return held[row] && col == 6 }
	return t
}

// loadNotes say what the two tables count and what they do not.
func (b *book) loadNotes() []string {
	out := []string{"Load per chair: what lies nearer to a chair than to another, each part at the pressure of the zone it lies in, against the resistance on the piece’s own width and the tested spacing" +
		", or the force that the report gives of one chair. A piece that turns, ends or tapers asks the greater of that and of its balance in force and moment."}
	all, none := true, true
	for i := range b.j.Assemblies {
		all, none = all && b.j.Assemblies[i].TestedOn != nil, none && b.j.Assemblies[i].TestedOn == nil
	}
	switch {
	case all:
		out = append(out, "As a stiff cap: reactions of a continuous beam from joint to joint, each joint a hinge, against the hardest pulled chair of the specimen (theorem of three moments).")
	case none:
		out = append(out, "CONTINUITY WAS NOT COMPARED: no report says how its specimen stood. A stiff cap does not share by halves: of two bays the middle chair takes 1.25 times its share.")
	default:
		out = append(out, "As a stiff cap: reactions of a continuous beam from joint to joint, each joint a hinge, against the hardest pulled chair of the specimen (theorem of three moments). "+
			"CONTINUITY WAS NOT COMPARED where the report does not say how its specimen stood.")
	}
	return append(out, "A support that only bears pushes and never pulls; a hooked one holds what its report or the engineer allows.")
}
