package sheets

import (
	"fmt"
	"strings"

	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/plan"
)

// The facts that the tables of the wall and of its levelling letter, cell by cell. Each
// list follows the columns of its table.

// bandNames are the inside widths of a run, and where each begins and ends.
func bandNames(r *layout.Run) string {
	of := layout.FactOfRun(r)
	if len(r.Bands) == 0 {
		return ""
	}
	var names []string
	for i := range r.Bands {
		k := fmt.Sprintf("band-%d-", i+1)
		names = append(names, layout.Named(of, k+"inside"))
		if len(r.Bands) > 1 {
			names = append(names, layout.Named(of, k+"from"), layout.Named(of, k+"to"))
		}
	}
	return layout.AllNamed(names...)
}

// reportNames are those of what the readings of a run come to; what the job does not
// say has no row.
func (b *book) reportNames(r *layout.Run) [][]string {
	of := layout.FactOfRun(r)
	rows := [][]string{{"", factsOf(of, "readings", "wall-line")}}
	if strings.TrimSpace(b.j.Site.MeasuredBy+" "+date(b.j.Site.MeasuredOn)) != "" {
		names := []string{layout.Named("job", "measured-on")}
		if b.j.Site.MeasuredBy != "" {
			names = append(names, layout.Named("job", "measured-by"))
		}
		rows = append(rows, []string{"", layout.AllNamed(names...)})
	}
	if b.j.Benchmark != nil && b.j.Benchmark.Loop != nil {
		rows = append(rows, []string{"", factsOf("job", "level-misclosure", "level-misclosure-most")})
	}
	if prose(r.OnWall().Job.SurveyLine) != "" {
		rows = append(rows, []string{"", factsOf(of, "survey-line")})
	}
	for _, names := range [][]string{{"bow", "bow-station"}, {"line-left", "line-right"},
		{"gap-most", "gap-most-station", "gap-parallel"},
		{"wall-width-least", "wall-width-most"}, {"need", "need-station"}} {
		rows = append(rows, []string{"", factsOf(of, names...)})
	}
	if bands := bandNames(r); bands != "" {
		rows = append(rows, []string{"", bands})
	}
	for _, names := range [][]string{{"play-least", "play-most"}, {"set-surface-left", "set-surface-right"},
		{"packing-least", "packing-most"}} {
		rows = append(rows, []string{"", factsOf(of, names...)})
	}
	return rows
}

// limitNames are those of the published limits of a wall top.
func limitNames(r *layout.Run, of plan.WallReport) [][]string {
	var out [][]string
	for i := range of.Limits {
		is := func(what ...string) string {
			var names []string
			for _, w := range what {
				names = append(names, fmt.Sprintf("limit-%d-%s", i+1, w))
			}
			return factsOf(layout.FactOfRun(r), names...)
		}
		out = append(out, []string{is("name"), is("allowed"), is("found"), is("from", "to"), is("kept"), is("source")})
	}
	return out
}

// suspectNames are those of the readings in doubt.
func suspectNames(r *layout.Run) [][]string {
	var out [][]string
	for i := range r.Suspects {
		of := fmt.Sprintf("%s-doubt-%d", r.Name, i+1)
		ask := ""
		if r.Suspects[i].Cleared != nil {
			ask = factsOf(of, "cleared")
		}
		out = append(out, []string{"", factsOf(of, "station"), factsOf(of, "measure"), factsOf(of, "read"),
			factsOf(of, "neighbours-say"), factsOf(of, "doubted-over"), ask})
	}
	return out
}

// stateNames are those of the condition of the wall top.
func stateNames(r *layout.Run, of plan.WallReport) [][]string {
	var out [][]string
	for i, q := range of.Readings {
		if !q.Told() {
			continue
		}
		k, note, photos := layout.FactOfReading(r, i), "", ""
		if q.Note != "" {
			note = factsOf(k, "note")
		}
		if len(q.Photos) > 0 {
			photos = factsOf(k, "photos")
		}
		out = append(out, []string{factsOf(k, "station"), "", photos, note})
	}
	return out
}

