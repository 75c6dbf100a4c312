// Code generated from table/kind.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of kind.csv.
const (
	KindStraight    Key = "kind.straight"
	KindCloser      Key = "kind.closer"
	KindCorner      Key = "kind.corner"
	KindDouble      Key = "kind.double"
	KindEndcap      Key = "kind.endcap"
	KindWallend     Key = "kind.wallend"
	KindCornerend   Key = "kind.cornerend"
	KindTransition  Key = "kind.transition"
	KindPitchPeak   Key = "kind.pitch.peak"
	KindPitchValley Key = "kind.pitch.valley"
	KindTee         Key = "kind.tee"
	KindHandLeft    Key = "kind.hand.left"
	KindHandRight   Key = "kind.hand.right"
	KindTurnLeft    Key = "kind.turn.left"
	KindTurnRight   Key = "kind.turn.right"
	KindSlope       Key = "kind.slope"
	KindExtraLeft   Key = "kind.extra.left"
	KindExtraRight  Key = "kind.extra.right"
	KindLiftOne     Key = "kind.lift.one"
	KindLiftTwo     Key = "kind.lift.two"
	KindLiftMachine Key = "kind.lift.machine"
	KindChairTaper  Key = "kind.chair.taper"
	KindChair       Key = "kind.chair"
	KindChairOf     Key = "kind.chair.of"
	KindSupport     Key = "kind.support"
	KindSplice      Key = "kind.splice"
	KindSpliceOf    Key = "kind.splice.of"
	KindCover       Key = "kind.cover"
	KindShim        Key = "kind.shim"
	KindShimOf      Key = "kind.shim.of"
	KindTape        Key = "kind.tape"
)
