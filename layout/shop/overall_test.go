package shop

import (
	"math"
	"testing"

	"copingset/layout/fold"
)

// By hand, of a leg with a kick of 45 degrees and a closed hem: overall drop = inside
// length of the leg + f cos(turn) + 2 T sin(turn), where the inside of the bend is
// the finish face at the street and f the kick's length there. Of a leg that ends in
// a hook of 150 degrees, its outside length to the tangent, which is its lowest metal.
func TestOverallDrop(t *testing.T) {
	const T, R = 1.0, 1.5
	legs := []fold.Leg{{Name: "hem", Outside: 9, Turn: -180, To: fold.ToTangent}, {Name: "drip", Outside: 17, Turn: 45, Radius: R},
		{Name: "front leg", Outside: 139, Turn: -90, Radius: R}, {Name: "top", Outside: 250, Turn: -90, Radius: R},
		{Name: "rear leg", Outside: 99, Turn: -150, Radius: R, To: fold.ToTangent}, {Name: "hook", Outside: 20}}
	p, err := fold.NewPath(T, 0.42, legs, 3)
	if err != nil {
		t.Fatal(err)
	}
	b := Body{Metal: &fold.Sheet{Path: p}}
	front, rear, ok := b.Overall()
	if !ok {
		t.Fatal("no one section")
	}
	// The stated leg and kick end at the mold line of the faces behind, which lie
	// outside the bend: the street faces are T tan(turn/2) shorter each.
	half := T * math.Tan(22.5*math.Pi/180)
	// The kick's own outside length ends at the outside of the hem's fold.
	inside, kick := 139-half, 17-half
	sin, cos := math.Sincos(45 * math.Pi / 180)
	// The fold of the hem is a half round of radius T about the end of the straight:
	// its lowest metal, not its square corner.
	want := inside + (kick-T)*cos + T*sin + T
	if got := front.MM(); math.Abs(got-want) > 0.01 {
		t.Errorf("the front hangs %.3f mm, by hand %.3f", got, want)
	}
	if got := rear.MM(); math.Abs(got-99) > 0.01 {
		t.Errorf("the rear hangs %.3f mm, stated 99 to its tangent", got)
	}
}
