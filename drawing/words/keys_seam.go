// Code generated from table/seam.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of seam.csv.
const (
	SeamSeam           Key = "seam.seam"
	SeamCutBack        Key = "seam.cut-back"
	SeamCutBackBy      Key = "seam.cut-back.by"
	SeamFlat           Key = "seam.flat"
	SeamBent           Key = "seam.bent"
	SeamBackers        Key = "seam.backers"
	SeamRivets         Key = "seam.rivets"
	SeamRivetsHoles    Key = "seam.rivets.holes"
	SeamLap            Key = "seam.lap"
	SeamPlainButt      Key = "seam.plain-butt"
	SeamBackEdges      Key = "seam.back-edges"
	SeamFinishEdges    Key = "seam.finish-edges"
	SeamAbove          Key = "seam.above"
	SeamAboveOf        Key = "seam.above.of"
	SeamSymbolBy       Key = "seam.symbol-by"
	SeamGap            Key = "seam.gap"
	SeamOnBacker       Key = "seam.on-backer"
	SeamFinishedAfter  Key = "seam.finished-after"
	SeamFinishedBefore Key = "seam.finished-before"
	SeamEdges          Key = "seam.edges"
	SeamEdgesOf        Key = "seam.edges.of"
	SeamCutBackOf      Key = "seam.cut-back.of"
	SeamBackersOf      Key = "seam.backers.of"
	SeamAbout          Key = "seam.about"
)
