package serve

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"strconv"
	"strings"
	"time"

	"threepost/assets/page"
	"threepost/cmd/internal/folder"
	"threepost/layout/document"
)

func (s *Server) loadRoutes() []route {
	return []route{
		{"GET /api/room", s.room},
		{"POST /api/loads", s.begin},
		{"GET /api/loads/{id}", s.load},
		{"PUT /api/loads/{id}", s.save},
		{"GET /api/loads/{id}/versions", s.versions},
		{"GET /api/loads/{id}/versions/{n}", s.version},
		{"GET /api/loads/{id}/changes", s.changes},
		{"GET /api/samples/{id}", s.sample},
	}
}

// told is a sample in the room's list.
type toldSample struct {
	ID    string `json:"id"`
	Title string `json:"title"`
	Line  string `json:"line"`
}

// room tells what there is.
func (s *Server) room(w http.ResponseWriter, _ *http.Request) error {
	loads, err := s.folder.List()
	if err != nil {
		return err
	}
	samples := []toldSample{}
	for _, name := range page.SampleNames() {
		text, _ := page.Sample(name)
		l, err := document.Parse(name, text)
		if err != nil {
			return err
		}
		set, of := folder.Count(l)
		samples = append(samples, toldSample{name, l.Title, fmt.Sprintf("%d of %d pots set. %s", set, of, remark(string(text)))})
	}
	s.answer(w, http.StatusOK, map[string]any{
		"folder": s.folder.Dir(), "loads": loads, "samples": samples, "lan": s.config.LAN, "version": s.config.Version,
	})
	return nil
}

// remark is the comment at the head of a document, on one line.
func remark(text string) string {
	var words []string
	for _, line := range strings.Split(text, "\n") {
		rest, ok := strings.CutPrefix(line, "#")
		if !ok {
			break
		}
		words = append(words, strings.TrimSpace(rest))
	}
	return strings.Join(words, " ")
}

// begin writes a new load.
func (s *Server) begin(w http.ResponseWriter, r *http.Request) error {
	var ask struct {
		Title string `json:"title"`
		Text  string `json:"text"`
	}
	if err := s.take(w, r, &ask); err != nil {
		return err
	}
	title := ask.Title
	if strings.TrimSpace(title) == "" {
		if l, err := document.Parse("", []byte(ask.Text)); err == nil {
			title = l.Title
		}
	}
	l, err := s.folder.Create(title, ask.Text)
	if err != nil {
		return err
	}
	s.answer(w, http.StatusOK, map[string]any{"id": l.ID, "revision": l.Revision})
	return nil
}

// load gives a load file; one that cannot be read comes with its sentences.
func (s *Server) load(w http.ResponseWriter, r *http.Request) error {
	l, err := s.folder.Read(r.PathValue("id"))
	if err != nil {
		return err
	}
	body := map[string]any{"id": l.ID, "title": l.ID, "text": l.Text, "revision": l.Revision}
	if v := l.Unsaved; v != nil {
		_, text, err := s.folder.Version(l.ID, v.N)
		if err == nil {
			body["unsaved"] = map[string]any{"n": v.N, "when": v.When, "what": v.What, "state": v.State, "text": text}
		}
	}
	parsed, err := document.Parse(l.ID+".toml", []byte(l.Text))
	if err != nil {
		return refusal{http.StatusUnprocessableEntity, err.Error(), body}
	}
	if parsed.Title != "" {
		body["title"] = parsed.Title
	}
	s.answer(w, http.StatusOK, body)
	return nil
}

// save writes a load over the revision that the page has seen.
func (s *Server) save(w http.ResponseWriter, r *http.Request) error {
	var ask struct {
		Base string `json:"base"`
		Text string `json:"text"`
		What string `json:"what"`
	}
	if err := s.take(w, r, &ask); err != nil {
		return err
	}
	revision, err := s.folder.Save(r.PathValue("id"), ask.Base, ask.Text, ask.What)
	if err != nil {
		return err
	}
	s.answer(w, http.StatusOK, map[string]any{"revision": revision})
	return nil
}

func (s *Server) versions(w http.ResponseWriter, r *http.Request) error {
	all, err := s.folder.Versions(r.PathValue("id"))
	if err != nil {
		return err
	}
	s.answer(w, http.StatusOK, all)
	return nil
}

func (s *Server) version(w http.ResponseWriter, r *http.Request) error {
	n, err := strconv.Atoi(r.PathValue("n"))
	if err != nil {
		return refused(http.StatusNotFound, "There is no such version; the list of versions says which there are.")
	}
	v, text, err := s.folder.Version(r.PathValue("id"), n)
	if err != nil {
		return err
	}
	s.answer(w, http.StatusOK, map[string]any{"n": v.N, "when": v.When, "what": v.What, "state": v.State, "text": text})
	return nil
}

func (s *Server) sample(w http.ResponseWriter, r *http.Request) error {
	text, ok := page.Sample(r.PathValue("id"))
	if !ok {
		return refused(http.StatusNotFound, "There is no sample of that name.")
	}
	l, err := document.Parse("", text)
	if err != nil {
		return err
	}
	s.answer(w, http.StatusOK, map[string]any{"id": r.PathValue("id"), "title": l.Title, "text": string(text)})
	return nil
}

// changes tells the revision of a load file whenever it changes, as
// server-sent events (WHATWG HTML, 9.2).
func (s *Server) changes(w http.ResponseWriter, r *http.Request) error {
	select {
	case s.streams <- struct{}{}:
		defer func() { <-s.streams }()
	default:
		return refused(http.StatusTooManyRequests, "Too many pages are open. Close some of them.")
	}
	out := s.stream(w, "text/event-stream")
	ctx, stop := context.WithCancel(r.Context())
	defer stop()
	lines := make(chan string)
	ended := make(chan error, 1)
	go func() {
		ended <- s.folder.Watch(ctx, r.PathValue("id"), s.limits.Look, func(revision string) error {
			select {
			case lines <- fmt.Sprintf("data: {\"revision\":%q}\n\n", revision):
				return nil
			case <-ctx.Done():
				return ctx.Err()
			}
		})
	}()
	alive := time.NewTicker(15 * time.Second)
	defer alive.Stop()
	for {
		var err error
		select {
		case err = <-ended:
			if errors.Is(err, context.Canceled) {
				return nil
			}
			return err
		case line := <-lines:
			err = out.say(line)
		case <-alive.C:
			err = out.say(": still here\n\n")
		}
		if err != nil {
			stop()
			<-ended
			return nil
		}
	}
}
