package session

import (
	"math"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/edit"
	"threepost/layout/stacks"
)

// liftMend is a level of the same tower that can come down by as much as the
// shelf rose, so that the lid has its room again; nil when none can. It is
// looked for once a stop.
func (s *Session) liftMend(l *lift, st *stop) *Act {
	if st.mended || st.built == nil {
		return st.mend
	}
	st.mended = true
	b := s.seen.built
	for _, w := range b.Towers[b.Levels[l.level].Tower].Levels {
		if w == l.level || len(b.Levels[w].Posts) == 0 {
			continue
		}
		stock := l.stock.Clone()
		for _, m := range st.height.Posts {
			stock.Take(m, 1)
		}
		for _, p := range b.Levels[w].Posts {
			stock.Return(b.Posts[p].MakeUp, 1)
		}
		for _, h := range s.lower(b, w, st.rise, stock, l.posts) {
			edits := []layout.Edit{s.postsEdit(l.level, st.height.Posts), s.postsEdit(w, h)}
			after, r, ok := s.checked(edits)
			if !ok || !noWorse(r, s.Report()) {
				continue
			}
			room, _ := roomToLid(after)
			st.mend = &Act{Say: s.say(s.mending().mender.SayPosts(w, h) + ": " + s.down(room) + " again"), Edits: edits}
			return st.mend
		}
	}
	return nil
}

// lower are the posts that bring a level down by so many mm: each post without
// its top piece, where that is the piece; else what the stock makes.
func (s *Session) lower(b *stacks.Built, level int, by float64, stock *stacks.Stock, c *stacks.Catalogue) [][]layout.MakeUp {
	var out [][]layout.MakeUp
	var off []layout.MakeUp
	for _, p := range b.Levels[level].Posts {
		m := b.Posts[p].MakeUp
		k := s.now.Furniture.Post(m[len(m)-1])
		if len(m) < 2 || k == nil || math.Abs(k.RealHeight()-by) > same {
			off = nil
			break
		}
		off = append(off, m[:len(m)-1])
	}
	if len(off) == len(b.Levels[level].Posts) && len(off) > 0 {
		out = append(out, off)
	}
	now := tallOf(b, level)
	for _, h := range c.Heights(len(b.Levels[level].Posts), stock) {
		if math.Abs(now-by-h.Real) < same {
			out = append(out, h.Posts)
		}
	}
	return out
}

// checked applies, builds and checks edits.
func (s *Session) checked(edits []layout.Edit) (*stacks.Built, clearance.Report, bool) {
	next, err := edit.Apply(s.now, edits...)
	if err != nil {
		return nil, clearance.Report{}, false
	}
	b, err := stacks.Build(next)
	if err != nil {
		return nil, clearance.Report{}, false
	}
	return b, clearance.Check(b), true
}

// noWorse tells whether a report has no problem and no watch that another did
// not have, or had less badly.
func noWorse(r, before clearance.Report) bool {
	for i := range r.Findings {
		f := &r.Findings[i]
		if f.Grade == layout.Note || f.Accepted != "" {
			continue
		}
		if old := before.Find(f.Key); old == nil || old.Grade < f.Grade || worse(f, old) {
			return false
		}
	}
	return true
}
