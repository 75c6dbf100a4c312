package main

import (
	"bytes"
	"fmt"
	"os"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"copingset/cmd/copingset/internal/store"
	"copingset/drawing"
	"copingset/drawing/dxf"
	"copingset/drawing/svg"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/sheets"

	"github.com/spf13/cobra"
)

// builtForm is the form on which the crew writes what stands on the wall.
const builtForm = "as-built.pdf"

// packetFlags are the flags of the packet command.
type packetFlags struct {
	out, audience, paper, units string
	runs, only                  []string
	liveText, svg, force        bool
}

func packetCommand() *cobra.Command {
	var f packetFlags
	c := &cobra.Command{
		Use:   "packet JOB...",
		Short: "Print the packet: packet.pdf, SVG drawings, CSV schedules",
		Long: `packet solves the job and writes into DIR: packet.pdf, one SVG for each view
(views/) and with --svg for each sheet (sheets/), the schedules as CSV (schedules/),
as-built.pdf, the form on which what stands on the wall is written for asbuilt.csv,
and, for the shop, flat patterns of released pieces as DXF at 1:1 (dxf/). Where
pressures are computed, confirm.txt is the list that a licensed engineer confirms by its check
code (see copingset confirm). An error finding stops it before anything is written.
Files of an earlier packet in DIR that this one no longer has are removed, so that
no stale sheet is left. --run and --sheets print a part: those sheets with the
numbers they have in the whole packet, and their views.

What was written is listed in DIR/packet-files.txt with the SHA-256 of each file.
A file that is not as listed is somebody's: one that the packet would write stops
it before anything is written, unless --force writes over it; one that it no
longer has is kept and named.

Several jobs, or folders with job files in them or below, are printed beside each
other on all cores, each into a folder of its own in DIR. One that has errors does
not stop the others; the exit code tells of the worst.

--for takes only the sheets of one reader. pre-bid is for the visit to the wall
before the bid: the wall reports, the questions to the general contractor and
both ways to level the wall top.`,
		Example: `  copingset packet samples/rectangle/job.yaml -o out
  copingset packet samples/rectangle/job.yaml -o out --for shop
  copingset packet samples/l-shape/job.yaml -o out --for pre-bid
  copingset packet samples/metric/job.yaml -o out --paper A2,A4 --units metric
  copingset packet samples/rectangle/job.yaml -o north --run N
  copingset packet samples/rectangle/job.yaml -o sheet --sheets 3.N.1`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return oneJob(cmd, args)
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			info, err := os.Stat(args[0])
			if len(args) == 1 && (err != nil || !info.IsDir()) {
				return packet(cmd, args[0], f)
			}
			jobs, err := jobsOf(args)
			if err != nil {
				return err
			}
			return packets(cmd, jobs, f)
		},
	}
	c.Flags().StringVarP(&f.out, "out", "o", "packet", "folder to write into (made if absent)")
	c.Flags().StringVar(&f.audience, "for", "all", "whose sheets: all, crew, shop, inspector, receiving, pre-bid")
	c.Flags().StringVar(&f.paper, "paper", "",
		"paper of the run sheets, and after a comma of the lists: A, B, C, D, A4, A3, A2")
	c.Flags().StringVar(&f.units, "units", "", "imperial or metric, instead of the job's")
	c.Flags().StringSliceVar(&f.runs, "run", nil, "only the sheets of a run, by its name; again for each more")
	c.Flags().StringSliceVar(&f.only, "sheets", nil,
		"only sheets with these numbers, 3.N.1, or with the beginning of theirs, 3.N")
	c.Flags().BoolVar(&f.svg, "svg", false, "write each sheet as SVG too, not only the views")
	c.Flags().BoolVar(&f.liveText, "live-text", false, "letter the SVG with live text instead of outlines")
	c.Flags().BoolVar(&f.force, "force", false, "write over files that were changed or that are not of this program")
	offer(c, "for", audienceWords()...)
	offer(c, "units", "imperial", "metric")
	offer(c, "paper", "A", "B", "C", "D", "A4", "A3", "A2")
	return c
}

