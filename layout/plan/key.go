package plan

import (
	"slices"
	"strings"

	"copingset/layout/length"
)

// KeyPlan is every perimeter of a job from above, to find the way by.
type KeyPlan struct {
	Metric     bool         // lengths are lettered in millimetres
	North      int          // where north is on paper, in tenths of a degree counter-clockwise from the right
	CornerZone Value        // how far the corner zone of wind pressure reaches
	CornerTurn length.Angle // least outside turn that begins a corner zone; 0: every one
	Begun      string       // the name of the fact that this is
	Perimeters []KeyPerimeter
}

// Only is the plan of one of its perimeters.
func (k KeyPlan) Only(perimeter int) KeyPlan {
	k.Perimeters = k.Perimeters[perimeter : perimeter+1]
	return k
}

// OfGroup is the plan of the perimeters of a group.
func (k KeyPlan) OfGroup(group int) KeyPlan {
	k.Perimeters = slices.DeleteFunc(slices.Clone(k.Perimeters), func(p KeyPerimeter) bool { return p.Group != group })
	return k
}

// Names are those of its perimeters.
func (k KeyPlan) Names() string {
	var out []string
	for _, p := range k.Perimeters {
		out = append(out, p.Name)
	}
	return strings.Join(out, ", ")
}

// Lying says what a perimeter encloses.
type Lying int

// How perimeters lie.
const (
	AroundRoof Lying = iota // the roof is inside
	AroundWell              // the roof is outside, and it is open below inside
	LyingOpen               // it does not close
)

// KeyPerimeter is one chain of runs. Its own frame has x along its first run's
// bearing and y a quarter turn to the right of it.
type KeyPerimeter struct {
	Name   string
	Lying  Lying
	Outer  string  // what lies outside its walls, by its code; empty: the street
	Turned float64 // degrees clockwise from the right that its frame lies at on paper
	Misses Value   // by which it does not close as measured; zero where a tape does not show it
	Within Check   // that against the limit of the job
	Group  int     // perimeters of one group were placed from each other
	At     Pt      // where its frame begins on paper, from that of the group's first
	Runs   []KeyRun
	Count  string   // the name of the fact that the number of its runs is
	Tees   []KeyTee // in which its own runs end at others, in station order
}

// Closed says that the last run meets the first.
func (p KeyPerimeter) Closed() bool { return p.Lying != LyingOpen }

// KeyRun is a run in plan. The left end comes first wherever there are two.
type KeyRun struct {
	Name       string
	From, To   Pt               // its wall line, adjusted so that the plan closes
	Front      Value            // its wall line as measured
	Slopes     bool             // its top slopes: Front is taped along it, and is longer than in plan
	Wide       length.Length    // thickness of the wall
	Beyond     [2]length.Length // cap line beyond the ends of the wall line, in plan; negative: short of it
	Out        [2]length.Length // cap line out from the wall line, at its ends
	Unmeasured string           // why it has still to be measured; empty: it has been
	Held       bool             // something on it is on hold
	Zones      []KeyZone
	Joints     []KeyJoint
	Ends       [2]KeyEnd
}

// KeyZone is a stretch of a zone of wind pressure.
type KeyZone struct {
	From, To length.Length // stations of the wall line
	Corner   bool          // else the edge zone
}

// KeyJoint is a joint of the caps.
type KeyJoint struct {
	At        length.Length // station of the wall line
	Expansion bool          // over a building expansion joint
	Kink      bool          // takes up a small turn
}

// KeyEndKind is how a run ends.
type KeyEndKind int

// The ends of a run.
const (
	KeyFree     KeyEndKind = iota // free
	KeyCorners                    // at a corner
	KeyDies                       // against a higher wall
	KeyStepUp                     // where the wall top steps up beyond
	KeyStepDown                   // where it steps down
	KeyMeets                      // at the roof side of another perimeter's run
)

// KeyEnd is one end of a run.
type KeyEnd struct {
	Kind   KeyEndKind
	Corner KeyCorner // of KeyCorners
}

// TurnKind is what a corner does.
type TurnKind int

// The kinds. At a peak and a valley the wall goes straight on and its slope changes.
const (
	OutsideCorner TurnKind = iota // turns right, towards the roof
	InsideCorner                  // turns left, away from it
	PeakBreak
	ValleyBreak
)

// KeyTurn is what a corner does, with both its angles: a bare number is read
// either way and makes a wrong corner.
type KeyTurn struct {
	Kind     TurnKind
	Turn     length.Angle // from the straight line, without its sign; at a break by how much the slope changes
	Included length.Angle // nothing at a break
	Turned   string       // the name of the fact that the turn is, or the change of slope
	Opened   string       // and of that the included angle is
}

// KeyCorner is a corner of the wall.
type KeyCorner struct {
	Name     string
	Outside  bool   // it turns to the roof
	Absorbed bool   // a joint takes its turn up
	Leaves   string // the run after it
	KeyTurn
}

// KeyTee is a run that meets the roof side of another perimeter's.
type KeyTee struct {
	Run             string        // the branch
	Starts          bool          // by its left end
	Perimeter, Main string        // what it meets
	At              length.Length // station of the main's wall line at which the branch's ends
	Taped           Value         // the station as the job has it
	Face            string        // what of the branch that is taped to: left, right or center
}

// KeySpot is what a small key plan points out: runs of one perimeter, or one of
// its corners.
type KeySpot struct {
	Perimeter string
	Runs      []string // drawn thick
	Corner    string   // ringed; empty: none
	Name      string   // lettered beside it
	Words     string   // for those who cannot see it
}

// On says that a run is pointed out.
func (s KeySpot) On(run string) bool { return slices.Contains(s.Runs, run) }
