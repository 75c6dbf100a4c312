package layout

import (
	"cmp"
	"fmt"
	"slices"

	"copingset/layout/cap"
	"copingset/layout/fact"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/record"
	"copingset/layout/revise"
)

// MadeFit is a made piece with its use in this layout, as revise tells it.
type MadeFit struct {
	revise.Fit
	State string
	Rev   string
}

// AsBuilt is a chair or a joint as it stands, beside what this layout asks there.
type AsBuilt struct {
	Mark           string // as the list has it
	Run            *Run
	Chair          *Chair // nil: a joint
	Joint          *Joint // nil: a chair
	Asked, Off     length.Length
	Station        *length.Length
	GapAsked, Over length.Length // Over: how much wider the gap is
	Gap            *length.Length
	Metal          *job.Temperature
	On, By         string
	OffLine, Wide  bool // out of what the job allows
	Judged         bool // the job says what it allows
}

// progress holds what is made and set against the layout.
func (l *Layout) progress() finding.List {
	p := l.Job.Progress
	if p == nil {
		return nil
	}
	var found finding.List
	l.Finished = l.madeFits(&found)
	for i := range p.Built {
		if q, ok := l.asBuilt(&p.Built[i], &found); ok {
			l.Standing = append(l.Standing, q)
		}
	}
	return found
}

// madeFits finds the use of what is made.
func (l *Layout) madeFits(found *finding.List) []MadeFit {
	var places, made []revise.Piece
	for _, p := range l.Perimeters {
		for _, q := range p.Pieces {
			places = append(places, revise.Piece{Mark: q.Mark, Metal: l.metalOf(q)})
		}
	}
	var of []job.Made
	for _, m := range l.Job.Progress.Made {
		metal, ok := l.metalMade(m, places)
		if !ok {
			what := fmt.Sprintf("no piece was ever called %s", m.Mark)
			if m.Rev != "" {
				what = fmt.Sprintf("no piece %s was ever issued under revision %s", m.Mark, m.Rev)
			}
			found.Append(finding.New(finding.Error, "made-unknown", m.At,
				"write the mark on its label, and the revision of the drawing it was made by", "%s", what))
			continue
		}
		of = append(of, m)
		made = append(made, revise.Piece{Mark: m.Mark, Metal: metal, Laid: m.State == job.Laid})
	}
	var out []MadeFit
	for i, f := range revise.Fits(made, places) {
		out = append(out, MadeFit{Fit: f, State: of[i].State.String(), Rev: f.Metal.Rev})
		l.unfit(f, of[i], found)
	}
	return out
}

// metalMade is what was made under a mark.
func (l *Layout) metalMade(m job.Made, places []revise.Piece) (record.Metal, bool) {
	if l.Job.Issued != nil {
		return l.Job.Issued.MetalOf(m.Mark, m.Rev)
	}
	for _, p := range places {
		if p.Mark == m.Mark && m.Rev == "" {
			return p.Metal, true
		}
	}
	return record.Metal{}, false
}

// unfit says of a made piece that its own place does not want it any more.
func (l *Layout) unfit(f revise.Fit, m job.Made, found *finding.List) {
	what := fmt.Sprintf("%s is %s as it was issued, and its place wants another piece now", f.Mark, m.State)
	sev, code, mend := finding.Note, "made-other", ""
	switch f.Use {
	case revise.Here:
		return
	case revise.There:
		mend = "lay it as " + f.At + ", under a label of that mark"
	case revise.CutDown:
		mend = "cut " + job.Both(f.Off) + " off and lay it as " + f.At + ", under a label of that mark"
	case revise.Moved:
		sev, code = finding.Hold, "laid-other"
		what = fmt.Sprintf("%s is laid as it was issued, and this layout wants another piece there", f.Mark)
		mend = "leave it, and lay the run out round it: list its joints under `progress: as_built:`"
	case revise.Scrapped:
		mend = "it has no use here; keep it for another job"
		switch {
		case f.At == f.Mark && f.Off == 0:
			mend = "its lengths are still right: hold it against the new drawing of its place before another is made"
		case f.At != "" && f.Off < 0:
			mend = "it has no use here: for " + f.At + ", the nearest, it is " + job.Both(-f.Off) + " short"
		}
	}
	q := finding.New(sev, code, m.At, mend, "%s", what)
	q.Where = finding.Ref{Pieces: []string{f.Mark}}
	found.Append(q)
}

// asBuilt finds what a row of the list is of, and holds it against the layout.
func (l *Layout) asBuilt(b *job.Built, found *finding.List) (AsBuilt, bool) {
	out := AsBuilt{Mark: b.Mark, Station: b.Station, Gap: b.Gap, Metal: b.Metal, By: b.By}
	if b.On != nil {
		out.On = date(*b.On)
	}
	if !l.find(&out) {
		found.Append(finding.New(finding.Error, "built-unknown", b.At,
			"write the mark of a chair, like N-C7, or of a joint, like N-J3", "no chair and no joint is called %s",
			b.Mark))
		return out, false
	}
	r := out.Run
	if at := b.Station; at != nil {
		if *at < r.ToCrew(0) || *at > r.ToCrew(r.Cap) {
			f := finding.New(finding.Error, "built-beyond", b.At,
				"read it again; stations count from the mark of the run",
				"%s is said to stand at %s, which is beyond run %s: it ends at %s", b.Mark, job.Both(*at), r.Name,
				job.Both(r.ToCrew(r.Cap)))
			found.Append(f)
			return out, false
		}
		out.Off = *at - out.Asked
	}
	l.judgeBuilt(&out, b, found)
	return out, true
}

