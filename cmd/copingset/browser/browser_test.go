// Package browser opens the window of copingset in a real browser. It is a module of
// its own, so that the program needs nothing of what drives one.
package browser

import (
	"bufio"
	"context"
	"fmt"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// program is a browser that is installed; without one the tests are skipped.
func program(t *testing.T) string {
	t.Helper()
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome", "chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	t.Skip("no Chromium is installed: the window is not tried in a browser")
	return ""
}

// window is the program at work on a copy of a sample.
type window struct {
	address, folder string
}

// opened builds the program and lets it show a sample.
func opened(t *testing.T, sample string) window {
	t.Helper()
	dir := t.TempDir()
	top, err := filepath.Abs("../../..")
	if err != nil {
		t.Fatal(err)
	}
	bin := filepath.Join(dir, "copingset")
	if runtime.GOOS == "windows" {
		bin += ".exe"
	}
	build := exec.Command("go", "build", "-o", bin, "./cmd/copingset")
	build.Dir = top
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	w := window{folder: filepath.Join(dir, "samples")}
	if err := os.CopyFS(w.folder, os.DirFS(filepath.Join(top, "samples"))); err != nil {
		t.Fatal(err)
	}
	c := exec.Command(bin, "view", filepath.Join(w.folder, sample, "job.yaml"))
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_ = c.Process.Kill()
		_ = c.Wait() // it was killed
	})
	lines := bufio.NewScanner(out)
	if !lines.Scan() {
		t.Fatal("the program says no address")
	}
	w.address = lines.Text()
	return w
}

// page opens the window in the browser, without any way to the outside.
func (w window) page(t *testing.T) (context.Context, *[]string) {
	t.Helper()
	options := append(slices.Clone(chromedp.DefaultExecAllocatorOptions[:]), chromedp.ExecPath(program(t)),
		chromedp.NoSandbox, chromedp.WindowSize(1500, 950))
	alloc, stop := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(stop)
	ctx, shut := chromedp.NewContext(alloc)
	t.Cleanup(shut)
	ctx, end := context.WithTimeout(ctx, 4*time.Minute)
	t.Cleanup(end)
	var asked []string
	chromedp.ListenTarget(ctx, func(e any) {
		if r, ok := e.(*network.EventRequestWillBeSent); ok {
			asked = append(asked, r.Request.URL)
		}
	})
	if err := chromedp.Run(ctx, network.Enable(), chromedp.Navigate(w.address)); err != nil {
		t.Fatal(err)
	}
	until(t, ctx, "a sheet", `document.querySelector("#sheet svg") !== null`)
	return ctx, &asked
}

func value(t *testing.T, ctx context.Context, script string) string {
	t.Helper()
	var out string
	if err := chromedp.Run(ctx, chromedp.Evaluate("String("+script+")", &out)); err != nil {
		t.Fatalf("%s: %v", script, err)
	}
	return out
}

// until waits for a script to say yes.
func until(t *testing.T, ctx context.Context, what, script string) time.Duration {
	t.Helper()
	began := time.Now()
	for time.Since(began) < 60*time.Second {
		if value(t, ctx, script) == "true" {
			return time.Since(began)
		}
		time.Sleep(5 * time.Millisecond)
	}
	t.Fatalf("%s: never; the page says %s, on %s, asked %s", what, value(t, ctx, "document.body.innerText.slice(0, 300)"),
		value(t, ctx, "location.href"), value(t, ctx, "performance.getEntriesByType('resource').map((e) => e.name).join(' ')"))
	return 0
}

func press(t *testing.T, ctx context.Context, keys string) {
	t.Helper()
	if err := chromedp.Run(ctx, chromedp.KeyEvent(keys)); err != nil {
		t.Fatal(err)
	}
}

// picture keeps what the window looks like, where a folder is named.
func picture(t *testing.T, ctx context.Context, name string) {
	t.Helper()
	folder := os.Getenv("COPINGSET_PICTURES")
	if folder == "" {
		return
	}
	var png []byte
	if err := chromedp.Run(ctx, chromedp.CaptureScreenshot(&png)); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folder, name+".png"), png, 0o644); err != nil {
		t.Fatal(err)
	}
}

