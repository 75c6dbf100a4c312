package layout

import (
	"fmt"
	"math"
	"slices"

	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
	"copingset/layout/wind"
)

// Plan is a run from above and as seen from the roof, in its own frame: all that its
// drawings and tables show.
func (l *Layout) Plan(r *Run) plan.Run {
	s := &l.Job.System
	of := func(what string) string { return Named(FactOfRun(r), what) }
	p := plan.Run{
		Wall: l.WallPlan(r.Run), Supports: l.supportsOf(r), Name: r.Name, Of: FactOfRun(r),
		Metric: l.Job.Units == job.Metric, ChairTape: l.ChairTape(r),
		Cap: plan.Value{Real: r.Cap, Fact: of("cap-line")}, Front: plan.Value{Real: r.Front, Fact: of("wall-line")},
		FrontFrom: r.ToCap(0), FrontTo: r.ToCap(r.Front), Inside: r.Inside, Outside: r.Outside,
		Gap: plan.Value{Real: s.Joint.Gap},
		Datum: plan.Datum{Mark: r.Job.Datum.Mark, At: plan.Pt{X: r.Datum, Y: r.FaceAt(s, r.Datum).Street},
			Begins: plan.Value{Real: r.ToCrew(0), Fact: of("cap-begins")}},
		UnderChairs: l.Job.Packing.Method == job.PackChairs, LayerName: l.Job.Packing.LayerName,
		Plies: l.Job.Packing.Method == job.PackContinuous && l.Job.Packing.Layer > 0, Ply: l.Job.Packing.Layer,
		Elevation: l.elevation(r),
		Left:      l.endPlan(r, false), Right: l.endPlan(r, true), Pinch: pinchOf(s, r), ToWall: toWall(s, r),
		Line: l.linePlan(r), Notes: notesOf(r),
	}
	for _, t := range l.Job.Site.InstallMetalT {
		p.Temps = append(p.Temps, temperature(t))
	}
	p.Benchmark = l.benchmark()
	for _, w := range r.Profile() {
		p.RearLine = append(p.RearLine, plan.Pt{X: w.At, Y: r.OutsideAt(w.At)})
	}
	for _, c := range r.Chairs {
		k := l.ChairPlan(c)
		l.stands(r, c, &k)
		p.Chairs = append(p.Chairs, k)
	}
	p.Fasteners = fastenersOf(r)
	if n := len(r.Chairs); n > 0 {
		y := cap.ChairLine(s)
		p.String = []plan.Pt{{X: r.Chairs[0].Left(s), Y: y}, {X: r.Chairs[n-1].Right(s), Y: y}}
	}
	for i, q := range r.Parts {
		k := piecePlan(r, q, i == 0, i == len(r.Parts)-1)
		l.laid(r, q, &k)
		p.Pieces = append(p.Pieces, k)
	}
	p.Toward = toward(p.Pieces)
	for _, j := range r.Joints {
		p.Joints = append(p.Joints, l.jointPlan(j))
	}
	for i := range r.Job.Obstacles {
		p.Obstacles = append(p.Obstacles, l.obstaclePlan(r, &r.Job.Obstacles[i]))
	}
	for _, e := range r.Job.Expansion {
		at := r.ToCap(r.FrontStation(e.Station))
		f := r.FaceAt(s, at)
		p.Gaps = append(p.Gaps, plan.Shape{Ring: plan.Box(at-e.Gap/2, f.Street, at+e.Gap/2, f.Roof)})
	}
	for _, t := range r.Tees {
		y := r.OutsideAt(t.Edge[0])
		p.Branches = append(p.Branches, plan.Branch{Name: t.Run.Name, Left: plan.Pt{X: t.Edge[0], Y: y},
			Right: plan.Pt{X: t.Edge[1], Y: y}})
	}
	for _, z := range r.Zones {
		p.WindZones = append(p.WindZones, plan.WindZone{From: r.ToCap(z.From), To: r.ToCap(z.To),
			Corner: z.Zone == wind.Corner})
	}
	for _, z := range r.BuildUp {
		p.BuildUps = append(p.BuildUps, plan.BuildUp{From: r.ToCap(z.From), To: r.ToCap(z.To), Plies: z.Layers,
			FrontLeast: z.FrontLeast, FrontMost: z.FrontMost, RearLeast: z.RearLeast, RearMost: z.RearMost})
	}
	if r.Wall != nil {
		for i, y := range r.Wall.Layers {
			p.Layers = append(p.Layers, plan.Layer{Material: y.Material, Name: y.Name, Thickness: layerOf(r.Wall, i)})
		}
	}
	return p
}

