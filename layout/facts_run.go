package layout

import (
	"fmt"
	"strings"

	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/fact"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
	"copingset/layout/wall"
)

func (b *facts) ofPerimeter(p *Perimeter) {
	b.about(fact.Run, FactOfPerimeter(p))
	b.place()
	b.words("outer-side", p.Job.OuterSide.String())
	if p.Closed() {
		b.length("misclosure", p.Closure.Length)
		b.length("misclosure-most", p.Job.MisclosureLength)
		b.angle("misclosure-angle", p.Closure.Angle)
	}
	b.count("runs", len(p.Runs))
	b.length("set-surface-highest", p.Set)
	b.slope("set-surface-cross-slope", p.Cross)
	b.words("packing", p.Packing.Reason)
	b.ofLevelling(&p.Packing)
	p.Tees(func(r *wall.Run, t *wall.Tee, starts bool) {
		b.about(fact.Run, FactOfRun(b.l.runOf(r)))
		b.length(meetsAt(starts), t.Job.At)
	})
	b.about(fact.Run, FactOfPerimeter(p))
	for i, x := range p.Packing.Sheets {
		b.count(fmt.Sprintf("sheet-%d-number", i+1), x.N)
		for n, rip := range x.Rips {
			k := fmt.Sprintf("sheet-%d-rip-%d-", i+1, n+1)
			b.count(k+"number", n+1)
			b.length(k+"width", rip.Width)
			b.lengths(k+"cuts", rip.Cuts)
		}
	}
}

// ofLevelling is what both ways to pack take.
func (b *facts) ofLevelling(p *wall.Packing) {
	v := b.l.Levelling(p)
	for _, e := range []struct {
		way string
		of  plan.Effort
	}{{"continuous", v.Continuous}, {"chairs", v.Chairs}} {
		b.length(e.way+"-layers", e.of.Layers)
		b.count(e.way+"-pieces", e.of.Pieces)
		b.count(e.way+"-strips", e.of.Strips)
		b.count(e.way+"-shims", e.of.Shims)
		b.count(e.way+"-cuts", e.of.Cuts)
		b.count(e.way+"-sheets", e.of.Sheets)
		b.count(e.way+"-nails", e.of.Nails)
		b.count(e.way+"-missing", e.of.Missing)
		if v.Priced {
			b.count(e.way+"-minutes", int(e.of.Minutes))
			b.count(e.way+"-money-hundredths", int(e.of.Hundredths))
		}
	}
	b.count("sheets-least", v.SheetsLeast)
	b.said("nail", v.Nail)
}

// FactOfQuestion is what the facts of a question to the designer are of, counted from
// nought.
func FactOfQuestion(i int) string { return fmt.Sprintf("question %d", i+1) }

// ofQuestions are what is asked of the designer.
func (b *facts) ofQuestions() {
	for i, q := range b.l.Questions() {
		b.about(fact.Run, FactOfQuestion(i))
		b.words("run", q.Run)
		b.length("from", q.From)
		b.length("to", q.To)
		b.words("what", q.What)
		b.said("limit", q.Limit)
		b.said("source", q.Source)
		b.words("ask", q.Ask)
	}
}

// FactOfPerimeter is what the facts of a perimeter are of.
func FactOfPerimeter(p *Perimeter) string { return "perimeter " + p.Job.Name }

