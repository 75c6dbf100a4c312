package pdf

import (
	"bytes"
	"compress/zlib"
	"crypto/sha256"
	"encoding/binary"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"sort"
	"strconv"
	"strings"
	"sync"
)

// binaryMark follows the version line and tells programs that copy files that this one is not
// plain text (ISO 32000-1, 7.5.2).
const binaryMark = "%\xe2\xe3\xcf\xd3\n"

// errLayout is what a file of another make than the library's is met with, so that a change of
// the library cannot pass unseen.
var errLayout = errors.New("the PDF library wrote a file that does not end as expected")

// perStream is how many objects are packed in one stream, so that a reader of one page does not
// unpack a long packet's all.
const perStream = 4000

// insert is what goes into the library's file at an offset.
type insert struct {
	at    int
	words string
}

// unfinished is the library's file taken apart.
type unfinished struct {
	body    []byte // up to the end of the catalog, which is open
	trailer []byte // after its first line, the number of objects
	offsets []int  // of the objects, by number less one
	root    int    // number of the catalog, the last object
	version int    // where the line of the version ends
}

// metadata is the number of its stream: it, the information and the catalog are the last three objects.
func (f unfinished) metadata() int { return f.root - 2 }

// takeApart reads the file of the library, as far as it is known to be written.
func takeApart(raw []byte) (unfinished, error) {
	const objEnd = ">>\nendobj\nxref\n"
	f := unfinished{version: bytes.IndexByte(raw, '\n') + 1}
	if !bytes.HasPrefix(raw, []byte("%PDF-1.")) || f.version != len("%PDF-1.7\n") {
		return f, errLayout
	}
	end := bytes.LastIndex(raw, []byte(objEnd))
	if end < 0 {
		return f, errLayout
	}
	f.body = raw[:end]
	old, trailer, ok := bytes.Cut(raw[end+len(objEnd):], []byte("trailer\n<<\n"))
	if !ok {
		return f, errLayout
	}
	trailer, last, ok := bytes.Cut(trailer, []byte(">>\nstartxref\n"))
	if !ok || !bytes.HasSuffix(last, []byte("%%EOF\n")) {
		return f, errLayout
	}
	var err error
	if f.root, err = rootObject(trailer); err != nil {
		return f, err
	}
	if start := bytes.LastIndex(f.body, []byte(" 0 obj\n<<\n/Type /Catalog\n")); start < 0 ||
		!bytes.HasSuffix(f.body[:start], []byte("\n"+strconv.Itoa(f.root))) {
		return f, errLayout
	}
	if !bytes.Contains(f.body, []byte("\n"+strconv.Itoa(f.metadata())+" 0 obj\n<< /Type /Metadata ")) {
		return f, errLayout
	}
	if f.offsets, err = readOffsets(old); err != nil {
		return f, err
	}
	size := "/Size " + strconv.Itoa(f.root+1) + "\n"
	if len(f.offsets) != f.root || !bytes.HasPrefix(trailer, []byte(size)) {
		return f, errLayout
	}
	f.trailer = trailer[len(size):]
	return f, nil
}

// grown is the body with what goes in before the catalog; the objects that follow an insert move.
func (f unfinished) grown(d Document) (*bytes.Buffer, error) {
	inserts := []insert{{f.version, binaryMark}}
	for i := range d.Pages {
		n := pageObject(i)
		head := strconv.Itoa(n) + " 0 obj\n<</Type /Page\n"
		if n > len(f.offsets) || !bytes.HasPrefix(f.body[min(f.offsets[n-1], len(f.body)):], []byte(head)) {
			return nil, errLayout
		}
		// Links are no part of the structure, so the key that goes from one to the next goes row by row.
		inserts = append(inserts, insert{f.offsets[n-1] + len(head), fmt.Sprintf("/StructParents %d\n/Tabs /R\n", i)})
	}
	var out bytes.Buffer
	from := 0
	for _, in := range inserts {
		out.Write(f.body[from:in.at])
		out.WriteString(in.words)
		from = in.at
	}
	out.Write(f.body[from:])
	move(f.offsets, inserts)
	copy(out.Bytes(), "%PDF-1.7")
	return &out, nil
}

// finish completes the file of the library. Its last object is the catalog, which grows and is
// followed by the structure tree, packed because it has thousands of small objects; so the
// table of offsets becomes a stream as well. What goes in before the catalog, the line after
// the header and the entries of the pages, moves the objects that follow.
func finish(raw []byte, d Document, t *tags) ([]byte, error) {
	f, err := takeApart(raw)
	if err != nil {
		return nil, err
	}
	out, err := f.grown(d)
	if err != nil {
		return nil, err
	}
	fmt.Fprintf(out, "/Metadata %d 0 R\n", f.metadata())
	if d.Lang != "" {
		fmt.Fprintf(out, "/Lang (%s)\n", d.Lang)
	}
	out.WriteString(pageLabels(d.Pages))
	fmt.Fprintf(out, "/MarkInfo <</Marked true>>\n/StructTreeRoot %d 0 R\n", f.root+1)
	// PrintScaling None asks the viewer to print a sheet that is to scale at its own size.
	out.WriteString("/ViewerPreferences <</DisplayDocTitle true /PrintScaling /None>>\n>>\nendobj\n")
	f.close(out, t.objects(f.root+1))
	return out.Bytes(), nil
}

