package job

import "strings"

// Key is one key of the job file: where it stands, whether a job can do
// without it, what it means and how it is written.
type Key struct {
	Path     string // system.joint.gap; [] stands for each item of a list
	Required bool
	When     string // if not always required: when it is
	Means    string // completes "write ..."
	Example  string // of the value; empty for a part with keys of its own
}

// Name is the key as it stands in the file.
func (k Key) Name() string {
	name := strings.TrimSuffix(k.Path, "[]")
	return name[strings.LastIndexByte(name, '.')+1:]
}

// Keys is every key a job file can have, in the order of the file. The decoder
// takes from it which keys it knows and which it misses, so that the messages,
// the documentation and the code cannot drift apart. Those of made parts come
// last.
func Keys() []Key {
	must := func(path, means, example string) Key {
		return Key{Path: path, Required: true, Means: means, Example: example}
	}
	may := func(path, means, example string) Key {
		return Key{Path: path, Means: means, Example: example}
	}
	when := func(path, when, means, example string) Key {
		return Key{Path: path, When: when, Means: means, Example: example}
	}
	return append([]Key{
		must("format", "the form of this file", "copingset/1"),

		must("job", "who and what the job is", ""),
		must("job.name", "the name of the building", "Heron Street Archive"),
		may("job.number", "the job number, in quotes", `"0417"`),
		may("job.address", "where the building stands", "12 Heron Street, Lowmere"),
		may("job.owner", "whose building it is", "Lowmere Town Archive"),
		may("job.parties", "those concerned with the job, a role and a name each", ""),
		must("job.parties[].role", "what the party does on the job", "Contractor"),
		must("job.parties[].name", "the party's name", "Tern and Ledge Roofing"),
		must("job.issued", "the date of issue, the only date on the sheets", "2026-03-16"),
		may("job.prepared_by", "who prepared the job", "M. Okafor-Lind"),
		may("job.checked_by", "who checked it", `""`),
		may("job.revisions", "the rows of the revision table", ""),
		must("job.revisions[].mark", "the revision's letter or number", "A"),
		must("job.revisions[].date", "the revision's date", "2026-03-16"),
		must("job.revisions[].note", "what changed", "Issued for fabrication"),
		may("job.notes", "a list of notes for the sheets", "[Deliver to the north gate]"),

		must("units", "the units the sheets are lettered in, imperial or metric", "imperial"),

		must("paper", "the paper for the drawings and for the lists", ""),
		must("paper.runs", "the paper for drawings: A, B, C, D, A4, A3 or A2", "B"),
		must("paper.lists", "the paper for lists: A, B, C, D, A4, A3 or A2", "A"),

		must("system", "the fabricator's coping system", ""),
		must("system.name", "the name of the coping system", "Brindle R5"),
		must("system.metal", "the sheet the caps are bent from", ""),
		must("system.metal.name", "the metal with its alloy and temper", "aluminum 3003-H14"),
		must("system.metal.thickness", "the thickness of the sheet", `0.050"`),
		may("system.metal.specified", "the least thickness the job's specification asks for", `0.050"`),
		must("system.metal.density", "the density in lb/in3, lb/ft3 or kg/m3", "0.099 lb/in3"),
		must("system.metal.expansion", "the thermal expansion per degree, /F, /C or /K", "12.9e-6 /F"),
		must("system.metal.finish", "the finish and its colour", "two-coat, slate grey"),
		must("system.metal.directional", "yes if the finish has a direction and blanks must not be turned, else no", "no"),
		must("system.profile", "the cross-section by outside dimensions", ""),
		must("system.profile.front_leg", "the outside height of the front leg, fold to foot", `5 1/4"`),
		must("system.profile.drip", "the drip at the foot of the front leg, with its length (0 for none) and angle", ""),
		must("system.profile.drip.length", "the length of the drip, 0 for none", `5/8"`),
		when("system.profile.drip.angle", "the drip has a length", "how far the drip turns out from the line of the leg", "35"),
		must("system.profile.top_slope", "the slope of the top, falling to the roof", `1/2" in 12"`),
		must("system.profile.slope_by", "where the slope is made, chair or packing", "chair"),
		must("system.profile.rear_leg", "the outside height of the rear leg", `3 1/8"`),
		must("system.profile.rear_hook", "the hook at the foot of the rear leg, with its length (0 for none) and angle", ""),
		must("system.profile.rear_hook.length", "the length of the hook, 0 for none", `3/8"`),
		when("system.profile.rear_hook.angle", "the hook has a length", "how far the hook turns in from the line of the leg", "150"),
		must("system.profile.hem", "the return of the hemmed edges, 0 for raw edges", `1/2"`),
		must("system.profile.inside_radius", "the inside radius of the bends", `1/16"`),
		must("system.clearance", "the least clearances from the inside of the legs to the wall", ""),
		must("system.clearance.front", "the clearance at the front", `5/16"`),
		must("system.clearance.rear", "the clearance at the rear", `1/4"`),
		must("system.rear_play", "the play the rear leg can take up", ""),
		must("system.rear_play.least", "the least rear play", `1/8"`),
		must("system.rear_play.most", "the greatest rear play", `7/8"`),
		must("system.inside_width", "the inside widths offered: least, most and step, or a list `offered`", ""),
		when("system.inside_width.offered", "least, most and step are not given", "the widths offered, ascending", `[12 1/2", 13", 13 1/2"]`),
		when("system.inside_width.least", "offered is not given", "the least inside width", `9"`),
		when("system.inside_width.most", "offered is not given", "the greatest inside width", `20"`),
		when("system.inside_width.step", "offered is not given", "the step between widths", `1/4"`),
		may("system.transition", "the piece that joins two inside widths; without it one width serves from corner to corner", ""),
		must("system.transition.length", "the length of the transition piece along the front, its two straight legs included", `4'-0"`),
		must("system.transition.leg", "the straight leg at each end of the transition piece, for the splice plate", `6"`),
		must("system.transition.change_most", "the greatest difference of its two inside widths", `2"`),
		must("system.stock", "the longest straight cap", `11'-6"`),
		must("system.least_piece", "the shortest straight cap", `2'-4"`),
		must("system.closer", "where the closer goes: left, right or shared", "right"),
		must("system.remainder", "the side that takes an odd sixteenth or millimetre: left or right", "right"),
		must("system.joint", "the joint between caps", ""),
		must("system.joint.gap", "the gap between caps at the reference temperature", `5/16"`),
		must("system.joint.reference_temperature", "the metal temperature the gap is named for", "68 F"),
		must("system.joint.coldest", "the lowest temperature of the metal", "-10 F"),
		must("system.joint.hottest", "the highest temperature of the metal", "150 F"),
		must("system.joint.least_gap", "the least gap, at the hottest", `1/16"`),
		must("system.joint.closers", "who trims the closers: shop or field", "shop"),
		when("system.joint.field_allowance", "closers are field", "the extra length of a field closer", `2"`),
		must("system.splice", "the splice plate", ""),
		must("system.splice.length", "the length of the splice plate along the run", `7"`),
		must("system.splice.bearing", "the least sealant bearing each side of the widest gap", `1 3/4"`),
		must("system.splice.tape", "the distance from the joint's centre line to the middle of each tape", `2 1/4"`),
		must("system.chair", "the anchor chair", ""),
		must("system.chair.length", "the length of the chair along the run", `13"`),
		must("system.chair.thickness", "the thickness of the chair's metal", `0.080"`),
		must("system.chair.rise", "the underside of the cap above the set surface, at its low edge", `7/8"`),
		must("system.chair.front_edge", "the distance from the inside of the front leg to the chair", `1/8"`),
		must("system.chair.rear_edge", "the distance from the inside of the rear leg to the chair", `3/8"`),
		must("system.chair.end_chair", "the distance of the end chair's centre from an end without a joint", `9"`),
		may("system.chair.metal", "the metal of the chair", "galvanized steel"),
		must("system.corner", "the rules for welded corners", ""),
		must("system.corner.leg", "the least leg of a corner", `2'-3"`),
		must("system.corner.leg_face", "the face that legs are measured on: front or rear", "front"),
		must("system.corner.longest_leg", "the longest leg the shop welds", `5'-0"`),
		must("system.corner.leg_step", "the step in which legs grow", `1/2"`),
		must("system.corner.absorb", "the turn in degrees up to which a plain joint takes it up", "1.5"),
		may("system.corner.angle_play", "how many degrees the turn of a welded corner may differ from its lines'; within them it is made to the wall's turn", "0.25"),
		must("system.corner.support", "the corner support under a miter", ""),
		must("system.corner.support.length", "the length of the corner support along the miter", `6"`),
		must("system.corner.support.width", "the width of the corner support across the miter", `4"`),
		must("system.corner.supports", "how many corner supports stand under a miter, by inside width", ""),
		must("system.corner.supports[].width_to", "the inside width up to which this holds", `14"`),
		must("system.corner.supports[].at", "the places of the supports in per cent of the miter from the outside corner", "[35%, 75%]"),
		when("system.end_cap", "a run has a free end", "the rules for free ends", ""),
		must("system.end_cap.leg", "the length of the shop-made piece from the end to its joint", `2'-0"`),
		must("system.end_cap.clearance", "the distance from the inside of the end cap to the end of the wall", `1/4"`),
		when("system.wall_end", "a run dies into a higher wall", "the rules for ends at a higher wall", ""),
		must("system.wall_end.leg", "the length of the shop-made piece from the end to its joint", `2'-0"`),
		must("system.wall_end.clearance", "the distance from the end of the cap to the higher wall", `1/8"`),
		must("system.wall_end.upstand", "the height of the flange against the higher wall", `4"`),
		when("system.expansion", "a run has a building expansion joint", "the rules at building expansion joints", ""),
		must("system.expansion.bearing", "the bearing of the cover plate on each cap at the widest gap", `2"`),
		must("system.expansion.chair_from", "the distance of the chair's centre from the end of its cap", `7"`),
		must("system.lap", "the least laps of the legs below the joint they cover", ""),
		must("system.lap.front", "the least lap of the front leg", `1 1/4"`),
		must("system.lap.rear", "the least lap of the rear leg", `1"`),

		must("packing", "what the wall top may be built up with", ""),
		must("packing.method", "continuous, chair, or recommended: the one that costs less by the rates", "continuous"),
		when("packing.above_membrane", "method is chair or recommended", "yes if the packing lies above the membrane, no if below", "no"),
		must("packing.least", "the least packing", `0"`),
		must("packing.most", "the greatest packing", `2 1/2"`),
		when("packing.layer", "method is continuous or recommended", "the plywood layer, with its name and actual thickness", ""),
		must("packing.layer.name", "the name of the plywood", "plywood nominal 3/4"),
		must("packing.layer.thickness", "the actual thickness of the plywood", `23/32"`),
		must("packing.shims", "the thicknesses of the shims", `[1/2", 1/4", 1/8", 1/16"]`),
		may("packing.grade", "the rise or fall that the set surface may have along a run; without it it is level", `1/16" in 12"`),
		when("packing.twist", "there is a grade", "the mismatch over a level corner leg that its joint takes up", `1/16"`),
		when("packing.sheet", "method is recommended", "the plywood sheet and its saw", ""),
		must("packing.sheet.width", "the width of the sheet, across its rips", `48"`),
		must("packing.sheet.length", "the length of the sheet, along its rips", `96"`),
		must("packing.sheet.kerf", "the width of the saw cut", `1/8"`),
		may("packing.nail", "what fastens the plywood layers", ""),
		must("packing.nail.name", "the generic name of the nail or screw", "ring-shank nail 2 1/2 in"),
		must("packing.nail.spacing", "the distance between them along the wall", `12"`),
		must("packing.nail.rows", "how many rows", "2"),
		when("packing.rates", "method is recommended", "the job's own rates, to compare continuous packing with packing under the chairs", ""),
		must("packing.rates.per_cut", "the time to saw one cut", "2 min"),
		must("packing.rates.per_piece", "the time to set one piece of plywood or one shim", "1.5 min"),
		must("packing.rates.per_foot", "the time to fix one foot of one plywood layer", "1 min"),
		must("packing.rates.per_hour", "the cost of an hour of labour, in the job's money", "60"),
		must("packing.rates.per_sheet", "the cost of a sheet of plywood", "48.50"),
		must("packing.rates.per_shim", "the cost of a shim", "0.20"),

		must("membrane", "the membrane over the wall top", ""),
		must("membrane.name", "the name of the membrane", "self-adhering membrane 40 mil"),
		must("membrane.thickness", "the thickness of the membrane", `0.040"`),

		must("fasteners", "the stock fasteners", ""),
		must("fasteners[].name", "the generic name of the fastener", "stainless wood screw, hex washer head"),
		must("fasteners[].diameter", "the fastener's diameter", `1/4"`),
		must("fasteners[].substrate", "the material that holds the thread: wood, plywood, masonry, concrete or steel", "wood"),
		must("fasteners[].lengths", "the stock lengths", `[2", 2 1/2", 3"]`),
		must("fasteners[].embedment", "the thread required in the holding material", `1 1/4"`),
		must("fasteners[].tip", "the length of the tip, which does not hold", `1/4"`),
		when("fasteners[].pilot", "the substrate is masonry or concrete", "the pilot hole, with its diameter (0 for none) and how far beyond the tip", ""),
		must("fasteners[].pilot.diameter", "the diameter of the pilot hole, 0 for none", `3/16"`),
		must("fasteners[].pilot.beyond", "how much deeper than the tip the pilot hole goes", `1/2"`),
		must("fasteners[].cover", "the material left below the tip", `1/4"`),
		must("fasteners[].edge_distance", "the least distance from the face of the wall", `1"`),
		must("fasteners[].box", "how many come in a box", "100"),
		may("fasteners[].kind", "what it is in wood, for a cross-check of its withdrawal: wood screw, nail or lag screw", "wood screw"),
		may("fasteners[].thread", "the length of its thread without the tip, for that cross-check; left out, the embedment asked for is taken", `1 1/2"`),
		may("fasteners[].metal", "the metal of the fastener", "stainless steel"),

		must("assemblies", "the tested assemblies", ""),
		must("assemblies[].name", "a short name for the assembly", "T1"),
		must("assemblies[].report", "the number of the test report", "LR-2208"),
		must("assemblies[].laboratory", "the laboratory", "Fennmark Test House"),
		must("assemblies[].metal", "the metal tested, as system.metal.name has it", "aluminum 3003-H14"),
		must("assemblies[].thickness_least", "the least thickness tested", `0.050"`),
		must("assemblies[].front_leg_most", "the highest front leg tested", `6"`),
		must("assemblies[].rear_leg_most", "the highest rear leg tested", `4"`),
		must("assemblies[].width_most", "the widest inside width tested", `20"`),
		must("assemblies[].chair_spacing", "the chair spacing tested", `46"`),
		must("assemblies[].substrate", "the material tested into: wood, plywood, masonry, concrete or steel", "wood"),
		must("assemblies[].fastener", "the name of one of the fasteners", "stainless wood screw, hex washer head"),
		must("assemblies[].rows", "the two rows of fasteners in a chair", ""),
		must("assemblies[].rows.front", "how many fasteners a chair has in the front row", "2"),
		must("assemblies[].rows.rear", "how many fasteners a chair has in the rear row", "2"),
		must("assemblies[].rows.front_from_edge", "the front row's distance from the chair's front edge", `1 1/2"`),
		must("assemblies[].rows.rear_from_edge", "the rear row's distance from the chair's rear edge", `1 1/2"`),
		must("assemblies[].resistance", "the resistances of the report", ""),
		must("assemblies[].resistance.up", "the upward resistance and its level: as-pulled or allowable", "88 psf as-pulled"),
		must("assemblies[].resistance.out", "the outward resistance and its level: as-pulled or allowable", "70 psf as-pulled"),
		may("assemblies[].resistance.rear", "the resistance of the rear leg towards the roof, with the top in the same test; left out, the outward one is taken for it", "88 psf as-pulled"),
		when("assemblies[].resistance.factor", "the resistances are as-pulled", "the safety factor asked of an as-pulled resistance", "2.0"),
		must("assemblies[].resistance.area", "the area the resistance refers to", "per running foot times cap width"),
		must("assemblies[].cost", "the cost of a chair with its fasteners, in the job's money", "14.50"),

		must("walls", "the wall constructions", ""),
		must("walls[].name", "a short name for the construction", "block-12"),
		must("walls[].layers", "the layers from the top down", ""),
		must("walls[].layers[].name", "the name of the layer", "nailer 2x12"),
		must("walls[].layers[].material", "its material: wood, plywood, masonry, concrete or steel", "wood"),
		must("walls[].layers[].thickness", "its thickness, from the top down", `1 1/2"`),
		may("walls[].layers[].gravity", "the specific gravity of the wood", "0.42"),
		may("walls[].layers[].service", "the moisture of the wood in service, dry or wet (above 19 per cent)", "dry"),
		may("walls[].layers[].treated", "yes if the wood is pressure-treated, else no", "no"),
		must("walls[].cover", "how far below the wall top lies the joint each leg must cover", ""),
		must("walls[].cover.front", "the depth of the joint in front", `1 1/2"`),
		must("walls[].cover.rear", "the depth of the joint at the rear", `1 1/2"`),
		must("walls[].measure_low", "yes if readings at leg depth are required (base flashing, brick, render), else no", "no"),
		may("walls[].nailer", "how the top layer is anchored to the wall", ""),
		must("walls[].nailer.anchor", "the name of the anchor", `anchor bolt 1/2"`),
		must("walls[].nailer.report", "where its allowables stand", "S-501"),
		must("walls[].nailer.allowable", "the allowable pull of one anchor", "400 lb"),
		may("walls[].nailer.shear", "the allowable shear of one anchor", "300 lb"),
		may("walls[].nailer.spacing_most", "the greatest spacing the job allows; without it the anchorage is on hold", `4'-0"`),
		may("walls[].nailer.spacing_least", "the least spacing the anchor's report allows; without it the anchorage is on hold", `6"`),

		may("pressures", "the engineer's design pressures", ""),
		must("pressures.by", "the engineer who states them", "K. Sundqvist-Abara, engineer of record"),
		must("pressures.document", "the document they stand in", "S-001 rev 2"),
		must("pressures.edition", "the edition of the load standard", "ASCE 7-16"),
		must("pressures.edge", "the pressures of the edge zone", ""),
		must("pressures.edge.up", "the upward pressure and its level: strength or allowable", "26 psf allowable"),
		must("pressures.edge.out", "the outward pressure and its level: strength or allowable", "15 psf allowable"),
		may("pressures.edge.rear", "the pressure on the rear leg towards the roof and its level: strength or allowable", "26 psf allowable"),
		must("pressures.corner", "the pressures of the corner zone", ""),
		must("pressures.corner.up", "the upward pressure and its level: strength or allowable", "38 psf allowable"),
		must("pressures.corner.out", "the outward pressure and its level: strength or allowable", "21 psf allowable"),
		may("pressures.corner.rear", "the pressure on the rear leg towards the roof and its level: strength or allowable", "38 psf allowable"),
		must("pressures.corner_length", "the length of the corner zone along the wall", `6'-0"`),

		may("slips", "when a reading is doubted against its neighbours, instead of at 1/4\" and at 4 times the run's scatter", ""),
		must("slips.least", "what stands out from the neighbours by less is not doubted", `1/4"`),
		must("slips.times", "how many times the run's own scatter a reading may stand out", "4"),

		may("wind", "what computed pressures follow from; stated pressures stand over them", ""),
		must("wind.edition", "the edition of the load standard: ASCE 7-10, ASCE 7-16 or ASCE 7-22", "ASCE 7-16"),
		must("wind.speed", "the basic wind speed of that edition's map, in mph or m/s", "115 mph"),
		may("wind.speed_from", "the map or document the speed is read from", "S-001 rev 2"),
		may("wind.risk", "the risk category whose map the speed is read from: I, II, III or IV", "II"),
		must("wind.exposure", "the exposure: B, C or D", "C"),
		must("wind.roof_height", "the mean height of the roof above the ground", `24'-0"`),
		must("wind.parapet_top", "the height of the top of the parapet above the ground", `27'-0"`),
		may("wind.least_dimension", "the least plan dimension of the building, if not that of the one roof perimeter", `50'-0"`),
		must("wind.roof_slope", "the slope of the roof in degrees", "1.2"),
		may("wind.ground", "the elevation of the ground above the sea", `500'-0"`),
		when("wind.kzt", "topography is not given", "the topographic factor, 1.0 on flat ground", "1.0"),
		when("wind.topography", "kzt is not given", "the hill, ridge or escarpment the building stands on", ""),
		must("wind.topography.shape", "its shape: ridge, escarpment or hill", "escarpment"),
		must("wind.topography.height", "its height", `60'-0"`),
		must("wind.topography.half_length", "the distance upwind from the crest to half the height", `200'-0"`),
		must("wind.topography.distance", "the distance of the building from the crest", `100'-0"`),
		must("wind.topography.side", "the side of the crest the building stands on: upwind or downwind", "downwind"),
		must("wind.parapet", "what the parapet is: solid, or hollow if air of the building reaches into it", "solid"),
		when("wind.enclosure", "the parapet is hollow", "the enclosure of the building: enclosed, partially enclosed or open", "enclosed"),
		may("wind.effective_area", "the effective wind area; left out, no area is too small", "10 ft2"),
		may("wind.parapet_3ft_note", "yes to take corner roof zones as edge zones behind a parapet of 3 ft and over", "no"),
		may("wind.wall_reduction", "yes to take a tenth off the wall coefficients under a roof of up to 10 degrees", "no"),
		may("wind.exposure_b_30ft", "yes to take no height in exposure B below 30 ft", "no"),
		may("wind.confirmed", "the licensed engineer who confirms the computed pressures", ""),
		must("wind.confirmed.by", "the engineer who confirms them", "K. Sundqvist-Abara, engineer of record"),
		must("wind.confirmed.on", "the date of the confirmation", "2026-03-10"),
		must("wind.confirmed.document", "the document of the confirmation", "Letter L-14"),
		must("wind.confirmed.corner_up", "the corner zone's upward pressure that the confirmation names, and its level: strength or allowable", "38.2 psf allowable"),

		must("site", "what the crew must know of the place", ""),
		must("site.roof_height", "the height of the roof", `24'-0"`),
		must("site.one_person", "the weight one person may lift on this job", "50 lb"),
		must("site.long_piece", "the length over which a piece takes two people", `8'-0"`),
		must("site.safety_plan", "the site safety plan that governs", "Site safety plan SSP-3"),
		may("site.measured_by", "who measured", "D. Quill"),
		may("site.measured_on", "when it was measured", "2026-02-24"),
		must("site.metal_temperatures", "the metal temperatures of the gap table, ascending", "[20 F, 60 F, 100 F]"),

		must("crating", "how the pieces travel", ""),
		must("crating.weight_most", "the greatest weight in one crate", "400 lb"),
		must("crating.length_most", "the greatest length of a crate", `12'-6"`),
		must("crating.spares", "the spares in per cent", ""),
		must("crating.spares.chairs", "the spare chairs", "3%"),
		must("crating.spares.splices", "the spare splice plates", "3%"),
		must("crating.spares.fasteners", "the spare fasteners", "5%"),
		must("crating.spares.tape", "the spare tape", "10%"),
		must("crating.tape_roll", "the length of a roll of sealant tape", `50'-0"`),

		may("shop", "how the fabricator bends and cuts, for flat patterns and cutting plans", ""),
		must("shop.k_factor", "where the neutral axis lies, in thicknesses from the inside of the bend", "0.40"),
		must("shop.k_source", "whose figure that is", "bend test of the shop"),
		must("shop.least_radius", "the smallest inside radius the metal takes", `1/32"`),
		must("shop.least_flange", "the narrowest flange the brake holds", `3/8"`),
		must("shop.brake", "the longest bend the brake makes", `12'-0"`),
		must("shop.most_turn", "the greatest angle the brake bends through", "155"),
		may("shop.weld_gap", "what is left open between the two edges of a welded seam", `1/32"`),
		may("shop.film", "on which side the protective film is", "finish side, out"),
		must("shop.sheets", "the sheets that blanks are cut from", ""),
		must("shop.sheets[].width", "the width of the sheet, which is ripped", `48"`),
		must("shop.sheets[].length", "the length of the sheet, along which the grain runs", `12'-0"`),
		may("shop.sheets[].price", "what a sheet costs, in the job's money", "96.00"),
		may("shop.bars", "the formed caps that closers are cut from; otherwise caps of stock length", ""),
		must("shop.bars[].length", "the length of a formed cap", `11'-6"`),
		when("shop.bars[].inside", "it is a drop in hand", "the inside width of a drop in hand", `13 1/4"`),
		may("shop.bars[].price", "what it costs, in the job's money", "61.50"),
		may("shop.bars[].count", "how many are in hand; otherwise as many as wanted", "2"),
		must("shop.kerf", "what a cut through a formed cap loses", `1/8"`),
		must("shop.end_trim", "what comes off each end of a sheet or formed cap", `0"`),
		must("shop.edge_trim", "what comes off each edge of a sheet", `1/4"`),
		may("shop.least_drop", "how long a remainder must be to be kept", `2'-4"`),
		must("shop.effort", "how many nodes the search for a cutting plan may spend", "400"),
		may("shop.labels", "the grid of a sheet of labels", ""),
		must("shop.labels.columns", "how many labels stand side by side", "2"),
		must("shop.labels.rows", "how many stand one above the other", "5"),

		must("perimeters", "the chains of runs", ""),
		must("perimeters[].name", "a short name for the perimeter", "ROOF"),
		must("perimeters[].kind", "roof, well or open", "roof"),
		must("perimeters[].wall", "the name of one of the walls", "block-12"),
		must("perimeters[].bearing", "the compass bearing in which the first run's stations grow", "90"),
		must("perimeters[].misclosure", "the misclosure that is accepted", ""),
		must("perimeters[].misclosure.length", "the accepted misclosure in length", `1"`),
		must("perimeters[].misclosure.angle", "the accepted misclosure in degrees", "0.5"),
		may("perimeters[].survey", "the survey file, beside the job file", "heron.csv"),
		when("perimeters[].starts", "kind is open", "how the first run begins at the left: free or wall", "free"),
		must("perimeters[].runs", "the runs, from left to right seen from the roof", ""),
		must("perimeters[].runs[].name", "one to four capital letters or digits", "N"),
		must("perimeters[].runs[].length", "the length of the run", `58'-7 1/4"`),
		must("perimeters[].runs[].face", "the face the length is measured on: front or rear", "front"),
		must("perimeters[].runs[].basis", "where the length comes from: measured or drawing", "measured"),
		must("perimeters[].runs[].survey_line", "the two named points the offsets are taken from", "nail NW to nail NE"),
		may("perimeters[].runs[].line", "how the front-face line is found: fitted, parallel to the wall line, or its distances beyond the wall's plumbed corners, towards the street", "parallel"),
		must("perimeters[].runs[].line.left", "the line's distance at the left corner", `1/2"`),
		must("perimeters[].runs[].line.right", "the line's distance at the right corner", `3/8"`),
		when("perimeters[].runs[].turn", "a run follows and neither included nor step is given", "how the wall turns at the right end", "right 90"),
		when("perimeters[].runs[].included", "a run follows and neither turn nor step is given", "the included angle at the right end", "90 outside"),
		when("perimeters[].runs[].step", "the wall goes straight on and its top steps", "how much higher or lower the next run's top is", `up 8"`),
		when("perimeters[].runs[].ends", "it is the last run of an open perimeter", "how the run ends: free or wall", "free"),
		may("perimeters[].runs[].wall", "the name of one of the walls, if not the perimeter's", "block-12"),
		may("perimeters[].runs[].stations", "the face the stations are measured on: front or rear", "front"),
		may("perimeters[].runs[].elevation", "the elevation that keeps one lot of finish", "north"),
		may("perimeters[].runs[].datum", "the mark crew stations start at", ""),
		must("perimeters[].runs[].datum.mark", "the mark as the crew will find it", "scribed line at door"),
		must("perimeters[].runs[].datum.at", "the station of the mark", `3'-2"`),
		may("perimeters[].runs[].obstacles", "what stands on the wall or comes through it", ""),
		must("perimeters[].runs[].obstacles[].name", "what it is", "vent pipe"),
		must("perimeters[].runs[].obstacles[].at", "the station of its centre", `33'-0"`),
		must("perimeters[].runs[].obstacles[].extent", "its extent along the run", `5"`),
		must("perimeters[].runs[].obstacles[].does", "what it does: block chair, block joint, pierce", "[pierce, block chair]"),
		when("perimeters[].runs[].obstacles[].from_face", "it pierces the cap", "its centre behind the front face of the wall", `6"`),
		when("perimeters[].runs[].obstacles[].across", "it pierces the cap", "its extent across the wall", `5"`),
		may("perimeters[].runs[].obstacles[].collar", "who seals its collar", "plumber"),
		may("perimeters[].runs[].expansion_joints", "the building expansion joints", ""),
		must("perimeters[].runs[].expansion_joints[].at", "the station of its centre", `30'-1"`),
		must("perimeters[].runs[].expansion_joints[].gap", "the open gap in the wall", `3/4"`),
		may("perimeters[].runs[].expansion_joints[].movement", "its movement either way", `1/2"`),
		may("perimeters[].runs[].cleared", "readings that were looked at again and stand", ""),
		must("perimeters[].runs[].cleared[].station", "the station of the reading, as the survey has it", `12'-6"`),
		must("perimeters[].runs[].cleared[].measure", "what stands: station, width, top_outside, top_inside, offset, width_low, offset_low or condition", "width"),
		must("perimeters[].runs[].cleared[].value", "the reading as it stands; of a condition, its codes", `12 1/8"`),
		must("perimeters[].runs[].cleared[].by", "who looked again", "D. Quill"),
		must("perimeters[].runs[].cleared[].on", "when", "2026-03-02"),
		may("perimeters[].runs[].readings", "the readings of the survey", ""),
		must("perimeters[].runs[].readings[].station", "the station of the reading", `2'-6"`),
		must("perimeters[].runs[].readings[].width", "the width of the wall at the top", `12 1/8"`),
		must("perimeters[].runs[].readings[].top_outside", "the height of the top at the front face, above the level datum", `-1/8"`),
		must("perimeters[].runs[].readings[].top_inside", "the height of the top at the rear face, above the level datum", `-3/16"`),
		must("perimeters[].runs[].readings[].offset", "the offset of the front face from the survey line, positive to the street", `1/8"`),
		when("perimeters[].runs[].readings[].width_low", "the wall says measure_low", "the width at leg depth", `12 5/8"`),
		when("perimeters[].runs[].readings[].offset_low", "the wall says measure_low", "the offset of the front face at leg depth", `3/8"`),
		may("perimeters[].runs[].readings[].condition", "what is wrong with the wall top there, codes divided by blanks or plus signs: loose, rotten, wet, fixings, pipes, flashing", "loose wet"),
		may("perimeters[].runs[].readings[].photo", "the numbers of the photos taken there", "14 15"),
		may("perimeters[].runs[].readings[].note", "a remark", "at the corner"),
	}, partKeys()...)
}

// keyTable looks keys up by the part they stand in.
type keyTable struct {
	byPath map[string]Key
	within map[string][]Key // keys of a part, in the order of the file
}

func newKeyTable() keyTable {
	t := keyTable{byPath: map[string]Key{}, within: map[string][]Key{}}
	for _, k := range Keys() {
		t.byPath[k.Path] = k
		parent := ""
		if i := strings.LastIndexByte(k.Path, '.'); i >= 0 {
			parent = k.Path[:i]
		}
		t.within[parent] = append(t.within[parent], k)
	}
	return t
}

// names of the keys of a part.
func (t keyTable) names(part string) []string {
	var names []string
	for _, k := range t.within[part] {
		names = append(names, k.Name())
	}
	return names
}

// write says how a key is written, to mend what is missing or unreadable.
func (k Key) write() string {
	if k.Example == "" {
		return "write " + k.Means
	}
	return "write " + k.Means + ", for example `" + k.Name() + ": " + k.Example + "`"
}
