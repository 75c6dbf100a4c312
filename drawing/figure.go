package drawing

import "fmt"

// Figure is a composite lowered to marks, with the room it takes, so that composers can stack one beside another.
type Figure struct {
	Marks []Mark
	Box   Rect
}

// figure measures the marks of a scene used as a pad.
func figure(s Scene) Figure { return Figure{Marks: s.Marks, Box: s.Bounds()} }

// unknown is what a switch over marks says of a type it does not know, which is a programming error.
func unknown(m Mark) string { return fmt.Sprintf("drawing: unknown mark %T", m) }
