package view

import (
	"fmt"
	"strconv"

	"copingset/drawing"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// Steps are a run and its order of work.
type Steps struct {
	Run  *plan.Run
	Work plan.Work
}

// step is one step: a caption for its picture, a sentence for the list.
type step struct {
	kind           plan.StepKind
	caption, words string
}

// StepWords is the order of work of a run in sentences, one for each picture
// of StepStrip and in the same order.
func StepWords(of Steps) []string {
	var out []string
	for _, s := range of.said() {
		out = append(out, s.words)
	}
	return out
}

// said are the steps in words.
func (s Steps) said() []step {
	var out []step
	for _, k := range s.Work.Steps {
		caption, words := s.words(k)
		out = append(out, step{k, caption, drawing.Letter(words)})
	}
	return out
}

// words are the caption of a step and its sentence.
func (s Steps) words(k plan.StepKind) (caption, words string) {
	w := &s.Work
	expansion := w.Jointed && w.Joint.Kind == plan.ExpansionJoint
	switch k {
	case plan.NailerStep:
		return s.top()
	case plan.MembraneStep:
		return "Membrane, edges fastened", "Lay the " + w.Membrane + " over the wall top and fasten its edges, before any metal."
	case plan.PackingStep:
		return "Packing ABOVE membrane", "Packing goes ABOVE the membrane, under each chair, by the table; full bearing."
	case plan.CornersStep:
		return s.ends()
	case plan.StringStep:
		return "String along chairs’ fronts", "Pull the string between the front edges of the end chairs. Check it against the wall face."
	case plan.ChairsStep:
		if !w.Later {
			return "Chair at its station", "Set the chair at its station," + s.fixed()
		}
		return "Chairs along the string", "Set the chairs to the string at their stations," + s.fixed()
	case plan.SplicesStep:
		strips := " sealant tape each side, " + s.small(w.Tape) + " from the centre line to the middle of the strip."
		if expansion {
			return "Cover plate, sealant tape", "At the expansion joint: cover plate centred and held on the one side only that is drawn," + strips
		}
		return "Splice plate, tape each side", "At each joint: splice plate centred," + strips
	case plan.TrimStep:
		return "Cut closer at its mark", "The closer ships long by " + s.small(w.Closer.Allowance) + ": check the chairs, then cut the end that is marked, before it is hooked."
	case plan.HookStep:
		return "Hook the front first", "Peel the film, wipe the plates. Hook the front leg of the cap first."
	case plan.GapStep:
		if expansion {
			return "Set the gap as drawn", "Set the gap of the expansion joint as drawn. Its centre stays where it is drawn."
		}
		return "Gap by metal temperature", "Set the gap for the metal’s temperature. Joint centres stay where they are drawn."
	case plan.SnapStep:
		return "Turn down, snap the rear", "Turn the cap down until the rear leg snaps on all its chairs."
	case plan.CheckStep:
		if !w.Jointed {
			return "Check all along the rear", "Check along the whole rear leg, the line and the lap."
		}
		return "Check all along the rear", "Check along the whole rear leg, the gaps, the line and the lap."
	}
	panic(fmt.Sprintf("view: no words for step %d", k))
}

// top is how the wall top is brought up.
func (s Steps) top() (caption, words string) {
	words, caption = "Check the nailer: sound, dry, fast.", "Nailer sound"
	if !s.Work.Nailed {
		words, caption = "Check the wall top: sound, dry, fast.", "Wall sound"
	}
	switch s.Work.Packed {
	case plan.NotPacked:
		return caption + ", dry, fast", words + " No packing on this run."
	case plan.PackedAlong:
		build := ""
		if s.Run.LayerName != "" {
			build = s.Run.LayerName + " in the zones drawn, then "
		}
		return caption + ", then packing", words + " Build it up with " + build + "the shims of the table under each chair, full bearing."
	case plan.PackedAbove:
		return caption + ", dry, fast", words
	}
	return caption + ", then packing", words + " Packing goes BELOW the membrane, under each chair, by the table; full bearing."
}

// ends is what the string is pulled from: corners, or the ends of a run without
// corners.
func (s Steps) ends() (caption, words string) {
	w, more := &s.Work, ""
	switch {
	case len(s.Run.Chairs) == 0:
		more = " No chair stands on this run: hook, set and snap its piece by that sheet."
	case !w.Later:
		more = " The run has no other chairs: set each at its station," + s.fixed()
	case w.OuterFree:
		more = " At an end without such a piece set the outermost chair, for the string."
	}
	switch {
	case w.Breaks:
		var kinds []string
		supports := ""
		if w.Corners {
			kinds, supports = append(kinds, "corner"), " and the corner supports"
		}
		kinds = append(kinds, "pitch miter")
		if w.Tees {
			kinds = append(kinds, "tee")
		}
		if w.Ends {
			kinds = append(kinds, "end")
		}
		return "Welded pieces: chairs first", "Set the chairs of the " + join(kinds) + " pieces" + supports + ", then those pieces by their sheets." + more
	case w.Tees && (w.Corners || w.Ends):
		return "Corners, tees: chairs first", "Set the chairs of the corners, ends and tees and the corner supports, then these pieces by their sheets, a tee before the caps on either side of it." + more
	case w.Tees:
		return "Tee chairs, then tees", "Set the chairs of the tees on both walls, then the tees by their sheets, before any cap beside them." + more
	case w.Corners && w.Ends:
		return "Corners, ends: chairs first", "Set the corner and end chairs and the corner supports, then the corner and end pieces by their sheets." + more
	case w.Corners:
		return "Corner chairs, then corners", "Set the corner chairs and corner supports, then the corner pieces by their sheets." + more
	case w.Ends:
		return "End chairs, then ends", "Set the end chairs, then the end pieces by their sheets." + more
	}
	return "First and last chair", "Set the first and the last chair of the run at their stations," + s.fixed()
}

// fixed says how a chair is fastened, and what is drilled before the screws.
func (s Steps) fixed() string {
	words := " screws by the table in the punched holes."
	if s.Work.PilotDia > 0 {
		words += " Drill pilots of " + s.drill(s.Work.PilotDia) + " diameter to the depth of the table."
	}
	return words
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
	words := s.tape().Exact(d)
	if s.Run.Metric {
		words += " mm"
	}
	return drawing.Letter(words)
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
	s.title, s.top = "ORDER OF WORK, RUN "+of.Run.Name, 520
	note := "Pictures of this run, not to scale. Thick: new in this step. Thin: already there."
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
	out := drawing.Scene{Name: "steps-" + fileName(of.Run.Name), Title: "Order of work, run " + of.Run.Name, W: w, H: s.height(pic)}
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