func packet(cmd *cobra.Command, path string, f packetFlags) error {
	o, err := options(f)
	if err != nil {
		return err
	}
	if err := ready(cmd, f.out); err != nil {
		return err
	}
	in, err := inputOf(cmd, path)
	if err != nil {
		return err
	}
	l, found, err := open(in, f.units)
	if err != nil {
		return err
	}
	report(cmd.ErrOrStderr(), found)
	if found.HasErrors() {
		fmt.Fprintln(cmd.ErrOrStderr(), "no packet written: correct the errors first")
		return errFindings
	}
	if err := known(l.Job, f.runs); err != nil {
		return err
	}
	o.OfRuns, o.Only = f.runs, f.only
	pages := sheets.Packet(l, o)
	if len(pages) == 0 {
		return fmt.Errorf("no sheet of this packet is asked for: the index lists their numbers")
	}
	faults := look(l, pages, o)
	files, err := packetFiles(l, pages, o, f)
	if err != nil {
		return err
	}
	set := store.Set{List: packetList, Files: files, Force: f.force, Inputs: inputs(in, l.Job)}
	if _, err := write(cmd, f.out, set); err != nil {
		return err
	}
	stale(cmd, f.out, withLetter(files, l))
	held := ""
	if found.Count(finding.Hold) > 0 {
		held = ", HOLD: " + counted(found.Count(finding.Hold), "hold") + ", " + counted(len(l.Withheld), "piece") +
			" not released"
	}
	fmt.Fprintf(cmd.OutOrStdout(), "%s: %s, %s%s\n", f.out, counted(len(pages), "sheet"), counted(len(files), "file"),
		held)
	for _, f := range faults {
		fmt.Fprintf(cmd.ErrOrStderr(), "drawing check: %v\n", f)
	}
	if len(faults) > 0 {
		return errFaults
	}
	return nil
}

// look looks all sheets over, on all cores; those with faults say so themselves.
func look(l *layout.Layout, pages []sheets.Sheet, o sheets.Options) []sheets.Fault {
	found := make([][]sheets.Fault, len(pages))
	_ = onCores(len(pages), func(i int) error { // looking cannot fail
		found[i] = sheets.Look(l, o, &pages[i])
		return nil
	})
	return slices.Concat(found...)
}

// packetFiles are all files of a packet: what is drawn, the lists, and what machines read.
func packetFiles(l *layout.Layout, pages []sheets.Sheet, o sheets.Options, f packetFlags) ([]store.File, error) {
	files, err := render(l, pages, f)
	if err != nil {
		return nil, err
	}
	part := len(f.runs) > 0 || len(f.only) > 0
	if text := l.ConfirmText(); text != "" && !part && (o.For == sheets.All || o.For == sheets.Inspector) {
		files = append(files, store.File{Name: confirmFile, Data: []byte(text)})
	}
	if part || o.For != sheets.All && o.For != sheets.Shop {
		return files, nil
	}
	for _, m := range sheets.Machines(l) {
		files = append(files, store.File{Name: "dxf/" + m.Name, Data: dxf.Encode(m.Drawing)})
	}
	if len(l.Families) > 0 {
		lists, err := tables("dxf/", sheets.MachineLists(l))
		if err != nil {
			return nil, err
		}
		files = append(files, lists...)
	}
	return files, nil
}

func options(f packetFlags) (sheets.Options, error) {
	var o sheets.Options
	ok := false
	for _, a := range sheets.Audiences() {
		if a.String() == f.audience {
			o.For, ok = a, true
		}
	}
	if !ok {
		return o, fmt.Errorf("--for %s: write %s", f.audience, strings.Join(audienceWords(), ", "))
	}
	if f.paper == "" {
		return o, nil
	}
	runs, lists, two := strings.Cut(f.paper, ",")
	p, err := job.ParsePaper(runs)
	if err != nil {
		return o, fmt.Errorf("--paper: %w", err)
	}
	o.Runs = &p
	if two {
		q, err := job.ParsePaper(lists)
		if err != nil {
			return o, fmt.Errorf("--paper: %w", err)
		}
		o.Lists = &q
	}
	return o, nil
}

func audienceWords() []string {
	var out []string
	for _, a := range sheets.Audiences() {
		out = append(out, a.String())
	}
	return out
}

