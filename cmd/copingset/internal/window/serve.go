package window

import (
	"context"
	"crypto/rand"
	"embed"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"slices"
	"strings"
	"time"
)

//go:embed page/*
var page embed.FS

// Listen takes a port of the loopback that is free. The address is where the window
// is opened.
func Listen() (net.Listener, string, string, error) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return nil, "", "", fmt.Errorf("no port of this machine is free for the window: %w", err)
	}
	secret := make([]byte, 12)
	if _, err := rand.Read(secret); err != nil {
		l.Close()
		return nil, "", "", err
	}
	path := "/" + hex.EncodeToString(secret) + "/"
	return l, path, "http://" + l.Addr().String() + path, nil
}

// Serve answers below a path, to this machine's own pages alone, until it is told to
// end.
func (w *Window) Serve(ctx context.Context, l net.Listener, path string) error {
	s := &http.Server{Handler: w.Handler(l.Addr().String(), path), ReadHeaderTimeout: 10 * time.Second,
		BaseContext: func(net.Listener) context.Context { return ctx }}
	done := make(chan error, 1)
	go func() { done <- s.Serve(l) }()
	select {
	case err := <-done:
		return err
	case <-ctx.Done():
		_ = s.Close() // pages that still listen are cut off
		return nil
	}
}

// Handler answers requests that are meant for this window and come from it.
func (w *Window) Handler(host, path string) http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET "+path+"{$}", asset("index.html", "text/html; charset=utf-8"))
	mux.HandleFunc("GET "+path+"window.js", asset("window.js", "text/javascript; charset=utf-8"))
	mux.HandleFunc("GET "+path+"window.css", asset("window.css", "text/css; charset=utf-8"))
	mux.HandleFunc("GET "+path+"state", w.serveState)
	mux.HandleFunc("GET "+path+"sheet/{id}", w.serveSheet)
	mux.HandleFunc("GET "+path+"file", w.serveFile)
	mux.HandleFunc("GET "+path+"events", w.serveEvents)
	return guarded(host, mux)
}

// guarded refuses what is not asked by a page of the window itself: another name for
// this machine, another origin, another method than reading.
func guarded(host string, next http.Handler) http.Handler {
	return http.HandlerFunc(func(out http.ResponseWriter, r *http.Request) {
		origin, site := r.Header.Get("Origin"), r.Header.Get("Sec-Fetch-Site")
		switch {
		case r.Host != host:
			http.Error(out, "not this window", http.StatusForbidden)
			return
		case origin != "" && origin != "http://"+host:
			http.Error(out, "not a page of this window", http.StatusForbidden)
			return
		case site != "" && site != "same-origin" && site != "none":
			http.Error(out, "not a page of this window", http.StatusForbidden)
			return
		case r.Method != http.MethodGet && r.Method != http.MethodHead:
			http.Error(out, "this window only shows", http.StatusMethodNotAllowed)
			return
		}
		h := out.Header()
		h.Set("Content-Security-Policy", "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; "+
			"connect-src 'self'; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'")
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cache-Control", "no-store")
		next.ServeHTTP(out, r)
	})
}

// asset is a file of the page itself.
func asset(name, kind string) http.HandlerFunc {
	return func(out http.ResponseWriter, _ *http.Request) {
		data, err := page.ReadFile("page/" + name)
		if err != nil {
			http.Error(out, "not there", http.StatusNotFound)
			return
		}
		out.Header().Set("Content-Type", kind)
		_, _ = out.Write(data) // who left does not read it
	}
}

func (w *Window) serveState(out http.ResponseWriter, _ *http.Request) {
	w.mu.Lock()
	data, err := json.Marshal(w.state)
	w.mu.Unlock()
	if err != nil {
		http.Error(out, err.Error(), http.StatusInternalServerError)
		return
	}
	out.Header().Set("Content-Type", "application/json")
	_, _ = out.Write(data) // who left does not read it
}

// serveSheet gives a sheet, and takes it for the one that is looked at.
func (w *Window) serveSheet(out http.ResponseWriter, r *http.Request) {
	id := r.PathValue("id")
	w.mu.Lock()
	d := w.drawn[id]
	if d != nil {
		w.looked = id
	}
	w.mu.Unlock()
	if d == nil {
		http.Error(out, "no such sheet", http.StatusNotFound)
		return
	}
	out.Header().Set("Content-Type", "image/svg+xml")
	_, _ = out.Write(d.svg) // who left does not read it
}

// mostShown is how much of a file is shown.
const mostShown = 4 << 20

// serveFile gives the text of one of the job's own files, and of no other.
func (w *Window) serveFile(out http.ResponseWriter, r *http.Request) {
	name := r.URL.Query().Get("name")
	w.mu.Lock()
	i := slices.IndexFunc(w.files, func(f File) bool { return f.Name == name })
	path := ""
	if i >= 0 {
		path = w.files[i].Path
	}
	w.mu.Unlock()
	if path == "" || strings.HasSuffix(strings.ToLower(path), ".xlsx") {
		http.Error(out, "no file of the job that can be shown as text", http.StatusNotFound)
		return
	}
	f, err := os.Open(path)
	if err != nil {
		http.Error(out, "the file cannot be read", http.StatusNotFound)
		return
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, mostShown))
	if err != nil {
		http.Error(out, "the file cannot be read", http.StatusNotFound)
		return
	}
	out.Header().Set("Content-Type", "text/plain; charset=utf-8")
	_, _ = out.Write(data) // who left does not read it
}

// serveEvents tells a page what changes, as long as it listens.
func (w *Window) serveEvents(out http.ResponseWriter, r *http.Request) {
	flush, ok := out.(http.Flusher)
	if !ok {
		http.Error(out, "no events", http.StatusNotImplemented)
		return
	}
	c := make(chan event, 256)
	w.mu.Lock()
	w.watchers[c] = true
	w.mu.Unlock()
	defer func() {
		w.mu.Lock()
		delete(w.watchers, c)
		w.mu.Unlock()
	}()
	out.Header().Set("Content-Type", "text/event-stream")
	fmt.Fprint(out, "data: {\"kind\":\"state\"}\n\n")
	flush.Flush()
	for {
		select {
		case <-r.Context().Done():
			return
		case e := <-c:
			data, err := json.Marshal(e)
			if err != nil {
				return
			}
			if _, err := fmt.Fprintf(out, "data: %s\n\n", data); err != nil {
				return
			}
			flush.Flush()
		}
	}
}
