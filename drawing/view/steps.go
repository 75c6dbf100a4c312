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
	Run  *plan.Run
	Work plan.Work
	Say  words.Book // the language it is told in
}

// step is one step: a caption for its picture, a sentence for the list.
type step struct {
	kind              plan.StepKind
	caption, sentence string
}

// StepWords is the order of work of a run in sentences, one for each picture
// of StepStrip and in the same order.
func StepWords(of Steps) []string {
	var out []string
	for _, s := range of.said() {
		out = append(out, s.sentence)
	}
	return out
}

// said are the steps in words.
func (s Steps) said() []step {
	var out []step
	for _, k := range s.Work.Steps {
		caption, sentence := s.words(k)
		out = append(out, step{k, caption, drawing.Letter(sentence)})
	}
	return out
}

// words are the caption of a step and its sentence.
func (s Steps) words(k plan.StepKind) (caption, sentence string) {
	w, say := &s.Work, s.Say.Say
	expansion := w.Jointed && w.Joint.Kind == plan.ExpansionJoint
	switch k {
	case plan.NailerStep:
		return s.top()
	case plan.MembraneStep:
		return say(words.WorkMembraneCaption), say(words.WorkMembrane, words.In("membrane", w.Membrane))
	case plan.PackingStep:
		return say(words.WorkAboveCaption), say(words.WorkAbove)
	case plan.CornersStep:
		return s.ends()
	case plan.StringStep:
		return say(words.WorkStringCaption), say(words.WorkString)
	case plan.ChairsStep:
		if !w.Later {
			return say(words.WorkChairCaption), s.fixed(say(words.WorkChair))
		}
		return say(words.WorkChairsCaption), s.fixed(say(words.WorkChairs))
	case plan.SplicesStep:
		tape := words.In("tape", s.small(w.Tape))
		if expansion {
			return say(words.WorkCoverCaption), say(words.WorkCover, tape)
		}
		return say(words.WorkSpliceCaption), say(words.WorkSplice, tape)
	case plan.TrimStep:
		return say(words.WorkTrimCaption), say(words.WorkTrim, words.In("extra", s.small(w.Closer.Allowance)))
	case plan.HookStep:
		return say(words.WorkHookCaption), say(words.WorkHook)
	case plan.GapStep:
		if expansion {
			return say(words.WorkLooseCaption), say(words.WorkLoose)
		}
		return say(words.WorkGapCaption), say(words.WorkGap)
	case plan.SnapStep:
		return say(words.WorkSnapCaption), say(words.WorkSnap)
	case plan.CheckStep:
		if !w.Jointed {
			return say(words.WorkCheckCaption), say(words.WorkCheck)
		}
		return say(words.WorkCheckCaption), say(words.WorkCheckGaps)
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

// ends is what the string line is pulled from: corners, or the ends of a run
// without corners.
func (s Steps) ends() (caption, sentence string) {
	w, say, more := &s.Work, s.Say.Say, ""
	switch {
	case len(s.Run.Chairs) == 0:
		more = say(words.WorkChairless)
	case !w.Later:
		more = s.fixed(say(words.WorkAllFirst))
	case w.OuterFree:
		more = say(words.WorkOutermost)
	}
	switch {
	case w.Breaks && w.Corners:
		return say(words.WorkPiecesCaption), sentences(say(words.WorkPiecesSupports, words.In("kinds", s.welded())), more)
	case w.Breaks:
		return say(words.WorkPiecesCaption), sentences(say(words.WorkPieces, words.In("kinds", s.welded())), more)
	case w.Tees && (w.Corners || w.Ends):
		return say(words.WorkTeesAndCornersCaption), sentences(say(words.WorkTeesAndCorners), more)
	case w.Tees:
		return say(words.WorkTeesCaption), sentences(say(words.WorkTees), more)
	case w.Corners && w.Ends:
		return say(words.WorkCornersAndEndsCaption), sentences(say(words.WorkCornersAndEnds), more)
	case w.Corners:
		return say(words.WorkCornersCaption), sentences(say(words.WorkCorners), more)
	case w.Ends:
		return say(words.WorkEndsCaption), sentences(say(words.WorkEnds), more)
	}
	return say(words.WorkFirstCaption), s.fixed(say(words.WorkFirst))
}

// welded lists the kinds of welded pieces of a run that has pitch miters.
func (s Steps) welded() string {
	var kinds []string
	for _, k := range []struct {
		has bool
		key words.Key
	}{{s.Work.Corners, words.WorkKindCorner}, {true, words.WorkKindPitch}, {s.Work.Tees, words.WorkKindTee}, {s.Work.Ends, words.WorkKindEnd}} {
		if k.has {
			kinds = append(kinds, s.Say.Say(k.key))
		}
	}
	return strings.Join(kinds, ", ")
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

// Sizes of the strip.
const (
	stepNarrow  drawing.Unit = 3150 // least width of a picture
	stepApart   drawing.Unit = 200  // between pictures
	stepPic     drawing.Unit = 2900 // least height of a picture without its caption
	stepPicMost drawing.Unit = 4200
	stepMargin  drawing.Unit = 110 // picture to its frame
	stepNumber  drawing.Unit = 790 // column of the number
)

// stepSheet is the strip laid out at one width.
type stepSheet struct {
	of         Steps
	steps      []step
	captions   [][]string
	title      string
	beside     string   // note beside the title
	below      []string // or below it
	cols, rows int
	cell       drawing.Unit
	top        drawing.Unit // of the first row of pictures
	words      drawing.Unit // height of a caption
}

func newStepSheet(of Steps, w drawing.Unit) stepSheet {
	s := stepSheet{of: of, steps: of.said()}
	n := len(s.steps)
	fit := max(1, int((w+stepApart)/(stepNarrow+stepApart)))
	s.rows = (n + fit - 1) / fit
	s.cols = (n + s.rows - 1) / s.rows
	s.cell = (w - drawing.Unit(s.cols-1)*stepApart) / drawing.Unit(s.cols)
	lines := 2
	for _, q := range s.steps {
		c := drawing.Wrap(q.caption, drawing.Bold, drawing.Note, s.cell-stepNumber-2*stepMargin)
		s.captions = append(s.captions, c)
		lines = max(lines, len(c))
	}
	s.words = drawing.Unit(lines)*stepLine + 180
	s.title, s.top = of.Say.Say(words.WorkTitle, words.In("run", of.Run.Name)), 520
	note := of.Say.Say(words.WorkPictures)
	if free := w - drawing.Width(drawing.Bold, s.title, drawing.Head) - 500; drawing.Width(drawing.Regular, note, drawing.Note) <= free {
		s.beside = note
		return s
	}
	s.below = drawing.Wrap(note, drawing.Regular, drawing.Note, w)
	s.top += drawing.Unit(len(s.below)) * drawing.Note.Line()
	return s
}

// stepLine is the distance of the lines of a caption.
const stepLine drawing.Unit = 440

// height is what the strip takes with pictures pic high.
func (s *stepSheet) height(pic drawing.Unit) drawing.Unit {
	return s.top + drawing.Unit(s.rows)*(s.words+pic) + drawing.Unit(s.rows-1)*stepApart + 20
}

// StepStripHeight is the least height StepStrip takes at a width.
func StepStripHeight(of Steps, w drawing.Unit) drawing.Unit {
	s := newStepSheet(of, w)
	return s.height(stepPic)
}

// StepStrip draws the order of work of a run in pictures, one for each step,
// made by the code of the sections and plans from the run's own dimensions. It
// is never lower than StepStripHeight; in a higher room the pictures grow.
func StepStrip(of Steps, w, h drawing.Unit) drawing.Scene {
	s := newStepSheet(of, w)
	pic := stepPic
	if more := (h - s.height(stepPic)) / drawing.Unit(s.rows); more > 0 {
		pic = min(pic+more, stepPicMost)
	}
	out := drawing.Scene{Name: "steps-" + fileName(of.Run.Name), Title: s.title, W: w, H: s.height(pic)}
	for i, q := range s.steps {
		out.Desc += fmt.Sprintf("%d %s. ", i+1, q.caption)
	}
	s.heading(&out, w)
	d := newStepDrawing(of, s.cell-2*stepMargin, pic-stepMargin)
	for i, q := range s.steps {
		x := drawing.Unit(i%s.cols) * (s.cell + stepApart)
		y := s.top + drawing.Unit(i/s.cols)*(s.words+pic+stepApart)
		out.Group(drawing.Frame, "", func(g *drawing.Scene) {
			g.Rect(drawing.Thin, drawing.Box(x+10, y, x+s.cell-10, y+s.words+pic))
		})
		out.Group(drawing.Lettering, "", func(g *drawing.Scene) {
			g.Draw(drawing.Balloon{At: drawing.Pt(x+stepMargin+335, y+stepMargin+350), Words: strconv.Itoa(i + 1), Size: drawing.Note}.Figure())
			for k, line := range s.captions[i] {
				g.Text(drawing.Pt(x+stepMargin+stepNumber, y+170+drawing.Unit(drawing.Note)+drawing.Unit(k)*stepLine), line, drawing.Style{Face: drawing.Bold})
			}
		})
		sub := drawing.Scene{W: d.room.Width(), H: d.room.Height()}
		d.picture(&sub, q.kind)
		out.Place(sub, drawing.Pt(x+stepMargin, y+s.words))
	}
	return out
}

// heading letters the title, and what thick and thin mean.
func (s *stepSheet) heading(out *drawing.Scene, w drawing.Unit) {
	out.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		g.Text(drawing.Pt(0, 400), s.title, drawing.Style{Face: drawing.Bold, Size: drawing.Head})
		if s.beside != "" {
			g.Text(drawing.Pt(w, 400), s.beside, drawing.Style{Align: drawing.Right})
		}
		for i, line := range s.below {
			g.Text(drawing.Pt(0, 400+drawing.Unit(i+1)*drawing.Note.Line()), line, drawing.Style{})
		}
	})
}