// shortNames are those of the facts of several runs, a run a row.
func (b *book) shortNames(runs []*layout.Run) [][]string {
	var out [][]string
	for _, r := range runs {
		of := layout.FactOfRun(r)
		line := ""
		if prose(r.OnWall().Job.SurveyLine) != "" {
			line = factsOf(of, "survey-line")
		}
		out = append(out, []string{factsOf(of, "run"), factsOf(of, "readings"), factsOf(of, "wall-line"),
			layout.Named("job", "measured-on"), line,
			factsOf(of, "bow", "bow-station"), factsOf(of, "line-left"), factsOf(of, "line-right"),
			factsOf(of, "gap-most", "gap-most-station"), factsOf(of, "gap-parallel"),
			factsOf(of, "wall-width-least", "wall-width-most"), factsOf(of, "need", "need-station"), bandNames(r),
			factsOf(of, "play-least", "play-most"),
			factsOf(of, "set-surface-left"), factsOf(of, "set-surface-right"), factsOf(of, "packing-least",
				"packing-most")})
	}
	return out
}

// shortLimitNames are those of the limits of several runs, a kind of limit a row.
func shortLimitNames(runs []*layout.Run, of []plan.WallReport, kinds []plan.WallLimit) [][]string {
	var out [][]string
	for _, l := range kinds {
		row := []string{"", ""}
		for k, r := range runs {
			name := ""
			for i, f := range of[k].Limits {
				if !l.Same(f) || name != "" {
					continue
				}
				is := func(what string) string {
					return layout.Named(layout.FactOfRun(r), fmt.Sprintf("limit-%d-%s", i+1, what))
				}
				name = layout.AllNamed(is("found"), is("from"), is("to"), is("kept"))
				if row[0] == "" {
					row[0], row[1] = is("name"), is("allowed")
				}
			}
			row = append(row, name)
		}
		out = append(out, row)
	}
	return out
}

// zoneNames are those of the zones of a perimeter's build-up.
func zoneNames(p *layout.Perimeter) [][]string {
	var out [][]string
	for _, r := range p.Runs {
		for i, z := range r.BuildUp {
			of := layout.FactOfZone(r, i)
			for k := range z.Tapers {
				taper, nails := factsOf(of, fmt.Sprintf("taper-%d", k+1)), ""
				if k == 0 {
					nails = factsOf(of, "nails")
				}
				out = append(out, []string{"", taper, taper, factsOf(of, "plies"), taper, taper, nails})
			}
			if len(z.Tapers) == 0 {
				out = append(out, []string{"", factsOf(of, "from"), factsOf(of, "to"), factsOf(of, "plies"),
					factsOf(of, "shims-front-least", "shims-front-most"),
					factsOf(of, "shims-rear-least", "shims-rear-most"), factsOf(of, "nails")})
			}
		}
	}
	return out
}

// stripNames are those of the plywood as it lies.
func stripNames(p *layout.Perimeter) [][]string {
	var out [][]string
	for _, r := range p.Runs {
		for i := range r.Strips {
			of := layout.FactOfPlywood(r, i)
			out = append(out, []string{"", factsOf(of, "ply"), factsOf(of, "from"), factsOf(of, "to"),
				factsOf(of, "length"), factsOf(of, "width"), factsOf(of, "sheet", "rip")})
		}
	}
	return out
}

// ripNames are those of the ripping plan.
func ripNames(p *layout.Perimeter) [][]string {
	of := layout.FactOfPerimeter(p)
	var out [][]string
	for i, s := range p.Packing.Sheets {
		for k := range s.Rips {
			is := func(what string) string { return factsOf(of, fmt.Sprintf("sheet-%d-rip-%d-%s", i+1, k+1, what)) }
			out = append(out, []string{factsOf(of, fmt.Sprintf("sheet-%d-number", i+1)), is("number"), is("width"),
				is("cuts")})
		}
	}
	return out
}

// levelLoop tells how well the levelling of the tops came back to its benchmark; empty
// where the job does not say.
func (b *book) levelLoop() string {
	if b.j.Benchmark == nil || b.j.Benchmark.Loop == nil {
		return ""
	}
	l := b.j.Benchmark.Loop
	return b.say.Say(words.WallLevelLoop, words.In("miss", b.small(l.Misclosure())),
		words.In("most", b.small(l.Most)))
}
