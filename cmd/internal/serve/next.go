package serve

import (
	"net/http"

	"threepost/layout/document"
	"threepost/layout/firings"
)

// next gives the load of what waits in another, with the comments of its rows.
// It writes nothing: the page makes a load of it as of any text.
func (s *Server) next(w http.ResponseWriter, r *http.Request) error {
	var ask struct {
		Text string `json:"text"`
	}
	if err := s.take(w, r, &ask); err != nil {
		return err
	}
	l, err := document.Parse("", []byte(ask.Text))
	if err != nil {
		return refusal{http.StatusUnprocessableEntity, err.Error(), nil}
	}
	rest, pots := firings.Next(l)
	if rest == nil {
		return refused(http.StatusConflict, "Nothing waits: every pot of the table stands in the kiln.")
	}
	text, err := document.Gather(rest, document.Source{Text: []byte(ask.Text)})
	if err != nil {
		return err
	}
	s.answer(w, http.StatusOK, map[string]any{"title": rest.Title, "text": string(text), "pots": pots})
	return nil
}
