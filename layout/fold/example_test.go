package fold_test

import (
	"fmt"

	"copingset/layout/fold"
)

// A plain cap, 100 mm of top between two legs of 60 and 40 mm by their outside
// dimensions, is folded 3 m long and laid flat again. Each bend takes its
// deduction, so the blank is narrower than the 200 mm of the outside. The pattern shows the finish face, the roof
// edge at the bottom; a bend away from the viewer is negative.
func Example() {
	profile := fold.Profile{
		Y:     []float64{0, 0, 100, 100}, // to the roof
		Z:     []float64{-60, 0, 0, -40}, // up
		Names: []string{"front leg", "top", "rear leg"},
	}
	end := func(station float64) fold.End { return func(y, z float64) float64 { return station } }
	cap := fold.Prism(profile, 1, end(0), end(3000))

	bend := fold.Bend{Thickness: 1, Radius: 1.5, K: 0.4}
	flat, err := fold.Unfold(cap, bend)
	if err != nil {
		fmt.Println(err)
		return
	}
	lo, hi := flat.Bounds()
	deduction, _ := bend.Deduction(90)
	fmt.Printf("blank %.2f x %.2f mm, deduction %.2f mm a bend\n", hi.X-lo.X, hi.Y-lo.Y, deduction)
	for _, b := range flat.Bends {
		fmt.Printf("bend %+.0f degrees between %s and %s, %.2f mm from the lower edge\n", b.Turn, b.Between[0], b.Between[1], b.From.Y-lo.Y)
	}
	// Output:
	// blank 3000.00 x 195.97 mm, deduction 2.02 mm a bend
	// bend -90 degrees between top and front leg, 136.98 mm from the lower edge
	// bend -90 degrees between top and rear leg, 38.99 mm from the lower edge
}

// What a bend of 90 degrees takes, by its three figures.
func ExampleBend() {
	b := fold.Bend{Thickness: 1, Radius: 1.5, K: 0.4}
	deduction, err := b.Deduction(90)
	fmt.Printf("allowance %.3f, setback %.3f, deduction %.3f mm (error: %v)\n", b.Allowance(90), b.Setback(90), deduction, err)
	// Output:
	// allowance 2.985, setback 2.500, deduction 2.015 mm (error: <nil>)
}
