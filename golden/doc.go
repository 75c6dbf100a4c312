// Package golden pins the outputs of every sample and holds the house to its
// own plan. It has no code of its own: see golden_test.go for what is pinned
// and how to refresh it, words_test.go and page_test.go for how a change is
// shown, house_test.go for what may import what.
package golden
