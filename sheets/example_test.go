package sheets_test

import (
	"fmt"
	"io"
	"os"
	"slices"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/sheets"
)

// From the job to the packet for one reader. The sheets keep the numbers of
// the whole packet, each is a scene that can be looked over, and all of them
// become one PDF.
func ExamplePacket() {
	j, found := job.Read(os.DirFS("../samples"), "rectangle/job.yaml")
	if found.HasErrors() {
		fmt.Println(found)
		return
	}
	l, found := layout.Build(j)
	if found.HasErrors() {
		fmt.Println(found)
		return
	}
	packet := sheets.Packet(l, sheets.Options{For: sheets.Receiving})
	for _, s := range packet {
		for _, problem := range drawing.Check(s.Scene) {
			fmt.Println(s.Number, problem)
		}
	}
	var kinds []string
	for _, s := range packet {
		kinds = append(kinds, s.Kind.String())
	}
	fmt.Println(slices.Compact(kinds))
	fmt.Println("written:", sheets.PDF(io.Discard, l, packet) == nil)
	// Output:
	// [index crate]
	// written: true
}
