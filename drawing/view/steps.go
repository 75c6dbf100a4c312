package view

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// Steps are a run and its order of work.
type Steps struct {
	Name string // of the run, with its perimeter where the job has several
	Run  *plan.Run
	Work plan.Work
	Say  words.Book // the language it is told in
}

// WorkStep is one step of a job's order of work, as some or all of its runs take it.
type WorkStep struct {
	Number            string // 3, or 3a where the runs do not take it alike
	Caption, Sentence string
	Runs              []string // that take it so; none: all runs of the job
	But               bool     // all runs but these do
	kind              plan.StepKind
	of                Steps // the run that its picture shows
}

// Pictured is the name of the run that the step's picture shows.
func (s WorkStep) Pictured() string { return s.of.Name }

// WorkSteps is the order of work of a job: each step once, and where its runs do not
// take it alike, each way once with the runs that take it so.
func WorkSteps(all []Steps) []WorkStep {
	kinds := weldedOf(all)
	last := plan.StepKind(0)
	for _, s := range all {
		for _, k := range s.Work.Steps {
			last = max(last, k)
		}
	}
	var out []WorkStep
	n := 0
	for k := plan.StepKind(0); k <= last; k++ {
		var ways []WorkStep
		for _, s := range all {
			if !slices.Contains(s.Work.Steps, k) {
				continue
			}
			caption, sentence := s.words(k, kinds)
			i := slices.IndexFunc(ways, func(w WorkStep) bool { return w.Caption == caption && w.Sentence == sentence })
			if i < 0 {
				i, ways = len(ways), append(ways, WorkStep{Caption: caption, Sentence: sentence, kind: k, of: s})
			}
			ways[i].Runs = append(ways[i].Runs, s.Name)
		}
		if len(ways) == 0 {
			continue
		}
		n++
		for i := range ways {
			ways[i].Number = strconv.Itoa(n)
			if len(ways) > 1 {
				ways[i].Number += nthLetter(i)
			}
			ways[i].Runs, ways[i].But = told(ways[i].Runs, all)
		}
		out = append(out, ways...)
	}
	return out
}

// told names runs of a job by the shorter list: those that are meant, or those that
// are not.
func told(runs []string, all []Steps) (names []string, but bool) {
	var others []string
	for _, s := range all {
		if !slices.Contains(runs, s.Name) {
			others = append(others, s.Name)
		}
	}
	if len(others) < len(runs) {
		return others, len(others) > 0
	}
	return runs, false
}

// nthLetter is a, b and so on to z, then z1, z2.
func nthLetter(i int) string {
	if i < 26 {
		return string(rune('a' + i))
	}
	return "z" + strconv.Itoa(i-25)
}

// weldedOf are the kinds of welded pieces in a job's runs, in words.
func weldedOf(all []Steps) string {
	var kinds []string
	for _, k := range []struct {
		has func(w *plan.Work) bool
		key words.Key
	}{
		{func(w *plan.Work) bool { return w.Corners }, words.WorkKindCorner},
		{func(w *plan.Work) bool { return w.Ends }, words.WorkKindEnd},
		{func(w *plan.Work) bool { return w.Tees }, words.WorkKindTee},
		{func(w *plan.Work) bool { return w.Breaks }, words.WorkKindPitch},
	} {
		if i := slices.IndexFunc(all, func(s Steps) bool { return k.has(&s.Work) }); i >= 0 {
			kinds = append(kinds, all[i].Say.Say(k.key))
		}
	}
	return strings.Join(kinds, ", ")
}

// words are the caption of a step of this run and its sentences. kinds are the
// welded pieces of the job.
func (s Steps) words(k plan.StepKind, kinds string) (caption, sentence string) {
	w, say := &s.Work, s.Say.Say
	expansion := w.Jointed && w.Joint.Kind == plan.ExpansionJoint
	tape := words.In("tape", s.small(w.Tape))
	switch k {
	case plan.NailerStep:
		return s.top()
	case plan.MembraneStep:
		return say(words.WorkMembraneCaption), say(words.WorkMembrane, words.In("membrane", w.Membrane))
	case plan.PackingStep:
		return say(words.WorkAboveCaption), say(words.WorkAbove)
	case plan.MarkStep:
		return say(words.WorkMarkCaption), say(words.WorkMark)
	case plan.StringStep:
		return say(words.WorkStringCaption), say(words.WorkString, words.In("behind", s.small(w.StringBehind.Real)))
	case plan.CornersStep:
		return s.firstChairs(kinds)
	case plan.ChairsStep:
		return say(words.WorkChairsCaption), s.fixed(say(words.WorkChairs))
	case plan.ExtenderStep:
		return say(words.WorkExtenderCaption), say(words.WorkExtender)
	case plan.TryStep:
		return say(words.WorkTryCaption), say(words.WorkTry, words.In("kinds", kinds))
	case plan.InspectStep:
		return say(words.WorkInspectCaption), say(words.WorkInspect)
	case plan.SplicesStep:
		if expansion {
			return say(words.WorkCoverCaption), say(words.WorkCover, tape)
		}
		return say(words.WorkSpliceCaption), say(words.WorkSplice, tape)
	case plan.TrimStep:
		return say(words.WorkTrimCaption), say(words.WorkTrim, words.In("extra", s.small(w.Closer.Allowance)))
	case plan.HookStep:
		off := ""
		if w.FilmOff != "" {
			off = say(words.WorkFilmOff, words.In("when", w.FilmOff))
		}
		return say(words.WorkHookCaption), sentences(say(words.WorkHook), off)
	case plan.GapStep:
		if expansion {
			return say(words.WorkLooseCaption), say(words.WorkLoose)
		}
		return say(words.WorkGapCaption), say(words.WorkGap)
	case plan.SnapStep:
		return say(words.WorkSnapCaption), say(words.WorkSnap)
	case plan.CheckStep:
		return say(words.WorkCheckCaption), say(words.WorkCheck)
	}
	panic(fmt.Sprintf("view: no words for step %d", k))
}

