package job

import (
	"fmt"
	"slices"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// check compares values with each other as far as the form goes: whether the
// numbers of the system can be meant together, whether names lead somewhere,
// whether the survey lies on its runs. Whether the wall closes and the pieces
// fit is for later rooms.
func (d *decoder) check(j *Job) {
	d.checkWidths(&j.System)
	d.checkTransition(&j.System)
	d.checkTwoWidths(&j.System)
	d.checkPieces(j)
	d.checkLegs(j)
	d.checkTemperatures(j)
	d.checkSupports(&j.System)
	d.checkPacking(j)
	d.checkFasteners(j)
	d.checkAssemblies(j)
	d.checkStanding(j)
	d.checkWind(j)
	d.checkWood(j)
	d.checkCrating(j)
	d.checkLabels(j)
	d.checkNames(j)
	d.checkReferences(j)
	d.checkEnds(j)
	d.checkTees(j)
	d.checkLies(j)
	d.checkRuns(j)
	d.checkWalls(j)
	d.checkTaped(j)
	d.checkRanges(j)
	d.checkParts(j)
	d.checkSlips(j)
}

// checkCrating asks whether a crate may weigh what it weighs empty.
func (d *decoder) checkCrating(j *Job) {
	const tare, most = "crating.tare", "crating.weight_most"
	if c := &j.Crating; d.has(tare, most) && c.Tare >= c.WeightMost {
		d.conflict("crate-tare", d.places[tare], d.places[most], "check the two",
			"%s leaves nothing of %s for what goes into the crate", d.name(tare), d.name(most))
	}
}

// atMost reports a value that is greater than another allows, at its place and
// with the other's.
func (d *decoder) atMost(less string, l length.Length, more string, m length.Length, why string) {
	if d.has(less, more) && l > m {
		d.conflict("lengths-conflict", d.places[less], d.places[more], "check the two",
			"%s, %s, is more than %s, %s: %s",
			d.name(less), Both(l), d.name(more), Both(m), why)
	}
}

// name is how messages name a path: the list positions count from one.
func (d *decoder) name(path string) string {
	return strings.NewReplacer("[", " ", "].", ": ", "]", "").Replace(countFromOne(path))
}

func countFromOne(path string) string {
	var b strings.Builder
	for {
		open := strings.IndexByte(path, '[')
		shut := strings.IndexByte(path, ']')
		if open < 0 || shut < open {
			return b.String() + path
		}
		n := 0
		for _, c := range path[open+1 : shut] {
			n = n*10 + int(c-'0')
		}
		fmt.Fprintf(&b, "%s[%d]", path[:open], n+1)
		path = path[shut+1:]
	}
}

func (d *decoder) checkWidths(s *System) {
	const at = "system.inside_width."
	w := s.Widths
	d.atMost(at+"least", w.Least, at+"most", w.Most, "the least width is the lesser")
	if !slices.IsSorted(w.Offered) || len(slices.Compact(slices.Clone(w.Offered))) != len(w.Offered) {
		d.errorf("list-order", d.places[at+"offered"], "list each width once, the narrowest first",
			"%soffered is not ascending", at)
	}
	const play = "system.rear_play."
	d.atMost(play+"least", s.PlayLeast, play+"most", s.PlayMost, "the least play is the lesser")
	d.atMost("system.clearance.rear", s.RearClearance, play+"most", s.PlayMost,
		"no wall could be capped, since the clearance is part of the play")
	step, stepAt := w.Step, at+"step"
	if d.has(at+"offered") && slices.IsSorted(w.Offered) {
		stepAt = at + "offered"
		for i := 1; i < len(w.Offered); i++ {
			step = max(step, w.Offered[i]-w.Offered[i-1])
		}
	}
	if d.has(play+"most", stepAt, "system.clearance.rear") && s.RearClearance <= s.PlayMost &&
		s.RearClearance+step > s.PlayMost {
		d.notef("play-step", d.places[play+"most"], "check the play, the rear clearance and the widths offered",
			"the rear clearance and one step of width together, %s, are more than the greatest rear play, %s: some "+
				"walls fall between two widths",
			Both(s.RearClearance+step), Both(s.PlayMost))
	}
}

// checkTransition looks at the piece that joins two widths: it is cut from the
// stock, its legs carry splice plates and leave something to taper, and two of
// its chairs have room.
func (d *decoder) checkTransition(s *System) {
	const at = "system.transition."
	t := s.Transition
	d.atMost(at+"length", t.Length, "system.stock", s.Stock, "the shop could not make it")
	leg, long := at+"leg", at+"length"
	if chair := "system.chair.length"; d.has(long, chair, "system.joint.gap") && t.Length+s.Joint.Gap < s.Chair.Length {
		d.conflict("chairs-overlap", d.places[long], d.places[chair], "lengthen the transition piece",
			"the transition piece and its joint, %s, are shorter than a chair, %s, so the chairs at its two ends "+
				"would overlap",
			Both(t.Length+s.Joint.Gap), Both(s.Chair.Length))
	}
	if d.has(leg, long) && 2*t.Leg >= t.Length {
		d.conflict("lengths-conflict", d.places[leg], d.places[long], "shorten the legs or lengthen the piece",
			"the two legs of a transition, %s, leave nothing of its length, %s, to taper", Both(2*t.Leg),
			Both(t.Length))
	}
	least := (s.Splice.Length - s.Joint.Gap) / 2
	if plate := "system.splice.length"; d.has(leg, plate, "system.joint.gap") && t.Leg < least {
		d.conflict("lengths-conflict", d.places[leg], d.places[plate], "lengthen the leg past the splice plate",
			"the leg of a transition, %s, is shorter than the splice plate reaches under it, %s", Both(t.Leg),
			Both(least))
	}
}

// checkTwoWidths looks at the least slope of a corner's wider leg: the profile's
// own is the most there is to share out.
func (d *decoder) checkTwoWidths(s *System) {
	const least, top = "system.corner.two_widths.slope_least", "system.profile.top_slope"
	if w := s.Corner.TwoWidths; w != nil && d.has(least, top) && w.SlopeLeast > s.Profile.TopSlope {
		d.conflict("slopes-conflict", d.places[least], d.places[top],
			"write the least slope the fabricator accepts of the wider leg of a corner",
			"the least slope of a wider leg is more than the top's own, and both legs of a corner rise alike: the "+
				"wider one slopes less")
	}
}

func (d *decoder) checkPieces(j *Job) {
	s := &j.System
	d.atMost("system.least_piece", s.LeastPiece, "system.stock", s.Stock, "no straight cap could be made")
	d.atMost("system.corner.short_leg", s.Corner.ShortLeg, "system.corner.leg", s.Corner.Leg,
		"it is the leg of a run too short for that one")
	d.atMost("system.corner.leg", s.Corner.Leg, "system.corner.longest_leg", s.Corner.LongestLeg,
		"no corner could be welded")
	d.atMost("system.joint.least_gap", s.Joint.LeastGap, "system.joint.gap", s.Joint.Gap,
		"the gap is already less at the reference temperature")
	d.atMost("system.profile.drip.length", s.Profile.Drip.Length, "system.profile.front_leg.length", s.FrontFoot(),
		"a drip is shorter than its leg")
	d.atMost("system.profile.rear_hook.length", s.Profile.RearHook.Length, "system.profile.rear_leg.length",
		s.RearFoot(), "a hook is shorter than its leg")
	d.atMost("system.lap.front", s.Lap.Front, "system.profile.front_leg.length", s.FrontFoot(),
		"the leg could never lap so far")
	d.atMost("system.lap.rear", s.Lap.Rear, "system.profile.rear_leg.length", s.RearFoot(),
		"the leg could never lap so far")

	chair := "system.chair.length"
	if d.has("system.least_piece", "system.joint.gap", chair) && s.LeastPiece+s.Joint.Gap < s.Chair.Length {
		d.conflict("chairs-overlap", d.places["system.least_piece"], d.places[chair], "raise the least piece",
			"the least piece and its joint, %s, are shorter than a chair, %s, so the chairs at its two ends would "+
				"overlap",
			Both(s.LeastPiece+s.Joint.Gap), Both(s.Chair.Length))
	}
	for i := range j.Assemblies {
		spacing := fmt.Sprintf("assemblies[%d].chair_spacing", i)
		if d.has(spacing, chair) && j.Assemblies[i].ChairSpacing < s.Chair.Length {
			d.conflict("chairs-overlap", d.places[spacing], d.places[chair], "check the spacing against the report",
				"assembly %s: the chair spacing, %s, is less than a chair, %s, so the chairs would overlap",
				j.Assemblies[i].Name,
				Both(j.Assemblies[i].ChairSpacing), Both(s.Chair.Length))
		}
	}
	for _, e := range []struct {
		path string
		from length.Length
	}{{"system.chair.end_chair", s.Chair.EndChair}, {"system.expansion.chair_from", s.Expansion.ChairFrom}} {
		if d.has(e.path, chair) && 2*e.from < s.Chair.Length {
			d.conflict("chair-past-end", d.places[e.path], d.places[chair], "write at least half a chair",
				"%s, %s, is less than half a chair, so the chair would stand past the end", e.path, Both(e.from))
		}
	}

	plate, gap := "system.splice.length", "system.joint.gap"
	if d.has(plate, gap, "system.splice.bearing") && s.Splice.Length < s.Joint.Gap+2*s.Splice.Bearing {
		d.conflict("splice-short", d.places[plate], d.places["system.splice.bearing"],
			"lengthen the plate, or check bearing and gap",
			"the splice plate, %s, is shorter than the gap and a bearing on each side, %s",
			Both(s.Splice.Length), Both(s.Joint.Gap+2*s.Splice.Bearing))
	}
	if tape := "system.splice.tape"; d.has(tape, plate, gap) {
		switch {
		case 2*s.Splice.Tape >= s.Splice.Length:
			d.conflict("tape-off-plate", d.places[tape], d.places[plate],
				"measure it from the joint's centre line to the middle of the tape",
				"the tape, %s from the joint's centre line, lies past the end of the splice plate", Both(s.Splice.Tape))
		case 2*s.Splice.Tape <= s.Joint.Gap:
			d.conflict("tape-off-plate", d.places[tape], d.places[gap],
				"measure it from the joint's centre line to the middle of the tape",
				"the tape, %s from the joint's centre line, lies in the gap and not under a cap", Both(s.Splice.Tape))
		}
	}
}

func (d *decoder) checkTemperatures(j *Job) {
	t := &j.System.Joint
	order := func(low string, l Temperature, high string, h Temperature, same bool) {
		low, high = "system.joint."+low, "system.joint."+high
		if d.has(low, high) && (l > h || l == h && !same) {
			d.conflict("temperature-order", d.places[low], d.places[high], "check the two temperatures",
				"%s is not below %s", low, high)
		}
	}
	order("coldest", t.Coldest, "hottest", t.Hottest, false)
	order("coldest", t.Coldest, "reference_temperature", t.Reference, true)
	order("reference_temperature", t.Reference, "hottest", t.Hottest, true)

	const list = "site.metal_temperatures"
	all := j.Site.InstallMetalT
	for i := 1; i < len(all); i++ {
		if all[i] <= all[i-1] {
			d.errorf("list-order", d.places[list], "list each temperature once, the coldest first",
				"%s is not ascending", list)
			return
		}
	}
	if len(all) > 0 && d.has("system.joint.coldest", "system.joint.hottest") &&
		(all[0] < t.Coldest || all[len(all)-1] > t.Hottest) {
		d.notef("temperature-outside", d.places[list], "check the table, or the coldest and hottest of the joint",
			"%s goes beyond the coldest or the hottest that the joint is made for", list)
	}
}

func (d *decoder) checkSupports(s *System) {
	const list = "system.corner.supports"
	for i, t := range s.Corner.Supports {
		at := fmt.Sprintf("%s[%d].", list, i)
		if before := fmt.Sprintf("%s[%d].width_to", list, i-1); i > 0 && d.has(at+"width_to", before) &&
			t.WidthTo <= s.Corner.Supports[i-1].WidthTo {
			d.conflict("list-order", d.places[at+"width_to"], d.places[before], "list the narrowest first",
				"%s is not ascending by width_to", list)
		}
		for k, p := range t.At {
			if p <= 0 || p >= 1000 || k > 0 && p <= t.At[k-1] {
				d.errorf("list-order", d.places[at+"at"],
					"list each place once, between 0% and 100%, nearest the outside corner first",
					"%s: the places along the miter are not ascending between 0%% and 100%%", d.name(at+"at"))
				break
			}
		}
	}
	widest, from := s.Widths.Most, "system.inside_width.most"
	if n := len(s.Widths.Offered); n > 0 {
		widest, from = slices.Max(s.Widths.Offered), "system.inside_width.offered"
	}
	if n := len(s.Corner.Supports); n > 0 {
		last := fmt.Sprintf("%s[%d].width_to", list, n-1)
		if d.has(last, from) && s.Corner.Supports[n-1].WidthTo < widest {
			d.conflict("supports-short", d.places[last], d.places[from], "add supports for the wider caps",
				"the corner supports go up to %s, and the widest cap is %s", Both(s.Corner.Supports[n-1].WidthTo),
				Both(widest))
		}
	}
}

func (d *decoder) checkPacking(j *Job) {
	p, graded := &j.Packing, false
	for i := range j.Perimeters {
		graded = graded || j.Perimeters[i].Graded()
	}
	d.atMost("packing.least", p.Least, "packing.most", p.Most, "the least build-up is the lesser")
	d.once("packing.shims", p.Shims)
	d.atMost("packing.sheet.width", p.Sheet.Width, "packing.sheet.length", p.Sheet.Length,
		"strips are ripped along the length")
	if at := "packing.twist"; d.has(at) && p.Grade == 0 && !d.has("packing.grade") && !graded {
		d.notef("twist-unused", d.places[at], "leave it out, or state the grade",
			"%s is not used, since the set surface is level", at)
	}
}

// once checks that a sorted list of lengths has each but once.
func (d *decoder) once(path string, all []length.Length) {
	for i := 1; i < len(all); i++ {
		if all[i] == all[i-1] {
			d.errorf("list-twice", d.places[path], "list each once", "%s has %s twice", d.name(path), Both(all[i]))
			return
		}
	}
}

func (d *decoder) checkFasteners(j *Job) {
	for i := range j.Fasteners {
		f := &j.Fasteners[i]
		at := fmt.Sprintf("fasteners[%d].", i)
		d.once(at+"lengths", f.Lengths)
		d.atMost(at+"pilot.diameter", f.PilotDia, at+"diameter", f.Diameter, "the thread would not hold")
		if n := len(f.Lengths); n > 0 && d.has(at+"embedment", at+"tip") && f.Embedment+f.Tip > f.Lengths[n-1] {
			d.conflict("fastener-short", d.places[at+"embedment"], d.places[at+"lengths"],
				"check the lengths and the embedment",
				"fastener %s: the longest is shorter than its embedment and tip together, %s", f.Name,
				Both(f.Embedment+f.Tip))
		}
	}
}

func (d *decoder) checkAssemblies(j *Job) {
	fasteners := known(j.Fasteners, func(f Fastener) string { return f.Name })
	for i := range j.Assemblies {
		a := &j.Assemblies[i]
		at := fmt.Sprintf("assemblies[%d].", i)
		if d.has(at+"fastener") && !d.refers(at+"fastener", "assembly "+a.Name, "fastener", a.Fastener, fasteners) {
			continue
		}
		for k := range j.Fasteners {
			f, holds := &j.Fasteners[k], fmt.Sprintf("fasteners[%d].substrate", k)
			if f.Name == a.Fastener && d.has(at+"substrate", holds) && f.Substrate != a.Substrate {
				d.conflict("substrate-differs", d.places[at+"substrate"], d.places[holds],
					"name the material and the fastener that the report names",
					"assembly %s was tested into %s, and its fastener holds in %s", a.Name, a.Substrate, f.Substrate)
			}
		}
		metal := j.System.Metal.Name
		if d.has(at+"metal", "system.metal.name") && a.Metal != metal &&
			finding.Suggest(a.Metal, []string{metal}) != "" {
			d.notef("metal-spelling", d.places[at+"metal"],
				"if it is the same metal, write it in the same way; otherwise the assembly does not cover the job",
				"assembly %s: the metal %s is nearly the system's, %s", a.Name, show(a.Metal), show(metal))
		}
	}
}

// checkNames reports names that are given twice.
func (d *decoder) checkNames(j *Job) {
	seen := map[string]finding.Place{}
	unique := func(noun, path, name string) {
		at, ok := d.places[path]
		if !ok || name == "" {
			return
		}
		key := noun + " " + strings.ToLower(name)
		if first, twice := seen[key]; twice {
			d.conflict("name-twice", at, first, "give each a name of its own", "the name %s is given to two %s",
				show(name), noun)
			return
		}
		seen[key] = at
	}
	for i, r := range j.Info.Revisions {
		unique("revisions", fmt.Sprintf("job.revisions[%d].mark", i), r.Mark)
	}
	for i, f := range j.Fasteners {
		unique("fasteners", fmt.Sprintf("fasteners[%d].name", i), f.Name)
	}
	for i, a := range j.Assemblies {
		unique("assemblies", fmt.Sprintf("assemblies[%d].name", i), a.Name)
	}
	for i, w := range j.Walls {
		unique("walls", fmt.Sprintf("walls[%d].name", i), w.Name)
	}
	for i, p := range j.Perimeters {
		unique("perimeters", fmt.Sprintf("perimeters[%d].name", i), p.Name)
		for k, r := range p.Runs {
			unique("runs", fmt.Sprintf("perimeters[%d].runs[%d].name", i, k), r.Name)
		}
	}
}

// refers checks that a name is one of those known.
func (d *decoder) refers(path, label, noun, name string, names []string) bool {
	if slices.Contains(names, name) {
		return true
	}
	mend := "write one of " + strings.Join(names, ", ")
	if near := finding.Suggest(name, names); near != "" {
		mend = "did you mean `" + near + "`?"
	} else if len(names) == 0 {
		mend = "add it"
	}
	d.errorf("name-unknown", d.places[path], mend, "%s: the job has no %s %s", label, noun, show(name))
	return false
}

func (d *decoder) checkReferences(j *Job) {
	walls := known(j.Walls, func(w Wall) string { return w.Name })
	for i, p := range j.Perimeters {
		at := fmt.Sprintf("perimeters[%d].", i)
		if d.has(at + "wall") {
			d.refers(at+"wall", "perimeter "+p.Name, "wall", p.Wall, walls)
		}
		for k, r := range p.Runs {
			if own := fmt.Sprintf("%sruns[%d].wall", at, k); d.has(own) && r.Wall != "" {
				d.refers(own, "run "+r.Name, "wall", r.Wall, walls)
			}
		}
	}
}

// checkEnds reports rules of the system that the runs call for and the file
// does not have.
func (d *decoder) checkEnds(j *Job) {
	if d.system.n == nil {
		return
	}
	asked := map[string]bool{}
	ask := func(key string, by finding.Place, why string) {
		if asked[key] || d.system.given(key) {
			return
		}
		asked[key] = true
		if d.mode == showing {
			d.asked["system."+key] = true
			return
		}
		d.conflict("key-missing", d.system.at, by,
			d.keys.byPath["system."+key].write()+": "+strings.Join(d.keys.names("system."+key), ", "),
			"system: `%s` is missing, and %s", key, why)
	}
	for _, p := range j.Perimeters {
		ends := []End{p.Starts}
		for _, r := range p.Runs {
			ends = append(ends, r.Right)
			for _, e := range r.Expansion {
				ask("expansion", e.At, "a run has a building expansion joint")
			}
		}
		for _, e := range ends {
			switch e.Kind {
			case EndFree:
				ask("end_cap", e.At, "a run has a free end")
			case EndWall:
				ask("wall_end", e.At, "a run dies into a higher wall")
			case EndPitch:
				ask("pitch_miter", e.At, "the top of a run changes its slope")
			case EndTee:
				ask("tee", e.At, "a cross wall meets a run")
			case EndStep:
				ask("end_cap", e.At, "the coping ends above a step in the wall top")
				ask("wall_end", e.At, "the coping dies into a step in the wall top")
			}
		}
	}
}

// known are the names of parts, for references and did-you-mean.
func known[T any](all []T, name func(T) string) []string {
	var names []string
	for _, v := range all {
		if n := name(v); n != "" && !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	return names
}
