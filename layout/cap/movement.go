package cap

import (
	"copingset/layout/job"
	"copingset/layout/length"
)

// Movement is what the job's joint lets the metal do. All temperatures are of
// the metal, not of the air.
type Movement struct {
	PerTen  length.Length // change of the gap for 10 degrees C of the metal, at a stock length on each side
	Seal    length.Length // widest gap the splice plate seals
	Longest length.Length // longest mean of two neighbours, each fixed at its middle, that the joint takes
	ByHeat  bool          // what limits it: true, the gap would close; false, the seal would be passed
	Longer  length.Length // longest mean that the system can make
	Fits    bool          // Longer is no longer than Longest
	// A crew that sets the nominal gap whatever the temperature: below Under a
	// joint of two stock lengths gets less than the least gap at the hottest,
	// below Closes it closes.
	Under, Closes job.Temperature
	Small, Shut   bool // the job's metal gets colder than Under, than Closes
}

// MovementOf works it out for a system.
func MovementOf(s *job.System) Movement {
	j := s.Joint
	m := Movement{
		PerTen: Growth(s, s.Stock, 10_000),
		Seal:   s.Splice.Length - 2*s.Splice.Bearing,
		// A corner is fixed at its miter: its leg and half a stock length beside it.
		Longer: length.Max(s.Stock, s.Corner.LongestLeg+s.Stock/2),
	}
	// A length that no building has, where nothing moves.
	const endless = 1000 * length.Metre
	reach := func(room length.Length, dt job.Temperature) length.Length {
		one := s.Metal.Expansion * int64(dt)
		if one <= 0 {
			return endless
		}
		return length.Min(endless, length.MulDiv(length.Max(0, room), 1_000_000_000_000, one))
	}
	hot, cold := reach(j.Gap-j.LeastGap, j.Hottest-j.Reference), reach(m.Seal-j.Gap, j.Reference-j.Coldest)
	m.Longest, m.ByHeat = cold, false
	if hot <= cold {
		m.Longest, m.ByHeat = hot, true
	}
	m.Fits = m.Longer <= m.Longest
	m.Under, m.Closes = FlatRule(s, j.Gap, s.Stock)
	m.Small, m.Shut = j.Coldest < m.Under, j.Coldest < m.Closes
	return m
}

// FlatRule is the metal temperature below which a joint set to one gap
// whatever the temperature gets less than the least gap at the hottest, and
// that below which it closes: Thot - gap / (alpha L).
func FlatRule(s *job.System, gap, meanLength length.Length) (under, closes job.Temperature) {
	perDegree := Growth(s, meanLength, 1000)
	if perDegree <= 0 {
		return s.Joint.Coldest, s.Joint.Coldest
	}
	below := func(room length.Length) job.Temperature {
		return s.Joint.Hottest - job.Temperature(length.MulDiv(room, 1000, int64(perDegree)))
	}
	return below(gap - s.Joint.LeastGap), below(gap)
}