// close writes the structure tree in packed streams, and the table of all objects.
func (f unfinished) close(out *bytes.Buffer, objects [][]byte) {
	packed := f.root + 1 + len(objects) // the first of the streams they are packed in
	streams := (len(objects) + perStream - 1) / perStream
	table := packed + streams
	entries := entry(nil, 0, 0, 0xffff) // the free one
	for _, o := range f.offsets {
		entries = entry(entries, 1, o, 0)
	}
	for i := range objects {
		entries = entry(entries, 2, packed+i/perStream, i%perStream)
	}
	for k := range streams {
		some := objects[k*perStream : min(len(objects), (k+1)*perStream)]
		entries = entry(entries, 1, out.Len(), 0)
		names, bodies := pack(some, f.root+1+k*perStream)
		stream(out, packed+k, fmt.Sprintf("/Type /ObjStm /N %d /First %d", len(some), len(names)), names+bodies)
	}
	xref := out.Len()
	entries = entry(entries, 1, xref, 0)
	id := sha256.Sum256(out.Bytes())
	stream(
		out,
		table,
		fmt.Sprintf("/Type /XRef /Size %d /W [1 4 4]\n%s/ID [<%x> <%x>]", table+1, f.trailer, id[:16], id[:16]),
		string(entries),
	)
	fmt.Fprintf(out, "startxref\n%d\n%%%%EOF\n", xref)
}

// entry appends an entry to the table of objects (ISO 32000-1, 7.5.8): an object of its own by
// offset, or one packed in a stream by its place there.
func entry(to []byte, kind byte, at, place int) []byte {
	to = binary.BigEndian.AppendUint32(append(to, kind), uint32(at))
	return binary.BigEndian.AppendUint32(to, uint32(place))
}

// pack writes objects as they are packed in a stream (ISO 32000-1, 7.5.7): number and place of each, and the objects.
func pack(objects [][]byte, first int) (names, bodies string) {
	var n, b strings.Builder
	for i, o := range objects {
		fmt.Fprintf(&n, "%d %d ", first+i, b.Len())
		b.Write(o)
		b.WriteByte('\n')
	}
	return n.String(), b.String()
}

// packers are writers of streams to be used again. What is packed here, the structure of
// the document, is short numbers in rows: the fastest level takes a third of the time, and
// the file grows by a hundredth.
var packers = sync.Pool{New: func() any {
	z, err := zlib.NewWriterLevel(nil, zlib.BestSpeed)
	if err != nil {
		panic(err) // the level is one of the library's own
	}
	return z
}}

// stream writes a compressed stream as an object.
func stream(out *bytes.Buffer, number int, entries, data string) {
	var b bytes.Buffer
	z := packers.Get().(*zlib.Writer)
	defer packers.Put(z)
	z.Reset(&b)
	io.WriteString(z, data) // a buffer does not fail
	z.Close()
	fmt.Fprintf(
		out,
		"%d 0 obj\n<<%s /Filter /FlateDecode /Length %d>>\nstream\n%s\nendstream\nendobj\n",
		number,
		entries,
		b.Len(),
		b.Bytes(),
	)
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

// readOffsets reads where each object is. The first line of the table holds its size, the second the free entry.
func readOffsets(table []byte) ([]int, error) {
	var out []int
	for i, line := range strings.SplitAfter(string(table), "\n") {
		if i < 2 || line == "" {
			continue
		}
		if len(line) != 20 || !strings.HasSuffix(line, " 00000 n \n") {
			return nil, errLayout
		}
		offset, err := strconv.Atoi(line[:10])
		if err != nil {
			return nil, errLayout
		}
		out = append(out, offset)
	}
	return out, nil
}

// move adds to each offset what goes in before it. The inserts are in the order of the file.
func move(offsets []int, inserts []insert) {
	moved := make([]int, len(inserts)+1)
	for i, in := range inserts {
		moved[i+1] = moved[i] + len(in.words)
	}
	for i, o := range offsets {
		before := sort.Search(len(inserts), func(k int) bool { return inserts[k].at > o })
		offsets[i] += moved[before]
	}
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
		fmt.Fprintf(&b, "%d <</P %s>> ", i, textString(label))
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
	b.WriteString(
		`<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">` + "\n",
	)
	b.WriteString(
		`<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" ` +
			`xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/">` + "\n",
	)
	fmt.Fprintf(
		&b,
		"<dc:format>application/pdf</dc:format>\n<dc:title><rdf:Alt><rdf:li "+
			"xml:lang=\"x-default\">%s</rdf:li></rdf:Alt></dc:title>\n",
		esc(d.Title),
	)
	if d.Author != "" {
		fmt.Fprintf(&b, "<dc:creator><rdf:Seq><rdf:li>%s</rdf:li></rdf:Seq></dc:creator>\n", esc(d.Author))
	}
	if d.Subject != "" {
		fmt.Fprintf(
			&b,
			"<dc:description><rdf:Alt><rdf:li xml:lang=\"x-default\">%s</rdf:li></rdf:Alt></dc:description>\n",
			esc(d.Subject),
		)
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
