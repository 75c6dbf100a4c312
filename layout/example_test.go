package layout_test

import (
	"fmt"
	"os"

	"copingset/layout"
	"copingset/layout/job"
)

// A job is read, then solved. Everything that is drawn or listed is in the
// Layout: here the pieces and gaps of each run, which make up its cap line to
// the nanometre.
func ExampleBuild() {
	j, found := job.Read(os.DirFS("../samples"), "rectangle/job.yaml")
	if found.HasErrors() {
		fmt.Println(found)
		return
	}
	l, found := layout.Build(j)
	if found.HasErrors() {
		fmt.Println(found)
		return
	}
	for _, p := range l.Perimeters {
		for _, r := range p.Runs {
			rest := r.Cap
			for _, part := range r.Parts {
				rest -= part.Length()
			}
			for _, joint := range r.Joints {
				rest -= joint.Gap()
			}
			fmt.Printf("run %s: pieces and gaps leave %v of the cap line\n", r.Name, rest)
		}
	}
	// Output:
	// run N: pieces and gaps leave 0'-0" of the cap line
	// run E: pieces and gaps leave 0'-0" of the cap line
	// run S: pieces and gaps leave 0'-0" of the cap line
	// run W: pieces and gaps leave 0'-0" of the cap line
}
