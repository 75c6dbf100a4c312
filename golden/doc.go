// Package golden pins the outputs of every sample and holds the house to its
// own plan. It has no code of its own: see golden_test.go for what is pinned
// and how to refresh it, house_test.go for what may import what.
package golden