// ofRun are the lines and widths of a run.
func (b *facts) ofRun(r *Run) {
	b.about(fact.Offset, FactOfRun(r))
	b.length("cap-begins", r.ToCrew(0)) // at this crew station
	b.about(fact.Run, FactOfRun(r))
	b.place()
	b.words("perimeter", r.Perimeter.Job.Name)
	b.words("run", r.Name)
	b.words("length-basis", [...]string{"measured", "drawing"}[r.Job.Basis])
	b.said("elevation", r.Job.Elevation)
	b.said("start-mark", r.Job.Datum.Mark)
	b.length("cap-line", r.Cap)
	b.length("wall-line", r.Front)
	b.length("line-left", r.Line.Left)
	b.length("line-right", r.Line.Right)
	b.count("readings", len(r.Readings))
	b.said("survey-line", r.Job.SurveyLine)
	b.length("gap-parallel", r.Line.Parallel) // that a line parallel to the wall line would leave
	b.length("bow", r.Line.Bow)
	b.length("bow-station", r.ToCrew(r.ToCap(r.Line.BowAt)))
	b.length("gap-most", r.Line.GapMost)
	b.length("gap-most-station", r.ToCrew(r.ToCap(r.Line.GapMostAt)))
	b.length("string-to-wall-most", r.StringToWall(&b.l.Job.System, r.ToCap(r.Line.GapMostAt)))
	if n := len(r.Readings); n > 0 {
		b.length("string-to-wall-left", r.StringToWall(&b.l.Job.System, r.ToCap(r.Readings[0].Station)))
		b.length("string-to-wall-right", r.StringToWall(&b.l.Job.System, r.ToCap(r.Readings[n-1].Station)))
	}
	b.length("wall-width-least", r.WidthLeast)
	b.length("wall-width-most", r.WidthMost)
	b.length("need", r.Need)
	b.length("need-station", r.ToCrew(r.ToCap(r.NeedAt)))
	b.length("inside", r.Inside)
	b.length("outside", r.Outside)
	b.ofSaid(r)
	for i, t := range r.Bands {
		k := fmt.Sprintf("band-%d-", i+1)
		b.length(k+"from", r.ToCrew(t.From))
		b.length(k+"to", r.ToCrew(t.To))
		b.length(k+"inside", t.Inside)
	}
	for i, t := range r.Tapers {
		k := fmt.Sprintf("taper-%d-", i+1)
		b.length(k+"from", r.ToCrew(t.From))
		b.length(k+"to", r.ToCrew(t.To))
		b.length(k+"left", t.Left)
		b.length(k+"right", t.Right)
	}
	b.length("play-least", r.PlayLeast)
	b.length("play-most", r.PlayMost)
	b.length("packing-least", r.PackLeast)
	b.length("packing-most", r.PackMost)
	b.length("set-surface-left", r.SetLeft)
	b.length("set-surface-right", r.SetRight)
	b.length("chair-pitch-most", r.PitchMost)
	b.length("chair-step", r.Step) // that the stations of its chairs and joints are lettered to
	b.count("chairs", len(r.Chairs))
	b.length("plywood", b.l.Plywood(r))
	b.count("nails", r.Nails)
	for i, e := range r.Limits {
		k := fmt.Sprintf("limit-%d-", i+1)
		b.words(k+"name", e.Name)
		b.length(k+"allowed", e.Allowed)
		b.length(k+"found", e.Found)
		b.yes(k+"kept", e.Within)
		b.said(k+"source", e.Source)
		b.length(k+"from", r.ToCrew(r.ToCap(e.At)))
		b.length(k+"to", r.ToCrew(r.ToCap(e.To)))
	}
	for i, z := range r.Zones {
		k := fmt.Sprintf("wind-zone-%d-", i+1)
		b.words(k+"zone", z.Zone.String())
		b.length(k+"from", r.ToCrew(r.ToCap(z.From)))
		b.length(k+"to", r.ToCrew(r.ToCap(z.To)))
		b.length(k+"long", z.To-z.From)
	}
	b.kind = fact.Shim
	for _, c := range b.l.Shims(r) {
		b.count(ShimsOf("front", c.Thickness), c.Front)
		b.count(ShimsOf("rear", c.Thickness), c.Rear)
	}
}

// ShimsOf is what the count of a run's shims of one thickness is called.
func ShimsOf(face string, t length.Length) string { return "shims-" + face + "-" + fact.Nanometres(t) }

// ofSaid are the values that are said of a run in sentences alone: how its set surface
// lies, where its cap is tightest, how far apart its chairs stand.
func (b *facts) ofSaid(r *Run) {
	b.length("inside-left", r.InsideAt(0))
	b.length("set-surface-rise", r.SetRight-r.SetLeft)
	b.angle("incline", max(r.Incline(), -r.Incline()))
	if p := pinchOf(&b.l.Job.System, r); p.Here {
		b.length("pinch-station", p.Station.Real)
		b.length("pinch-play", p.Play.Real)
		b.length("pinch-string-to-wall", p.StringToWall.Real)
	}
	for _, q := range b.l.Pitches(r) {
		b.length(PitchOf(q.Assembly), q.Most)
	}
}

// PitchOf is what the greatest distance between chairs of an assembly on a run is called.
func PitchOf(a *job.Assembly) string { return "pitch-" + strings.ReplaceAll(a.Name, ".", "-") }

// FactOfReading is what the facts of the nth reading of a run are of.
func FactOfReading(r *Run, i int) string { return fmt.Sprintf("%s-R%d", r.Name, i+1) }

