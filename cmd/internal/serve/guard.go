package serve

import (
	"net"
	"net/http"
	"net/netip"
	"path"
	"strings"
)

// longestPath is the most bytes of a path.
const longestPath = 1024

// watched notes whether an answer has begun.
type watched struct {
	http.ResponseWriter
	begun bool
}

func (w *watched) WriteHeader(status int) {
	w.begun = true
	w.ResponseWriter.WriteHeader(status)
}

func (w *watched) Write(b []byte) (int, error) {
	w.begun = true
	return w.ResponseWriter.Write(b)
}

// Unwrap lets http.ResponseController through.
func (w *watched) Unwrap() http.ResponseWriter { return w.ResponseWriter }

// begun says whether an answer has begun.
func begun(w http.ResponseWriter) bool {
	for {
		switch v := w.(type) {
		case *watched:
			return v.begun
		case interface{ Unwrap() http.ResponseWriter }:
			w = v.Unwrap()
		default:
			return false
		}
	}
}

// policy lets the page load nothing but its own files and run no text as code.
const policy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data: blob:; " +
	"font-src 'self'; connect-src 'self'; frame-src 'self' blob:; manifest-src 'self'; frame-ancestors 'none'; base-uri 'none'; form-action 'self'"

// secure sets what every answer carries.
func secure(h http.Header) {
	h.Set("Content-Security-Policy", policy)
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("X-Frame-Options", "DENY")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Permissions-Policy", "camera=(), microphone=(), geolocation=()")
	h.Set("Cache-Control", "no-store")
}

// guard lets through only what a browser of the person sends to this server.
func (s *Server) guard(next http.Handler) http.Handler {
	return http.HandlerFunc(func(rw http.ResponseWriter, r *http.Request) {
		w := &watched{ResponseWriter: rw}
		secure(w.Header())
		defer func() {
			if what := recover(); what != nil {
				s.recovered(w, r, what)
			}
		}()
		if err := s.admit(r); err != nil {
			s.refuse(w, r, err)
			return
		}
		if s.doors != nil && !s.doors.admitted(r) && !outdoors(r.URL.Path) {
			s.closed(w, r)
			return
		}
		next.ServeHTTP(&plainly{watched: w, server: s}, r)
	})
}

// plainly makes the mux's own refusals sentences as JSON.
type plainly struct {
	*watched
	server *Server
	mute   bool
}

func (w *plainly) Unwrap() http.ResponseWriter { return w.watched }

func (w *plainly) WriteHeader(status int) {
	ours := strings.HasPrefix(w.Header().Get("Content-Type"), "application/json")
	switch {
	case status == http.StatusNotFound && !ours:
		w.refuse(status, "There is nothing of that name here.")
	case status == http.StatusMethodNotAllowed && !ours:
		w.refuse(status, "This cannot be done with that; the page does it another way.")
	default:
		w.watched.WriteHeader(status)
	}
}

func (w *plainly) refuse(status int, sentence string) {
	w.mute = true
	w.server.answer(w.watched, status, map[string]any{"refusal": sentence})
}

func (w *plainly) Write(b []byte) (int, error) {
	if w.mute {
		return len(b), nil
	}
	return w.watched.Write(b)
}

// admit checks what every request must have, paired or not.
func (s *Server) admit(r *http.Request) error {
	switch r.Method {
	case http.MethodGet, http.MethodHead, http.MethodPost, http.MethodPut:
	default:
		return refused(http.StatusMethodNotAllowed, "This server answers GET, POST and PUT.")
	}
	if err := plainPath(r); err != nil {
		return err
	}
	if !s.ourHost(r) {
		return refused(http.StatusForbidden, "This server answers only under its own address, as the terminal tells it.")
	}
	return ourOrigin(r)
}

// plainPath refuses paths that are written another way than they are meant.
func plainPath(r *http.Request) error {
	p := r.URL.Path
	raw := strings.ToLower(r.URL.EscapedPath())
	switch {
	case len(p) > longestPath || len(r.URL.RawQuery) > longestPath:
		return refused(http.StatusRequestURITooLong, "The address is too long.")
	case !strings.HasPrefix(p, "/"), strings.ContainsRune(p, 0), strings.Contains(p, `\`),
		strings.Contains(raw, "%2f"), strings.Contains(raw, "%5c"), strings.Contains(raw, "%00"),
		p != "/" && path.Clean(p) != p:
		return refused(http.StatusNotFound, "There is nothing of that name here.")
	}
	return nil
}

// ourHost says whether the Host header names this machine: loopback, or with
// LAN an address of it. Names are not looked up, so that no name of another
// site can lead here (DNS rebinding).
func (s *Server) ourHost(r *http.Request) bool {
	local, ok := r.Context().Value(http.LocalAddrContextKey).(net.Addr)
	if !ok {
		return false
	}
	here, err := netip.ParseAddrPort(local.String())
	if err != nil {
		return false
	}
	host, port, err := net.SplitHostPort(r.Host)
	if err != nil { // without a port: the one that http has by itself
		host, port = strings.Trim(r.Host, "[]"), "80"
	}
	if port != portOf(here) {
		return false
	}
	if strings.EqualFold(host, "localhost") {
		return here.Addr().Unmap().IsLoopback()
	}
	ip, err := netip.ParseAddr(host)
	if err != nil || ip.Zone() != "" && !s.config.LAN {
		return false
	}
	ip = ip.WithZone("").Unmap()
	if ip.IsLoopback() {
		return here.Addr().Unmap().IsLoopback()
	}
	return s.config.LAN && ip == here.Addr().WithZone("").Unmap()
}

func portOf(a netip.AddrPort) string {
	_, port, _ := net.SplitHostPort(a.String())
	return port
}

// ourOrigin refuses what another site has sent. A browser always names the
// origin of a write; what names none at all is no browser. Following a link to
// a page is allowed from anywhere: it carries nothing and changes nothing.
func ourOrigin(r *http.Request) error {
	elsewhere := refused(http.StatusForbidden, "Another site has sent this; only the page of this server may.")
	if origins := r.Header.Values("Origin"); len(origins) > 1 || len(origins) == 1 && origins[0] != "http://"+r.Host {
		return elsewhere
	}
	switch site := r.Header.Values("Sec-Fetch-Site"); {
	case len(site) == 0:
		return nil
	case len(site) == 1 && (site[0] == "same-origin" || site[0] == "none"):
		return nil
	}
	link := (r.Method == http.MethodGet || r.Method == http.MethodHead) && r.Header.Get("Sec-Fetch-Mode") == "navigate" &&
		r.Header.Get("Sec-Fetch-Dest") == "document" && isPage(r.URL.Path)
	if link {
		return nil
	}
	return elsewhere
}

// isPage says whether a path is a document that a link may lead to.
func isPage(p string) bool {
	return p == "/" || strings.HasPrefix(p, "/kiln/") && !strings.HasSuffix(p, "/saved")
}