// render makes every file in memory, so that nothing is written of a packet that
// cannot be finished. A part of a packet, of runs or of sheets, has its own views and
// no schedules.
func render(l *layout.Layout, pages []sheets.Sheet, f packetFlags) ([]store.File, error) {
	type scene struct {
		name string
		of   drawing.Scene
	}
	var all []scene
	if f.svg {
		for _, p := range pages {
			all = append(all, scene{"sheets/" + p.ID + ".svg", p.Scene})
		}
	}
	part := len(f.runs) > 0 || len(f.only) > 0
	if !part || len(f.runs) > 0 {
		for _, v := range sheets.Views(l, f.runs...) {
			all = append(all, scene{"views/" + v.Name + ".svg", v})
		}
	}
	out := make([]store.File, 1+len(all))
	err := onCores(len(out), func(i int) error {
		var b bytes.Buffer
		if i == 0 { // the longest, first
			if err := sheets.PDF(&b, l, pages); err != nil {
				return fmt.Errorf("packet.pdf: %w", err)
			}
			out[i] = store.File{Name: "packet.pdf", Data: b.Bytes()}
			return nil
		}
		s := all[i-1]
		if err := svg.Write(&b, s.of, svg.Options{LiveText: f.liveText}); err != nil {
			return fmt.Errorf("%s: %w", s.name, err)
		}
		out[i] = store.File{Name: s.name, Data: b.Bytes()}
		return nil
	})
	if err != nil || part {
		return out, err
	}
	lists, err := listFiles(l, "schedules/")
	if err != nil || f.audience != sheets.All.String() && f.audience != sheets.Crew.String() {
		return append(out, lists...), err
	}
	built, err := builtFiles(l)
	return slices.Concat(out, lists, built), err
}

// spoken are the sheets of those on the roof in the language of the job. In two, each
// faces the other of its number; those that are not as many stand behind each other.
func spoken(in job.Language, draw func(words.Lang) []sheets.Sheet) []sheets.Sheet {
	if in == job.InEnglish {
		return draw(words.English)
	}
	own := draw(words.Spanish)
	for i := range own {
		own[i].ID += "-es"
	}
	if in == job.InSpanish {
		return own
	}
	english := draw(words.English)
	if len(english) != len(own) {
		return append(english, own...)
	}
	var out []sheets.Sheet
	for i, s := range english {
		out = append(out, s, own[i])
	}
	return out
}

// builtFiles are the form for what stands on the wall, and the list it is typed into.
func builtFiles(l *layout.Layout) ([]store.File, error) {
	var form bytes.Buffer
	pages := spoken(l.Job.Language, func(lang words.Lang) []sheets.Sheet { return sheets.BuiltForms(l, lang) })
	if err := sheets.PDF(&form, l, pages); err != nil {
		return nil, fmt.Errorf("%s: %w", builtForm, err)
	}
	out, err := tables("schedules/", []sheets.Schedule{sheets.BuiltList(l)})
	for i := range out {
		out[i].Typed = true
	}
	return append(out, store.File{Name: builtForm, Data: form.Bytes()}), err
}

// onCores does n things on all cores, each once, and gives the first error in their
// order.
func onCores(n int, do func(i int) error) error {
	errs := make([]error, n)
	fault := make([]any, n) // of the program; it is told where the command is guarded
	var next atomic.Int64
	var wg sync.WaitGroup
	one := func(i int) {
		defer func() { fault[i] = recover() }()
		errs[i] = do(i)
	}
	for range min(n, runtime.GOMAXPROCS(0)) {
		wg.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				one(i)
			}
		})
	}
	wg.Wait()
	for _, f := range fault {
		if f != nil {
			panic(f)
		}
	}
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// tables writes schedules as files of a folder.
func tables(folder string, of []sheets.Schedule) ([]store.File, error) {
	var out []store.File
	for _, s := range of {
		var b bytes.Buffer
		if err := sheets.WriteCSV(&b, s); err != nil {
			return nil, fmt.Errorf("%s: %w", s.Name, err)
		}
		out = append(out, store.File{Name: folder + s.Name, Data: b.Bytes()})
	}
	return out, nil
}