// edit changes a file of the job, as an editor saves it.
func (w window) edit(t *testing.T, name, was, is string) {
	t.Helper()
	path := filepath.Join(w.folder, name)
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(text), was) {
		t.Fatalf("%s does not say %s", name, was)
	}
	if err := os.WriteFile(path, []byte(strings.Replace(string(text), was, is, 1)), 0o644); err != nil {
		t.Fatal(err)
	}
}

// Who edits a job sees its sheet change; what is wrong leads to its line and its place.
func TestSheetFollowsTheJob(t *testing.T) {
	program(t)
	w := opened(t, "l-shape")
	ctx, asked := w.page(t)
	run := value(t, ctx, `state.sheets.find((s) => s.id.startsWith("run-")).id`)
	value(t, ctx, `document.querySelector('#sheets li[data-id="`+run+`"]').click()`)
	until(t, ctx, "the sheet of a run", `document.body.dataset.sheet === "`+run+`" && document.querySelector("#sheet svg") !== null`)
	picture(t, ctx, "sheet")
	before := value(t, ctx, `document.body.dataset.digest`)
	w.edit(t, "l-shape/job.yaml", "name: Ferry Hall", "name: Ferry Hall East")
	took := until(t, ctx, "the sheet with the new name",
		`document.body.dataset.digest !== "`+before+`" && document.getElementById("sheet").textContent.length >= 0`)
	until(t, ctx, "the whole packet", `state.job === "Ferry Hall East"`)
	t.Logf("from the save to the sheet %v, in the program %s ms; all of them %s ms", took,
		value(t, ctx, "state.first_ms"), value(t, ctx, "state.whole_ms"))
	if n, _ := strconv.Atoi(value(t, ctx, "state.changed")); n < 20 {
		t.Errorf("%d sheets carry the name", n)
	}

	// What stays as it is, is not drawn into the page again.
	same := value(t, ctx, `document.body.dataset.digest`)
	value(t, ctx, `document.querySelector("#sheet svg").dataset.mine = "yes"`)
	version := value(t, ctx, "state.version")
	w.edit(t, "l-shape/job.yaml", "format: copingset/2", "format: copingset/2   # a remark")
	until(t, ctx, "a save that changes nothing", "state.version > "+version)
	// The basis of design has the file's digest; all others are as they were.
	if n, _ := strconv.Atoi(value(t, ctx, "state.changed")); n > 2 ||
		value(t, ctx, `document.querySelector("#sheet svg").dataset.mine`) != "yes" ||
		value(t, ctx, `document.body.dataset.digest`) != same {
		t.Errorf("a remark draws %d sheets again", n)
	}

	// An error keeps the sheets of before, marked, and leads to its line.
	w.edit(t, "l-shape/job.yaml", "kind: open", "kind: opn")
	until(t, ctx, "the error", "state.errors > 0 && document.getElementById('sheet').classList.contains('stale')")
	picture(t, ctx, "error")
	press(t, ctx, "f")
	press(t, ctx, kb.Enter)
	until(t, ctx, "the line", `document.getElementById("text").open && document.querySelector("#lines .here") !== null`)
	if line := value(t, ctx, `document.querySelector("#lines .here").textContent`); !strings.Contains(line, "kind: opn") {
		t.Errorf("the finding leads to %q", line)
	}
	picture(t, ctx, "line")
	press(t, ctx, kb.Escape)
	w.edit(t, "l-shape/job.yaml", "kind: opn", "kind: open")
	until(t, ctx, "no error", "state.errors === 0 && !document.getElementById('sheet').classList.contains('stale')")

	for _, a := range *asked {
		if !strings.HasPrefix(a, w.address) && !strings.HasPrefix(a, "data:") {
			t.Errorf("the page asks for %s", a)
		}
	}
}

