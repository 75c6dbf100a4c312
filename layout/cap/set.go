package cap

import "copingset/layout/length"

// set are the joints of a run that stand already, from the run's cap origin: a chair is
// screwed down or a cap is laid there, so that the pieces between them stay as they were.
func (b *builder) set(r *Run) []length.Length {
	var out []length.Length
	for _, at := range b.job.SetJoints(r.Perimeter.Job.Name, r.Name) {
		out = append(out, at+r.Datum)
	}
	return out
}

// kept lays out a stretch between two legs round the joints that are set: what lies
// between them is as it was, and what lies beyond is divided anew. ok is false where none
// is set in it, or where what is set leaves no room for a piece.
func (s section) kept(k stock, from, stretch length.Length) (pieces []length.Length, ok bool) {
	at, to := from, from+stretch
	add := func(end length.Length) bool {
		switch l := end - at; {
		case l < k.least:
			return false
		case l <= k.most:
			pieces = append(pieces, l)
		default:
			p, fits := divide(l, k, shifted(s.blocked, at))
			if !fits {
				return false
			}
			pieces = append(pieces, p...)
		}
		return true
	}
	for _, c := range s.set {
		if c-k.gap/2 < from+k.least || c+k.gap/2 > to-k.least { // the joint of a leg
			continue
		}
		if !add(c - k.gap/2) {
			return nil, false
		}
		at = c - k.gap/2 + k.gap
		ok = true
	}
	return pieces, ok && add(to)
}
