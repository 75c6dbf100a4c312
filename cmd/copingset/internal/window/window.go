// Package window shows a job in a browser while it is written: its sheets as they
// print, and what is wrong with it, drawn anew when one of its files is saved.
//
// It only reads. It answers on the loopback of this machine alone, at a port and a
// path that nobody can guess, to requests of its own pages; nothing is fetched from
// anywhere else.
package window

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"os"
	"slices"
	"sync"
	"time"

	"copingset/drawing/svg"
	"copingset/layout"
	"copingset/layout/finding"
	"copingset/sheets"
)

// Solved is a job as its files say it now.
type Solved struct {
	Layout   *layout.Layout // nil, or not to be drawn, where a finding is an error
	Findings finding.List   // files named as they are shown
	Files    []File         // that it was read from
	Err      error          // why it could not be read at all
}

// File is a file of the job: its name as findings have it, and its path.
type File struct{ Name, Path string }

// Window is a job that is watched.
type Window struct {
	solve   func() Solved
	options sheets.Options

	mu       sync.Mutex
	state    state
	drawn    map[string]*drawn // by sheet; look-up only
	looked   string            // the sheet that is looked at
	files    []File
	watchers map[chan event]bool // look-up only
	live     *sheets.Live        // the last that could be drawn; only the watching goroutine draws
}

// drawn is a sheet as it was drawn last.
type drawn struct {
	digest string // of its scene
	svg    []byte
}

// event is what pages are told.
type event struct {
	Kind   string `json:"kind"` // state, or sheet
	Sheet  string `json:"sheet,omitempty"`
	Digest string `json:"digest,omitempty"`
}

// state is what a page shows beside its sheet.
type state struct {
	Version  int           `json:"version"` // grows with every save
	Job      string        `json:"job"`
	Errors   int           `json:"errors"`
	Holds    int           `json:"holds"`
	Notes    int           `json:"notes"`
	Stale    bool          `json:"stale"` // the sheets are those of before: the job has errors now
	Problem  string        `json:"problem,omitempty"`
	Sheets   []shownSheet  `json:"sheets"`
	Findings []shownFound  `json:"findings"`
	Files    []string      `json:"files"`
	First    int64         `json:"first_ms"` // from noticing the save to the sheet that is looked at
	Whole    int64         `json:"whole_ms"` // and to all of them
	Changed  int           `json:"changed"`  // sheets that came out otherwise
	took     time.Duration // of the first sheet
}

type shownSheet struct {
	ID     string `json:"id"`
	Number string `json:"number"`
	Title  string `json:"title"`
	Held   bool   `json:"held"`
	Digest string `json:"digest"`
}

type shownFound struct {
	Severity string `json:"severity"`
	Code     string `json:"code"`
	File     string `json:"file,omitempty"`
	Line     int    `json:"line,omitempty"`
	Col      int    `json:"col,omitempty"`
	What     string `json:"what"`
	Why      string `json:"why,omitempty"`
	Mend     string `json:"mend,omitempty"`
	Sheet    string `json:"sheet,omitempty"` // where its place is drawn
}

// New opens a window on a job: solve reads and solves it as it stands.
func New(solve func() Solved, o sheets.Options) *Window {
	return &Window{solve: solve, options: o, drawn: map[string]*drawn{}, watchers: map[chan event]bool{},
		state: state{Sheets: []shownSheet{}, Findings: []shownFound{}, Files: []string{}}}
}

// pause is how often the files are looked at.
const pause = 40 * time.Millisecond

// Watch solves the job, and again whenever one of its files changes, until it is told
// to end.
func (w *Window) Watch(ctx context.Context) {
	w.refresh()
	seen := w.stamps()
	tick := time.NewTicker(pause)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		if now := w.stamps(); !slices.Equal(now, seen) {
			w.refresh()
			seen = w.stamps()
			if !slices.Equal(now, seen) { // saved again meanwhile, or other files
				seen = now
			}
		}
	}
}

// stamp is what tells a file that was saved.
type stamp struct {
	path string
	size int64
	at   int64
	mode fs.FileMode
}

func (w *Window) stamps() []stamp {
	w.mu.Lock()
	files := w.files
	w.mu.Unlock()
	out := make([]stamp, len(files))
	for i, f := range files {
		out[i].path = f.Path
		if info, err := os.Lstat(f.Path); err == nil {
			out[i] = stamp{f.Path, info.Size(), info.ModTime().UnixNano(), info.Mode()}
		}
	}
	return out
}

