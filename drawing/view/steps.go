package view

import (
	"fmt"
	"slices"
	"strconv"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
)

// stepKind is one step of the order of work.
type stepKind int

const (
	stepNailer stepKind = iota // with the packing, unless that lies above the membrane
	stepMembrane
	stepPacking // chair-only packing above the membrane
	stepCorners
	stepString
	stepChairs
	stepSplices
	stepTrim // field closers
	stepHook
	stepGap
	stepSnap
	stepCheck
)

// step is one step: a caption for its picture, a sentence for the list.
type step struct {
	kind           stepKind
	caption, words string
}

// StepWords is the order of work of a run in sentences, one for each picture
// of StepStrip and in the same order.
func StepWords(l *layout.Layout, r *layout.Run) []string {
	var out []string
	for _, s := range stepsOf(l, r) {
		out = append(out, s.words)
	}
	return out
}

// stepsOf lists the steps a run takes. A step that a run has no use for, a
// string along a single chair or the gap of a run without joints, is left out:
// the sheets of its corners and ends say the rest.
func stepsOf(l *layout.Layout, r *layout.Run) []step {
	s := &l.Job.System
	var out []step
	add := func(k stepKind, caption, words string) {
		out = append(out, step{k, caption, drawing.Letter(words)})
	}
	stepsTop(l, r, add)
	stepsEnds(l, r, add)
	if len(r.Chairs) > 1 && stepStraight(r) {
		add(stepString, "String along chairs’ fronts", "Pull the string between the front edges of the end chairs. Check it against the wall face.")
	}
	switch {
	case stepLater(r):
		add(stepChairs, "Chairs along the string", "Set the chairs to the string at their stations,"+stepFixed(l, r))
	case out[len(out)-1].kind != stepCorners && len(r.Chairs) == 1:
		add(stepChairs, "Chair at its station", "Set the chair at its station,"+stepFixed(l, r))
	}
	j := stepJoint(l, r)
	switch {
	case j == nil:
	case j.Kind == cap.Expansion:
		add(stepSplices, "Cover plate, sealant tape", "At the expansion joint: cover plate centred and held on the one side only that is drawn, sealant tape each side, "+stepSmall(l, s.Splice.Tape)+" from the centre line to the middle of the strip.")
	default:
		add(stepSplices, "Splice plate, tape each side", "At each joint: splice plate centred, sealant tape each side, "+stepSmall(l, s.Splice.Tape)+" from the centre line to the middle of the strip.")
	}
	if q := stepCloser(r); q != nil {
		add(stepTrim, "Cut closer at its mark", "The closer ships long by "+stepSmall(l, q.Piece.Allowance)+": check the chairs, then cut the end that is marked, before it is hooked.")
	}
	if len(r.Chairs) > 0 {
		add(stepHook, "Hook the front first", "Peel the film, wipe the plates. Hook the front leg of the cap first.")
	}
	switch {
	case j == nil:
	case j.Kind == cap.Expansion:
		add(stepGap, "Set the gap as drawn", "Set the gap of the expansion joint as drawn. Its centre stays where it is drawn.")
	default:
		add(stepGap, "Gap by metal temperature", "Set the gap for the metal’s temperature. Joint centres stay where they are drawn.")
	}
	if len(r.Chairs) > 0 {
		add(stepSnap, "Turn down, snap the rear", "Turn the cap down until the rear leg snaps on all its chairs.")
	}
	check := "Check along the whole rear leg, the gaps, the line and the lap."
	if j == nil {
		check = "Check along the whole rear leg, the line and the lap."
	}
	add(stepCheck, "Check all along the rear", check)
	return out
}

// stepsTop bring the wall top up: nailer, packing and membrane.
func stepsTop(l *layout.Layout, r *layout.Run, add func(stepKind, string, string)) {
	pk := &l.Job.Packing
	top, caption := "Check the nailer: sound, dry, fast.", "Nailer sound"
	if !stepNailed(r) {
		top, caption = "Check the wall top: sound, dry, fast.", "Wall sound"
	}
	membrane := func() {
		if l.Job.Membrane.Name != "" {
			add(stepMembrane, "Membrane, edges fastened", "Lay the "+l.Job.Membrane.Name+" over the wall top and fasten its edges, before any metal.")
		}
	}
	packed := stepPacked(r)
	switch {
	case !packed:
		add(stepNailer, caption+", dry, fast", top+" No packing on this run.")
		membrane()
	case pk.Method == job.PackContinuous:
		build := ""
		if pk.LayerName != "" {
			build = pk.LayerName + " in the zones drawn, then "
		}
		add(stepNailer, caption+", then packing", top+" Build it up with "+build+"the shims of the table under each chair, full bearing.")
		membrane()
	case pk.AboveMembrane:
		add(stepNailer, caption+", dry, fast", top)
		membrane()
		add(stepPacking, "Packing ABOVE membrane", "Packing goes ABOVE the membrane, under each chair, by the table; full bearing.")
	default:
		add(stepNailer, caption+", then packing", top+" Packing goes BELOW the membrane, under each chair, by the table; full bearing.")
		membrane()
	}
}