// top is how the wall top is brought up.
func (s Steps) top() (caption, sentence string) {
	say := s.Say.Say
	caption, then, sentence := say(words.WorkNailerCaption), say(words.WorkNailerShims), say(words.WorkNailer)
	if !s.Work.Nailed {
		caption, then, sentence = say(words.WorkWallCaption), say(words.WorkWallShims), say(words.WorkWall)
	}
	switch s.Work.Packed {
	case plan.NotPacked:
		return caption, sentences(sentence, say(words.WorkNoShims))
	case plan.PackedAlong:
		if s.Run.LayerName != "" {
			return then, sentences(sentence, say(words.WorkBuildLayers, words.In("layer", s.Run.LayerName)))
		}
		return then, sentences(sentence, say(words.WorkBuild))
	case plan.PackedAbove:
		return caption, sentence
	}
	return then, sentences(sentence, say(words.WorkBelow))
}

// firstChairs are those of the welded pieces, with their supports.
func (s Steps) firstChairs(kinds string) (caption, sentence string) {
	say, of := s.Say.Say, words.In("kinds", kinds)
	fixing := say(words.WorkSupportsUnstated)
	if n := s.Work.SupportScrews; n > 0 {
		fixing = say(words.WorkSupportsFixed, words.In("count", strconv.Itoa(n)),
			words.In("fastener", s.Work.SupportScrew))
	}
	switch {
	case len(s.Run.Chairs) == 0:
		return say(words.WorkCornersCaption), sentences(say(words.WorkSupports), fixing)
	case s.Work.Supports:
		return say(words.WorkCornersCaption), sentences(s.fixed(say(words.WorkCorners, of)), fixing)
	}
	return say(words.WorkEndsCaption), s.fixed(say(words.WorkEnds, of))
}

// fixed says after where chairs are set how they are fastened, and what is drilled
// before the screws.
func (s Steps) fixed(set string) string {
	pilots := ""
	if s.Work.PilotDia > 0 {
		pilots = s.Say.Say(words.WorkPilots, words.In("drill", s.drill(s.Work.PilotDia)))
	}
	return sentences(set, pilots, s.Say.Say(words.WorkScrews))
}

// sentences are whole sentences one after the other, without the empty ones.
func sentences(all ...string) string {
	return strings.Join(slices.DeleteFunc(all, func(s string) bool { return s == "" }), " ")
}

func (s Steps) tape() length.Style { return length.Crew(s.Run.Metric) }

// small letters a short length with its unit.
func (s Steps) small(d length.Length) string {
	if st := s.tape(); st.Metric {
		return drawing.Letter(st.InText(d))
	}
	return s.short(d)
}

// short letters a length of a picture, which stands under the units of the sheet.
func (s Steps) short(d length.Length) string { return drawing.Letter(s.tape().Short(d)) }

// drill letters the diameter of a drill, which is never rounded.
func (s Steps) drill(d length.Length) string {
	size := s.tape().Exact(d)
	if s.Run.Metric {
		size += " mm"
	}
	return drawing.Letter(size)
}

// degrees letters a temperature in the unit of the job.
func (s Steps) degrees(t plan.Temperature) string {
	if s.Run.Metric {
		return strconv.FormatFloat(t.Celsius, 'f', 0, 64) + " °C"
	}
	return strconv.FormatFloat(t.Fahrenheit, 'f', 0, 64) + " °F"
}

