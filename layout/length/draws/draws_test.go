package draws

import (
	"os/exec"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParse(t *testing.T) {
	for value, want := range map[string]int{"": 1, "1": 1, "25": 25, "1000000": 1_000_000} {
		if n, err := parse(value); err != nil || n != want {
			t.Errorf("%q is read as %d, %v; want %d", value, n, err, want)
		}
	}
	for _, value := range []string{"0", "-1", "many", "1.5", "1000001"} {
		if n, err := parse(value); err == nil {
			t.Errorf("%q is read as %d", value, n)
		}
	}
}

// Each test draws its own number, whatever others beside it draw.
func TestCheckDrawsItsOwnNumber(t *testing.T) {
	for _, n := range []int{3, 7, 20} {
		t.Run("", func(t *testing.T) {
			t.Parallel()
			drawn := 0
			Check(t, n, func(t *rapid.T) {
				rapid.Int().Draw(t, "n")
				drawn++
			})
			if drawn != Times(n) {
				t.Errorf("%d draws, want %d", drawn, Times(n))
			}
		})
	}
}

func TestUsualDrawsAreMultiplied(t *testing.T) {
	drawn := 0
	rapid.Check(t, func(t *rapid.T) {
		rapid.Int().Draw(t, "n")
		drawn++
	})
	if drawn != Times(Usual) {
		t.Errorf("%d draws, want %d", drawn, Times(Usual))
	}
}

// A test package that draws without this package would draw from the clock.
func TestEveryRandomTestIsPinned(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .TestImports " "}} {{join .XTestImports " "}}`, "copingset/...").Output()
	if err != nil {
		t.Fatal(err)
	}
	random := 0
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		words := strings.Fields(line)
		if !slices.Contains(words[1:], "pgregory.net/rapid") || words[0] == "copingset/layout/length/draws" {
			continue
		}
		random++
		if !slices.Contains(words[1:], "copingset/layout/length/draws") {
			t.Errorf("the tests of %s draw and do not import copingset/layout/length/draws", words[0])
		}
	}
	if random == 0 {
		t.Error("no package draws: the check has nothing to look at")
	}
}