// stepPacked reports whether the wall top of a run is packed anywhere.
func stepPacked(r *layout.Run) bool {
	return r.PackMost > 0 || slices.ContainsFunc(r.Chairs, func(c *layout.Chair) bool { return c.PackFront > 0 || c.PackRear > 0 })
}

// stepsEnds sets what the string is pulled from: corners, or the ends of a run
// without corners.
func stepsEnds(l *layout.Layout, r *layout.Run, add func(stepKind, string, string)) {
	corners, ends, breaks, tees := false, false, false, false
	for _, q := range r.Parts {
		if q.Piece.Kind == cap.PitchMiter {
			breaks = true
			continue
		}
		corners = corners || len(q.Piece.Miters) > 0
		tees = tees || q.Piece.Kind == cap.Tee
		ends = ends || q.Piece.Kind != cap.Tee && !stepAlong(q.Piece) && q.Piece.Kind != cap.Corner && q.Piece.Kind != cap.DoubleMiter
	}
	more := ""
	switch {
	case len(r.Chairs) == 0:
		more = " No chair stands on this run: hook, set and snap its piece by that sheet."
	case !stepLater(r):
		more = " The run has no other chairs: set each at its station," + stepFixed(l, r)
	case !stepUnder(r.Chairs[0]) || !stepUnder(r.Chairs[len(r.Chairs)-1]):
		more = " At an end without such a piece set the outermost chair, for the string."
	}
	switch {
	case breaks:
		var kinds []string
		supports := ""
		if corners {
			kinds, supports = append(kinds, "corner"), " and the corner supports"
		}
		kinds = append(kinds, "pitch miter")
		if tees {
			kinds = append(kinds, "tee")
		}
		if ends {
			kinds = append(kinds, "end")
		}
		add(stepCorners, "Welded pieces: chairs first", "Set the chairs of the "+join(kinds)+" pieces"+supports+", then those pieces by their sheets."+more)
	case tees && (corners || ends):
		add(stepCorners, "Corners, tees: chairs first", "Set the chairs of the corners, ends and tees and the corner supports, then these pieces by their sheets, a tee before the caps on either side of it."+more)
	case tees:
		add(stepCorners, "Tee chairs, then tees", "Set the chairs of the tees on both walls, then the tees by their sheets, before any cap beside them."+more)
	case corners && ends:
		add(stepCorners, "Corners, ends: chairs first", "Set the corner and end chairs and the corner supports, then the corner and end pieces by their sheets."+more)
	case corners:
		add(stepCorners, "Corner chairs, then corners", "Set the corner chairs and corner supports, then the corner pieces by their sheets."+more)
	case ends:
		add(stepCorners, "End chairs, then ends", "Set the end chairs, then the end pieces by their sheets."+more)
	case len(r.Chairs) > 1:
		add(stepCorners, "First and last chair", "Set the first and the last chair of the run at their stations,"+stepFixed(l, r))
	}
}

// stepUnder reports whether a chair belongs to a corner or end piece: it
// stands under it or at its joint.
func stepUnder(c *layout.Chair) bool {
	return !stepAlong(c.Piece) || c.Kind == anchor.AtJoint && c.Joint.Right != nil && !stepAlong(c.Joint.Right)
}

// stepAlong reports a piece that is laid to the string, between corners and
// ends: a straight one or a transition.
func stepAlong(q *layout.Piece) bool { return q.Kind == cap.Straight || q.Kind == cap.Transition }

// stepFirst reports whether a chair is set before the string is pulled: it
// belongs to a corner or end piece, or it is the outermost of its run.
func stepFirst(r *layout.Run, c *layout.Chair) bool {
	return stepUnder(c) || c == r.Chairs[0] || c == r.Chairs[len(r.Chairs)-1]
}

// stepLater reports whether a run has chairs that are set to the string.
func stepLater(r *layout.Run) bool {
	return slices.ContainsFunc(r.Chairs, func(c *layout.Chair) bool { return !stepFirst(r, c) })
}

// stepStraight reports whether a straight piece lies on a run.
func stepStraight(r *layout.Run) bool {
	return slices.ContainsFunc(r.Parts, func(q layout.Part) bool { return stepAlong(q.Piece) })
}

// stepFixed says how a chair is fastened.
func stepFixed(l *layout.Layout, r *layout.Run) string {
	return " screws by the table in the punched holes." + stepPilot(l, r)
}

// stepNailed reports whether the wall's top layer is wood.
func stepNailed(r *layout.Run) bool {
	return len(r.Wall.Layers) > 0 && (r.Wall.Layers[0].Material == job.Wood || r.Wall.Layers[0].Material == job.Plywood)
}

// stepPilot says what is drilled before the screws.
func stepPilot(l *layout.Layout, r *layout.Run) string {
	for _, c := range r.Chairs {
		if f := c.Rows[0].Fastener; f != nil && c.Rows[0].Pilot > 0 {
			return " Drill pilots of " + stepDrill(l, f.PilotDia) + " diameter to the depth of the table."
		}
	}
	return ""
}

// stepSmall letters a short length with its unit.
func stepSmall(l *layout.Layout, d length.Length) string {
	st := Crew(l)
	if st.Metric {
		return drawing.Letter(st.InText(d))
	}
	return drawing.Letter(st.Short(d))
}

// stepDrill letters the diameter of a drill, which is never rounded.
func stepDrill(l *layout.Layout, d length.Length) string {
	st := Crew(l)
	if st.Metric {
		return drawing.Letter(st.Exact(d) + " mm")
	}
	return drawing.Letter(st.Exact(d))
}

// stepDegrees letters a temperature in the unit of the job.
func stepDegrees(l *layout.Layout, t job.Temperature) string {
	if Metric(l) {
		return strconv.FormatFloat(t.Celsius(), 'f', 0, 64) + " °C"
	}
	return strconv.FormatFloat(t.Fahrenheit(), 'f', 0, 64) + " °F"
}

// stepJoint is the joint the pictures show: a plain one of the run, else one
// its pieces end on, else an expansion joint; nil where the run has none.
func stepJoint(l *layout.Layout, r *layout.Run) *layout.Joint {
	all := slices.Clone(r.Joints)
	for _, q := range r.Parts {
		if q.Piece.Kind != cap.Straight {
			continue
		}
		a, b := l.EndJoints(q.Piece)
		for _, j := range []*layout.Joint{a, b} {
			if j != nil {
				all = append(all, j)
			}
		}
	}
	for _, k := range []cap.JointKind{cap.Plain, cap.Kink, cap.Expansion} {
		for _, j := range all {
			if j.Kind == k {
				return j
			}
		}
	}
	return nil
}

// stepCloser is the part of a closer that ships long, nil without one.
func stepCloser(r *layout.Run) *layout.Part {
	for i := range r.Parts {
		if r.Parts[i].Piece.Allowance > 0 {
			return &r.Parts[i]
		}
	}
	return nil
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
	l          *layout.Layout
	r          *layout.Run
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

func newStepSheet(l *layout.Layout, r *layout.Run, w drawing.Unit) stepSheet {
	s := stepSheet{l: l, r: r, steps: stepsOf(l, r)}
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
	s.title, s.top = "ORDER OF WORK, RUN "+r.Name, 520
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
func StepStripHeight(l *layout.Layout, r *layout.Run, w drawing.Unit) drawing.Unit {
	s := newStepSheet(l, r, w)
	return s.height(stepPic)
}

// StepStrip draws the order of work of a run in pictures, one for each step,
// made by the code of the sections and plans from the run's own dimensions. It
// is never lower than StepStripHeight; in a higher room the pictures grow.
func StepStrip(l *layout.Layout, r *layout.Run, w, h drawing.Unit) drawing.Scene {
	s := newStepSheet(l, r, w)
	pic := stepPic
	if more := (h - s.height(stepPic)) / drawing.Unit(s.rows); more > 0 {
		pic = min(pic+more, stepPicMost)
	}
	out := drawing.Scene{Name: "steps-" + fileName(r.Name), Title: "Order of work, run " + r.Name, W: w, H: s.height(pic)}
	for i, q := range s.steps {
		out.Desc += fmt.Sprintf("%d %s. ", i+1, q.caption)
	}
	s.heading(&out, w)
	d := newStepDrawing(l, r, s.cell-2*stepMargin, pic-stepMargin)
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