func (b *facts) ofReadings(r *Run) {
	for i, q := range r.Readings {
		b.about(fact.Reading, FactOfReading(r, i))
		b.place()
		b.length("station", r.ToCrew(r.ToCap(q.Station)))
		b.length("offset", q.Offset)
		b.length("gap", q.Gap)
		b.length("string-to-wall", r.StringToWall(&b.l.Job.System, r.ToCap(q.Station)))
		b.length("width", q.Width)
		b.length("need", q.Need)
		if i < len(r.Play) {
			b.length("play", r.Play[i])
		}
		b.length("top-outside", q.TopOutside)
		b.length("top-inside", q.TopInside)
		b.length("packing-front", q.PackFront)
		b.length("packing-rear", q.PackRear)
		for k, c := range q.Job.Conditions {
			b.words(fmt.Sprintf("condition-%d", k+1), string(c))
		}
		b.said("note", q.Job.Note)
		b.said("photos", strings.Join(q.Job.Photos, ", "))
	}
	for i := range r.Suspects {
		s := &r.Suspects[i]
		b.about(fact.Reading, fmt.Sprintf("%s-doubt-%d", r.Name, i+1))
		b.length("station", r.ToCrew(r.ToCap(s.Reading.Station)))
		b.words("measure", s.Measure)
		b.length("read", s.Value)
		b.length("neighbours-say", s.Expected)
		b.length("doubted-over", s.Limit)
		if c := s.Cleared; c != nil {
			b.length("cleared", c.Value)
		}
	}
}

func (b *facts) ofObstacles(r *Run) {
	for i := range r.Job.Obstacles {
		o := &r.Job.Obstacles[i]
		b.about(fact.Obstacle, FactOfObstacle(r, o))
		b.words("name", o.Name)
		b.length("station", r.ToCrew(r.ToCap(r.FrontStation(o.Station))))
		for _, d := range doing() {
			if o.Does&d.does != 0 {
				b.words(d.what, "yes")
			}
		}
		if o.Does&job.Pierces != 0 {
			b.said("collar", o.Collar)
		}
		b.said("work", o.Work)
		b.kind = fact.Make
		b.length("extent", o.Extent)
		b.some("depth", o.Depth)
		b.some("from-face", o.FromFace)
	}
}

// deed is one thing that an obstacle can do, as its fact is called.
type deed struct {
	does job.Does
	what string
}

func doing() []deed {
	return []deed{{job.BlocksChair, "blocks-a-chair"}, {job.BlocksJoint, "blocks-a-joint"}, {job.Pierces, "pierces"}}
}

// ObstacleFacts names all that the crew reads of an obstacle.
func ObstacleFacts(r *Run, o *job.Obstacle) string {
	of := FactOfObstacle(r, o)
	names := []string{Named(of, "name"), Named(of, "station")}
	for _, d := range doing() {
		if o.Does&d.does != 0 {
			names = append(names, Named(of, d.what))
		}
	}
	if o.Does&job.Pierces != 0 && o.Collar != "" {
		names = append(names, Named(of, "collar"))
	}
	if o.Work != "" {
		names = append(names, Named(of, "work"))
	}
	return AllNamed(names...)
}

// FactOfZone is what the facts of the nth zone of a run's build-up are of.
func FactOfZone(r *Run, i int) string { return fmt.Sprintf("%s-Z%d", r.Name, i+1) }

// FactOfPlywood is what the facts of the nth strip of a run's plywood are of.
func FactOfPlywood(r *Run, i int) string { return fmt.Sprintf("%s-P%d", r.Name, i+1) }

// ofBuildUp are the zones of one build-up and the plywood in them.
func (b *facts) ofBuildUp(r *Run) {
	for i, z := range r.BuildUp {
		b.about(fact.Zone, FactOfZone(r, i))
		b.place()
		b.words("run", FactOfRun(r))
		b.length("from", r.ToCrew(r.ToCap(z.From)))
		b.length("to", r.ToCrew(r.ToCap(z.To)))
		b.count("plies", z.Layers)
		b.length("shims-front-least", z.FrontLeast)
		b.length("shims-front-most", z.FrontMost)
		b.length("shims-rear-least", z.RearLeast)
		b.length("shims-rear-most", z.RearMost)
		b.count("nails", z.Nails)
		for k, t := range z.Tapers {
			b.lengths(fmt.Sprintf("taper-%d", k+1), []length.Length{r.ToCrew(r.ToCap(t.From)), r.ToCrew(r.ToCap(t.To)),
				t.FrontFrom, t.FrontTo, t.RearFrom, t.RearTo})
		}
	}
	for i, s := range r.Strips {
		b.about(fact.Zone, FactOfPlywood(r, i))
		b.count("ply", s.Layer)
		b.length("from", r.ToCrew(r.ToCap(s.From)))
		b.length("to", r.ToCrew(r.ToCap(s.To)))
		b.length("length", s.Length())
		b.length("width", s.Width)
		b.count("sheet", s.Sheet)
		b.count("rip", s.Rip)
	}
}