// find is the chair or the joint of a mark: of one that was issued the one that stands
// nearest to where it was, on the same run, else the one of that mark.
func (l *Layout) find(out *AsBuilt) bool {
	name, issued, joint, at := "", false, false, length.Length(0)
	if last := l.Job.Issued; last != nil {
		var f fact.Fact
		f, issued = last.Facts.Get(out.Mark, "station")
		at, name, joint = f.Length(), last.Facts.Value(out.Mark, "run"), last.Facts.Value(out.Mark, "gap") != ""
	}
	found, least := false, length.Length(0)
	for _, r := range l.Runs() {
		for _, q := range InOrder(r) {
			miss := length.Abs(r.ToCrew(q.At) - at)
			switch {
			case !issued && q.Name != out.Mark:
				continue
			case issued && (FactOfRun(r) != name || joint != (q.Joint != nil) || found && miss >= least):
				continue
			}
			found, least = true, miss
			out.Run, out.Chair, out.Joint, out.Asked = r, q.Chair, q.Joint, r.ToCrew(q.At)
		}
	}
	return found
}

// judgeBuilt compares with what the job allows; where it allows nothing in figures,
// nobody judges.
func (l *Layout) judgeBuilt(out *AsBuilt, b *job.Built, found *finding.List) {
	p := l.Job.Progress
	out.Judged = (b.Station == nil || p.ChairPlay > 0) && (b.Gap == nil || p.GapPlay > 0)
	if out.Joint != nil && b.Gap != nil {
		out.GapAsked = out.Joint.Gap()
		if b.Metal != nil && out.Joint.Kind != cap.Expansion {
			out.GapAsked = cap.GapAt(&l.Job.System, out.Joint.Mean(), *b.Metal)
		}
		out.Over = *b.Gap - out.GapAsked
		if out.Wide = p.GapPlay > 0 && length.Abs(out.Over) > p.GapPlay; out.Wide {
			f := finding.New(finding.Note, "built-gap", b.At, "set it again, or have the fabricator accept it",
				"the gap of %s is %s, and %s was to be set", b.Mark, job.Both(*b.Gap), job.Both(out.GapAsked))
			f.Where = finding.Ref{Perimeter: out.Run.Perimeter.Job.Name, Run: out.Run.Name}
			found.Append(f)
		}
	}
	if out.OffLine = b.Station != nil && p.ChairPlay > 0 && length.Abs(out.Off) > p.ChairPlay; !out.OffLine {
		return
	}
	f := finding.New(finding.Hold, "built-off", b.At, "move it, or have the fabricator accept it where it stands",
		"%s stands at %s, and this layout wants it at %s", b.Mark, job.Both(*b.Station), job.Both(out.Asked))
	f.Why = "no more than " + job.Both(p.ChairPlay) + " is allowed"
	f.Where = finding.Ref{Perimeter: out.Run.Perimeter.Job.Name, Run: out.Run.Name, Pieces: out.over()}
	found.Append(f)
}

// over are the pieces that lie over it.
func (a *AsBuilt) over() []string {
	var out []string
	add := func(q *Piece) {
		if q != nil {
			out = append(out, q.Mark)
		}
	}
	switch {
	case a.Joint != nil:
		add(a.Joint.Left)
		add(a.Joint.Right)
	case a.Chair.Joint != nil:
		add(a.Chair.Joint.Left)
		add(a.Chair.Joint.Right)
	default:
		add(a.Chair.Piece)
	}
	return out
}

// Spot is a chair or a joint of a run, in the order in which the crew reads them.
type Spot struct {
	Name  string
	At    length.Length // on the cap line
	Chair *Chair
	Joint *Joint
}

// InOrder are the chairs and joints of a run from left to right, a joint before the chair
// under it.
func InOrder(r *Run) []Spot {
	var out []Spot
	for _, q := range r.Joints {
		out = append(out, Spot{Name: q.Name, At: q.Centre(), Joint: q})
	}
	for _, c := range r.Chairs {
		out = append(out, Spot{Name: c.Name, At: c.At, Chair: c})
	}
	slices.SortStableFunc(out, func(a, b Spot) int { return cmp.Compare(a.At, b.At) })
	return out
}

// Report counts what is reported of what there is.
type Report struct {
	Chairs, AllChairs, Joints, AllJoints int
	Made, Laid, AllPieces                int
	Greatest                             length.Length // departure from a station
	GreatestAt                           string
}

// Reported counts what the lists of what is made and set say.
func (l *Layout) Reported() Report {
	var out Report
	for _, p := range l.Perimeters {
		out.AllPieces += len(p.Pieces)
		for _, r := range p.Runs {
			out.AllChairs += len(r.Chairs)
			out.AllJoints += len(r.Joints)
		}
	}
	for _, m := range l.Finished {
		out.Made++
		if m.Laid {
			out.Laid++
		}
	}
	for i := range l.Standing {
		q := &l.Standing[i]
		if q.Chair != nil {
			out.Chairs++
		} else {
			out.Joints++
		}
		if by := length.Abs(q.Off); by > out.Greatest {
			out.Greatest, out.GreatestAt = by, q.Mark
		}
	}
	return out
}