// benchmark is the mark that the crew levels from.
func (l *Layout) benchmark() (out plan.Benchmark) {
	m := l.Job.Benchmark
	if m == nil {
		return out
	}
	out.Here, out.What, out.Where = true, m.What, m.Where
	if c := m.Check; c != nil {
		out.Check.Here, out.Check.What, out.Check.Where = true, c.What, c.Where
		out.Check.Over = plan.Value{Real: c.Reading - m.Reading, Fact: Named("job", "benchmark-check-over")}
	}
	return out
}

// stands says of a chair how it is set: its station, what it is packed with and
// screwed by, and how it lies on the set surface.
func (l *Layout) stands(r *Run, c *Chair, k *plan.Chair) {
	s, p := &l.Job.System, &l.Job.Packing
	is := func(what string) string { return Named(c.Name, what) }
	k.N, k.Kind, k.Inside, k.Plies = c.N, plan.ChairKind(c.Kind), c.Inside, c.Layers
	k.Edges[0], k.Edges[1] = c.Edges(s)
	if c.Joint != nil {
		k.Joint = c.Joint.Name
	}
	k.Station = plan.Value{Real: r.ToCrew(c.At), Fact: is("station")}
	k.StringToWall = plan.Value{Real: r.StringToWall(s, c.At), Fact: is("string-to-wall")}
	k.Front = plan.Pack{Thick: plan.Value{Real: c.PackFront, Fact: is("packing-front")}, Built: c.Made(p, c.ShimFront),
		Shims: slices.Clone(c.ShimFront)}
	k.Rear = plan.Pack{Thick: plan.Value{Real: c.PackRear, Fact: is("packing-rear")}, Built: c.Made(p, c.ShimRear),
		Shims: slices.Clone(c.ShimRear)}
	for i, w := range c.Rows {
		q := plan.Screws{Count: w.Count, Length: w.Length, Pilot: w.Pilot, Behind: w.Y}
		if w.Fastener != nil {
			q.Name, q.PilotDia = w.Fastener.Name, w.Fastener.PilotDia
		}
		k.Rows[i] = q
	}
	front := r.ToFront(c.At)
	k.UnderFront = plan.Value{Real: l.setAtStreet(r, front), Fact: is("underside-front")}
	k.UnderRear = plan.Value{Real: l.setAtRoof(r, front), Fact: is("underside-rear")}
	if m := l.Job.Benchmark; m != nil {
		k.RodFront = plan.Value{Real: k.UnderFront.Real - m.Reading, Fact: is("over-benchmark-front")}
		k.RodRear = plan.Value{Real: k.UnderRear.Real - m.Reading, Fact: is("over-benchmark-rear")}
	}
	a, b := c.Left(s), c.Right(s)
	za, zb := l.setAtRoof(r, r.ToFront(a)), l.setAtRoof(r, r.ToFront(b))
	k.Set = k.UnderRear.Real
	k.Side = plan.Ring{{X: a, Y: za}, {X: b, Y: zb}, {X: b, Y: zb + s.Chair.Rise}, {X: a, Y: za + s.Chair.Rise}}
	k.AlongPiece = !underEnd(c)
	k.First = !k.AlongPiece || c == r.Chairs[0] || c == r.Chairs[len(r.Chairs)-1]
}

// fastenersOf are the kinds of fastener that a run's chairs take.
func fastenersOf(r *Run) []plan.Fastener {
	var kinds []*job.Fastener
	var out []plan.Fastener
	for _, c := range r.Chairs {
		for _, w := range c.Rows {
			if w.Fastener != nil && !slices.Contains(kinds, w.Fastener) {
				kinds = append(kinds, w.Fastener)
				out = append(out, plan.Fastener{Name: w.Fastener.Name, Diameter: w.Fastener.Diameter})
			}
		}
	}
	return out
}

