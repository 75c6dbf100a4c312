package pdf_test

import (
	"bytes"
	"fmt"
	"time"

	"copingset/drawing"
	"copingset/drawing/pdf"
)

// Two scenes become two pages of one document, each of its scene's size. The
// date is the document's own, so the same scenes give the same bytes.
func ExampleWrite() {
	sheet := func(words string) drawing.Scene {
		s := drawing.Scene{Name: words, Title: words, W: 420 * drawing.MM, H: 297 * drawing.MM}
		s.Group(drawing.Wall, "wall", func(g *drawing.Scene) {
			g.Hatch(drawing.Masonry, drawing.Thick, drawing.Box(2000, 2000, 30000, 4000).Corners()...)
		})
		s.Text(drawing.Pt(2000, 5000), words, drawing.Style{Size: drawing.Title})
		s.Link(drawing.Box(2000, 4500, 9000, 5000), "second")
		return s
	}
	doc := pdf.Document{
		Title: "Two sheets", Lang: "en-US", Date: time.Date(2026, 3, 16, 0, 0, 0, 0, time.UTC), Compress: true,
		Pages: []pdf.Page{
			{Scene: sheet("First"), ID: "first", Label: "1", Outline: "1  First"},
			{Scene: sheet("Second"), ID: "second", Label: "2", Outline: "2  Second"},
		},
	}
	var one, two bytes.Buffer
	if err := pdf.Write(&one, doc); err != nil {
		fmt.Println(err)
		return
	}
	if err := pdf.Write(&two, doc); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s\n", one.Bytes()[:5])
	fmt.Println("the same bytes again:", bytes.Equal(one.Bytes(), two.Bytes()))
	// Output:
	// %PDF-
	// the same bytes again: true
}
