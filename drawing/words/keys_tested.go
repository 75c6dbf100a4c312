// Code generated from table/tested.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of tested.csv.
const (
	TestedTitle        Key = "tested.title"
	TestedAbout        Key = "tested.about"
	TestedAgainstBuilt Key = "tested.against-built"
	TestedReport       Key = "tested.report"
	TestedDemand       Key = "tested.demand"
	TestedPlaces       Key = "tested.places"
	TestedStreetRow    Key = "tested.street-row"
	TestedStreetRowAt  Key = "tested.street-row.at"
	TestedRoofRow      Key = "tested.roof-row"
	TestedRoofRowAt    Key = "tested.roof-row.at"
	TestedChair        Key = "tested.chair"
	TestedAlongRun     Key = "tested.along-run"
	TestedStreetEdge   Key = "tested.street-edge"
	TestedStreetEdgeAt Key = "tested.street-edge.at"
	TestedRoofEdge     Key = "tested.roof-edge"
	TestedRoofEdgeAt   Key = "tested.roof-edge.at"
	TestedInsideWidth  Key = "tested.inside-width"
)
