// Code generated from table/load.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of load.csv.
const (
	LoadTitle            Key = "load.title"
	LoadBeamNone         Key = "load.beam.none"
	LoadRearNone         Key = "load.rear.none"
	LoadPass             Key = "load.pass"
	LoadNoHold           Key = "load.no-hold"
	LoadHoldNotConfirmed Key = "load.hold-not-confirmed"
	LoadTurned           Key = "load.turned"
	LoadNone             Key = "load.none"
	LoadBearingOnly      Key = "load.bearing-only"
	LoadHalf             Key = "load.half"
	LoadWithin           Key = "load.within"
	LoadOf               Key = "load.of"
	LoadOutside          Key = "load.outside"
	LoadBalanced         Key = "load.balanced"
	LoadCoveredBy        Key = "load.covered-by"
	LoadReadShare        Key = "load.read.share"
	LoadReadBeam         Key = "load.read.beam"
	LoadReadBeamNone     Key = "load.read.beam.none"
	LoadReadBeamSome     Key = "load.read.beam.some"
	LoadReadSupport      Key = "load.read.support"
	LoadChair            Key = "load.chair"
	LoadHooked           Key = "load.hooked"
	LoadSeats            Key = "load.seats"
	LoadSeatLeast        Key = "load.seat.least"
	LoadSeatHas          Key = "load.seat.has"
	LoadSeatMost         Key = "load.seat.most"
	LoadSeatUnknown      Key = "load.seat.unknown"
	LoadSeatHold         Key = "load.seat.hold"
	LoadSeatPass         Key = "load.seat.pass"
	LoadSeatOpen         Key = "load.seat.open"
	LoadReadSeat         Key = "load.read.seat"
)