// Sizes of the pictures.
const (
	stepNarrow drawing.Unit = 6600 // least width of a picture with its words
	stepApart  drawing.Unit = 200  // between pictures
	stepMargin drawing.Unit = 110  // picture to its frame
	stepNumber drawing.Unit = 950  // column of the number
	stepLine   drawing.Unit = 440  // between the lines of its words
)

// WorkColumns is how many steps stand side by side in a width.
func WorkColumns(w drawing.Unit) int { return max(1, int((w+stepApart)/(stepNarrow+stepApart))) }

// WorkRow is steps side by side: the caption of each over its picture, its words
// under it.
type WorkRow struct {
	Steps []WorkStep
	Cols  int // columns that a row of the sheet has
}

// Width is what the row takes of a width.
func (r WorkRow) Width(w drawing.Unit) drawing.Unit {
	n := drawing.Unit(r.Cols)
	cell := (w - (n-1)*stepApart) / n
	return drawing.Unit(len(r.Steps))*(cell+stepApart) - stepApart
}

// cell is the width of a step in the width of the row.
func (r WorkRow) cell(w drawing.Unit) drawing.Unit {
	n := drawing.Unit(len(r.Steps))
	return (w - (n-1)*stepApart) / n
}

// told are the words of a step, wrapped: caption, the runs it is for, sentences.
func (s WorkStep) told(cell drawing.Unit) (caption, runs, sentence []string) {
	w := cell - 2*stepMargin
	caption = drawing.Wrap(s.Caption, drawing.Bold, drawing.Note, w-stepNumber)
	if names := words.In("runs", strings.Join(s.Runs, ", ")); s.But {
		runs = drawing.Wrap(s.of.Say.Say(words.WorkRunsBut, names), drawing.Bold, drawing.Note, w)
	} else if len(s.Runs) > 0 {
		runs = drawing.Wrap(s.of.Say.Count(words.WorkRuns, len(s.Runs), names), drawing.Bold, drawing.Note, w)
	}
	return caption, runs, drawing.Wrap(drawing.Letter(s.Sentence), drawing.Regular, drawing.Note, w)
}

// heights are those of the captions of a row and of the words under its pictures.
func (r WorkRow) heights(w drawing.Unit) (head, foot drawing.Unit) {
	over, under := 1, 0
	for _, s := range r.Steps {
		caption, runs, sentence := s.told(r.cell(w))
		over, under = max(over, len(caption)), max(under, len(runs)+len(sentence))
	}
	return max(drawing.Unit(over)*stepLine+180, 900), drawing.Unit(under)*stepLine + 320
}

// Pictures are the heights of a row's pictures, the largest first.
func (r WorkRow) Pictures() []drawing.Unit { return []drawing.Unit{5800, 5400, 5000, 4400} }

// Height is what a row takes with pictures of a height.
func (r WorkRow) Height(w, picture drawing.Unit) drawing.Unit {
	head, foot := r.heights(w)
	return head + picture + foot
}

// Draw draws the row, its pictures made by the code of the sections and plans from
// the runs' own dimensions.
func (r WorkRow) Draw(out *drawing.Scene, w, high drawing.Unit) {
	head, foot := r.heights(w)
	pic := high - head - foot
	cell := r.cell(w)
	for i, s := range r.Steps {
		caption, runs, sentence := s.told(cell)
		x, y := drawing.Unit(i)*(cell+stepApart), drawing.Unit(0)
		out.Group(drawing.Frame, "", func(g *drawing.Scene) {
			g.Rect(drawing.Thin, drawing.Box(x, y, x+cell, y+high).Inset(10))
		})
		out.Group(drawing.Lettering, "step-"+s.Number, func(g *drawing.Scene) {
			g.Draw(drawing.Balloon{At: drawing.Pt(x+stepMargin+430, y+stepMargin+400), Words: s.Number,
				Size: drawing.Note}.Figure())
			line := y + 170 + drawing.Unit(drawing.Note)
			for k, said := range caption {
				g.Text(drawing.Pt(x+stepMargin+stepNumber, line+drawing.Unit(k)*stepLine), said,
					drawing.Style{Face: drawing.Bold})
			}
			line = y + high - foot + 130 + drawing.Unit(drawing.Note)
			for k, said := range runs {
				g.Text(drawing.Pt(x+stepMargin, line+drawing.Unit(k)*stepLine), said, drawing.Style{Face: drawing.Bold})
			}
			line += drawing.Unit(len(runs)) * stepLine
			for k, said := range sentence {
				g.Text(drawing.Pt(x+stepMargin, line+drawing.Unit(k)*stepLine), said, drawing.Style{})
			}
		})
		d := newStepDrawing(s.of, cell-2*stepMargin, pic-stepMargin)
		sub := drawing.Scene{W: d.room.Width(), H: d.room.Height()}
		d.picture(&sub, s.kind)
		out.Place(sub, drawing.Pt(x+stepMargin, y+head))
	}
}
