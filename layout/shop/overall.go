package shop

import (
	"math"

	"copingset/layout/job"
	"copingset/layout/length"
)

// Overall is how far the lowest metal of the front and of the rear of a cap hangs
// below the mold line of its fold, whatever its legs are measured to: kicks, hems and
// the thickness of the metal with it. It is not ok of a body that is no one section.
//
// source: Ro and flats of the section as it lies; by hand a leg L that ends in a kick
// f of a turn under 90 degrees with a closed hem hangs L + (f - T) cos(turn) +
// T sin(turn) + T, L and f on the face that lies inside the bend.
func (b Body) Overall() (front, rear length.Length, ok bool) {
	if b.Metal == nil {
		return 0, 0, false
	}
	p := b.Metal.Path
	l := p.Lay()
	from, to := l.Span(p.Root)
	fall := p.Slope / math.Hypot(1, p.Slope) * p.Stated(p.Root)
	low, lowRear := 0.0, math.Inf(1)
	for _, s := range l.Places(0.001) {
		f, k := l.Skins(s)
		z := math.Min(f.Y, k.Y)
		switch {
		case s < from:
			low = math.Min(low, z)
		case s > to:
			lowRear = math.Min(lowRear, z)
		}
	}
	if math.IsInf(lowRear, 1) {
		return 0, 0, false
	}
	return length.FromMM(-low), length.FromMM(-lowRear - fall), true
}

// Tooling is how far the order of bends was checked against the shop's machine.
type Tooling int

// No machine is stated; its limits alone; its tools' outlines too.
const (
	NoMachine Tooling = iota
	FlatsAlone
	ToolsToo
)

// ToolingOf a job's shop.
func ToolingOf(s *job.Shop) Tooling {
	switch {
	case s == nil || s.Machine == nil:
		return NoMachine
	case len(s.Machine.Punch) < 3 && len(s.Machine.Die) < 3:
		return FlatsAlone
	}
	return ToolsToo
}
