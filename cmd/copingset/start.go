package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"copingset/cmd/copingset/internal/store"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/outline"
	"copingset/sheets"

	"github.com/spf13/cobra"
)

// startList is the manifest of a new job.
const startList = "start-files.txt"

// startFlags are the flags of the start command.
type startFlags struct {
	rect, sides, points, dxf, layer          string
	out, name, issued, units, chord, nearest string
	every                                    string
	bearing                                  float64
	include                                  []string
}

func startCommand() *cobra.Command {
	var f startFlags
	c := &cobra.Command{
		Use:   "start",
		Short: "Begin a job from its outline: job.yaml and an empty survey",
		Long: `start writes a job to begin from and an empty survey for each of its perimeters,
from one of four outlines:

  --rect    two sides of a rectangle
  --sides   lengths and turns in walking order, the roof at the right hand
  --points  a CSV of corners in order: columns x and y, or east and north, with
            their unit behind in brackets, and a column loop where there are more
  --dxf     an ASCII DXF that states its units: closed polylines with arcs, or
            lines and arcs whose ends meet; a loop inside another is a well

Points that are one or lie on a line are taken out, arcs become facets, and what
was changed is said. Nothing is measured: all lengths are basis: drawing, and the
wall and the membrane are examples on hold until somebody has looked at them.
--include names the fabricator's file, by its path from the new job; without it
check asks for the coping system. A job that is already there is kept.`,
		Example: `  copingset start --rect 120ft,80ft --include ../systems/brindle-r8.yaml -o heron
  copingset start --sides "40 ft right 90 30 ft right 90 40 ft right 90 30 ft" -o shed
  copingset start --points corners.csv --units metric -o bath
  copingset start --dxf roof.dxf --layer WALL --chord "1/4 in" -o hall`,
		Args: nothingElse,
		RunE: func(cmd *cobra.Command, _ []string) error { return start(cmd, f) },
	}
	c.Flags().StringVar(&f.rect, "rect", "", "two sides of a rectangle, 120ft,80ft")
	c.Flags().StringVar(&f.sides, "sides", "", `lengths and turns, "120 ft right 90 80 ft right 90 ..."`)
	c.Flags().StringVar(&f.points, "points", "", "CSV file of corners")
	c.Flags().StringVar(&f.dxf, "dxf", "", "DXF file of the outline")
	c.Flags().StringVar(&f.layer, "layer", "", "layer of the DXF that holds the outline; all if none is named")
	c.Flags().StringVarP(&f.out, "out", "o", "", "folder of the new job (made if absent)")
	c.Flags().StringVar(&f.name, "name", "", "name of the building; the folder's if none is given")
	c.Flags().StringVar(&f.issued, "issued", "", "date of issue, 2026-03-16; today if none is given")
	c.Flags().StringVar(&f.units, "units", "imperial", "imperial or metric")
	c.Flags().StringVar(&f.chord, "chord", "", `greatest distance of a facet from its arc (usually 1/2" or 12 mm)`)
	c.Flags().StringVar(&f.nearest, "tolerance", "",
		`points nearer than this are one or lie on a line (usually 1/4" or 6 mm)`)
	c.Flags().Float64Var(&f.bearing, "bearing", 90,
		"with --sides: compass bearing of the first side, from left to right")
	c.Flags().StringArrayVar(&f.include, "include", nil,
		"file of the fabricator or the firm, by its path from the new job; again for each more")
	c.Flags().StringVar(&f.every, "every", "",
		`distance between the stations of the empty survey (usually 2'-0" or 600 mm)`)
	offer(c, "units", "imperial", "metric")
	c.MarkFlagsOneRequired("rect", "sides", "points", "dxf")
	c.MarkFlagsMutuallyExclusive("rect", "sides", "points", "dxf")
	_ = c.MarkFlagRequired("out")
	return c
}

func start(cmd *cobra.Command, f startFlags) error {
	units, err := unitsNamed(f.units)
	if err != nil {
		return err
	}
	if err := ready(cmd, f.out); err != nil {
		return err
	}
	plan, from, err := outlined(cmd, f, units)
	if err != nil {
		return err
	}
	b := outline.Begin{Name: f.name, Issued: f.issued, Include: f.include, Units: units, From: from,
		Survey: surveyOf(plan)}
	if b.Name == "" {
		b.Name = filepath.Base(filepath.Clean(f.out))
	}
	if b.Issued == "" {
		b.Issued = time.Now().Format(time.DateOnly)
	}
	if _, err := time.Parse(time.DateOnly, b.Issued); err != nil {
		return fmt.Errorf("--issued %s: write year, month and day, 2026-03-16", b.Issued)
	}
	if b.Has, err = stated(f); err != nil {
		return err
	}
	files, err := emptySurveys(f, plan.Unmeasured(units), b.Survey)
	if err != nil {
		return err
	}
	files = append(files, store.File{Name: "job.yaml", Data: []byte(plan.Text(b)), Typed: true})
	kept, err := write(cmd, f.out, store.Set{List: startList, Files: files})
	if err != nil {
		return err
	}
	out := cmd.OutOrStdout()
	for _, c := range plan.Changes {
		fmt.Fprintln(out, c)
	}
	runs := 0
	for _, p := range plan.Perimeters {
		runs += len(p.Sides)
	}
	fmt.Fprintf(out, "%s: %s, %s, %s\n", filepath.Join(f.out, "job.yaml"), counted(len(plan.Perimeters), "perimeter"),
		counted(runs, "run"),
		counted(len(files)-kept, "file"))
	if len(f.include) == 0 {
		fmt.Fprintln(out, "no coping system yet: write `include:` with the fabricator's file, then run check")
	}
	return nil
}

