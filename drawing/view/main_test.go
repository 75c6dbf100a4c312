package view

import (
	"os"
	"runtime/debug"
	"testing"
)

// The tests draw thousands of views and keep few: collecting what is thrown away
// less often spares a quarter of their time and costs some hundred megabytes.
func TestMain(m *testing.M) {
	debug.SetGCPercent(400)
	os.Exit(m.Run())
}
