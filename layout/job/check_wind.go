package job

import "fmt"

// checkWind compares the heights of the wind section. Whether the methods of
// the standard reach them is for the room that knows the standard.
func (d *decoder) checkWind(j *Job) {
	w := j.Wind
	if w == nil {
		return
	}
	d.atMost("wind.roof_height", w.RoofHeight, "wind.parapet_top", w.ParapetTop, "the parapet ends above the roof")
	if stated := "site.roof_height"; d.has(stated, "wind.roof_height") && j.Site.RoofHeight != w.RoofHeight {
		d.notef("roof-heights", d.places["wind.roof_height"],
			"check that both are meant: one above the grade the crew works over, one the mean above the ground",
			"wind.roof_height, %s, is not site.roof_height, %s", Both(w.RoofHeight), Both(j.Site.RoofHeight))
	}
	if w.ExposureBFloor != nil && *w.ExposureBFloor && d.has("wind.exposure") && w.Exposure != "B" {
		d.errorf("option-idle", d.places["wind.exposure_b_30ft"], "leave it out",
			"wind.exposure_b_30ft is for exposure B, and the exposure is %s", w.Exposure)
	}
	if w.Enclosure != "" && d.has("wind.parapet") && !w.Hollow {
		d.errorf("option-idle", d.places["wind.enclosure"], "leave it out, or write `parapet: hollow`",
			"wind.enclosure counts in a hollow parapet, and this one is solid")
	}
}

// checkWood checks what is said of wood against the material it is said of.
func (d *decoder) checkWood(j *Job) {
	for i, f := range j.Fasteners {
		at := pathOf("fasteners", i)
		if d.has(at+"kind", at+"substrate") && f.Substrate != Wood && f.Substrate != Plywood {
			d.conflict("kind-substrate", d.places[at+"kind"], d.places[at+"substrate"], "leave the kind out",
				"fastener %s: a %s is reckoned in wood, and this one holds in %s", f.Name, f.Kind, f.Substrate)
		}
	}
	for i, w := range j.Walls {
		for k, l := range w.Layers {
			at := pathOf(pathOf("walls", i)+"layers", k)
			for _, key := range []string{"gravity", "service", "treated"} {
				if d.has(at+key, at+"material") && l.Material != Wood && l.Material != Plywood {
					d.conflict("wood-only", d.places[at+key], d.places[at+"material"], "leave it out",
						"wall %s: layer %s: %s is said of wood, and this is %s", w.Name, l.Name, key, l.Material)
				}
			}
		}
	}
}

// pathOf is the beginning of the paths of an item of a list.
func pathOf(list string, i int) string { return fmt.Sprintf("%s[%d].", list, i) }
