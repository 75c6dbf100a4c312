// Package pdf writes drawing scenes as one PDF document, a page for each scene.
//
// It is the only package that knows the PDF library, and works around what that library is
// silent about: a missing glyph is an error, the drawing state is set before every mark that
// needs it, the page count is checked, and what the library cannot write (page labels, the link
// to the metadata, viewer preferences, a file identifier) is added to the finished file in
// tail.go. Lettering stays text that can be searched and copied, written in the order a reader
// takes it in (reading.go), and the file is tagged: a section for each sheet and view, a figure
// with words for what a view draws, tables, a paragraph for each other row (tags.go). Layers
// are optional content. The same document gives the same bytes: the date is the document's own
// and every coordinate is rounded in whole numbers.
package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"time"

	"github.com/go-pdf/fpdf"

	"copingset/drawing"
	"copingset/fonts"
)

// Document is what to write. Date is the issue date of the job; there is no other clock.
type Document struct {
	Title, Author, Subject, Keywords string
	Lang                             string // language tag, as en-US; empty for none
	Date                             time.Time
	Pages                            []Page
	Compress                         bool
}

// Page is one sheet. ID is what Link marks lead to, Label the page label a viewer shows instead
// of a number, Outline the entry in the list of contents; each may be empty.
type Page struct {
	Scene              drawing.Scene
	ID, Label, Outline string
}

// producer is written into the file in place of the library's own name.
const producer = "copingset"

// Write writes the document.
func Write(w io.Writer, d Document) error {
	raw, t, err := render(d)
	if err != nil {
		return err
	}
	done, err := finish(raw, d, t)
	if err != nil {
		return err
	}
	_, err = w.Write(done)
	return err
}

// render draws the pages and notes their structure.
func render(d Document) ([]byte, *tags, error) {
	if err := check(d); err != nil {
		return nil, nil, err
	}
	first := d.Pages[0].Scene
	f := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "pt", Size: size(first)})
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	f.SetCompression(d.Compress)
	f.SetCatalogSort(true)
	f.SetCreationDate(d.Date.UTC())
	f.SetModificationDate(d.Date.UTC())
	f.SetProducer(producer, true)
	f.SetCreator(producer, true)
	f.SetTitle(d.Title, true)
	f.SetAuthor(d.Author, true)
	f.SetSubject(d.Subject, true)
	f.SetKeywords(d.Keywords, true)
	f.SetXmpMetadata(xmp(d))
	p := painter{f: f, links: map[string]int{}, layers: map[drawing.Layer]int{}, tags: &tags{}, aside: &element{}}
	p.prepare(d)
	for i, page := range d.Pages {
		f.AddPageFormat("P", size(page.Scene))
		p.page(page)
		if page.Outline != "" {
			// The library measures the target from the bottom of the last page, whatever the height of this one.
			last := size(d.Pages[len(d.Pages)-1].Scene).Ht
			p.font(drawing.Regular, drawing.Note)
			f.Bookmark(page.Outline, 0, last-size(page.Scene).Ht)
		}
		if err := f.Error(); err != nil {
			return nil, nil, fmt.Errorf("page %d (%s): %w", i+1, page.Scene.Name, err)
		}
	}
	if f.PageCount() != len(d.Pages) {
		return nil, nil, fmt.Errorf("%d pages were written for %d sheets", f.PageCount(), len(d.Pages))
	}
	var buf bytes.Buffer
	if err := f.Output(&buf); err != nil {
		return nil, nil, err
	}
	return buf.Bytes(), p.tags, nil
}

// check refuses what the library would write as a broken or silently wrong file.
func check(d Document) error {
	if len(d.Pages) == 0 {
		return errors.New("a document needs a page")
	}
	if d.Date.IsZero() {
		return errors.New("a document needs its issue date")
	}
	for _, r := range d.Lang {
		if r != '-' && (r < '0' || r > '9') && (r < 'A' || r > 'Z') && (r < 'a' || r > 'z') {
			return fmt.Errorf("language tag %q: only letters, digits and hyphens", d.Lang)
		}
	}
	ids := map[string]bool{}
	for i, page := range d.Pages {
		if page.ID != "" && ids[page.ID] {
			return fmt.Errorf("page %d: the id %q is used twice", i+1, page.ID)
		}
		ids[page.ID] = true
		if page.Scene.W <= 0 || page.Scene.H <= 0 {
			return fmt.Errorf("page %d (%s): the sheet has no size", i+1, page.Scene.Name)
		}
		for _, s := range []string{page.Label, page.Outline} {
			if err := plain(s); err != nil {
				return fmt.Errorf("page %d: %w", i+1, err)
			}
		}
	}
	for _, s := range []string{d.Title, d.Author, d.Subject, d.Keywords} {
		if err := plain(s); err != nil {
			return err
		}
	}
	for i, page := range d.Pages {
		var err error
		page.Scene.Walk(func(_ drawing.Layer, m drawing.Mark) {
			if err != nil {
				return
			}
			switch m := m.(type) {
			case drawing.Text:
				if missing := fonts.Missing(m.Face, m.Words); len(missing) > 0 {
					err = fmt.Errorf(
						"page %d (%s): text %q: the lettering has no glyph for %q",
						i+1,
						page.Scene.Name,
						m.Words,
						string(missing),
					)
				}
			case drawing.Link:
				if m.Target == "" || !ids[m.Target] {
					err = fmt.Errorf(
						"page %d (%s): a link leads to %q, which is no sheet of the document",
						i+1,
						page.Scene.Name,
						m.Target,
					)
				}
			case drawing.Line, drawing.Arc, drawing.Region:
			default:
				panic(fmt.Sprintf("pdf: unknown mark %T", m))
			}
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// plain refuses what the library cannot turn into UTF-16: it has been seen to stop the program on a rune above U+FFFF.
func plain(s string) error {
	for _, r := range s {
		if r < 0x20 || r == 0xfffd || r > 0xffff {
			return fmt.Errorf("%q holds the character %U, which a PDF name cannot", s, r)
		}
	}
	return nil
}

// pt turns paper units into points, rounded to a hundredth in whole numbers, which is as fine as the library prints.
func pt(u drawing.Unit) float64 {
	n := int64(u) * 7200
	half := int64(drawing.Inch) / 2
	if n < 0 {
		return -float64((-n+half)/int64(drawing.Inch)) / 100
	}
	return float64((n+half)/int64(drawing.Inch)) / 100
}

func size(s drawing.Scene) fpdf.SizeType { return fpdf.SizeType{Wd: pt(s.W), Ht: pt(s.H)} }
