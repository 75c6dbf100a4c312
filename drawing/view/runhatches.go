package view

import (
	"slices"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/plan"
)

// RunHatches lists the hatches the plan and the elevation of a window use, for
// the legend of their sheet.
func RunHatches(say words.Book, r *plan.Run, win Window) []LegendEntry {
	f := &runFrame{of: r, win: win}
	var out []LegendEntry
	for _, k := range []struct {
		corner bool
		as     LegendEntry
	}{{true, LegendEntry{Kind: drawing.ZoneCorner, Words: say.Say(words.RunHatchCorner)}},
		{false, LegendEntry{Kind: drawing.ZoneEdge, Words: say.Say(words.KeyplanZoneEdge)}}} {
		if slices.ContainsFunc(r.WindZones, func(z plan.WindZone) bool {
			return z.Corner == k.corner &&
				f.overlaps(z.From, z.To)
		}) {
			out = append(out, k.as)
		}
	}
	if r.Elevation.Surveyed {
		layer := words.In("layer", r.LayerName)
		layers := [4]string{say.Say(words.RunHatchShims), say.Count(words.RunHatchLayers, 1, words.In("n", "1"), layer),
			say.Count(words.RunHatchLayers, 2, words.In("n", "2"), layer), say.Say(words.RunHatchMore, layer)}
		if r.UnderChairs {
			layers[0] = say.Say(words.RunHatchChairs)
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
			out = append(out, LegendEntry{Kind: kind, Words: say.Say(words.RunHatchWall, words.In("layer", name))})
		}
	}
	walled := win.From <= 0 && r.Left.Kind == plan.EndWall || win.To >= r.Cap.Real && r.Right.Kind == plan.EndWall
	if walled && (len(out) == 0 || out[len(out)-1].Kind != drawing.Masonry) {
		out = append(out, LegendEntry{Kind: drawing.Masonry, Words: say.Say(words.KeyplanLegendWall)})
	}
	return out
}
