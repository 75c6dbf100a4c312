package sheets

import (
	"fmt"

	"copingset/layout"
	"copingset/layout/plan"
	"copingset/layout/wind"
)

// The facts that the basis of design letters, cell by cell.

// namedBlock gives a block that is a table the names of its facts.
func namedBlock(x block, names [][]string) block {
	if t, ok := x.(table); ok {
		return t.naming(names)
	}
	return x
}

// stepNames are those of the steps of a reckoning; a value that is a sentence stands
// beside its subject.
func stepNames(of string, steps []wind.Step) [][]string {
	var out [][]string
	for i, s := range steps {
		is := func(what string) string { return layout.Named(of, fmt.Sprintf("step-%d-%s", i+1, what)) }
		what, value, formula, source := is("what"), is("value"), "", ""
		if len(spelled(s.Letter())) > longValue {
			what, value = layout.AllNamed(what, value), ""
		}
		if s.Formula != "" {
			formula = is("formula")
		}
		if s.Source != "" {
			source = is("source")
		}
		out = append(out, []string{is("line"), "", what, formula, value, source})
	}
	return out
}

// signedNames are stepNames with a column before the value, for the name in the list
// that a confirmation is over.
func signedNames(steps []wind.Step) [][]string {
	out := stepNames("wind", steps)
	for i, n := range out {
		name := ""
		if s := steps[i]; s.Fact != "" {
			name = layout.Named("wind", fmt.Sprintf("step-%d-listed", i+1))
		}
		out[i] = []string{n[0], n[1], n[2], n[3], name, n[4], n[5]}
	}
	return out
}

// confirmedFacts are those of who confirmed computed pressures, and of what.
func confirmedFacts(d *wind.Demand) string {
	names := []string{"confirmed-by", "confirmed-code"}
	if d.Confirmed.Document != "" {
		names = append(names, "confirmed-document")
	}
	if date(d.Confirmed.On) != "" {
		names = append(names, "confirmed-on")
	}
	return factsOf("wind", names...)
}

// statedFacts are those of who states pressures.
func statedFacts(d *wind.Demand) string {
	if d.Document == "" {
		return layout.Named("wind", "by")
	}
	return factsOf("wind", "by", "document")
}

// zoneLineNames are those of a run's lines on the zones in the list that a
// confirmation is over.
func zoneLineNames(r *layout.Run) []string {
	out := []string{""}
	for _, what := range []string{"corner-left", "corner-right", "wall"} {
		out = append(out, wind.ZoneFact(r.Perimeter.Job.Name, r.Name, what))
	}
	return out
}

// demandNames are those of the design pressures.
func (b *book) demandNames() [][]string {
	d := &b.l.Demand
	var out [][]string
	for z := wind.Edge; z <= wind.Corner; z++ {
		faces := []string{"up", "out"}
		if d.RearKnown() {
			faces = append(faces, "rear")
		}
		for _, face := range faces {
			k, reach := z.String()+"-"+face, ""
			if z == wind.Corner {
				reach = factsOf("wind", "corner-zone")
			}
			who, document := factsOf("wind", "by"), factsOf("wind", "document")
			if d.ToConfirm() {
				who, document = factsOf("wind", "to-confirm"), ""
			}
			out = append(out, []string{"", "", factsOf("wind", k), factsOf("wind", k+"-level"),
				factsOf("wind", k+"-allowable"), reach, who, document, factsOf("wind", "edition")})
		}
	}
	return out
}

// zoneLengthNames are those of the zones along each run.
func (b *book) zoneLengthNames() [][]string {
	var out [][]string
	for _, r := range b.l.Runs() {
		of := layout.FactOfRun(r)
		row := []string{"", factsOf(of, "wall-line"), "", "", ""}
		for i, z := range r.Zones {
			name := factsOf(of, fmt.Sprintf("wind-zone-%d-long", i+1))
			switch {
			case z.Zone == wind.Edge:
				row[3] = name
			case i == 0:
				row[2] = name
			default:
				row[4] = name
			}
		}
		out = append(out, row)
	}
	return out
}

// besideNames are those of stated pressures against computed ones.
func (b *book) besideNames() [][]string {
	var out [][]string
	for z := wind.Edge; z <= wind.Corner; z++ {
		faces := []string{"up", "out"}
		if b.l.Demand.RearKnown() {
			faces = append(faces, "rear")
		}
		for _, face := range faces {
			k := z.String() + "-" + face
			both := layout.AllNamed(factsOf("wind", k+"-allowable"), factsOf("wind beside", k+"-allowable"))
			out = append(out, []string{"", "", factsOf("wind", k+"-allowable"), factsOf("wind beside", k+"-allowable"),
				both})
		}
	}
	return append(out, []string{"", "", factsOf("wind", "corner-zone"), factsOf("wind beside", "corner-zone")})
}

// effortNames are those of both ways to level, of a perimeter or of the whole job.
func effortNames(of string, p plan.Levelling) [][]string {
	var out [][]string
	row := func(what, head string) {
		out = append(out, []string{head, factsOf(of, "continuous-"+what), factsOf(of, "chairs-"+what)})
	}
	for _, what := range []string{"pieces", "strips", "shims", "cuts", "layers"} {
		row(what, "")
	}
	least := ""
	if p.SheetsLeast > 0 {
		least = factsOf(of, "sheets-least")
	}
	row("sheets", least)
	nail := ""
	if p.Nail != "" {
		nail = factsOf(of, "nail")
	}
	row("nails", nail)
	row("missing", "")
	if p.Priced {
		row("minutes", "")
		row("money-hundredths", "")
	}
	return out
}
