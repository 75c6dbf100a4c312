package sheets

import (
	"os"
	"strings"
	"testing"

	"copingset/drawing/words"
)

// The list of words stands in the documents as on the sheet: the same words, in the
// same order, with the same meaning.
func TestWordsOfTheDocumentsAreThoseOfTheSheet(t *testing.T) {
	text, err := os.ReadFile("../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	_, list, found := strings.Cut(string(text), "| word | what it means |\n|---|---|\n")
	list, _, _ = strings.Cut(list, "\n\n")
	var want []string
	var say words.Book
	for _, w := range wordList {
		want = append(want, "| "+say.Say(w[0])+" | "+say.Say(w[1])+" |")
	}
	if strings.TrimSpace(list) != strings.Join(want, "\n") || !found {
		t.Errorf("DEVELOPERS.md has\n%s\nand the sheet\n%s", list, strings.Join(want, "\n"))
	}
}

// A word stands in the list once, and no mark is explained twice.
func TestWordsAreExplainedOnce(t *testing.T) {
	seen := map[string]bool{} // look-up only
	for _, say := range []words.Book{{}, {Lang: words.Spanish}} {
		clear(seen)
		for _, list := range [][][2]words.Key{markList, wordList} {
			for _, w := range list {
				if word := strings.ToLower(say.Say(w[0])); seen[word] {
					t.Errorf("%s is explained twice", word)
				} else {
					seen[word] = true
				}
			}
		}
	}
}
