package sheets

import "copingset/drawing/words"

// markList is every kind of mark on a packet: an example, and what it names.
var markList = [][2]words.Key{
	{words.MarkRun, words.MarkRunNames},
	{words.MarkPiece, words.MarkPieceNames},
	{words.MarkLater, words.MarkLaterNames},
	{words.MarkCorner, words.MarkCornerNames},
	{words.MarkEnds, words.MarkEndsNames},
	{words.MarkTransition, words.MarkTransitionNames},
	{words.MarkTee, words.MarkTeeNames},
	{words.MarkJoint, words.MarkJointNames},
	{words.MarkChair, words.MarkChairNames},
	{words.MarkSupport, words.MarkSupportNames},
	{words.MarkLay, words.MarkLayNames},
	{words.MarkShop, words.MarkShopNames},
	{words.MarkBend, words.MarkBendNames},
	{words.MarkOutline, words.MarkOutlineNames},
	{words.MarkDoubt, words.MarkDoubtNames},
	{words.MarkHold, words.MarkHoldNames},
	{words.MarkZero, words.MarkZeroNames},
	{words.MarkCrate, words.MarkCrateNames},
	{words.MarkSheet, words.MarkSheetNames},
	{words.MarkSheetShared, words.MarkSheetSharedNames},
}

// wordList is the words that have one meaning on all sheets. DEVELOPERS.md has the
// same list.
var wordList = [][2]words.Key{
	{words.WordStreetSide, words.WordStreetSideMeans},
	{words.WordRoofSide, words.WordRoofSideMeans},
	{words.WordLeftRight, words.WordLeftRightMeans},
	{words.WordStation, words.WordStationMeans},
	{words.WordPerimeter, words.WordPerimeterMeans},
	{words.WordWallLine, words.WordWallLineMeans},
	{words.WordCapLine, words.WordCapLineMeans},
	{words.WordStringLine, words.WordStringLineMeans},
	{words.WordSurveyLine, words.WordSurveyLineMeans},
	{words.WordLevelDatum, words.WordLevelDatumMeans},
	{words.WordSetSurface, words.WordSetSurfaceMeans},
	{words.WordBuildUp, words.WordBuildUpMeans},
	{words.WordLayer, words.WordLayerMeans},
	{words.WordShim, words.WordShimMeans},
	{words.WordNailer, words.WordNailerMeans},
	{words.WordChair, words.WordChairMeans},
	{words.WordEndChair, words.WordEndChairMeans},
	{words.WordCornerSupport, words.WordCornerSupportMeans},
	{words.WordCap, words.WordCapMeans},
	{words.WordCloser, words.WordCloserMeans},
	{words.WordExtra, words.WordExtraMeans},
	{words.WordLeg, words.WordLegMeans},
	{words.WordCornerLeg, words.WordCornerLegMeans},
	{words.WordJoint, words.WordJointMeans},
	{words.WordGap, words.WordGapMeans},
	{words.WordExpansion, words.WordExpansionMeans},
	{words.WordCoverPlate, words.WordCoverPlateMeans},
	{words.WordWallJoint, words.WordWallJointMeans},
	{words.WordLap, words.WordLapMeans},
	{words.WordPlay, words.WordPlayMeans},
	{words.WordMiter, words.WordMiterMeans},
	{words.WordTurn, words.WordTurnMeans},
	{words.WordIncluded, words.WordIncludedMeans},
	{words.WordGirth, words.WordGirthMeans},
	{words.WordBlank, words.WordBlankMeans},
	{words.WordShopType, words.WordShopTypeMeans},
	{words.WordAssembly, words.WordAssemblyMeans},
	{words.WordZone, words.WordZoneMeans},
	{words.WordHold, words.WordHoldMeans},
	{words.WordTwo, words.WordTwoMeans},
}

// marksAndWords explains every kind of mark on the packet, and the words with one
// meaning.
func (b *book) marksAndWords() []block {
	of := func(title, first, second words.Key, rows [][2]words.Key) table {
		t := table{title: b.say.Say(title), cols: []column{b.col(first), b.flex(second)}}
		for _, r := range rows {
			t.rows = append(t.rows, []string{b.say.Say(r[0]), b.say.Say(r[1])})
		}
		t.bold = func(_, col int) bool { return col == 0 }
		return t
	}
	return []block{
		of(words.WordTitleMarks, words.ColMarkExample, words.ColNames, markList),
		of(words.WordTitleWords, words.ColWord, words.ColMeans, wordList),
	}
}
