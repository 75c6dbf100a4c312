package job

import (
	"strings"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// EndKind is how a run ends.
type EndKind int

// The ways a run can end.
const (
	EndTurn  EndKind = iota // turns into the next run
	EndFree                 // free end with an end cap
	EndWall                 // dies into a higher wall
	EndStep                 // goes straight on into the next run, whose top is higher or lower
	EndPitch                // goes straight on into the next run, whose top has another slope
	EndTee                  // meets the roof side of another perimeter's run
)

// Tee is where the wall of an open perimeter, the branch, ends at the roof side
// of another perimeter's run, the main, square to it.
type Tee struct {
	Perimeter, Run string        // the main
	At             length.Length // station on the main as its survey is taped
	Of             TeeFace       // what of the branch wall stands there
}

// TeeFace is a face of a branch wall, as named by a person on the roof looking
// out over the main wall, or its centre.
type TeeFace int

// What a tee's station can be taped to.
const (
	TeeLeft TeeFace = iota
	TeeRight
	TeeCentre
)

// Pitch is how a wall top changes its slope at a break.
type Pitch int

// The two breaks.
const (
	NoPitch Pitch = iota
	Peak          // the tops fall away from it, or fall more beyond than before
	Valley        // the tops rise away from it, or rise more beyond than before
)

func (p Pitch) String() string { return [...]string{"no break", "peak", "valley"}[p] }

// Grade limits the slope of one run's set surface along the run.
type Grade struct {
	Most Slope // zero: level
	Way  Way
}

// Way is which way a run's top may slope, in the direction of stations.
type Way int

// The three ways.
const (
	EitherWay Way = iota
	Rising
	Falling
)

func (w Way) String() string { return [...]string{"either way", "rising", "falling"}[w] }

// End is one end of a run. Turn is positive to the right (towards the roof).
type End struct {
	At    finding.Place
	Kind  EndKind
	Turn  Angle
	Step  length.Length // how much higher the next run's top is, about; negative: lower
	Pitch Pitch         // how the slope of the top changes, of EndPitch
	Tee   *Tee          // of EndTee
	Taped *Taped        // how a turn was found, if with a tape
}

func endKinds() []choice[EndKind] { return []choice[EndKind]{{"free", EndFree}, {"wall", EndWall}} }

// freeKeys declares how an open perimeter begins or ends: a word, or the run of
// another perimeter that it meets.
func (e *End) freeKeys(k keys, name, means string) {
	e.At = k.keyAt(name)
	groupOrWord(k, name, &e.Kind, endKinds(), func(k keys) {
		e.Kind, e.Tee = EndTee, new(Tee)
		e.Tee.keys(k)
	}, means, "free")
}

func (t *Tee) keys(k keys) {
	var of runRef
	value(k, "tee", &of, withUnit("value-tee", parseRunRef), "the perimeter and the run whose roof side the wall meets",
		"ROOF/N")
	t.Perimeter, t.Run = of.perimeter, of.run
	k.lengthOrZero("at", &t.At, "the station on that run, as its survey is taped", `23'-4"`)
	word(k, "of", &t.Of, []choice[TeeFace]{{"left face", TeeLeft}, {"right face", TeeRight}, {"centre", TeeCentre}},
		"what of this wall stands there, looking out over that run", "left face")
}

// keys declares how a run ends at the right: by one of five ways, of which a
// run that others follow has any but the last, and the last run of an open
// perimeter only that.
func (e *End) keys(k keys, known, open bool) {
	var given []string
	for _, name := range []string{"turn", "included", "step", "pitch", "ends"} {
		if k.given(name) {
			given = append(given, name)
		}
	}
	atEnd := open && k.last()
	none := known && len(given) == 0
	var turn, included, ends End
	var step, pitch End
	groupOrValue(k.when(none && !atEnd, "the wall turns into another run"),
		"turn", &turn.Turn, withUnit("value-angle", ParseTurn), func(k keys) {
			turn.Taped = new(Taped)
			turn.Taped.keys(k)
			turn.Turn, _ = turn.Taped.Turn()
		}, "how the wall turns at the right end, or what a tape found there", "right 90")
	value(k.elsewhere("a run follows and neither turn nor step is given"),
		"included", &included.Turn, withUnit("value-angle", ParseIncluded),
		"the included angle at the right end", "90 outside")
	value(k.elsewhere("the wall goes straight on and its top steps"),
		"step", &step.Step, withUnit("value-step", parseStep).in(metricStep),
		"how much higher or lower the next run's top is", `up 8"`)
	word(k.elsewhere("the wall goes straight on and its top changes slope"), "pitch", &pitch.Pitch,
		[]choice[Pitch]{{"peak", Peak}, {"valley", Valley}}, "how the slope changes at the right end", "peak")
	ends.freeKeys(k.when(none && atEnd, "it is the last run of an open perimeter"), "ends",
		"how the run ends: free, wall, or the run it meets as {tee: ROOF/N, at: 23'-4\", of: left face}")
	step.Kind, pitch.Kind = EndStep, EndPitch
	if len(given) != 1 {
		if len(given) > 1 {
			k.both(given[1], given[0], "keep one of them",
				"%s: `%s` and `%s` both say how the run ends", k.label, given[0], given[1])
		}
		return
	}
	*e = map[string]End{"turn": turn, "included": included, "step": step, "pitch": pitch, "ends": ends}[given[0]]
	e.At = k.keyAt(given[0])
	switch {
	case given[0] == "ends" && known && !atEnd:
		mend := "write how the wall turns into the next run, for example `turn: right 90`"
		if !open {
			mend += ", or make the perimeter `kind: open`"
		}
		k.errorf("end-early", e.At, mend, "%s: only the last run of an open perimeter ends", k.label)
	case given[0] != "ends" && atEnd:
		k.errorf("end-turn", e.At, "write `ends: free`, `ends: wall`, or the run that it meets",
			"%s: the last run of an open perimeter has no run to turn into", k.label)
	}
}

// parseStep reads a step in the wall top: up 8" or down 8".
func parseStep(s string) (length.Length, error) {
	const mend = "write how much higher or lower the next run's top is, like up 8\" or down 200 mm"
	way, rest, _ := strings.Cut(strings.TrimSpace(s), " ")
	up, err := pick(way, "value-step", []choice[bool]{{"up", true}, {"down", false}})
	if err != nil {
		return 0, wrong("value-step", mend, "%s is no step of a wall top", show(s))
	}
	l, err := lengths(positive).parse(strings.TrimSpace(rest))
	if err != nil {
		return 0, wrong("value-step", mend, "%s is no step of a wall top", show(s))
	}
	if !up {
		l = -l
	}
	return l, nil
}

// parseGrade reads the grade of a run: level, or a slope that it may not pass,
// after rising or falling where it may go one way alone.
func parseGrade(s string) (Grade, error) {
	const mend = "write level, or the slope it may not pass, like 1/4\" in 12\" or rising 4\" in 12\""
	s = strings.TrimSpace(s)
	if strings.EqualFold(s, "level") {
		return Grade{}, nil
	}
	var g Grade
	if way, rest, two := strings.Cut(s, " "); two {
		switch strings.ToLower(way) {
		case "rising":
			g.Way, s = Rising, rest
		case "falling":
			g.Way, s = Falling, rest
		}
	}
	most, err := ParseSlope(s)
	if err != nil || most <= 0 {
		return Grade{}, wrong("value-slope", mend, "%s is no grade of a wall top", show(s))
	}
	g.Most = most
	return g, nil
}
