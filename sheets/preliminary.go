package sheets

import (
	"strings"

	"copingset/drawing/words"
)

// Until a job is issued the marks of what the shop makes alike run in the order of
// the layout, so that one mark may mean another length after the next change. What
// goes to a shop therefore says that it is preliminary and of which input, so that no
// two contents of one mark are mixed.

// digestShown is how much of the digest of a job's input a drawing shows.
const digestShown = 6

// status is what sheets, labels and files say of their shop marks: preliminary, of which
// input, until the job is issued, and again when it has changed since.
func (b *book) status() string {
	if !b.isPreliminary() {
		return b.say.Say(words.FrameIssuedStatus)
	}
	return b.say.Say(words.FramePreliminary, words.In("digest", b.shownDigest()))
}

// isPreliminary says that shop marks are not fixed: the job is not as it was issued. A
// book that knows the ledger alone was told.
func (b *book) isPreliminary() bool {
	if b.j == nil {
		return b.open
	}
	return !b.j.Issuing && !b.asIssued()
}

// inputDigest is that of the job's input, worked out once.
func (b *book) inputDigest() string {
	if b.digest == "" {
		b.digest = b.l.Job.Digest()
	}
	return b.digest
}

// shownDigest is the digest of the job's input as a drawing shows it.
func (b *book) shownDigest() string { return strings.ToUpper(b.inputDigest()[:digestShown]) }

// shopMarks says whether a kind of sheet names parts by their shop mark.
func (k Kind) shopMarks() bool { return k == PackingList || k >= ShopSheet && k <= PieceLabels }
