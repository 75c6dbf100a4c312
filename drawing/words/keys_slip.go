// Code generated from table/slip.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of slip.csv.
const (
	SlipTitle    Key = "slip.title"
	SlipAbout    Key = "slip.about"
	SlipAgain    Key = "slip.again"
	SlipMark     Key = "slip.mark"
	SlipWhat     Key = "slip.what"
	SlipHand     Key = "slip.hand"
	SlipHandNone Key = "slip.hand.none"
	SlipPlace    Key = "slip.place"
	SlipWidth    Key = "slip.width"
	SlipStreet   Key = "slip.street"
	SlipRoof     Key = "slip.roof"
	SlipGirth    Key = "slip.girth"
	SlipMetal    Key = "slip.metal"
	SlipFinish   Key = "slip.finish"
	SlipShopMark Key = "slip.shop-mark"
	SlipWeight   Key = "slip.weight"
	SlipCrate    Key = "slip.crate"
	SlipReason   Key = "slip.reason"
	SlipPhoto    Key = "slip.photo"
	SlipHeld     Key = "slip.held"
	SlipLot      Key = "slip.lot"
	SlipStart    Key = "slip.start"
	SlipCan      Key = "slip.can"
	SlipUntil    Key = "slip.until"
	SlipWait     Key = "slip.wait"
	SlipChairs   Key = "slip.chairs"
	SlipOrdered  Key = "slip.ordered"
	SlipPromised Key = "slip.promised"
)
