package shop

import (
	"math"

	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
)

// Engaged is how far a cap takes hold of its chair, across the wall and as both are
// stated: its drip under the chair's front kick, and its rear hook under the chair's
// rear. Less than nothing: so far is it from taking hold.
type Engaged struct{ Hook, Snap length.Length }

// Engagement is that of the chair of an assembly under a cap of an inside width whose
// top falls so. It is an error where either section is not stated or cannot be bent.
func Engagement(j *job.Job, of *job.Assembly, inside length.Length, slope job.Slope) (Engaged, error) {
	s := &j.System
	section, err := CapSection(j, inside+2*s.Metal.Thickness, slope)
	if err != nil {
		return Engaged{}, err
	}
	made, err := ChairSection(j, of, inside)
	if err != nil {
		return Engaged{}, err
	}
	fall := 0.0
	if s.Profile.SlopeBy == job.SlopeByPacking {
		fall = float64(slope) / 1e9
	}
	hang, chair := section.Lay(), made.Seated(cap.ChairLine(s).MM(), 0, fall).Lay()
	front, rear := edges(chair)
	var e Engaged
	// The kick cannot lie on more of the drip than there is.
	e.Hook = length.FromMM(section.T - math.Max(front, dripTip(section, hang)))
	if s.Profile.RearHook.Length > 0 {
		e.Snap = length.FromMM(rear - hookTip(section, hang))
	}
	return e, nil
}

// dripTip is how far before the cap's front fold its drip reaches out, in mm: negative,
// and nothing without a drip.
func dripTip(section fold.Path, hang fold.Laid) float64 {
	leg, _ := hang.Span(section.Root - 1)
	tip := 0.0
	for _, s := range hang.Places(chord) {
		if s >= leg {
			continue
		}
		for _, q := range both(hang.Skins(s)) {
			tip = math.Min(tip, q.X)
		}
	}
	return tip
}
