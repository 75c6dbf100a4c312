package view

import (
	"math"

	"copingset/drawing"
	"copingset/drawing/words"
)

// A small picture of what a word means, for those who know the thing and not the word.
// Pictures are to no scale and of no system: what the word names is drawn thick.

// stroke is a line of a picture, in hundredths of its width and of its height.
type stroke []float64

// The things of the pictures: a coping cut across, with the street at the left, and two
// caps from above.
var (
	drawnWall   = []stroke{{30, 95, 30, 50, 70, 50, 70, 95}}
	drawnNailer = []stroke{{30, 50, 30, 40, 70, 40, 70, 50, 30, 50}}
	drawnShims  = []stroke{{33, 40, 33, 36, 43, 36, 43, 40}, {57, 40, 57, 36, 67, 36, 67, 40}}
	drawnLayer  = []stroke{{30, 40, 30, 36, 70, 36, 70, 40}}
	drawnChair  = []stroke{{24, 62, 26, 30, 72, 34, 73, 56}}
	drawnCap    = []stroke{{13, 84, 19, 76, 19, 20, 78, 26, 78, 62, 73, 58}}
	drawnCaps   = []stroke{{2, 30, 48, 30, 48, 70, 2, 70}, {98, 30, 52, 30, 52, 70, 98, 70}}
	drawnTurn   = []stroke{{2, 15, 85, 15, 85, 98}, {2, 45, 55, 45, 55, 98}}
	drawnInside = []stroke{{2, 85, 55, 85, 55, 2}, {2, 55, 25, 55, 25, 2}}
)

