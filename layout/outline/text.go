package outline

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"copingset/layout/job"
	"copingset/layout/length"
)

// Begin is what a new job is written with.
type Begin struct {
	Name    string    // of the building
	Issued  string    // year-month-day
	Schema  string    // path to the schema, for editors; empty: none is named
	Include []string  // files of the fabricator and the firm, as paths from the job
	Has     []string  // keys of the file's top that the included files state
	Units   job.Units // of the file
	Survey  func(perimeter string) string
	From    string // what the outline came from, for the file's first lines
}

// has says that an included file states a part.
func (b Begin) has(key string) bool {
	for _, k := range b.Has {
		if k == key {
			return true
		}
	}
	return false
}

// Text is the file of a new job: what the outline says, and what has to be written
// by somebody who knows the wall and the site, each line with what it means. Lengths
// and walls are `basis: drawing`, so that nothing is made before it is measured.
func (p Plan) Text(b Begin) string {
	w := &writer{b: b}
	if b.Schema != "" {
		w.line("# yaml-language-server: $schema=%s\n", b.Schema)
	}
	w.line("# %s, begun from %s.", b.Name, b.From)
	w.line("# Nothing here has been measured: lengths and walls say `basis: drawing` and hold")
	w.line("# what stands on them. Tape each run, write its length, then `basis: measured`.")
	w.line("# Lengths are written as they are said, with their unit: %s.\n", w.examples())
	w.top()
	w.wall()
	w.site()
	w.perimeters(p)
	return w.s.String()
}

type writer struct {
	s strings.Builder
	b Begin
}

func (w *writer) metric() bool { return w.b.Units == job.Metric }

// in picks the example of the job's units.
func (w *writer) in(imperial, metric string) string {
	if w.metric() {
		return metric
	}
	return imperial
}

func (w *writer) examples() string { return w.in(`7 3/8", 9'-5"`, "235 mm") }

func (w *writer) line(format string, args ...any) { fmt.Fprintf(&w.s, format+"\n", args...) }

// key writes a key and what it means beside it.
func (w *writer) key(indent int, key, value, says string) {
	const column = 36
	head := strings.Repeat(" ", indent) + key + ":"
	if value != "" {
		head += " " + value
	}
	if says == "" {
		w.line("%s", head)
		return
	}
	w.line("%-*s # %s", column, head, says)
}

func (w *writer) top() {
	w.key(0, "format", "copingset/2", "always this")
	if len(w.b.Include) > 0 {
		var quoted []string
		for _, f := range w.b.Include {
			quoted = append(quoted, yamlText(f))
		}
		w.key(0, "include", "["+strings.Join(quoted, ", ")+"]", "the fabricator's system and the firm's own rates")
	} else {
		w.line("# include: [../systems/system.yaml]  # the fabricator's file: system, assemblies, fasteners, " +
			"packing, crating;")
		w.line("#                                    # a job needs one before it can be checked to the end")
	}
	w.line("")
	w.key(0, "job", "", "")
	w.key(2, "name", yamlText(w.b.Name), "the building, as the contract calls it")
	w.line(`  # number: "0417"                   # your job number, in quotes`)
	w.line("  # address: 12 Heron Street, Lowmere  # where the truck has to go")
	w.key(2, "issued", w.b.Issued, "date of issue, the only date on the sheets")
	w.line("")
	w.key(0, "units", w.in("imperial", "metric"), "what the sheets are lettered in")
	w.key(0, "paper", w.in("{runs: B, lists: A}", "{runs: A3, lists: A4}"), "of drawings and of lists")
	w.line("")
}

func (w *writer) wall() {
	if !w.b.has("membrane") {
		w.key(0, "membrane", "", "over the wall top, before any metal: AN EXAMPLE, write the one that is bought")
		w.key(2, "name", "self-adhering membrane", "what it is")
		w.key(2, "thickness", w.in(`0.04"`, "1 mm"), "as it lies")
		w.key(2, "basis", "drawing", "measured once it is the one that will be laid")
		w.line("")
	}
	if w.b.has("walls") {
		return
	}
	w.key(0, "walls", "", "how the wall is built: AN EXAMPLE, write what is found on site")
	w.key(2, "- name", "wall", "short name; the perimeters below refer to it")
	w.key(4, "layers", "", "from the top down, without packing and membrane")
	w.line("      - {name: concrete, material: concrete, thickness: %s}  # or wood, plywood, masonry, steel",
		w.in(`24"`, "600 mm"))
	w.key(4, "width", w.in(`12"`, "300 mm"), "as drawn, to lay out and price runs before they are surveyed")
	w.key(4, "cover", "", "how far below the wall top lies the joint each leg must cover")
	w.key(6, "front", w.in(`1"`, "25 mm"), "street side")
	w.key(6, "rear", w.in(`1"`, "25 mm"), "roof side")
	w.key(4, "measure_low", "no", "yes if the survey must also be taken at leg depth (flashing, brick, render)")
	w.key(4, "basis", "drawing", "measured once somebody has looked at the wall")
	w.line("")
}

