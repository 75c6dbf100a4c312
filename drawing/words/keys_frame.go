// Code generated from table/frame.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of frame.csv.
const (
	FrameDirection        Key = "frame.direction"
	FrameDeference        Key = "frame.deference"
	FrameStations         Key = "frame.stations"
	FrameCheck            Key = "frame.check"
	FrameContinued        Key = "frame.continued"
	FrameNext             Key = "frame.next"
	FrameSee              Key = "frame.see"
	FrameIssuedStatus     Key = "frame.issued-status"
	FramePreliminary      Key = "frame.preliminary"
	FrameJob              Key = "frame.job"
	FrameNumber           Key = "frame.number"
	FrameAddress          Key = "frame.address"
	FrameOwner            Key = "frame.owner"
	FrameContractor       Key = "frame.contractor"
	FrameTitle            Key = "frame.title"
	FrameSheet            Key = "frame.sheet"
	FrameScale            Key = "frame.scale"
	FrameUnits            Key = "frame.units"
	FrameUnitsInches      Key = "frame.units.inches"
	FrameUnitsMillimetres Key = "frame.units.millimetres"
	FramePrepared         Key = "frame.prepared"
	FrameChecked          Key = "frame.checked"
	FrameIssued           Key = "frame.issued"
	FrameRevision         Key = "frame.revision"
	FrameRevisionOf       Key = "frame.revision.of"
	FrameNone             Key = "frame.none"
	FrameAsNoted          Key = "frame.as-noted"
	FrameScaleOf          Key = "frame.scale-of"
	FrameLarger           Key = "frame.larger"
	FrameLargerAbout      Key = "frame.larger-about"
	FrameTranslation      Key = "frame.translation"
	FrameTranslationBy    Key = "frame.translation.by"
)