// underEnd reports whether a chair belongs to a corner or end piece: it stands
// under it or at its joint.
func underEnd(c *Chair) bool {
	along := func(q *Piece) bool { return pieceKind(q.Kind).Along() }
	return !along(c.Piece) || c.Kind == anchor.AtJoint && c.Joint.Right != nil && !along(c.Joint.Right)
}

// pieceKind is a kind of piece as a value of the plan, which counts them alike.
func pieceKind(k cap.Kind) plan.PieceKind { return plan.PieceKind(k) }

// laid says of a part of a piece how it is laid and what keeps it back.
func (l *Layout) laid(r *Run, q Part, k *plan.Piece) {
	p := q.Piece
	k.Kind, k.From, k.To, k.Laying, k.Held = pieceKind(p.Kind), q.From, q.To, p.Laying, !l.Held.Released(p)
	k.MarkFact, k.LayingFact = Named(p.Mark, "mark"), Named(p.Mark, "laying")
	if p.Perimeter != r.Perimeter { // a tee's stub
		k.LaidWith = p.Parts[0].Run.Name
	}
	k.Persons = [...]int{cap.OnePerson: 1, cap.TwoPersons: 2, cap.Mechanical: 0}[l.Weight(p).Lift]
	k.Allowance, k.CutAt, k.Pitched, k.Mitered = p.Allowance, plan.Hand(p.CutAt), p.Pitched(), len(p.Miters) > 0
	k.Long = plan.Value{Real: q.Length()}
	for i, t := range p.Parts {
		if t.Run != q.Run || t.From != q.From {
			continue
		}
		if t.To == q.To {
			k.Long.Fact = Named(p.Mark, PartLength(i))
		}
		if i > 0 && i-1 < len(p.Miters) {
			k.Left = plan.Miter{Here: true, Trim: p.Miters[i-1].Trim[1]}
		}
		if i < len(p.Miters) {
			k.Right = plan.Miter{Here: true, Trim: p.Miters[i].Trim[0]}
		}
	}
	if p.Kind == cap.PitchMiter {
		k.Break = breakOf(p.Miters[0].Corner)
	}
}

// toward is the hand towards which straight pieces are laid. What turns, ends or
// tapers is laid before them, a closer that is trimmed on the roof after them.
func toward(pieces []plan.Piece) plan.Hand {
	var order []int
	for _, q := range pieces {
		if q.Kind == plan.StraightPiece && q.Allowance == 0 {
			order = append(order, q.Laying)
		}
	}
	switch n := len(order); {
	case n < 2:
		return plan.NoHand
	case order[0] < order[n-1]:
		return plan.RightHand
	}
	return plan.LeftHand
}

// breakOf is the break of slope at a corner; nothing where the wall turns.
func breakOf(c *Corner) plan.SlopeBreak {
	if c == nil || !c.Straight() {
		return plan.SlopeBreak{}
	}
	return plan.SlopeBreak{Word: c.Pitch.String(), Angle: job.FormatAngle(max(c.Bend, -c.Bend))}
}

// jointPlan is a joint with its plate, in the frame of its run.
func (l *Layout) jointPlan(j *Joint) plan.Joint {
	at := j.Centre()
	p := plan.Joint{
		Mark: j.Name, From: j.From, To: j.To, Centre: at, Plate: l.PlatePlan(j).Ring, PlateLong: j.Plate,
		Held: plan.Hand(j.Held), Outside: j.Run.OutsideAt(at),
		Kind: [...]plan.JointKind{cap.Plain: plan.PlainJoint, cap.Expansion: plan.ExpansionJoint,
			cap.Kink: plan.KinkJoint}[j.Kind],
		Station: plan.Value{Real: j.Run.ToCrew(at), Fact: Named(j.Name, "station")}, Gap: plan.Value{Real: j.Gap(),
			Fact: Named(j.Name, "gap")},
	}
	if j.Source != nil {
		p.WallGap = j.Source.Gap
	}
	if j.Movement != nil {
		p.Moves, p.Movement = true, plan.Value{Real: *j.Movement, Fact: Named(j.Name, "movement")}
	}
	if j.Kind != cap.Expansion && (j.Left != nil || j.Right != nil) {
		for _, t := range l.Job.Site.InstallMetalT {
			p.GapAt = append(p.GapAt, plan.Value{Real: cap.GapAt(&l.Job.System, j.Mean(), t),
				Fact: Named(j.Name, GapAt(t))})
		}
	}
	return p
}

