package sheets

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/fact"
	"copingset/layout/length"
	"copingset/layout/revise"
)

// ChangeLines tell in sentences what changed from one ledger to another.
func ChangeLines(was, is fact.Ledger, lang words.Lang) []string {
	c := newSchedules(is)
	c.say = words.Book{Lang: lang}
	return c.changeLines(revise.Compare(was, is))
}

// ChangeWords are those sentences as a terminal prints them.
func ChangeWords(was, is fact.Ledger) []string {
	out := ChangeLines(was, is, words.English)
	for i := range out {
		out[i] = typed(out[i])
	}
	return out
}

// unsaid are the quantities that change with every line put into a file or a list.
var unsaid = []string{"place", "line", "column", "input-digest", "preliminary"}

// ChangeTable lists every fact that changed, with its value before and now, as lettered;
// where both letter alike the exact values stand beside.
func ChangeTable(was, is fact.Ledger) Schedule {
	c := newSchedules(is)
	s := Schedule{Name: "changes.csv", Header: []string{"kind", "of", "what", "before", "now"}}
	for _, d := range fact.Diff(was, is) {
		if slices.Contains(unsaid, d.What) {
			continue
		}
		row := []string{"", d.Of, d.What, "", ""}
		if d.Was != nil {
			row[0], row[3] = string(d.Was.Kind), c.letterOf(*d.Was)
		}
		if d.Is != nil {
			row[0], row[4] = string(d.Is.Kind), c.letterOf(*d.Is)
		}
		if row[3] == row[4] && d.Was != nil && d.Is != nil {
			row[3] += " (" + c.allDigits(*d.Was) + ")"
			row[4] += " (" + c.allDigits(*d.Is) + ")"
		}
		s.Rows = append(s.Rows, row)
	}
	slices.SortStableFunc(s.Rows, func(a, b []string) int { return strings.Compare(a[0], b[0]) })
	return s
}

// letterOf letters a fact as a list does.
func (b *book) letterOf(f fact.Fact) string {
	switch f.Unit {
	case fact.Length, fact.Lengths:
		var out []string
		for _, l := range f.Lengths() {
			out = append(out, typed(b.text(l)))
		}
		return strings.Join(out, ", ")
	case fact.Pressure:
		if pa, err := strconv.ParseFloat(f.Value, 64); err == nil {
			return b.pressure(pa)
		}
	case fact.Grams:
		if g, err := strconv.ParseInt(f.Value, 10, 64); err == nil {
			return b.weight(g)
		}
	}
	return f.Value
}

// allDigits is a fact with all its digits.
func (b *book) allDigits(f fact.Fact) string {
	if f.Unit != fact.Length && f.Unit != fact.Lengths {
		return strings.TrimSpace(f.Value + " " + string(f.Unit))
	}
	var out []string
	for _, l := range f.Lengths() {
		mm := strconv.FormatFloat(float64(l)/float64(length.Millimetre), 'f', -1, 64)
		out = append(out, b.say.Say(words.UnitMm, words.In("n", mm)))
	}
	return strings.Join(out, ", ")
}

// changeLines are the sentences of changes.
func (b *book) changeLines(all []revise.Change) []string {
	var out []string
	for _, c := range all {
		out = append(out, b.changeLine(c))
	}
	return out
}

// marked are the sentences that list marks and count them, and whether they name a run.
var marked = map[revise.Kind]struct { // look-up only
	key   words.Key
	count bool
	run   bool
}{
	revise.Corners:     {words.ChangeCorners, true, false},
	revise.PieceNew:    {words.ChangePieceNew, true, false},
	revise.PieceGone:   {words.ChangePieceGone, true, false},
	revise.PieceLength: {words.ChangePieceLength, true, false},
	revise.PieceOther:  {words.ChangePieceOther, true, false},
	revise.Supports:    {words.ChangeSupports, true, false},
	revise.Obstacles:   {words.ChangeObstacles, false, true},
	revise.ShopNew:     {words.ChangeShopNew, true, false},
	revise.ShopGone:    {words.ChangeShopGone, true, false},
	revise.PartCount:   {words.ChangePartCount, false, false},
	revise.Crates:      {words.ChangeCrates, true, false},
	revise.Released:    {words.ChangeReleased, false, false},
	revise.Withheld:    {words.ChangeWithheld, false, false},
}

// mostMarks are as many as one sentence lists.
const mostMarks = 24

// list names marks, of very many the first.
func (b *book) marksListed(all []string) string {
	if len(all) <= mostMarks {
		return strings.Join(all, ", ")
	}
	return b.say.Say(words.ChangeMore, words.In("marks", strings.Join(all[:mostMarks], ", ")),
		words.In("n", itoa(len(all)-mostMarks)))
}

// runShort is a run as sheets call it.
func runShort(run string) string { return run[strings.LastIndexByte(run, '/')+1:] }

func (b *book) changeLine(c revise.Change) string {
	say, run := b.say.Say, words.In("run", runShort(c.Run))
	if m, ok := marked[c.Kind]; ok {
		slots := []words.Slot{words.In("marks", b.marksListed(c.Marks))}
		if m.run {
			slots = append(slots, run)
		}
		if m.count {
			return b.say.Count(m.key, len(c.Marks), slots...)
		}
		return say(m.key, slots...)
	}
	was, is := words.In("was", b.text(c.Was)), words.In("is", b.text(c.Is))
	n := words.In("n", itoa(c.N))
	switch c.Kind {
	case revise.RunNew:
		return say(words.ChangeRunNew, run, is)
	case revise.RunGone:
		return say(words.ChangeRunGone, run)
	case revise.RunLength:
		key := words.ChangeRunLonger
		if c.By < 0 {
			key = words.ChangeRunShorter
		}
		return say(key, run, words.In("by", b.small(length.Abs(c.By))), is)
	case revise.RunWidth:
		return say(words.ChangeRunWidth, run, was, is)
	case revise.RunLine:
		return say(words.ChangeRunLine, run)
	case revise.ChairCount:
		return say(words.ChangeChairCount, run, words.In("was", itoa(c.N)), words.In("is", itoa(c.M)))
	case revise.JointCount:
		return say(words.ChangeJointCount, run, words.In("was", itoa(c.N)), words.In("is", itoa(c.M)))
	case revise.ChairsMove, revise.JointsMove:
		return b.moveLine(c)
	case revise.ChairsVary:
		return b.say.Count(words.ChangeChairsVary, c.N, b.varySlots(c)...)
	case revise.JointsVary:
		return b.say.Count(words.ChangeJointsVary, c.N, b.varySlots(c)...)
	case revise.Gaps:
		return b.countOn(words.ChangeGaps, c, run, n)
	case revise.Shims:
		return b.countOn(words.ChangeShims, c, run, n)
	case revise.Screws:
		return b.countOn(words.ChangeScrews, c, run, n)
	case revise.Plywood:
		return say(words.ChangePlywood, run)
	case revise.Pressure, revise.Confirmed, revise.Assembly:
		return b.windLine(c)
	case revise.System:
		marks := words.In("marks", b.marksListed(c.Marks))
		if len(c.Marks) == 1 {
			return b.say.Count(words.ChangeSystem, 1, marks)
		}
		return b.say.Count(words.ChangeSystem, len(c.Marks), marks, n)
	case revise.HoldNew:
		return say(words.ChangeHoldNew, words.In("code", c.Of), words.In("what", prose(c.Text)))
	case revise.HoldCleared:
		return say(words.ChangeHoldCleared, words.In("code", c.Of), words.In("what", prose(c.Text)))
	}
	panic(fmt.Sprintf("sheets: a change of kind %d has no sentence", c.Kind))
}

// countOn says of how many places on a run; the form of one has no slot for the number.
func (b *book) countOn(key words.Key, c revise.Change, run, n words.Slot) string {
	if c.N == 1 {
		return b.say.Count(key, 1, run)
	}
	return b.say.Count(key, c.N, run, n)
}

func (b *book) varySlots(c revise.Change) []words.Slot {
	out := []words.Slot{words.In("run", runShort(c.Run)), words.In("from", drawing.Letter(c.Marks[0]))}
	if c.N == 1 {
		return out
	}
	return append(out, words.In("n", itoa(c.N)), words.In("to", drawing.Letter(c.Marks[1])))
}

// moveLine says how far a whole row moves, from where on.
func (b *book) moveLine(c revise.Change) string {
	type way struct{ after, all words.Key }
	ways := map[bool][2]way{ // by whether it is of chairs; left, right
		true: {{words.ChangeChairsLeft, words.ChangeChairsAllLeft},
			{words.ChangeChairsRight, words.ChangeChairsAllRight}},
		false: {{words.ChangeJointsLeft, words.ChangeJointsAllLeft},
			{words.ChangeJointsRight, words.ChangeJointsAllRight}},
	}
	w := ways[c.Kind == revise.ChairsMove][0]
	if c.By > 0 {
		w = ways[c.Kind == revise.ChairsMove][1]
	}
	slots := []words.Slot{words.In("run", runShort(c.Run)), words.In("by", b.small(length.Abs(c.By)))}
	if c.After == "" {
		return b.say.Say(w.all, slots...)
	}
	return b.say.Say(w.after, append(slots, words.In("after", c.After))...)
}

// windLine says what changed of the demand and of what covers it.
func (b *book) windLine(c revise.Change) string {
	say := b.say.Say
	orNone := func(s string) string {
		if s == "" {
			return say(words.ChangeNone)
		}
		return prose(s)
	}
	switch {
	case c.Kind == revise.Assembly:
		return say(words.ChangeAssembly, words.In("was", prose(c.Old)), words.In("is", prose(c.Text)))
	case c.Kind == revise.Confirmed:
		what := map[string]words.Key{"check-code": words.ChangeConfirmedCode,
			"confirmed-code": words.ChangeConfirmedRepeated, "confirmed-by": words.ChangeConfirmedBy,
			"confirmed-document": words.ChangeConfirmedDocument}[c.Of]
		return say(words.ChangeConfirmed, words.In("what", say(what)), words.In("was", orNone(c.Old)),
			words.In("is", orNone(c.Text)))
	case c.Of == "corner-zone":
		return say(words.ChangeZone, words.In("was", b.text(c.Was)), words.In("is", b.text(c.Is)))
	}
	pascals := func(s string) string {
		pa, err := strconv.ParseFloat(s, 64)
		if err != nil {
			return say(words.ChangeNone)
		}
		return b.pressure(pa)
	}
	zone, face, _ := strings.Cut(c.Of, "-")
	faces := map[string]words.Key{"up": words.ChangeFaceUp, "out": words.ChangeFaceOut, "rear": words.ChangeFaceRear,
		"in": words.ChangeFaceIn}
	zones := map[string]words.Key{"edge": words.ChangeZoneEdge, "corner": words.ChangeZoneCorner}
	return say(words.ChangePressure, words.In("zone", say(zones[zone])), words.In("face", say(faces[face])),
		words.In("was", pascals(c.Old)), words.In("is", pascals(c.Text)))
}
