package wind

import (
	"math"
	"os"
	"testing"

	"copingset/layout/internal/published"
)

func TestMain(m *testing.M) { os.Exit(published.Run(m, "layout/wind")) }

// near fails on a figure further off than a tolerance.
func near(t *testing.T, source string, got, want, within float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > within {
		t.Errorf("%s: got %.6g, want %.6g ± %g", source, got, want, within)
	}
}

// encoding is a public encoding of ASCE 7-22 with unit tests of its own.
const encoding = "unit tests of a public encoding of ASCE 7-22"
