package job

import "copingset/layout/length"

// Instructions are what a crew asks for and the fabricator's and the contractor's own
// papers answer. What is left out the sheets say is not stated, with what to do until
// somebody states it; nothing is taken for it.
type Instructions struct {
	Fabricator, Contractor string        // the papers they are from
	TapeLeast              *Temperature  // of the metal that sealant tape is laid on; nil: not stated
	MembraneLeast          *Temperature  // of the wall top and the air
	MembraneSlack          length.Length // of the loop into a building expansion joint; zero: not stated
	PlateSealant           string        // on the legs of a splice plate
	WallEnd                string        // how the flange at a higher wall is sealed
	LastGap                string        // what is done where the last gap comes out wrong
	Driving                string        // how far screws are driven, and what is done with one that spins
	Holes                  string        // how holes in masonry and concrete are cleaned
	Night                  string        // what is done with what is not finished at the end of a shift
	Rain                   string        // and when rain comes
}

// ShimStuff is what shims are made of, and their size in plan.
type ShimStuff struct {
	Material      string
	Length, Width length.Length // along the wall and across it
}

// Stated reports whether the job says what its shims are.
func (s ShimStuff) Stated() bool { return s.Material != "" }

func (i *Instructions) keys(k keys) {
	k.when(!k.given("contractor"), "no paper of the contractor is named").or("name the paper of one of the two").
		text("fabricator", &i.Fabricator, "the fabricator's paper that they are from", "installation instruction IN-8")
	k = k.may()
	k.text("contractor", &i.Contractor, "the contractor's paper that they are from", "work rules WR-2")
	i.TapeLeast = k.mayTemperature("tape_least", "the least temperature of the metal that sealant tape is laid on",
		"45 F")
	i.MembraneLeast = k.mayTemperature("membrane_least",
		"the least temperature of the wall top and the air that the membrane is laid at", "40 F")
	k.length("membrane_slack", &i.MembraneSlack,
		"how deep the membrane hangs into a building expansion joint in a loop", `1 1/2"`)
	k.text("plate_sealant", &i.PlateSealant, "what seals the legs of a splice plate, and where",
		"a bead along the middle of each leg")
	k.text("wall_end", &i.WallEnd, "how the flange at a higher wall is sealed, and by whom",
		"counterflashing by others, a bead behind it")
	k.text("last_gap", &i.LastGap, "what the crew does where the last gap of a run comes out wrong",
		"stop, measure the last two pieces, call the shop")
	k.text("driving", &i.Driving, "how far screws are driven, and what is done with one that spins",
		"until the washer just turns no more")
	k.text("holes", &i.Holes, "how holes in masonry and concrete are cleaned, from the anchor's report",
		"vacuum, brush, vacuum")
	k.text("night", &i.Night, "what is done at the end of a shift with what is not finished",
		"every cap hooked is snapped, bundles banded")
	k.text("rain", &i.Rain, "what is done when rain comes", "open wall tops covered and weighted")
}

// mayTemperature declares a temperature that may be left out.
func (k keys) mayTemperature(name, means, example string) *Temperature {
	var t Temperature
	k.temperature(name, &t, means, example)
	if !k.has(name) {
		return nil
	}
	return &t
}

func (s *ShimStuff) keys(k keys) {
	k.text("material", &s.Material, "what the shims are made of", "high-density plastic")
	k.length("length", &s.Length, "their length along the wall", `4"`)
	k.length("width", &s.Width, "their width across the wall", `2"`)
}