// wordPictures are the pictures by their words: thin what stands about, thick the thing.
var wordPictures = map[words.Key]struct{ thin, thick [][]stroke }{
	words.WordStreetSide: {[][]stroke{drawnWall, drawnCap}, [][]stroke{{{15, 95, 2, 95}, {7, 90, 2, 95, 7, 100}}}},
	words.WordRoofSide:   {[][]stroke{drawnWall, drawnCap}, [][]stroke{{{82, 95, 98, 95}, {93, 90, 98, 95, 93, 100}}}},
	words.WordStation: {[][]stroke{{{2, 70, 98, 70}}},
		[][]stroke{{{8, 55, 8, 85}}, {{8, 40, 80, 40}, {74, 34, 80, 40, 74, 46}}, {{80, 60, 80, 80}}}},
	words.WordCapLine:    {[][]stroke{drawnWall, drawnCap}, [][]stroke{{{19, 2, 19, 98}}}},
	words.WordWallLine:   {[][]stroke{drawnWall, drawnCap}, [][]stroke{{{30, 2, 30, 98}}}},
	words.WordStringLine: {[][]stroke{drawnCaps}, [][]stroke{{{2, 36, 98, 36}}}},
	words.WordSetSurface: {[][]stroke{drawnWall, drawnNailer, drawnChair}, [][]stroke{{{24, 36, 76, 36}}}},
	words.WordBuildUp:    {[][]stroke{drawnWall, drawnNailer, drawnChair}, [][]stroke{drawnShims}},
	words.WordLayer:      {[][]stroke{drawnWall, drawnNailer}, [][]stroke{drawnLayer}},
	words.WordShim:       {[][]stroke{drawnWall, drawnNailer, drawnChair}, [][]stroke{drawnShims}},
	words.WordNailer:     {[][]stroke{drawnWall, drawnChair}, [][]stroke{drawnNailer}},
	words.WordChair:      {[][]stroke{drawnWall, drawnNailer}, [][]stroke{drawnChair}},
	words.WordEndChair: {[][]stroke{{{2, 30, 90, 30, 90, 70, 2, 70}}},
		[][]stroke{{{72, 34, 82, 34, 82, 66, 72, 66, 72, 34}}}},
	words.WordCornerSupport: {[][]stroke{drawnTurn}, [][]stroke{{{60, 22, 78, 22, 78, 40, 60, 40, 60, 22}}}},
	words.WordCap:           {[][]stroke{drawnWall, drawnNailer}, [][]stroke{drawnCap}},
	words.WordCloser: {[][]stroke{{{2, 30, 58, 30, 58, 70, 2, 70}}},
		[][]stroke{{{62, 30, 90, 30, 90, 70, 62, 70, 62, 30}}}},
	words.WordExtra: {[][]stroke{{{2, 30, 76, 30, 76, 70, 2, 70}}},
		[][]stroke{{{76, 30, 94, 30, 94, 70, 76, 70, 76, 30}, {80, 70, 94, 36}, {76, 56, 86, 30}}}},
	words.WordLeg: {[][]stroke{drawnWall, drawnCap}, [][]stroke{{{19, 20, 19, 76}, {78, 26, 78, 62}}}},
	words.WordJoint: {[][]stroke{drawnCaps},
		[][]stroke{{{48, 30, 48, 70}, {52, 30, 52, 70}}, {{42, 24, 42, 76}, {58, 24, 58, 76}}}},
	words.WordGap: {[][]stroke{drawnCaps}, [][]stroke{{{30, 50, 48, 50}, {44, 46, 48, 50, 44, 54}},
		{{70, 50, 52, 50}, {56, 46, 52, 50, 56, 54}}}},
	words.WordExpansion: {[][]stroke{{{2, 30, 42, 30, 42, 70, 2, 70}, {98, 30, 58, 30, 58, 70, 98, 70}}},
		[][]stroke{{{46, 5, 46, 95}, {54, 5, 54, 95}}}},
	words.WordCoverPlate: {[][]stroke{{{2, 30, 45, 30, 45, 70, 2, 70}, {98, 30, 55, 30, 55, 70, 98, 70}}},
		[][]stroke{{{34, 22, 66, 22, 66, 78, 34, 78, 34, 22}}}},
	words.WordLap: {[][]stroke{drawnWall, drawnCap, {{24, 58, 30, 58}}},
		[][]stroke{{{25, 58, 25, 76}, {22, 70, 25, 76, 28, 70}, {22, 64, 25, 58, 28, 64}}}},
	words.WordPlay: {[][]stroke{drawnWall, drawnCap},
		[][]stroke{{{70, 62, 78, 62}, {70, 56, 70, 68}, {78, 56, 78, 68}}}},
	words.WordMiter: {[][]stroke{drawnTurn}, [][]stroke{{{55, 45, 85, 15}}}},
	words.WordTurn: {[][]stroke{drawnTurn, {{85, 15, 98, 15}}},
		[][]stroke{{{97, 16, 94, 24, 87, 28}, {93, 26, 87, 28, 90, 22}}}},
	words.WordIncluded:          {[][]stroke{drawnTurn}, [][]stroke{{{40, 45, 44, 56, 55, 60}}}},
	words.GlossaryOutsideCorner: {nil, [][]stroke{drawnTurn}},
	words.GlossaryInsideCorner:  {nil, [][]stroke{drawnInside}},
	words.GlossarySplicePlate:   {[][]stroke{drawnCaps}, [][]stroke{{{40, 24, 60, 24, 60, 76, 40, 76, 40, 24}}}},
	words.GlossaryDrip:          {[][]stroke{drawnWall, drawnCap}, [][]stroke{{{13, 84, 19, 76}}}},
	words.GlossaryHook: {[][]stroke{drawnWall, drawnChair},
		[][]stroke{{{13, 70, 24, 62, 19, 56, 30, 10, 80, 2}}}},
	words.GlossarySnap: {[][]stroke{drawnWall, drawnChair, drawnCap},
		[][]stroke{{{90, 20, 90, 60}, {85, 52, 90, 60, 95, 52}}}},
	words.GlossaryEndCap:   {[][]stroke{{{2, 30, 90, 30}, {2, 70, 90, 70}}}, [][]stroke{{{90, 30, 90, 70}}}},
	words.GlossaryMembrane: {[][]stroke{drawnWall, drawnNailer}, [][]stroke{{{27, 70, 27, 36, 73, 36, 73, 70}}}},
	words.GlossaryHole: {[][]stroke{{{20, 20, 80, 20, 80, 80, 20, 80, 20, 20}}},
		[][]stroke{{{45, 44, 50, 40, 55, 44, 55, 56, 50, 60, 45, 56, 45, 44}}}},
	words.GlossaryPlumb: {[][]stroke{drawnWall},
		[][]stroke{{{20, 10, 20, 78}, {16, 78, 24, 78, 20, 92, 16, 78}}}},
	words.GlossaryEdge: {[][]stroke{{{2, 60, 60, 60}, {60, 60, 60, 98}}},
		[][]stroke{{{72, 40, 72, 92}, {66, 82, 72, 92, 78, 82}}}},
	words.GlossaryAnchorage: {[][]stroke{{{2, 80, 60, 80}}},
		[][]stroke{{{30, 80, 30, 66, 24, 60, 24, 50, 30, 44, 36, 50, 36, 60, 30, 66}, {36, 54, 90, 30}}}},
	words.GlossaryDoNotTie: {[][]stroke{drawnWall, drawnChair}, [][]stroke{{{20, 20, 80, 75}, {80, 20, 20, 75}}}},
}

// WordPicture draws the picture of a word into a box; it reports false where the word
// has none.
func WordPicture(g *drawing.Scene, k words.Key, box drawing.Rect) bool {
	p, ok := wordPictures[k]
	if !ok {
		return false
	}
	draw := func(pen drawing.Pen, all [][]stroke) {
		for _, shape := range all {
			for _, s := range shape {
				var pts []drawing.Point
				for i := 0; i+1 < len(s); i += 2 {
					pts = append(pts, drawing.Pt(box.Min.X+share(box.Width(), s[i]),
						box.Min.Y+share(box.Height(), s[i+1])))
				}
				g.Line(pen, pts...)
			}
		}
	}
	draw(drawing.Thin, p.thin)
	draw(drawing.Thick, p.thick)
	return true
}

// share is so many hundredths of a length on paper.
func share(of drawing.Unit, hundredths float64) drawing.Unit {
	return drawing.Unit(math.Round(float64(of) * hundredths / 100))
}
