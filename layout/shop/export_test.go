package shop

// LapEnds are how far short of the outer line the legs of a lap that turns away end,
// of a sheet bent sharp with no gap: the one that lies over, and the covered one.
func LapEnds(thick, turn float64) (over, covered float64) {
	f := lapOn(thick, 0, 0, 1, turn, true)
	return -f.cover, -f.apex
}
