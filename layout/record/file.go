package record

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"

	"copingset/layout/fact"
)

// What can be wrong with the text of a record.
var (
	ErrForm   = errors.New("it is no record of an issue")
	ErrLater  = errors.New("it was written by a later release")
	ErrEdited = errors.New("it is not as it was written")
)

// form is a record as its file has it; facts stand a line each.
type form struct {
	Version int         `json:"version"`
	Job     Job         `json:"job"`
	Issue   Issue       `json:"issue"`
	Earlier []Issue     `json:"earlier"`
	Inputs  []File      `json:"inputs"`
	Files   []File      `json:"files"`
	Sheets  []Sheet     `json:"sheets"`
	Shop    []ShopMark  `json:"shop"`
	Pieces  []PieceMark `json:"pieces"`
	Facts   [][5]string `json:"facts"`
	Seal    string      `json:"seal"`
}

// Encode writes a record as text, an entry a line, with its seal.
func (r *Record) Encode() []byte {
	var b bytes.Buffer
	b.WriteString("{\n")
	field := func(name string, v any) {
		b.WriteString(`"` + name + `": `)
		b.Write(line(v))
		b.WriteString(",\n")
	}
	field("version", Version)
	field("job", r.Job)
	field("issue", r.Issue)
	rows(&b, "earlier", r.Earlier)
	rows(&b, "inputs", r.Inputs)
	rows(&b, "files", r.Files)
	rows(&b, "sheets", r.Sheets)
	rows(&b, "shop", r.Shop)
	rows(&b, "pieces", r.Pieces)
	facts := make([][5]string, len(r.Facts))
	for i, f := range r.Facts {
		facts[i] = [5]string{string(f.Kind), f.Of, f.What, string(f.Unit), f.Value}
	}
	rows(&b, "facts", facts)
	seal := sealOf(b.Bytes())
	b.WriteString(sealField + `"` + seal + "\"\n}\n")
	return b.Bytes()
}

// rows writes a list, an entry a line.
func rows[T any](b *bytes.Buffer, name string, all []T) {
	b.WriteString(`"` + name + `": [`)
	for i, v := range all {
		if i > 0 {
			b.WriteString(",")
		}
		b.WriteString("\n")
		b.Write(line(v))
	}
	b.WriteString("\n],\n")
}

// line is a value as JSON without line ends.
func line(v any) []byte {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		panic("record: " + err.Error()) // plain values always have a form
	}
	return bytes.TrimRight(b.Bytes(), "\n")
}

// sealField stands before the seal, which is over all of the text ahead of it.
const sealField = `"seal": `

// sealOf is the digest of a text, whichever line ends a disk gave it.
func sealOf(text []byte) string {
	sum := sha256.Sum256(bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n")))
	return hex.EncodeToString(sum[:])
}

// Decode reads a record and looks at its seal.
func Decode(text []byte) (*Record, error) {
	var f form
	if err := json.Unmarshal(text, &f); err != nil || f.Version < 1 || f.Issue.Mark == "" {
		return nil, ErrForm
	}
	if f.Version > Version {
		return nil, ErrLater
	}
	at := bytes.LastIndex(text, []byte(sealField))
	if at < 0 || sealOf(text[:at]) != f.Seal {
		return nil, ErrEdited
	}
	r := &Record{Version: f.Version, Job: f.Job, Issue: f.Issue, Earlier: f.Earlier, Inputs: f.Inputs, Files: f.Files,
		Sheets: f.Sheets, Shop: f.Shop, Pieces: f.Pieces}
	r.Facts = make(fact.Ledger, len(f.Facts))
	for i, q := range f.Facts {
		r.Facts[i] = fact.Fact{Kind: fact.Kind(q[0]), Of: q[1], What: q[2], Unit: fact.Unit(q[3]), Value: q[4]}
	}
	return r, nil
}
