package pdf

import (
	"bytes"
	"crypto/sha256"
	"encoding/xml"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf16"
)

// binaryMark follows the version line and tells programs that copy files that this one is not plain text (ISO 32000-1, 7.5.2).
const binaryMark = "%\xe2\xe3\xcf\xd3\n"

// errLayout is what a file of another make than the library's is met with, so that a change of the library cannot pass unseen.
var errLayout = errors.New("the PDF library wrote a file that does not end as expected")

// finish completes the file of the library. Its last object is the catalog, so the catalog can grow without moving another
// object; the line after the header moves all of them by the same distance, which is added in the table of offsets.
func finish(raw []byte, d Document) ([]byte, error) {
	const objEnd = ">>\nendobj\nxref\n"
	version, rest, ok := bytes.Cut(raw, []byte("\n"))
	if !ok || !bytes.HasPrefix(version, []byte("%PDF-1.")) || len(version) != len("%PDF-1.7") {
		return nil, errLayout
	}
	end := bytes.LastIndex(rest, []byte(objEnd))
	if end < 0 {
		return nil, errLayout
	}
	body := rest[:end]
	table, trailer, ok := bytes.Cut(rest[end+len(objEnd):], []byte("trailer\n<<\n"))
	if !ok {
		return nil, errLayout
	}
	trailer, last, ok := bytes.Cut(trailer, []byte(">>\nstartxref\n"))
	if !ok || !bytes.HasSuffix(last, []byte("%%EOF\n")) {
		return nil, errLayout
	}
	root, err := rootObject(trailer)
	if err != nil {
		return nil, err
	}
	if start := bytes.LastIndex(body, []byte(" 0 obj\n<<\n/Type /Catalog\n")); start < 0 || !bytes.HasSuffix(body[:start], []byte("\n"+strconv.Itoa(root))) {
		return nil, errLayout
	}
	// The metadata stream, the information and the catalog are the last three objects.
	metadata := root - 2
	if !bytes.Contains(body, []byte("\n"+strconv.Itoa(metadata)+" 0 obj\n<< /Type /Metadata ")) {
		return nil, errLayout
	}

	var out bytes.Buffer
	out.WriteString("%PDF-1.7\n" + binaryMark)
	out.Write(body)
	fmt.Fprintf(&out, "/Metadata %d 0 R\n", metadata)
	if d.Lang != "" {
		fmt.Fprintf(&out, "/Lang (%s)\n", d.Lang)
	}
	out.WriteString(pageLabels(d.Pages))
	// PrintScaling None asks the viewer to print a sheet that is to scale at its own size.
	out.WriteString("/ViewerPreferences <</DisplayDocTitle true /PrintScaling /None>>\n>>\nendobj\n")
	id := sha256.Sum256(out.Bytes())
	xref := out.Len()
	moved, err := moveOffsets(table, len(binaryMark))
	if err != nil {
		return nil, err
	}
	out.WriteString("xref\n")
	out.Write(moved)
	fmt.Fprintf(&out, "trailer\n<<\n%s/ID [<%x> <%x>]\n>>\nstartxref\n%d\n%%%%EOF\n", trailer, id[:16], id[:16], xref)
	return out.Bytes(), nil
}

// rootObject reads the number of the catalog from the trailer.
func rootObject(trailer []byte) (int, error) {
	_, after, ok := bytes.Cut(trailer, []byte("/Root "))
	if !ok {
		return 0, errLayout
	}
	digits, _, ok := bytes.Cut(after, []byte(" 0 R"))
	if !ok {
		return 0, errLayout
	}
	n, err := strconv.Atoi(string(digits))
	if err != nil || n < 3 {
		return 0, errLayout
	}
	return n, nil
}

// moveOffsets adds delta to every offset in use. The first line of the table holds its size, the second the free entry.
func moveOffsets(table []byte, delta int) ([]byte, error) {
	var out bytes.Buffer
	for i, line := range strings.SplitAfter(string(table), "\n") {
		if i < 2 || line == "" {
			out.WriteString(line)
			continue
		}
		if len(line) != 20 || !strings.HasSuffix(line, " 00000 n \n") {
			return nil, errLayout
		}
		offset, err := strconv.Atoi(line[:10])
		if err != nil {
			return nil, errLayout
		}
		fmt.Fprintf(&out, "%010d%s", offset+delta, line[10:])
	}
	return out.Bytes(), nil
}

// pageLabels names every page; a page without a label gets its number, because a label holds until the next one.
func pageLabels(pages []Page) string {
	var b strings.Builder
	b.WriteString("/PageLabels <</Nums [")
	for i, p := range pages {
		label := p.Label
		if label == "" {
			label = strconv.Itoa(i + 1)
		}
		fmt.Fprintf(&b, "%d <</P <FEFF", i)
		for _, u := range utf16.Encode([]rune(label)) {
			fmt.Fprintf(&b, "%04X", u)
		}
		b.WriteString(">>> ")
	}
	b.WriteString("]>>\n")
	return b.String()
}

// xmp returns the metadata of the document, as XMP (ISO 16684-1).
func xmp(d Document) []byte {
	esc := func(s string) string {
		var b strings.Builder
		xml.EscapeText(&b, []byte(s)) // a strings.Builder does not fail
		return b.String()
	}
	date := d.Date.UTC().Format("2006-01-02T15:04:05Z")
	var b strings.Builder
	b.WriteString("<?xpacket begin=\"\ufeff\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n")
	b.WriteString(`<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">` + "\n")
	b.WriteString(`<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/">` + "\n")
	fmt.Fprintf(&b, "<dc:format>application/pdf</dc:format>\n<dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">%s</rdf:li></rdf:Alt></dc:title>\n", esc(d.Title))
	if d.Author != "" {
		fmt.Fprintf(&b, "<dc:creator><rdf:Seq><rdf:li>%s</rdf:li></rdf:Seq></dc:creator>\n", esc(d.Author))
	}
	if d.Subject != "" {
		fmt.Fprintf(&b, "<dc:description><rdf:Alt><rdf:li xml:lang=\"x-default\">%s</rdf:li></rdf:Alt></dc:description>\n", esc(d.Subject))
	}
	if d.Lang != "" {
		fmt.Fprintf(&b, "<dc:language><rdf:Bag><rdf:li>%s</rdf:li></rdf:Bag></dc:language>\n", esc(d.Lang))
	}
	if d.Keywords != "" {
		fmt.Fprintf(&b, "<pdf:Keywords>%s</pdf:Keywords>\n", esc(d.Keywords))
	}
	fmt.Fprintf(&b, "<pdf:Producer>%s</pdf:Producer>\n<xmp:CreatorTool>%s</xmp:CreatorTool>\n", producer, producer)
	fmt.Fprintf(&b, "<xmp:CreateDate>%s</xmp:CreateDate>\n<xmp:ModifyDate>%s</xmp:ModifyDate>\n", date, date)
	b.WriteString("</rdf:Description></rdf:RDF></x:xmpmeta>\n<?xpacket end=\"r\"?>")
	return []byte(b.String())
}
