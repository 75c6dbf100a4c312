// Command copingset solves a metal parapet coping from one job file and its
// wall survey and prints it: installation sheets, shop drawings, schedules and
// crate lists, as a PDF packet, SVG drawings and CSV.
//
// The command line is a thin layer: it parses flags, reads the job, calls
// layout and sheets, and writes files whole or not at all. Exit codes: 0 done,
// 1 the job has errors (findings are printed), 2 the command could not be
// carried out.
package main

import "os"

func main() { os.Exit(Run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }
