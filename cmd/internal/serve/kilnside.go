package serve

import (
	"net/http"
	"net/url"

	"threepost/cmd/internal/folder"
	"threepost/layout/document"
	"threepost/layout/measure"
	"threepost/layout/session"
	"threepost/render/kilnside"
)

// kilnsideRoutes are the page at the kiln, its steps, the answers to "it does
// not fit" and the file that is saved for a phone.
func (s *Server) kilnsideRoutes() []route {
	return []route{
		{"GET /kiln/{id}", s.atKiln},
		{"GET /kiln/{id}/saved", s.kilnSaved},
		{"GET /api/loads/{id}/steps", s.steps},
		{"POST /api/loads/{id}/fit", s.fit},
	}
}

// atKiln is the page; it says itself when there is no such load.
func (s *Server) atKiln(w http.ResponseWriter, r *http.Request) error {
	return s.send(w, r, "kiln.html")
}

// toldSteps are the steps of a load at a revision.
type toldSteps struct {
	ID       string         `json:"id"`
	Revision string         `json:"revision"`
	Steps    kilnside.Steps `json:"steps"`
}

// kilnLoad opens a load for the kiln, with the person's units and words from
// the query. A load that cannot be read, or has no levels, is refused.
func (s *Server) kilnLoad(r *http.Request) (folder.Load, *session.Session, measure.Words, error) {
	l, err := s.folder.Read(r.PathValue("id"))
	if err != nil {
		return l, nil, "", err
	}
	open, err := session.Open(l.Text, l.ID+".toml")
	if err != nil {
		return l, nil, "", refusal{http.StatusUnprocessableEntity, err.Error(), nil}
	}
	words, err := measure.ParseWords(r.URL.Query().Get("words"))
	if err != nil {
		return l, nil, "", refused(http.StatusBadRequest, "words: %v.", err)
	}
	open.SetWords(words)
	b, why := open.Built()
	switch {
	case b == nil:
		return l, nil, "", refusal{http.StatusUnprocessableEntity, why, nil}
	case len(b.Levels) == 0:
		return l, nil, "", refused(http.StatusUnprocessableEntity, "Nothing is planned in this load yet. Plan it on the page, then come back.")
	}
	return l, open, words, nil
}

// way is the way through an open load.
func way(open *session.Session, words measure.Words) kilnside.Steps {
	b, _ := open.Built()
	return kilnside.Of(b, open.Order(), "", words)
}

func (s *Server) steps(w http.ResponseWriter, r *http.Request) error {
	l, open, words, err := s.kilnLoad(r)
	if err != nil {
		return err
	}
	s.answer(w, http.StatusOK, toldSteps{l.ID, l.Revision, way(open, words)})
	return nil
}

// kilnSaved is the page as one file, with answers worked out ahead.
func (s *Server) kilnSaved(w http.ResponseWriter, r *http.Request) error {
	l, open, words, err := s.kilnLoad(r)
	if err != nil {
		return err
	}
	leave, err := s.turn(r)
	if err != nil {
		return err
	}
	defer leave()
	steps := way(open, words)
	steps.WorkAhead(open, words)
	data, err := kilnside.Saved(&steps)
	if err != nil {
		return err
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Content-Disposition", `attachment; filename="kiln.html"; filename*=UTF-8''`+url.PathEscape(l.ID)+"%20at%20the%20kiln.html")
	_, _ = w.Write(data) // who asked may be gone
	return nil
}

// turn waits until few others are worked for, as papers do; leave ends it.
func (s *Server) turn(r *http.Request) (leave func(), err error) {
	select {
	case s.papers <- struct{}{}:
		return func() { <-s.papers }, nil
	case <-r.Context().Done():
		return nil, r.Context().Err()
	}
}

// fitAnswer is what the page shows of an answer.
type fitAnswer struct {
	session.Answer
	Was   kilnside.Room     `json:"was"` // to the lid, over the place where hands are
	Now   kilnside.Room     `json:"now"`
	Posts *kilnside.Picture `json:"posts"` // those that change, or nil
	Ticks []string          `json:"ticks"` // done once the answer is done
	Still bool              `json:"still"` // there is nothing to do
}

// mostWays is how many answers to one question are looked for.
const mostWays = 8

// fit answers "it does not fit": the way-th answer that keeps what stands,
// with the load's text as it would be. Nothing is written.
func (s *Server) fit(w http.ResponseWriter, r *http.Request) error {
	var ask struct {
		Base   string         `json:"base"`
		Step   int            `json:"step"` // where hands are, from 1
		Way    int            `json:"way"`  // 0: the first answer
		Change session.Change `json:"change"`
	}
	if err := s.take(w, r, &ask); err != nil {
		return err
	}
	l, open, words, err := s.kilnLoad(r)
	if err != nil {
		return err
	}
	if ask.Base != l.Revision {
		return refusal{http.StatusConflict, "The load has changed since these steps were made.", map[string]any{"revision": l.Revision}}
	}
	leave, err := s.turn(r)
	if err != nil {
		return err
	}
	defer leave()
	before := way(open, words)
	if ask.Step < 1 || ask.Step > len(before.Steps) || ask.Way < 0 || ask.Way >= mostWays {
		return refused(http.StatusBadRequest, "There is no such step; the load has %d.", len(before.Steps))
	}
	found, err := kilnside.Fit(open, &before, ask.Step, ask.Change, ask.Way, words)
	if err != nil {
		return refusal{http.StatusUnprocessableEntity, sentenceOf(err), nil}
	}
	if found == nil {
		says := "Nothing else keeps what stands. Leave it out, or go on."
		if ask.Way == 0 {
			says = "No way is left that keeps what stands."
		}
		return refusal{http.StatusUnprocessableEntity, says, map[string]any{"none": true}}
	}
	text, err := document.Update([]byte(l.Text), found.Load)
	if err != nil {
		return refusal{http.StatusUnprocessableEntity, err.Error(), nil}
	}
	s.answer(w, http.StatusOK, map[string]any{
		"answer": fitAnswer{Answer: found.Answer, Was: found.Was, Now: found.Now, Posts: found.Posts, Ticks: found.Ticks, Still: found.Still},
		"text":   string(text), "steps": found.Steps,
	})
	return nil
}

// sentenceOf is an error as a sentence of its own.
func sentenceOf(err error) string {
	says := []rune(err.Error())
	if len(says) == 0 {
		return ""
	}
	if says[0] >= 'a' && says[0] <= 'z' {
		says[0] += 'A' - 'a'
	}
	if end := says[len(says)-1]; end != '.' && end != '"' {
		says = append(says, '.')
	}
	return string(says)
}