// ofLoads are what the wind asks of the chairs of a run, and how they stand on the wall.
func (b *facts) ofLoads(r *Run) {
	seats := b.l.seater()
	for _, c := range r.Chairs {
		b.about(fact.Assembly, c.Name)
		b.loading("up", c.Load.Up)
		b.loading("beam", c.Load.Beam)
		b.loading("out", c.Load.Out)
		b.loading("rear-leg", c.Load.Rear)
		b.loading("hook", c.Load.Hook)
		b.loading("snap", c.Load.Snap)
		for _, k := range seatChecks(seats, c) {
			if !k.Unknown {
				b.length(string(k.Code), k.Has)
				if k.Asked != 0 && k.Asked != -anyOverhang {
					b.length(string(k.Code)+"-asked", k.Asked)
				}
			}
		}
	}
}

// ofChairs are the chairs of a run, as they are set and as they are made.
func (b *facts) ofChairs(r *Run) {
	b.ofLoads(r)
	layered := b.l.Job.Packing.Method == job.PackContinuous && b.l.Job.Packing.Layer > 0
	for _, c := range r.Chairs {
		b.about(fact.Chair, c.Name)
		b.length("station", r.ToCrew(c.At))
		b.words("stands-at", c.Kind.String())
		if c.Joint != nil {
			b.words("joint", c.Joint.Name)
		}
		if layered {
			b.count("plies", c.Layers)
		}
		b.length("packing-front", c.PackFront)
		b.length("packing-rear", c.PackRear)
		b.length("inside", c.Inside)
		left, right := c.Edges(&b.l.Job.System)
		if left != right {
			b.length("inside-left-edge", left)
			b.length("inside-right-edge", right)
		}
		b.kind = fact.Shim
		b.lengths("shims-front", c.ShimFront)
		b.lengths("shims-rear", c.ShimRear)
		b.ofRows(c)
		b.ofMadeChair(r, c, left, right)
	}
}

// ScrewsOf is what the count of the screws in the front row of a chair, 0, or in
// its rear row, 1, is called; their length and pilot add to it.
func ScrewsOf(row int) string { return [...]string{"screws-front", "screws-rear"}[row] }

func (b *facts) ofRows(c *Chair) {
	b.kind = fact.Screw
	for i, w := range c.Rows {
		k := ScrewsOf(i)
		if w.Fastener == nil || w.Length == 0 {
			b.words(k, "none fits")
			continue
		}
		b.count(k, w.Count)
		b.length(k+"-length", w.Length)
		b.some(k+"-pilot", w.Pilot)
	}
}

func (b *facts) ofMadeChair(r *Run, c *Chair, left, right length.Length) {
	p := &b.l.Job.Packing
	b.kind = fact.Make
	b.place()
	b.words("run", FactOfRun(r))
	b.count("number", c.N)
	b.count("layers", c.Layers)
	b.length("built-front", c.Made(p, c.ShimFront))
	b.length("built-rear", c.Made(p, c.ShimRear))
	b.length("left-edge-inside", left)
	b.length("right-edge-inside", right)
	if c.Assembly != nil {
		b.words("assembly", c.Assembly.Name)
	}
	b.length("string-to-wall", r.StringToWall(&b.l.Job.System, c.At))
	b.length("set-surface", r.SetAt(r.ToFront(c.At)))
	b.length("underside-front", b.l.setAtStreet(r, r.ToFront(c.At)))
	b.length("underside-rear", b.l.setAtRoof(r, r.ToFront(c.At)))
	if m := b.l.Job.Benchmark; m != nil {
		b.length("over-benchmark-front", b.l.setAtStreet(r, r.ToFront(c.At))-m.Reading)
		b.length("over-benchmark-rear", b.l.setAtRoof(r, r.ToFront(c.At))-m.Reading)
	}
	for i, w := range c.Rows {
		k := ScrewsOf(i)
		if w.Fastener != nil {
			b.words(k+"-fastener", w.Fastener.Name)
		}
		b.count(k+"-count", w.Count)
		b.length(k+"-behind-cap-line", w.Y)
		b.length(k+"-packing", w.Packing)
		b.length(k+"-above-substrate", w.Above)
		b.length(k+"-into-substrate", w.Into)
		b.length(k+"-pilot-depth", w.Pilot)
	}
	b.kind = fact.Lap
	front, rear := r.LapsAt(&b.l.Job.System, c.At, c.PackFront, c.PackRear)
	b.length("lap-front", front)
	b.length("lap-rear", rear)
}

