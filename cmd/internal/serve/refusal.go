package serve

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"runtime/debug"
	"unicode/utf8"

	"threepost/cmd/internal/folder"
)

// refusal is a status and a sentence, with what else the page needs.
type refusal struct {
	status   int
	sentence string
	more     map[string]any
}

func (r refusal) Error() string { return r.sentence }

// refused makes a refusal.
func refused(status int, format string, args ...any) error {
	return refusal{status: status, sentence: fmt.Sprintf(format, args...)}
}

// statusOf is the status of a folder's refusal.
func statusOf(k folder.Kind) int {
	switch k {
	case folder.NoSuchLoad:
		return http.StatusNotFound
	case folder.Changed:
		return http.StatusConflict
	case folder.Unreadable:
		return http.StatusUnprocessableEntity
	case folder.TooLarge:
		return http.StatusRequestEntityTooLarge
	case folder.NotAllowed:
		return http.StatusForbidden
	case folder.NoRoom:
		return http.StatusInsufficientStorage
	}
	return http.StatusInternalServerError
}

// refuse answers an error: the one place where errors become statuses.
func (s *Server) refuse(w http.ResponseWriter, r *http.Request, err error) {
	var ref refusal
	var conflict folder.Conflict
	switch {
	case errors.As(err, &ref):
	case errors.As(err, &conflict):
		ref = refusal{http.StatusConflict, conflict.Sentence, map[string]any{"revision": conflict.Revision, "text": conflict.Text}}
	case folder.KindOf(err) != 0:
		ref = refusal{status: statusOf(folder.KindOf(err)), sentence: err.Error()}
	case r.Context().Err() != nil:
		return // who asked has gone
	default:
		s.log.Printf("%s %s: %v", r.Method, r.URL.Path, err)
		ref = refusal{status: http.StatusInternalServerError, sentence: fault}
	}
	if begun(w) {
		return // half of an answer is out; nothing can be added to it
	}
	body := map[string]any{"refusal": ref.sentence}
	for k, v := range ref.more {
		body[k] = v
	}
	s.answer(w, ref.status, body)
}

// fault is what the person is told of a fault of the program.
const fault = "This is a fault of the program, not of your load, and nothing was written. The terminal says more."

// recovered answers a panic of a handler.
func (s *Server) recovered(w *watched, r *http.Request, what any) {
	if what == http.ErrAbortHandler { // the value itself, as net/http compares it
		panic(what)
	}
	s.log.Printf("%s %s: %v\n%s", r.Method, r.URL.Path, what, debug.Stack())
	if w.begun {
		panic(http.ErrAbortHandler) // half an answer is out: cut it
	}
	w.Header().Del("Content-Encoding")
	w.Header().Del("Content-Disposition")
	s.answer(w, http.StatusInternalServerError, map[string]any{"refusal": fault})
}

// answer writes a value as JSON.
func (s *Server) answer(w http.ResponseWriter, status int, v any) {
	var buf bytes.Buffer
	enc := json.NewEncoder(&buf)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		panic(err) // our own values can be written
	}
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	_, _ = w.Write(buf.Bytes()) // who asked may be gone
}

// take reads the body of a write as JSON into v.
func (s *Server) take(w http.ResponseWriter, r *http.Request, v any) error {
	kind, params, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	if err != nil || kind != "application/json" || (params["charset"] != "" && params["charset"] != "utf-8" && params["charset"] != "UTF-8") {
		return refused(http.StatusUnsupportedMediaType, "Send this as application/json.")
	}
	if r.Header.Get("Content-Encoding") != "" {
		return refused(http.StatusUnsupportedMediaType, "Send this as it is, not compressed.")
	}
	data, err := io.ReadAll(io.LimitReader(r.Body, s.limits.Body+1))
	if err != nil {
		return refused(http.StatusBadRequest, "The request was cut off.")
	}
	if int64(len(data)) > s.limits.Body {
		// A browser that still sends does not read the answer: what is a little
		// too long is read to its end, more is cut.
		_, _ = io.CopyN(io.Discard, r.Body, 4*s.limits.Body)
		w.Header().Set("Connection", "close")
		return refused(http.StatusRequestEntityTooLarge, "This is larger than %d MB; no load is.", s.limits.Body>>20)
	}
	if !utf8.Valid(data) {
		return refused(http.StatusBadRequest, "The request holds bytes that are no UTF-8.")
	}
	dec := json.NewDecoder(bytes.NewReader(data))
	if err := dec.Decode(v); err != nil {
		return refused(http.StatusBadRequest, "The request cannot be read as JSON of the right form.")
	}
	if _, err := dec.Token(); !errors.Is(err, io.EOF) {
		return refused(http.StatusBadRequest, "The request holds more than one thing.")
	}
	return nil
}