func temperature(t job.Temperature) plan.Temperature {
	return plan.Temperature{Celsius: t.Celsius(), Fahrenheit: t.Fahrenheit()}
}

// endPlan is an end of a run.
func (l *Layout) endPlan(r *Run, right bool) plan.End {
	of, beyond := r.Left, func(c *Corner) string { return c.Arrive.Name }
	if right {
		of, beyond = r.Right, func(c *Corner) string { return c.Leave.Name }
	}
	e := plan.End{Kind: plan.EndTurn}
	switch of.Kind {
	case job.EndFree:
		e.Kind = plan.EndFree
	case job.EndWall:
		e.Kind = plan.EndWall
	case job.EndTee:
		e.Kind = plan.EndTee
	}
	if c := of.Corner; c != nil {
		e.Corner, e.Outside, e.Absorb, e.Trim = true, c.Outside(), c.Absorb, MiterTrimOf(r, c)
		e.Name = c.Name
		e.Roofward, e.Streetward, e.Break, e.Beyond = c.CapTurn > 0, c.CapTurn < 0, breakOf(c), beyond(c)
		e.Stub = stubPlan(r, c, right)
		if !c.Absorb && !c.Straight() {
			e.Offset = offset(c, r.OnWall(), of.Ext)
		}
	}
	switch {
	case of.Step != nil:
		e.Beyond, e.Step = of.Step.Beyond.Name, plan.StepDown
		if of.Step.Up() {
			e.Step = plan.StepUp
		}
	case of.Tee != nil:
		e.Beyond = of.Tee.Main.Name
	}
	return e
}

// stubPlan is the beginning of the next run beyond a corner, far beyond what is
// shown: seen from the corner point it runs off at the turn, its mold lines
// parallel, the rear one from the inner end of the miter. The right end is the
// mirror of the left. Where a plain joint takes the turn up there is no miter.
func stubPlan(r *Run, c *Corner, right bool) [2][]plan.Pt {
	sin, cos := math.Sincos(c.CapTurn.Degrees() * math.Pi / 180)
	end, dir := length.Length(0), length.Length(1)
	if right {
		end, dir = r.Cap, -1
	}
	wide, trim := r.OutsideAt(end), MiterTrimOf(r, c)
	if c.Absorb {
		trim = 0
	}
	far := 20*wide.MM() + 5000
	dx, dy := length.FromMM(cut9(cos)*far), length.FromMM(cut9(sin)*far)
	var out [2][]plan.Pt
	for i, from := range []plan.Pt{{X: 0, Y: 0}, {X: trim, Y: wide}} {
		out[i] = []plan.Pt{{X: end + dir*from.X, Y: from.Y}, {X: end + dir*(from.X-dx), Y: from.Y + dy}}
	}
	return out
}

// cut9 cuts to nine decimals, so that every processor has the same.
func cut9(v float64) float64 { return math.Round(v*1e9) / 1e9 }

