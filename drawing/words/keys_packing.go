// Code generated from table/packing.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of packing.csv.
const (
	PackingTitle      Key = "packing.title"
	PackingAbout      Key = "packing.about"
	PackingHow        Key = "packing.how"
	PackingOrder      Key = "packing.order"
	PackingLots       Key = "packing.lots"
	PackingOnly       Key = "packing.only"
	PackingHeld       Key = "packing.held"
	PackingFilm       Key = "packing.film"
	PackingAfter      Key = "packing.after"
	PackingTakeoff    Key = "packing.takeoff"
	PackingCrateGross Key = "packing.crate.gross"
	PackingCrateNet   Key = "packing.crate.net"
	PackingColNeeded  Key = "packing.col.needed"
	PackingColSpare   Key = "packing.col.spare"
	PackingColTotal   Key = "packing.col.total"
	PackingColIn      Key = "packing.col.in"
	PackingColGoes    Key = "packing.col.goes"
	PackingColShop    Key = "packing.col.shop"
	PackingColWeight  Key = "packing.col.weight"
	PackingColLay     Key = "packing.col.lay"
	PackingSpare      Key = "packing.spare"
	PackingAlone      Key = "packing.alone"
	PackingBottom     Key = "packing.bottom"
	PackingTop        Key = "packing.top"
)
