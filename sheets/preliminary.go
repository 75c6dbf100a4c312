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

// preliminary is what sheets, labels and files of marks that were not issued say.
func (b *book) preliminary() string {
	return b.say.Say(words.FramePreliminary, words.In("digest", b.shownDigest()))
}

// shownDigest is the digest of the job's input as a drawing shows it.
func (b *book) shownDigest() string {
	if b.digest == "" {
		b.digest = b.l.Job.Digest()
	}
	return strings.ToUpper(b.digest[:digestShown])
}

// shopMarks says whether a kind of sheet names parts by their shop mark.
func (k Kind) shopMarks() bool { return k == PackingList || k >= ShopSheet && k <= PieceLabels }