// refresh solves the job and draws: the sheet that is looked at first, then all.
func (w *Window) refresh() {
	began := time.Now()
	now := w.solve()
	w.mu.Lock()
	w.files = watching(w.files, now)
	looked, live := w.looked, w.live
	w.mu.Unlock()
	if now.Err != nil || now.Layout == nil || now.Findings.HasErrors() {
		w.publish(now, nil, began, 0)
		return
	}
	early := 0
	if live != nil && looked != "" {
		if s, ok := live.Early(now.Layout, w.options, looked); ok && w.keep(s) {
			early++
		}
	}
	w.mu.Lock()
	w.state.took = time.Since(began)
	w.mu.Unlock()
	w.publish(now, sheets.NewLive(now.Layout, w.options), began, early)
}

// watching are the files to look at: those of the job, and of one that cannot be read
// those of before too, for one of them may be what is wrong.
func watching(before []File, now Solved) []File {
	if now.Layout != nil {
		return now.Files
	}
	out := slices.Clone(before)
	for _, f := range now.Files {
		if !slices.Contains(out, f) {
			out = append(out, f)
		}
	}
	return out
}

// keep takes a sheet, and tells the pages if it came out otherwise than before.
func (w *Window) keep(s sheets.Sheet) bool {
	sum := sha256.Sum256([]byte(s.Scene.Dump()))
	digest := hex.EncodeToString(sum[:8])
	w.mu.Lock()
	was := w.drawn[s.ID]
	w.mu.Unlock()
	if was != nil && was.digest == digest {
		return false
	}
	var b bytes.Buffer
	if err := svg.Write(&b, s.Scene, svg.Options{}); err != nil {
		return false // a scene that cannot be written is told when the packet is printed
	}
	w.mu.Lock()
	w.drawn[s.ID] = &drawn{digest, b.Bytes()}
	w.mu.Unlock()
	w.tell(event{Kind: "sheet", Sheet: s.ID, Digest: digest})
	return true
}

// publish draws what is left and puts the new state before the pages. Without sheets
// those of before stay, marked as such.
func (w *Window) publish(now Solved, live *sheets.Live, began time.Time, early int) {
	next := state{Changed: early, Errors: now.Findings.Count(finding.Error),
		Holds: now.Findings.Count(finding.Hold),
		Notes: now.Findings.Count(finding.Note), Findings: []shownFound{}, Stale: live == nil}
	if now.Err != nil {
		next.Problem = now.Err.Error()
	}
	gone := map[string]bool{} // look-up only
	if live != nil {
		next.Job = now.Layout.Job.Info.Name
		w.drawAll(live, &next, gone)
	}
	for _, f := range now.Findings {
		s := shownFound{Severity: f.Severity.String(), Code: f.Code, File: f.At.File, Line: f.At.Line, Col: f.At.Col,
			What: f.What, Why: f.Why, Mend: f.Mend}
		if live != nil {
			s.Sheet = live.SheetOf(f.Where)
		}
		next.Findings = append(next.Findings, s)
	}
	w.mu.Lock()
	next.Version = w.state.Version + 1
	if live == nil { // what was drawn last stays in sight
		next.Job, next.Sheets = w.state.Job, w.state.Sheets
	} else {
		w.live = live
		for id := range w.drawn {
			if !gone[id] {
				delete(w.drawn, id)
			}
		}
	}
	for _, f := range w.files {
		next.Files = append(next.Files, f.Name)
	}
	next.First, next.Whole = w.state.took.Milliseconds(), time.Since(began).Milliseconds()
	w.state = next
	w.mu.Unlock()
	w.tell(event{Kind: "state"})
}

// drawAll draws the sheets of a packet, that which is looked at first, and lists them.
func (w *Window) drawAll(live *sheets.Live, next *state, here map[string]bool) {
	listed := live.Sheets()
	w.mu.Lock()
	looked := w.looked
	w.mu.Unlock()
	order := slices.Clone(listed)
	slices.SortStableFunc(order, func(a, b sheets.Listed) int {
		first := func(s sheets.Listed) int {
			if s.ID == looked {
				return 0
			}
			return 1
		}
		return first(a) - first(b)
	})
	for _, s := range order {
		if drawn, ok := live.Draw(s.ID); ok && w.keep(drawn) {
			next.Changed++
		}
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	for _, s := range listed {
		here[s.ID] = true
		digest := ""
		if d := w.drawn[s.ID]; d != nil {
			digest = d.digest
		}
		next.Sheets = append(next.Sheets, shownSheet{s.ID, s.Number, s.Title, s.Held, digest})
	}
}

// tell sends an event to every page; one that does not listen misses it, and reads the
// state when it comes back.
func (w *Window) tell(e event) {
	w.mu.Lock()
	defer w.mu.Unlock()
	for c := range w.watchers {
		select {
		case c <- e:
		default:
		}
	}
}
