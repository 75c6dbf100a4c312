package view

import (
	"slices"

	"copingset/drawing"
	"copingset/layout/plan"
)

// RunHatches lists the hatches the plan and the elevation of a window use, for
// the legend of their sheet.
func RunHatches(r *plan.Run, win Window) []LegendEntry {
	f := &runFrame{of: r, win: win}
	var out []LegendEntry
	for _, k := range []struct {
		corner bool
		as     LegendEntry
	}{{true, LegendEntry{Kind: drawing.ZoneCorner, Words: "corner zone of wind pressure"}},
		{false, LegendEntry{Kind: drawing.ZoneEdge, Words: "edge zone of wind pressure"}}} {
		if slices.ContainsFunc(r.WindZones, func(z plan.WindZone) bool {
			return z.Corner == k.corner &&
				f.overlaps(z.From, z.To)
		}) {
			out = append(out, k.as)
		}
	}
	if r.Elevation.Surveyed {
		layers := [4]string{"shims only", "1 layer of " + r.LayerName + " + shims", "2 layers of " + r.LayerName +
			" + shims", "3 layers or more of " + r.LayerName + " + shims"}
		if r.UnderChairs {
			layers[0] = "build-up under the chairs"
		}
		for k := range layers {
			if slices.ContainsFunc(r.BuildUps, func(z plan.BuildUp) bool {
				return min(z.Plies, 3) == k &&
					f.overlaps(z.From, z.To)
			}) {
				out = append(out, LegendEntry{Kind: runPacking(k), Words: layers[k]})
			}
		}
		if kind, name := runWallHatch(r); kind != drawing.NoHatch {
			out = append(out, LegendEntry{Kind: kind, Words: "wall top: " + name})
		}
	}
	walled := win.From <= 0 && r.Left.Kind == plan.EndWall || win.To >= r.Cap.Real && r.Right.Kind == plan.EndWall
	if walled && (len(out) == 0 || out[len(out)-1].Kind != drawing.Masonry) {
		out = append(out, LegendEntry{Kind: drawing.Masonry, Words: "higher wall"})
	}
	return out
}