// linePlan is what is said of a run before its first chair is set.
func (l *Layout) linePlan(r *Run) plan.Line {
	of := func(v length.Length, what string) plan.Value {
		return plan.Value{Real: v, Fact: Named(FactOfRun(r), what)}
	}
	p := plan.Line{
		Drawn: r.Job.Basis == job.Drawing, Surveyed: len(r.Readings) > 0,
		WidthLeast: of(r.WidthLeast, "wall-width-least"), WidthMost: of(r.WidthMost, "wall-width-most"),
		Need: of(r.Need, "need"), NeedAt: of(r.ToCrew(r.ToCap(r.NeedAt)), "need-station"),
		Inside: of(r.Inside, "inside"), Outside: of(r.Outside, "outside"), InsideLeft: of(r.InsideAt(0), "inside-left"),
		Played: len(r.Play) > 0, PlayLeast: of(r.PlayLeast, "play-least"), PlayMost: of(r.PlayMost, "play-most"),
		PackLeast: of(r.PackLeast, "packing-least"), PackMost: of(r.PackMost, "packing-most"),
		Rise:    of(r.SetRight-r.SetLeft, "set-surface-rise"),
		Incline: max(r.Incline(), -r.Incline()), Inclined: Named(FactOfRun(r), "incline"),
		Cross: r.Perimeter.Cross, Crossed: Named("perimeter "+r.Perimeter.Job.Name, "set-surface-cross-slope"),
	}
	for i, t := range r.Tapers {
		k := fmt.Sprintf("taper-%d-", i+1)
		p.Tapers = append(p.Tapers, plan.LineTaper{From: of(r.ToCrew(t.From), k+"from"), To: of(r.ToCrew(t.To), k+"to"),
			Left: of(t.Left, k+"left"), Right: of(t.Right, k+"right")})
	}
	for _, q := range l.Perimeters {
		if q.Perimeter != r.Perimeter {
			continue
		}
		if g := q.Governs(); g != nil && g.Name != r.Name && g.Need > r.Need {
			p.Governs = g.Name
			p.GovernsNeed = plan.Value{Real: g.Need, Fact: Named(FactOfRun(g), "need")}
		}
	}
	return p
}

// pinchOf is where a run's cap is tightest, of places alike the first that needs the
// most.
func pinchOf(s *job.System, r *Run) plan.Pinch {
	if len(r.Readings) == 0 {
		return plan.Pinch{}
	}
	of := func(v length.Length, what string) plan.Value {
		return plan.Value{Real: v, Fact: Named(FactOfRun(r), what)}
	}
	front := r.NeedAt
	for i, q := range r.Readings {
		if i < len(r.Play) && r.Play[i] < r.PlayAt(s, r.ToCap(front)) {
			front = q.Station
		}
	}
	at := r.ToCap(front)
	p := plan.Pinch{
		Here: true, On: plan.Pt{X: at, Y: r.FaceAt(s, at).Street}, Station: of(r.ToCrew(at), "pinch-station"),
		Need: r.At(front).Need, Play: of(r.PlayAt(s, at), "pinch-play"),
		StringToWall: of(r.StringToWall(s, at), "pinch-string-to-wall"),
	}
	if front == r.NeedAt {
		p.Station.Fact = Named(FactOfRun(r), "need-station")
	}
	return p
}

// toWall are the distances that a string is checked by.
func toWall(s *job.System, r *Run) plan.ToWall {
	n := len(r.Readings)
	if n == 0 {
		return plan.ToWall{}
	}
	at := func(front length.Length, what string) plan.Value {
		return plan.Value{Real: r.StringToWall(s, r.ToCap(front)), Fact: Named(FactOfRun(r), what)}
	}
	return plan.ToWall{
		Here: true, Left: at(r.Readings[0].Station, "string-to-wall-left"), Right: at(r.Readings[n-1].Station,
			"string-to-wall-right"),
		Most:   at(r.Line.GapMostAt, "string-to-wall-most"),
		MostAt: plan.Value{Real: r.ToCrew(r.ToCap(r.Line.GapMostAt)), Fact: Named(FactOfRun(r), "gap-most-station")},
	}
}

// notesOf is what the surveyor saw and wrote along a run.
func notesOf(r *Run) []plan.Note {
	var out []plan.Note
	for i, q := range r.Readings {
		if q.Job == nil || len(q.Job.Conditions) == 0 && q.Job.Note == "" {
			continue
		}
		of, at := FactOfReading(r, i), r.ToCap(q.Station)
		n := plan.Note{At: at, Station: plan.Value{Real: r.ToCrew(at), Fact: Named(of, "station")}, Words: q.Job.Note}
		if n.Words != "" {
			n.Fact = Named(of, "note")
		}
		for _, c := range q.Job.Conditions {
			n.Conditions = append(n.Conditions, string(c))
		}
		out = append(out, n)
	}
	return out
}