// outlined reads the outline that was asked for and says what it came from.
func outlined(cmd *cobra.Command, f startFlags, units job.Units) (outline.Plan, string, error) {
	o, most, err := roughness(f, units)
	if err != nil {
		return outline.Plan{}, "", err
	}
	switch {
	case f.rect != "":
		wide, deep, err := twoLengths(f.rect)
		if err != nil {
			return outline.Plan{}, "", fmt.Errorf("--rect %s: %w", f.rect, err)
		}
		return outline.Rect(wide, deep), "two sides of a rectangle", nil
	case f.sides != "":
		if !(f.bearing >= 0 && f.bearing < 360) {
			return outline.Plan{}, "", fmt.Errorf("--bearing %g: from 0 to less than 360", f.bearing)
		}
		p, err := outline.Sides(f.sides, length.Angle(f.bearing*float64(length.Degree)), most)
		if err != nil {
			return p, "", fmt.Errorf("--sides: %w", err)
		}
		return p, "sides and turns", nil
	}
	return fromFile(cmd, f, o)
}

// roughness is how rough a drawing may be, and how far sides may fail to close.
func roughness(f startFlags, units job.Units) (o outline.Options, most length.Length, err error) {
	o = outline.Options{Near: length.Inch / 4, Chord: length.Inch / 2, Layer: f.layer, Metric: units == job.Metric}
	most = length.Inch
	if o.Metric {
		o.Near, o.Chord, most = 6*length.Millimetre, 12*length.Millimetre, 25*length.Millimetre
	}
	for _, k := range []struct {
		flag, text string
		to         *length.Length
	}{{"chord", f.chord, &o.Chord}, {"tolerance", f.nearest, &o.Near}} {
		if k.text == "" {
			continue
		}
		l, err := length.Parse(k.text)
		if err != nil {
			return o, most, fmt.Errorf("--%s %s: %w", k.flag, k.text, err)
		}
		if l <= 0 {
			return o, most, fmt.Errorf("--%s %s: more than nothing", k.flag, k.text)
		}
		*k.to = l
	}
	return o, most, nil
}

// fromFile reads points or a drawing; findings are printed as those of a job are.
func fromFile(cmd *cobra.Command, f startFlags, o outline.Options) (outline.Plan, string, error) {
	name := f.points
	if f.dxf != "" {
		name = f.dxf
	}
	data, err := os.Open(name)
	if err != nil {
		return outline.Plan{}, "", err
	}
	defer data.Close()
	var rings []outline.Ring
	var changes []string
	var found finding.List
	if f.dxf != "" {
		rings, changes, found = outline.DXF(data, filepath.Base(name), o)
	} else {
		rings, found = outline.Points(data, filepath.Base(name))
	}
	var p outline.Plan
	if !found.HasErrors() {
		p, found = outline.Of(rings, o)
	}
	if found.HasErrors() {
		report(cmd.ErrOrStderr(), found)
		fmt.Fprintln(cmd.ErrOrStderr(), "no job written: correct the outline first")
		return p, "", errFindings
	}
	p.Changes = append(changes, p.Changes...)
	return p, map[bool]string{true: "a drawing in DXF", false: "a list of points"}[f.dxf != ""], nil
}

// twoLengths are two lengths with a comma between; a decimal comma may be in them.
func twoLengths(s string) (wide, deep length.Length, err error) {
	for i, r := range s {
		if r != ',' {
			continue
		}
		a, errA := length.Parse(strings.TrimSpace(s[:i]))
		b, errB := length.Parse(strings.TrimSpace(s[i+1:]))
		if errA == nil && errB == nil && a > 0 && b > 0 {
			return a, b, nil
		}
		err = errors.Join(errA, errB)
	}
	if err == nil {
		err = errors.New("write two lengths with a comma between, 120ft,80ft")
	}
	return 0, 0, err
}

// surveyOf names the survey of a perimeter.
func surveyOf(p outline.Plan) func(string) string {
	return func(perimeter string) string {
		if len(p.Perimeters) == 1 {
			return "survey.csv"
		}
		return "survey-" + strings.ToLower(perimeter) + ".csv"
	}
}

// emptySurveys are the surveys that the new job names, their stations filled in.
func emptySurveys(f startFlags, j *job.Job, name func(string) string) ([]store.File, error) {
	o := sheets.FormOptions{}
	if f.every != "" {
		every, err := length.Parse(f.every)
		if err != nil {
			return nil, fmt.Errorf("--every %s: %w", f.every, err)
		}
		if every < leastStep {
			return nil, fmt.Errorf("--every %s: stations stand an inch or more apart", f.every)
		}
		o.Every = every
	}
	var out []store.File
	for _, s := range sheets.FormCSV(j, o) {
		var b bytes.Buffer
		if err := sheets.WriteCSV(&b, s); err != nil {
			return nil, fmt.Errorf("%s: %w", s.Name, err)
		}
		out = append(out, store.File{Name: name(s.Of), Data: b.Bytes(), Typed: true})
	}
	return out, nil
}

// stated are the parts that the included files state.
func stated(f startFlags) ([]string, error) {
	var out []string
	for _, name := range f.include {
		data, err := readLimited(filepath.Join(f.out, filepath.FromSlash(name)))
		if err != nil {
			return nil, fmt.Errorf("--include %s: %w (its path is from the new job's folder)", name, err)
		}
		keys, err := job.TopKeys(data)
		if err != nil {
			return nil, fmt.Errorf("--include %s: %w", name, err)
		}
		out = append(out, keys...)
	}
	slices.Sort(out)
	return slices.Compact(out), nil
}

func readLimited(name string) ([]byte, error) {
	file, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	const most = 4 << 20
	return io.ReadAll(io.LimitReader(file, most))
}