func (b *facts) ofJoints(r *Run) {
	for _, q := range r.Joints {
		b.about(fact.Joint, q.Name)
		b.length("station", r.ToCrew(q.Centre()))
		b.length("gap", q.Gap())
		if q.Kind == cap.Expansion {
			b.length("plate", q.Plate)
			b.words("held", q.Held.String())
			if q.Movement != nil {
				b.length("movement", *q.Movement)
			}
		} else if q.Left != nil || q.Right != nil {
			b.kind = fact.Gap
			for _, t := range b.l.Job.Site.InstallMetalT {
				b.length(GapAt(t), cap.GapAt(&b.l.Job.System, q.Mean(), t))
			}
		}
		b.kind = fact.Make
		b.place()
		b.words("run", FactOfRun(r))
		b.words("kind", jointKind(q.Kind))
		b.length("plate-length", q.Plate)
		if q.Left != nil {
			b.words("left-piece", q.Left.Mark)
		}
		if q.Right != nil {
			b.words("right-piece", q.Right.Mark)
		}
		if q.Left != nil || q.Right != nil {
			b.length("mean-length", q.Mean())
		}
	}
}

func jointKind(k cap.JointKind) string { return [...]string{"plain", "expansion", "kink"}[k] }

func (b *facts) ofSupport(s *anchor.Support) {
	b.about(fact.Support, s.Name)
	b.loading("hook", s.Load)
	if w := s.Screws; w.Length > 0 {
		b.words("screws", w.Fastener.Name)
		b.count("screws-count", w.Count)
		b.length("screws-length", w.Length)
	}
	b.words("piece", s.Piece.Mark)
	b.length("packing", s.Packing)
	b.count("plies", s.Layers)
	b.lengths("shims", s.Shims)
	b.length("from-corner-along", s.X)
	b.length("from-corner-across", s.Y)
	b.number("turned-degrees", s.Along)
}

// ofCorner is a corner of the walls, and the cap's corner from it, which is what
// the crew marks.
func (b *facts) ofCorner(p *Perimeter, c *Corner) {
	b.about(fact.Corner, FactOfCorner(c))
	b.place()
	b.words("perimeter", p.Job.Name)
	b.angle("turn", c.Turn)
	b.angle("included", c.Included())
	b.angle("lines-turn", c.Lines)
	b.angle("cap-turn", c.CapTurn)
	b.angle("cap-included", c.CapIncluded())
	b.yes("joint-absorbs", c.Absorb)
	if c.Straight() {
		b.words("pitch", c.Pitch.String())
		b.angle("bend", c.Bend)
		b.angle(inclines[0], -c.Arrive.Incline())
		b.angle(inclines[1], c.Leave.Incline())
	}
	if c.Absorb || c.Straight() {
		return // no corner to mark
	}
	b.kind = fact.Offset
	b.length("beyond-"+c.Arrive.Name, c.Arrive.Right.Ext)
	b.length("out-from-"+c.Arrive.Name, c.Arrive.CapOut(c))
	b.length("beyond-"+c.Leave.Name, c.Leave.Left.Ext)
	b.length("out-from-"+c.Leave.Name, c.Leave.CapOut(c))
}

// inclines are what the slopes of the tops to the left and to the right of a break of
// slope are called, going out from it.
var inclines = [...]string{"incline-left", "incline-right"}

// OffsetFacts names how far the cap's corner lies from the plumbed corner of the
// wall: along and out from both runs.
func OffsetFacts(c *Corner) string {
	var names []string
	for _, r := range []*wall.Run{c.Arrive, c.Leave} {
		names = append(names, Named(FactOfCorner(c), "beyond-"+r.Name), Named(FactOfCorner(c), "out-from-"+r.Name))
	}
	return AllNamed(names...)
}

// loading is one load case of a chair, to the newton; nothing where it was not
// compared.
func (b *facts) loading(of string, l anchor.Loading) {
	if l.Holds > 0 {
		b.words("load-"+of, fmt.Sprintf("%.0f N of %.0f N", l.Demand, l.Holds))
	}
}
