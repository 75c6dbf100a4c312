package main

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
)

// The ways to print findings.
const (
	asText   = "text"
	asJSON   = "json"
	asGitHub = "github"
)

// jsonVersion is that of the form of findings as JSON: it changes when a key goes or
// means another thing, and not when one is added.
const jsonVersion = 1

// checked is what a check found, as JSON.
type checked struct {
	Version  int           `json:"version"`
	Input    string        `json:"input,omitempty"` // digest of every value that was read
	Errors   int           `json:"errors"`
	Holds    int           `json:"holds"`
	Notes    int           `json:"notes"`
	Findings []jsonFinding `json:"findings"`
	Drawings []string      `json:"drawings,omitempty"` // faults of the drawings, where they were asked for
}

// jsonFinding is a finding with what it touches. Files are named as seen from the
// folder of the job, so that the same job says the same wherever it lies.
type jsonFinding struct {
	Code      string      `json:"code"`
	Severity  string      `json:"severity"`
	At        *jsonPlace  `json:"at,omitempty"`
	Also      []jsonPlace `json:"also,omitempty"`
	Perimeter string      `json:"perimeter,omitempty"`
	Runs      []string    `json:"runs,omitempty"`
	Corner    string      `json:"corner,omitempty"`
	Station   *float64    `json:"station_mm,omitempty"`
	Pieces    []string    `json:"pieces,omitempty"`
	Chairs    []string    `json:"chairs,omitempty"`
	Part      string      `json:"part,omitempty"`
	What      string      `json:"what"`
	Why       string      `json:"why,omitempty"`
	Mend      string      `json:"mend,omitempty"`
	Follows   *int        `json:"follows,omitempty"` // which of the findings it follows from, counted from 0
}

type jsonPlace struct {
	File   string `json:"file,omitempty"`
	Line   int    `json:"line,omitempty"`
	Column int    `json:"column,omitempty"`
}

func jsonOf(l *layout.Layout, f finding.Finding) jsonFinding {
	out := jsonFinding{Code: f.Code, Severity: f.Severity.String(), Perimeter: f.Where.Perimeter,
		Corner: f.Where.Corner,
		Pieces: f.Where.Pieces, Chairs: f.Where.Chairs, Part: f.Where.Part, What: f.What, Why: f.Why, Mend: f.Mend}
	place := func(p finding.Place) jsonPlace { return jsonPlace{p.File, p.Line, p.Col} }
	if !f.At.IsZero() {
		at := place(f.At)
		out.At = &at
	}
	for _, p := range f.Also {
		out.Also = append(out.Also, place(p))
	}
	if f.Where.Run != "" {
		out.Runs = append([]string{f.Where.Run}, f.Where.Runs...)
	}
	if f.Where.HasStation {
		at := f.Where.Station
		if l != nil { // as the sheets have it
			at = l.CrewStation(f.Where)
		}
		mm := at.MM()
		out.Station = &mm
	}
	return out
}

// printJSON prints findings, as seen from the job's folder, and what is known of
// the job: l is nil if it could not be solved, drawings if they were not asked for.
func printJSON(w io.Writer, l *layout.Layout, found finding.List, drawings []string) error {
	out := checked{Version: jsonVersion, Errors: found.Count(finding.Error), Holds: found.Count(finding.Hold),
		Notes: found.Count(finding.Note), Findings: []jsonFinding{}, Drawings: drawings}
	if l != nil && l.Job != nil {
		out.Input = l.Job.Digest()
	}
	for _, f := range found {
		out.Findings = append(out.Findings, jsonOf(l, f))
	}
	for i, f := range found {
		if k := found.Cause(f); k >= 0 {
			out.Findings[i].Follows = &k
		}
	}
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(out)
}

// printGitHub prints findings as commands of a workflow, which shows each at its
// line of the change that is looked at.
func printGitHub(w io.Writer, found finding.List) {
	plain := strings.NewReplacer("%", "%25", "\r", "%0D", "\n", "%0A")
	property := strings.NewReplacer("%", "%25", "\r", "%0D", "\n", "%0A", ":", "%3A", ",", "%2C")
	for _, f := range found {
		command := map[finding.Severity]string{finding.Error: "error", finding.Hold: "warning",
			finding.Note: "notice"}[f.Severity]
		at := ""
		if f.At.File != "" {
			at = "file=" + property.Replace(f.At.File) + ","
		}
		if f.At.Line > 0 {
			at += fmt.Sprintf("line=%d,", f.At.Line)
		}
		if f.At.Col > 0 {
			at += fmt.Sprintf("col=%d,", f.At.Col)
		}
		said := f
		said.At, said.Code = finding.Place{}, ""
		_, words, _ := strings.Cut(said.String(), ": ")
		fmt.Fprintf(w, "::%s %stitle=%s::%s\n", command, at, property.Replace(f.Severity.String()+" "+f.Code),
			plain.Replace(words))
	}
}

// mostAlike is how many findings of one code are printed as lines, unless all are
// asked for.
const mostAlike = 12

// printText prints findings a line each, the ones that follow from a doubted reading
// counted under it, and those of very many alike counted after the first. Every line
// that is not printed is in a count; all prints them all.
func printText(w io.Writer, found finding.List, all bool) {
	under := map[int][]string{} // codes by cause; look-up only
	hidden := map[int]bool{}
	if !all {
		for i, f := range found {
			if k := found.Cause(f); k >= 0 {
				under[k] = append(under[k], f.Code)
				hidden[i] = true
			}
		}
	}
	alike := map[string]int{} // printed or counted, by code; look-up only
	for i, f := range found {
		if hidden[i] {
			continue
		}
		alike[f.Code]++
		if n := alike[f.Code]; all || n <= mostAlike || len(under[i]) > 0 {
			fmt.Fprintln(w, f)
		}
		if codes := under[i]; len(codes) > 0 {
			fmt.Fprintf(w, "    %s from it, and what they hold stays held: %s\n", following(len(codes)), counts(codes))
		}
	}
	if all {
		return
	}
	var more []string
	for _, f := range found {
		if n := alike[f.Code]; n > mostAlike {
			more = append(more, fmt.Sprintf("%d more %s", n-mostAlike, f.Code))
			alike[f.Code] = 0
		}
	}
	if len(more) > 0 {
		fmt.Fprintf(w, "not listed: %s; --all lists them\n", strings.Join(more, ", "))
	}
}

func following(n int) string {
	if n == 1 {
		return "1 finding follows"
	}
	return fmt.Sprintf("%d findings follow", n)
}

// counts tells how often each of some codes comes, in the order they first do.
func counts(codes []string) string {
	var order []string
	n := map[string]int{}
	for _, c := range codes {
		if n[c] == 0 {
			order = append(order, c)
		}
		n[c]++
	}
	for i, c := range order {
		if n[c] > 1 {
			order[i] = fmt.Sprintf("%s (%d)", c, n[c])
		}
	}
	return strings.Join(order, ", ")
}

// tally counts findings in a line.
func tally(found finding.List) string {
	return fmt.Sprintf("%s, %s, %s", counted(found.Count(finding.Error), "error"),
		counted(found.Count(finding.Hold), "hold"), counted(found.Count(finding.Note), "note"))
}

// inputLine is the beginning of the digest of what was read.
func inputLine(j *job.Job) string { return "input " + job.ShortDigest(j.Digest()) }
