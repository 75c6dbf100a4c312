package sheets

import (
	"fmt"
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// runLists are the lists beside the chair table.
func (b *book) runLists(r *layout.Run, on paper) []block {
	var blocks []block
	if !on.broad() { // the strip has no room for them
		wins, _ := view.Windows(b.planOf(r), on.room(false).Width())
		var hatches []view.LegendEntry
		for _, w := range wins {
			for _, e := range view.RunHatches(b.planOf(r), w) {
				if !slices.Contains(hatches, e) {
					hatches = append(hatches, e)
				}
			}
		}
		blocks = append(blocks, fixed(3600, func(s *drawing.Scene, box drawing.Rect) { b.key([]*layout.Run{r}, hatches)(s, box) }))
	}
	blocks = append(blocks, b.lineFacts(r))
	blocks = append(blocks, b.gapTables(r)...)
	if items, names := b.runNotes(r); len(items) > 0 {
		blocks = append(blocks, list{title: b.say.Say(words.RunNotes), items: items, names: names})
	}
	return blocks
}

// factsOf names several facts of one thing.
func factsOf(of string, what ...string) string {
	var names []string
	for _, w := range what {
		names = append(names, layout.Named(of, w))
	}
	return layout.AllNamed(names...)
}

// local drops the run's name from the name of a joint or chair: on the run's
// own sheet it would only repeat.
func local(name, run string) string { return strings.TrimPrefix(name, run+"-") }

// shims letters a stack, equal ones counted.
func (b *book) shims(of []length.Length) string {
	if len(of) == 0 {
		return "–"
	}
	var out []string
	for i := 0; i < len(of); {
		k := i
		for k < len(of) && of[k] == of[i] {
			k++
		}
		s := b.exact(of[i])
		if k-i > 1 {
			s = fmt.Sprintf("%d×%s", k-i, s)
		}
		out = append(out, s)
		i = k
	}
	return strings.Join(out, " + ")
}

// slope letters a fall in the trade's way.
func slope(s job.Slope, metric bool) string {
	if metric {
		return fmt.Sprintf("%.1f%%", float64(s)/1e7)
	}
	return drawing.Letter(length.Inches(s.Rise(length.Foot), 16)) + " in 12″"
}

// gapTables give the gap to set by the temperature of the metal, and below it
// that of a building expansion joint, which is set as drawn.
func (b *book) gapTables(r *layout.Run) []block {
	var out []block
	if t, ok := b.gapTable(r); ok {
		out = append(out, t)
	}
	say := b.say.Say
	t := table{title: say(words.RunLooseTitle), cols: []column{{head: say(words.RunLooseJoint)}, {head: say(words.RunLooseGap), align: drawing.Right},
		{head: say(words.RunLoosePlate), align: drawing.Right}, {head: say(words.RunLooseSide)}, {head: say(words.RunLooseMove), flex: true}}, whole: true}
	for _, q := range b.l.LooseJoints(r) {
		is := func(what string) string { return layout.Named(q.Mark, what) }
		move, moves := say(words.RunLooseUnstated), ""
		if q.Moves {
			move, moves = b.short(q.Movement), is("movement")
		}
		t.add(lettered{words: local(q.Mark, r.Name)}, lettered{b.short(q.Gap), is("gap")}, lettered{b.short(q.Plate), is("plate")},
			lettered{say(side(q, words.RunLooseLeft, words.RunLooseRight)), is("held")}, lettered{move, moves})
	}
	if len(t.rows) == 0 {
		return out
	}
	if len(out) == 1 {
		return []block{pair{out[0].(table), t}}
	}
	return []block{t}
}

// gapTable is the gap by temperature. Where the crew's step reads alike at all
// temperatures it takes half of it; where even that does, one line says so.
func (b *book) gapTable(r *layout.Run) (table, bool) {
	temps := b.j.Site.InstallMetalT
	st := b.crew
	classes := b.l.Gaps(r)
	alike := func() bool { return !slices.ContainsFunc(classes, func(c layout.GapClass) bool { return !c.Alike() }) }
	if len(classes) == 0 || len(temps) == 0 {
		return table{}, false
	}
	if len(temps) > 1 && slices.ContainsFunc(classes, layout.GapClass.Alike) {
		st = length.Style{Metric: b.metric, Denominator: 32, Places: 1}
		classes = b.l.GapsTo(r, b.l.Grid/2)
	}
	t := table{title: b.say.Say(words.RunGapTitle), cols: []column{{head: b.say.Say(words.RunGapMetal)}}, whole: true}
	for _, c := range classes {
		t.cols = append(t.cols, column{head: jointNames(c.Joints), flex: true, align: drawing.Middle})
	}
	for i, temp := range temps {
		row, at := []lettered{{words: b.temperature(temp)}}, []job.Temperature{temp}
		if alike() && len(temps) > 1 {
			row[0].words = b.say.Say(words.RunGapRange, words.In("from", row[0].words), words.In("to", b.temperature(temps[len(temps)-1])))
			at = temps
		}
		for _, c := range classes {
			row = append(row, lettered{drawing.Letter(st.Short(c.At[i])), gapFacts(c, at)})
		}
		t.add(row...)
		if alike() {
			break
		}
	}
	return t, true
}

// gapFacts names the gaps of the joints of a class at some temperatures.
func gapFacts(c layout.GapClass, at []job.Temperature) string {
	var names []string
	for _, j := range c.Joints {
		for _, t := range at {
			names = append(names, layout.Named(j.Name, layout.GapAt(t)))
		}
	}
	return layout.AllNamed(names...)
}

// jointNames lists joints of one run, neighbours as a range: J2 to J7, J9.
func jointNames(joints []*layout.Joint) string {
	var out []string
	for i := 0; i < len(joints); {
		k := i
		for k+1 < len(joints) && follows(joints[k], joints[k+1]) {
			k++
		}
		a, z := local(joints[i].Name, joints[i].Run.Name), local(joints[k].Name, joints[k].Run.Name)
		switch k - i {
		case 0:
			out = append(out, a)
		case 1:
			out = append(out, a, z)
		default:
			out = append(out, a+" to "+z)
		}
		i = k + 1
	}
	return strings.Join(out, ", ")
}

// follows reports whether two joints of a run stand next to each other.
func follows(a, z *layout.Joint) bool {
	i := slices.Index(a.Run.Joints, a)
	return i >= 0 && i+1 < len(a.Run.Joints) && a.Run.Joints[i+1] == z
}

// runNotes are what is true of this run alone, and the facts that each of them
// letters.
func (b *book) runNotes(r *layout.Run) (out, names []string) {
	switch {
	case len(r.Chairs) == 0 && len(r.Joints) == 0 && len(r.Parts) > 0:
		var marks []string
		for _, t := range r.Parts {
			marks = append(marks, t.Piece.Mark)
		}
		out = append(out, b.say.Say(words.RunElsewhere, words.In("pieces", strings.Join(marks, ", "))))
	case len(r.Chairs) == 0:
		out = append(out, b.say.Say(words.RunChairless))
	}
	for _, q := range b.l.Pitches(r) {
		if q.Over() {
			out = append(out, b.say.Say(words.RunPitch, words.In("name", prose(q.Assembly.Name)), words.In("most", b.small(q.Most)),
				words.In("tested", b.small(q.Assembly.ChairSpacing))))
		}
	}
	for _, q := range b.l.LooseJoints(r) {
		joint, gap, plate := words.In("joint", local(q.Mark, r.Name)), words.In("gap", b.small(q.Gap)), words.In("plate", b.small(q.Plate))
		note := b.say.Say(words.RunLooseNoteUnstated, joint, gap, plate)
		if q.Moves {
			note = b.say.Say(words.RunLooseNote, joint, gap, plate, words.In("move", b.small(q.Movement)))
		}
		out = append(out, sentences(note, b.say.Say(side(q, words.RunLooseNoteLeft, words.RunLooseNoteRight))))
	}
	for _, o := range b.planOf(r).Obstacles {
		note := b.say.Say(words.RunObstacle, words.In("name", prose(o.Mark)), words.In("station", b.text(o.Station.Real)), words.In("what", b.does(o)))
		if o.Pierces {
			seal := b.say.Say(words.RunCollarNobody)
			if o.Collar != "" {
				seal = b.say.Say(words.RunCollar, words.In("who", o.Collar))
			}
			note = sentences(note, seal)
		}
		for len(names) < len(out) {
			names = append(names, "")
		}
		out, names = append(out, note), append(names, o.Fact)
		for _, h := range o.Holes {
			out = append(out, "Piece "+h.Piece+": "+b.holeOf(o.Mark, []length.Length{o.Extent, o.Depth}, h.FromLeft, h.FromFront, o.FromFace)+".")
		}
	}
	return out, names
}

// does lists what an obstacle keeps away and where it goes.
func (b *book) does(o plan.Obstacle) string {
	var out []string
	for _, q := range []struct {
		does bool
		word words.Key
	}{{o.BlocksChair, words.RunObstacleChair}, {o.BlocksJoint, words.RunObstacleJoint}, {o.Pierces, words.RunObstacleThrough}} {
		if q.does {
			out = append(out, b.say.Say(q.word))
		}
	}
	return strings.Join(out, ", ")
}

// side is what is said of the side on which the plate of a loose joint is fixed.
func side(q plan.JointRow, left, right words.Key) words.Key {
	if q.Fixed == plan.LeftHand.String() {
		return left
	}
	return right
}

// sentences are whole sentences one after the other, without the empty ones.
func sentences(all ...string) string {
	return strings.Join(slices.DeleteFunc(all, func(s string) bool { return s == "" }), " ")
}