func (w *writer) site() {
	if w.b.has("site") {
		return
	}
	w.key(0, "site", "", "what the crew must know: EXAMPLES, the site safety plan governs")
	w.key(2, "roof_height", w.in(`20'-0"`, "6 m"), "above grade")
	w.key(2, "one_person", w.in("50 lb", "23 kg"), "most one person may lift on this job")
	w.key(2, "long_piece", w.in(`8'-0"`, "2400 mm"), "pieces longer than this take two people")
	w.key(2, "safety_plan", "to be named", "document that governs")
	w.key(2, "metal_temperatures", w.in("[20 F, 40 F, 60 F, 80 F, 100 F, 120 F]",
		"[-5 C, 5 C, 15 C, 25 C, 35 C, 45 C]"), "columns of the gap table")
	w.line("")
}

func (w *writer) perimeters(p Plan) {
	w.line("# Pressures come from the engineer of record (`pressures:`), or are computed from")
	w.line("# `wind:` and confirmed by one; until then everything is on hold.")
	w.line("")
	w.line("# Runs from left to right as you see them standing on the roof and looking out.")
	w.key(0, "perimeters", "", "")
	for i, q := range p.Perimeters {
		if i > 0 {
			w.line("")
		}
		if q.Placed && i > 0 {
			from := p.Perimeters[0].Start
			w.line("  # its first run begins %s and %s of where the first perimeter's does",
				w.side(q.Start.East-from.East, "east", "west"),
				w.side(q.Start.North-from.North, "north", "south"))
		}
		w.perimeter(q)
	}
}

// side is a distance with the side it lies to.
func (w *writer) side(l length.Length, there, back string) string {
	if l < 0 {
		return w.length(-l) + " " + back
	}
	return w.length(l) + " " + there
}

func (w *writer) length(l length.Length) string {
	if w.metric() {
		return length.Millimetres(length.RoundTo(l, length.Millimetre), 0) + " mm"
	}
	return length.Feet(length.RoundTo(l, length.Inch16), 16)
}

func (w *writer) perimeter(q Perimeter) {
	w.key(2, "- name", q.Name, "")
	w.key(4, "kind", string(q.Kind), "roof round a roof, well round a hole in it")
	if !w.b.has("walls") {
		w.key(4, "wall", "wall", "the wall above; a run may name another")
	} else {
		w.key(4, "wall", "wall", "PUT THE NAME of one of the included walls here")
	}
	w.key(4, "bearing", angle(q.Bearing), "compass bearing of the first run, from left to right")
	w.key(4, "misclosure", w.in(`{length: 1", angle: 0.5}`, "{length: 25 mm, angle: 0.5}"),
		"how far the measured runs may fail to close")
	if w.b.Survey != nil {
		w.key(4, "survey", w.b.Survey(q.Name), "readings of the wall top, typed into this file")
	}
	w.key(4, "face", "front", "lengths are of the street face; rear for the roof face")
	w.key(4, "basis", "drawing", "measured once a run is taped; a run may say its own")
	w.key(4, "runs", "", "")
	way := q.Bearing
	for i, s := range q.Sides {
		w.line("      - name: %s", s.Name)
		if s.Facet {
			w.key(8, "length", w.length(s.Length), "a facet of an arc")
		} else {
			w.key(8, "length", w.length(s.Length), "")
		}
		w.key(8, "survey_line", fmt.Sprintf("nail at the left of %s to nail at its right", s.Name), "")
		turn := "right " + angle(s.Turn)
		if s.Turn < 0 {
			turn = "left " + angle(-s.Turn)
		}
		says := ""
		if i == 0 {
			says = "at its right end; right is towards the roof"
		}
		w.key(8, "turn", turn, says)
		w.key(8, "elevation", elevation(way), "")
		way += s.Turn
	}
}

// angle is a number of degrees in at most two decimals.
func angle(a length.Angle) string {
	return strconv.FormatFloat(math.Round(a.Degrees()*100)/100, 'f', -1, 64)
}

// elevation is the quarter of the compass that the outside of a wall looks to: the
// left hand of who walks along it with the roof at the right.
func elevation(way length.Angle) string {
	out := math.Mod(way.Degrees()-90+720, 360)
	return [...]string{"north", "east", "south", "west"}[int(math.Floor(out/90+0.5))%4]
}

// yamlText is a text in quotes where a reader of YAML would take it otherwise.
func yamlText(s string) string {
	plain := s != "" && strings.IndexFunc(s, func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' ||
			strings.ContainsRune(" ./_-'", r))
	}) < 0 && !strings.HasPrefix(s, "-") && !strings.HasPrefix(s, "'") && !strings.HasPrefix(s, ".") ||
		strings.HasPrefix(s, "../")
	if plain && strings.TrimSpace(s) == s && !reads(s) {
		return s
	}
	return strconv.Quote(s)
}

// reads says that a bare word would be read as something else than a text.
func reads(s string) bool {
	switch strings.ToLower(s) {
	case "yes", "no", "true", "false", "null", "on", "off", "y", "n":
		return true
	}
	_, err := strconv.ParseFloat(s, 64)
	return err == nil
}
