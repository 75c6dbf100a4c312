package main

import (
	"fmt"
	"io"
	"os"
	"runtime"
	"runtime/debug"
	"strings"
)

// stackVariable is the variable of the environment that has the stack printed
// under the sentence of a fault.
const stackVariable = "COPINGSET_STACK"

// guard is the last one: a fault of the program's own ends in a sentence that a
// person can act on, and never in a stack. Nothing is written when it speaks:
// commands write once all is made, and store takes back what it has begun.
func guard(stderr io.Writer, command func() int) (code int) {
	defer func() {
		if fault := recover(); fault != nil {
			code = exitFailed
			fmt.Fprintf(stderr, "copingset: the program met a fault of its own and stopped (%s%s), and nothing was "+
				"written: "+
				"please send the job file, the files it names and this line to whoever gave you the program.\n",
				oneLine(fault), faultPlace())
			if os.Getenv(stackVariable) != "" {
				_, _ = stderr.Write(debug.Stack())
			}
		}
	}()
	return command()
}

// oneLine is what a fault says of itself.
func oneLine(fault any) string { return strings.Join(strings.Fields(fmt.Sprint(fault)), " ") }

// faultPlace is where in our own code a fault came up.
func faultPlace() string {
	pc := make([]uintptr, 64)
	frames := runtime.CallersFrames(pc[:runtime.Callers(0, pc)])
	for below := false; ; {
		f, more := frames.Next()
		switch {
		case f.Function == "runtime.gopanic":
			below = true
		case below && (strings.HasPrefix(f.Function, "copingset/") || strings.HasPrefix(f.Function, "main.")):
			name := f.File[strings.LastIndex(f.File, "/")+1:]
			return fmt.Sprintf(" at %s:%d", name, f.Line)
		}
		if !more {
			return ""
		}
	}
}
