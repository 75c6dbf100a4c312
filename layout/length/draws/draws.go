// Package draws says how often the random tests draw, and draws alike every day:
// what `go test` says depends on the code and not on the day. One variable of the
// environment multiplies all draws, few by default and many before a release:
//
//	COPINGSET_DRAWS=20 go test -timeout 30m ./...
//
// A test package with random tests imports it. There rapid.Check draws Usual
// times, CheckLayouts for properties of solved jobs and Check for others that are
// dear; Times is for loops over seeds. To draw other cases, change the
// seed: `go test ./layout -rapid.seed=0` takes it from the clock.
package draws

import (
	"flag"
	"fmt"
	"os"
	"runtime/debug"
	"strconv"
	"sync"

	"pgregory.net/rapid"
)

// Variable is the variable of the environment that multiplies all draws: a whole
// number, 1 where it is not set.
const Variable = "COPINGSET_DRAWS"

// How often is drawn at a factor of one: by rapid.Check, and by CheckLayouts.
const (
	Usual   = 100
	Layouts = 15
)

// seed of all draws; the flag's own default draws from the clock.
const seed = "20261125"

var factor = must(parse(os.Getenv(Variable)))

// Flags of the command line are read after this and win. Tests throw away nearly
// all they make: collecting it less often spares a fifth of their time.
func init() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(400)
	}
	set("rapid.seed", seed)
	set("rapid.checks", strconv.Itoa(Times(Usual)))
}

// Times is a number of draws, multiplied as asked.
func Times(n int) int { return n * factor }

// CheckLayouts is Check for properties whose every case is a job to be solved.
func CheckLayouts(t rapid.TB, prop func(*rapid.T)) {
	t.Helper()
	Check(t, Layouts, prop)
}

var drawing sync.Mutex // held while rapid reads how often it is to draw

// Check is rapid.Check with draws of its own number, multiplied as asked. Tests
// that run beside each other may use it, rapid.Check they may not.
func Check(t rapid.TB, n int, prop func(*rapid.T)) {
	t.Helper()
	drawing.Lock()
	was := flag.Lookup("rapid.checks").Value.String()
	set("rapid.checks", strconv.Itoa(Times(n)))
	// rapid has read the number by the time it asks for the first case.
	done := sync.OnceFunc(func() {
		set("rapid.checks", was)
		drawing.Unlock()
	})
	defer done()
	rapid.Check(t, func(t *rapid.T) {
		done()
		prop(t)
	})
}

func set(name, value string) {
	if err := flag.Set(name, value); err != nil {
		panic(err)
	}
}

// parse reads the variable's value.
func parse(value string) (int, error) {
	if value == "" {
		return 1, nil
	}
	n, err := strconv.Atoi(value)
	if err != nil || n < 1 || n > 1_000_000 {
		return 0, fmt.Errorf(
			"%s=%q: write a whole number from 1 to 1000000, by which draws are multiplied",
			Variable,
			value,
		)
	}
	return n, nil
}

func must(n int, err error) int {
	if err != nil {
		panic(err)
	}
	return n
}