// The keyboard does all that the mouse does.
func TestKeyboard(t *testing.T) {
	program(t)
	w := opened(t, "rectangle")
	ctx, _ := w.page(t)
	first := value(t, ctx, "shown")
	press(t, ctx, "n")
	until(t, ctx, "the next sheet", `shown === state.sheets[1].id && document.body.dataset.sheet === shown`)
	press(t, ctx, "k")
	until(t, ctx, "the sheet before", `shown === "`+first+`"`)
	press(t, ctx, kb.End)
	until(t, ctx, "the last sheet", `shown === state.sheets[state.sheets.length - 1].id`)
	press(t, ctx, kb.Home)
	until(t, ctx, "the first sheet", `shown === "`+first+`"`)
	press(t, ctx, "/")
	press(t, ctx, "3.N.1")
	press(t, ctx, kb.Enter)
	until(t, ctx, "the sheet that was looked for", `state.sheets.find((s) => s.id === shown).number === "3.N.1"`)
	press(t, ctx, kb.Escape)
	scale := func() int {
		n, err := strconv.Atoi(strings.TrimSuffix(value(t, ctx, `document.getElementById("scale").textContent`), " %"))
		if err != nil {
			t.Fatal(err)
		}
		return n
	}
	whole := scale()
	press(t, ctx, "+")
	larger := scale()
	press(t, ctx, "-")
	press(t, ctx, "-")
	smaller := scale()
	press(t, ctx, "0")
	if larger <= whole || smaller >= whole || scale() != whole {
		t.Errorf("the scale goes %d, %d, %d, %d", whole, larger, smaller, scale())
	}
	press(t, ctx, "w")
	until(t, ctx, "the width of the window", `mode === "wide"`)
	press(t, ctx, "?")
	until(t, ctx, "the keys", `document.getElementById("keys").open`)
	picture(t, ctx, "keys")
}

// Nobody else is answered: another origin, another name, another method, another path.
func TestOthersAreRefused(t *testing.T) {
	w := opened(t, "rectangle")
	ask := func(method, address string, head map[string]string) int {
		r, err := http.NewRequest(method, address, nil)
		if err != nil {
			t.Fatal(err)
		}
		for k, v := range head {
			if k == "Host" {
				r.Host = v
			}
			r.Header.Set(k, v)
		}
		a, err := http.DefaultClient.Do(r)
		if err != nil {
			t.Fatal(err)
		}
		a.Body.Close()
		return a.StatusCode
	}
	base := strings.Join(strings.Split(w.address, "/")[:3], "/")
	for began := time.Now(); ask("GET", w.address+"file?name=job.yaml", nil) != 200; {
		if time.Since(began) > time.Minute {
			t.Fatal("the job is not solved")
		}
		time.Sleep(50 * time.Millisecond)
	}
	for _, c := range []struct {
		method, address string
		head            map[string]string
		want            int
	}{
		{"GET", w.address + "state", nil, 200},
		{"GET", w.address + "state", map[string]string{"Origin": "http://elsewhere.example"}, 403},
		{"GET", w.address + "state", map[string]string{"Host": "elsewhere.example"}, 403},
		{"GET", w.address + "state", map[string]string{"Sec-Fetch-Site": "cross-site"}, 403},
		{"POST", w.address + "state", nil, 405},
		{"PUT", w.address + "file?name=job.yaml", nil, 405},
		{"GET", base + "/state", nil, 404},
		{"GET", w.address + "file?name=" + "../../../etc/passwd", nil, 404},
		{"GET", w.address + "file?name=job.yaml", nil, 200},
	} {
		if got := ask(c.method, c.address, c.head); got != c.want {
			t.Errorf("%s %s %v: %d, want %d", c.method, strings.TrimPrefix(c.address, base), c.head, got, c.want)
		}
	}
	if !strings.HasPrefix(base, "http://127.0.0.1:") {
		t.Error(fmt.Errorf("the window answers on %s", base))
	}
}
