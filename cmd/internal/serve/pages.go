package serve

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	_ "embed"
	"encoding/hex"
	"io"
	"net/http"
	"path"
	"strconv"
	"strings"

	"threepost/assets"
	"threepost/assets/page"
)

// file is an embedded file as it is sent.
type file struct {
	kind    string // content type
	data    []byte
	zipped  bool // data is gzip and is sent as such
	tag     string
	missing string // a sentence instead of a file that was not built
}

// pages are the embedded files by their path under /assets/.
type pages map[string]file

//go:embed unbuilt.html
var unbuiltPage []byte

// unbuilt tells what to do for a page that has no program.
const unbuilt = "The page's program is not in this build of Threepost. Run `make run` in the folder of the source; it compiles the page and starts again."

// kinds are the content types by ending. Endings that are not here are not
// sent.
func kindOf(name string) string {
	switch path.Ext(name) {
	case ".html":
		return "text/html; charset=utf-8"
	case ".css":
		return "text/css; charset=utf-8"
	case ".js", ".mjs":
		return "text/javascript; charset=utf-8"
	case ".json":
		return "application/json; charset=utf-8"
	case ".webmanifest":
		return "application/manifest+json"
	case ".svg":
		return "image/svg+xml"
	case ".png":
		return "image/png"
	case ".ttf":
		return "font/ttf"
	case ".woff2":
		return "font/woff2"
	case ".wasm":
		return "application/wasm"
	case ".txt", ".md":
		return "text/plain; charset=utf-8"
	}
	return ""
}

// embeddedPages gathers what is built into the program.
func embeddedPages() pages {
	p := pages{}
	for _, name := range page.WebNames() {
		if kind := kindOf(name); kind != "" {
			data, _ := page.Web(name)
			p.put(name, file{kind: kind, data: data})
		}
	}
	for _, weight := range []int{400, 500, 600, 700} {
		p.put("fonts/AtkinsonHyperlegibleNext-"+strconv.Itoa(weight)+".ttf", file{kind: kindOf(".ttf"), data: assets.Font(weight)})
	}
	p.put("viewport.wasm", file{kind: kindOf(".wasm"), missing: unbuilt})
	p.put("wasm_exec.js", file{kind: kindOf(".js"), missing: unbuilt})
	if page.Complete() {
		wasm, _ := page.Built(page.Viewport)
		exec, _ := page.Built(page.WasmExec)
		p.put("viewport.wasm", file{kind: kindOf(".wasm"), data: wasm, zipped: true})
		p.put("wasm_exec.js", file{kind: kindOf(".js"), data: exec})
	}
	return p
}

func (p pages) put(name string, f file) {
	sum := sha256.Sum256(f.data)
	f.tag = `"` + hex.EncodeToString(sum[:12]) + `"`
	p[name] = f
}

func (s *Server) pageRoutes() []route {
	return []route{
		{"GET /{$}", s.front},
		{"GET /assets/{name...}", s.asset},
		{"GET /favicon.ico", func(w http.ResponseWriter, r *http.Request) error { return s.send(w, r, "mark.svg") }},
		{"GET /api/alive", s.alive},
	}
}

// front is the page, or what to run where it has no program.
func (s *Server) front(w http.ResponseWriter, r *http.Request) error {
	if _, ok := s.pages["index.html"]; !ok || s.pages["viewport.wasm"].missing != "" {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		w.WriteHeader(http.StatusServiceUnavailable)
		_, _ = w.Write(unbuiltPage) // who asked may be gone
		return nil
	}
	return s.send(w, r, "index.html")
}

func (s *Server) asset(w http.ResponseWriter, r *http.Request) error {
	return s.send(w, r, r.PathValue("name"))
}

// send answers with an embedded file. It may be kept by the browser, which
// asks each time whether it is still the same.
func (s *Server) send(w http.ResponseWriter, r *http.Request, name string) error {
	f, ok := s.pages[name]
	switch {
	case !ok:
		return refused(http.StatusNotFound, "There is nothing of that name here.")
	case f.missing != "":
		return refused(http.StatusNotFound, "%s", f.missing)
	}
	h := w.Header()
	h.Set("Cache-Control", "no-cache")
	h.Set("ETag", f.tag)
	h.Set("Content-Type", f.kind)
	if f.zipped {
		h.Set("Vary", "Accept-Encoding")
	}
	for _, tag := range strings.Split(r.Header.Get("If-None-Match"), ",") {
		if tag = strings.TrimPrefix(strings.TrimSpace(tag), "W/"); tag == f.tag {
			w.WriteHeader(http.StatusNotModified)
			return nil
		}
	}
	data := f.data
	if f.zipped && takesGzip(r) {
		h.Set("Content-Encoding", "gzip")
	} else if f.zipped {
		var err error
		if data, err = unzipped(data); err != nil {
			return err
		}
	}
	h.Set("Content-Length", strconv.Itoa(len(data)))
	if r.Method != http.MethodHead {
		_, _ = w.Write(data) // who asked may be gone
	}
	return nil
}

// takesGzip reads Accept-Encoding (RFC 9110, 12.5.3): gzip or *, not at q=0.
func takesGzip(r *http.Request) bool {
	for _, one := range strings.Split(r.Header.Get("Accept-Encoding"), ",") {
		name, q, _ := strings.Cut(one, ";")
		name, q = strings.TrimSpace(name), strings.ReplaceAll(q, " ", "")
		if (name == "gzip" || name == "*") && strings.Trim(strings.TrimPrefix(q, "q="), "0.") != "" || (name == "gzip" || name == "*") && q == "" {
			return true
		}
	}
	return false
}

func unzipped(data []byte) ([]byte, error) {
	z, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	return io.ReadAll(z)
}
