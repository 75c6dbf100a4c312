package fold_test

import (
	"fmt"

	"copingset/layout/fold"
)

// A plain cap, 100 mm of top between two legs of 60 and 40 mm by their outside
// dimensions, 3 m long, is laid flat. Each bend takes its deduction, so the blank
// is narrower than the 200 mm of the outside. The pattern shows the finish face,
// the roof edge at the bottom; a bend away from the viewer is negative.
func Example() {
	bend := fold.Bend{Thickness: 1, Radius: 1.5, K: 0.4}
	section, err := fold.NewPath(bend.Thickness, bend.K, []fold.Leg{
		{Name: "front leg", Outside: 60, Turn: -90, Radius: bend.Radius},
		{Name: "top", Outside: 100, Turn: -90, Radius: bend.Radius},
		{Name: "rear leg", Outside: 40},
	}, 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	cap := fold.Sheet{
		Path:  section,
		Left:  fold.Cut{Seam: fold.Square(0, false)},
		Right: fold.Cut{Seam: fold.Square(3000, true)},
	}
	flat, err := cap.Pattern(0.05)
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
