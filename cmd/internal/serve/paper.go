package serve

import (
	"bytes"
	"errors"
	"fmt"
	"net/http"
	"strconv"
	"strings"

	"threepost/cmd/internal/paper"
	"threepost/layout"
	"threepost/layout/bounds"
	"threepost/layout/clearance"
	"threepost/layout/document"
	"threepost/layout/measure"
	"threepost/layout/planner"
	"threepost/layout/session"
	"threepost/layout/stacks"
	"threepost/render/drawing"
)

func (s *Server) paperRoutes() []route {
	return []route{{"POST /api/pdf", s.pdf}, {"POST /api/pages", s.pagesOf}}
}

// pdf answers with the wanted papers as one PDF.
func (s *Server) pdf(w http.ResponseWriter, r *http.Request) error {
	l, pages, err := s.paper(w, r)
	if err != nil {
		return err
	}
	fonts, err := s.fonts()
	if err != nil {
		return err
	}
	var buf bytes.Buffer
	if err := drawing.PDF(&buf, fonts, drawing.Document{Title: l.Title, Pages: pages}); err != nil {
		return err
	}
	h := w.Header()
	h.Set("Content-Type", "application/pdf")
	h.Set("Content-Disposition", `inline; filename="threepost.pdf"`)
	h.Set("Content-Length", strconv.Itoa(buf.Len()))
	_, _ = w.Write(buf.Bytes()) // who asked may be gone
	return nil
}

// pagesOf answers with the wanted papers as pictures.
func (s *Server) pagesOf(w http.ResponseWriter, r *http.Request) error {
	_, pages, err := s.paper(w, r)
	if err != nil {
		return err
	}
	fonts, err := s.fonts()
	if err != nil {
		return err
	}
	type picture struct {
		SVG  string `json:"svg"`
		Name string `json:"name"`
	}
	out := []picture{}
	for i, p := range pages {
		var svg strings.Builder
		if err := drawing.SVG(&svg, fonts, p); err != nil {
			return err
		}
		name := p.Title
		if name == "" {
			name = fmt.Sprintf("Page %d of %d", i+1, len(pages))
		}
		out = append(out, picture{svg.String(), name})
	}
	s.answer(w, http.StatusOK, map[string]any{"pages": out})
	return nil
}

// paper reads a request for papers and makes their pages.
func (s *Server) paper(w http.ResponseWriter, r *http.Request) (*layout.Load, []drawing.Page, error) {
	var ask struct {
		Text string `json:"text"`
		paper.Wanted
		Beside session.Laid `json:"beside"` // what the page knows beside the arrangement: bound and price
	}
	if err := s.take(w, r, &ask); err != nil {
		return nil, nil, err
	}
	if len(ask.Parts) == 0 {
		ask.Parts = []string{"front", "boards", "levels"}
	}
	l, err := document.Parse("", []byte(ask.Text))
	if err != nil {
		return nil, nil, refused(http.StatusUnprocessableEntity, "%v", err)
	}
	opts, err := ask.Options(l)
	if err != nil {
		return nil, nil, refused(http.StatusBadRequest, "%v.", err)
	}
	if opts.Fonts, err = s.fonts(); err != nil {
		return nil, nil, err
	}
	select {
	case s.papers <- struct{}{}:
		defer func() { <-s.papers }()
	case <-r.Context().Done():
		return nil, nil, r.Context().Err()
	}
	b, err := stacks.Build(l)
	if err != nil {
		return nil, nil, refused(http.StatusUnprocessableEntity, "%v", err)
	}
	report := clearance.Check(b)
	opts.Beside = besideOf(l, report, &ask.Beside, opts.Units)
	pages, err := paper.Pages(b, report, opts)
	if errors.Is(err, paper.ErrNoLevels) || errors.Is(err, paper.ErrNoPots) {
		sentence := err.Error()
		return nil, nil, refused(http.StatusUnprocessableEntity, "%s%s.", strings.ToUpper(sentence[:1]), sentence[1:])
	}
	return l, pages, err
}

// besideOf puts into sentences what the page knows beside an arrangement: it
// was worked out when the load was planned, and is not worked out again.
func besideOf(l *layout.Load, report clearance.Report, laid *session.Laid, units measure.Units) []string {
	plan, err := planner.Given(l, report)
	if err != nil {
		return nil
	}
	plan.Wishes = paper.Wishes(l, units)
	for i := range plan.Wishes {
		for _, c := range laid.Wishes {
			if c.Wish == plan.Wishes[i].Key {
				plan.Wishes[i].Cost = c.Cost
			}
		}
	}
	var bound *bounds.Bound
	if laid.Bound != nil {
		b := laid.Bound.Bound()
		bound = &b
	}
	var price planner.Price
	if laid.Price != nil && len(laid.Price.Ware) <= len(l.Ware) {
		price = laid.Price.Price()
	}
	return paper.Sentences(plan, bound, price, units)
}
