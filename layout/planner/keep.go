package planner

import (
	"threepost/geometry/plane"
	"threepost/layout"
	"threepost/layout/stacks"
)

// keptFrame is the load's present arrangement as a frame when some of it must
// stay: locked levels and pots, and what already stands in the kiln. It is nil
// when all may be planned anew. Pots that stay leave the lists of free pots.
func keptFrame(c *context) *frame {
	stays := false
	for _, t := range c.load.Towers {
		for _, v := range t.Levels {
			stays = stays || v.Locked || v.Standing
			for _, p := range v.Set {
				stays = stays || p.Locked
			}
		}
	}
	if !stays {
		return nil
	}
	b, err := stacks.Build(c.load)
	if err != nil {
		return nil
	}
	return frameOf(c, b, func(v *layout.Level, p *layout.Placement) bool { return v.Locked || v.Standing || p.Locked })
}

// frameOf reads a built load back as a frame. Pots that stay are fixed under
// their names; the others go back to the table.
func frameOf(c *context, b *stacks.Built, stays func(*layout.Level, *layout.Placement) bool) *frame {
	f := &frame{towers: layout.CloneTowers(b.Load.Towers), kept: true, design: &design{division: &division{name: "as it stands"}}}
	for i := range b.Levels {
		lv := &b.Levels[i]
		t := b.Towers[lv.Tower]
		level := &f.towers[t.Index].Levels[lv.Number-1]
		st := &storey{site: siteOf(b, lv, len(b.Towers) > 1), top: lv.Top, deep: lv.Deep}
		st.zones = c.zonesOf(b, lv)
		for _, above := range b.Levels {
			for _, p := range above.Posts {
				post := &b.Posts[p]
				if abs(post.Bottom-lv.Top) < 1 && insideAny(b, lv, post.At) {
					st.posts = append(st.posts, standingPost{at: post.At, turn: post.Turn, section: postSection(post)})
				}
			}
		}
		st.sealed = level.Locked || level.Standing && coveredByStanding(b, lv)
		for _, pi := range lv.Pots {
			p := &b.Pots[pi]
			var pl *layout.Placement
			for j := range level.Set {
				if level.Set[j].Pot == p.Pot {
					pl = &level.Set[j]
				}
			}
			if pl != nil && stays(level, pl) {
				st.fixed = append(st.fixed, placed{kind: p.Kind, pot: p.Pot, at: p.At, turn: p.Turn, lock: pl.Locked})
				c.kinds[p.Kind].remove(p.Pot)
			}
		}
		level.Set = nil
		f.storeys = append(f.storeys, st)
		f.at = append(f.at, place{t.Index, lv.Number - 1})
	}
	if len(f.storeys) > 0 {
		f.design.division.sites = []*site{f.storeys[0].site}
	}
	return f
}

// remove takes one pot out of those without a place.
func (k *kind) remove(p layout.Pot) {
	for i, q := range k.free {
		if q == p {
			k.free = append(append([]layout.Pot(nil), k.free[:i]...), k.free[i+1:]...)
			return
		}
	}
}

// siteOf is a built level's shelves as a site.
func siteOf(b *stacks.Built, lv *stacks.Level, neighbor bool) *site {
	st := &site{name: lv.Name, sibling: -1, neighbor: neighbor, lines: b.Load.Towers[b.Towers[lv.Tower].Index].Lines}
	for i, sh := range lv.Shelves {
		s := &b.Shelves[sh]
		if i == 0 {
			st.kind, st.outline = s.Kind, s.Outline
			st.shelf = layout.ShelfAt{Kind: s.Kind.Name, At: s.At, Turn: s.Turn}
			continue
		}
		st.beside = append(st.beside, s.Outline)
	}
	return st
}

// zonesOf are the rooms over a built level: one per level that lies over it,
// and the lid where nothing does.
func (c *context) zonesOf(b *stacks.Built, lv *stacks.Level) []zone {
	lid := zone{takes: b.Height - lv.Top - c.limits[layout.RoomToLid].Plan}
	if len(lv.Above) == 0 {
		return []zone{lid}
	}
	own := 0.0
	for _, sh := range lv.Shelves {
		own += b.Shelves[sh].Outline.Area()
	}
	var zones []zone
	covered := 0.0
	outline := func(level int) plane.Outline { return b.Shelves[b.Levels[level].Shelves[0]].Outline }
	for i, a := range lv.Above {
		bow := 0.0
		for _, sh := range b.Levels[a].Shelves {
			bow = max(bow, b.Shelves[sh].Kind.Bow)
			covered += b.Shelves[sh].Outline.Area()
		}
		z := zone{takes: b.Levels[a].Bottom - bow - lv.Top - c.room}
		if len(lv.Above) == 2 {
			z.region = c.beside(&site{outline: outline(lv.Above[1-i])}, true)
		}
		zones = append(zones, z)
	}
	if covered < 0.75*own && len(lv.Above) == 1 {
		lid.region = c.beside(&site{outline: outline(lv.Above[0])}, true)
		zones = append(zones, lid)
	}
	return zones
}

func insideAny(b *stacks.Built, lv *stacks.Level, p plane.Vec) bool {
	for _, sh := range lv.Shelves {
		if b.Shelves[sh].Outline.Contains(p) {
			return true
		}
	}
	return false
}

func postSection(p *stacks.Post) layout.Section {
	widest := layout.Section{}
	for _, piece := range p.Pieces {
		if piece.Kind.Section.Width > widest.Width {
			widest = piece.Kind.Section
		}
	}
	return widest
}

// coveredByStanding says whether a level over this one already stands, so that
// no hand reaches in.
func coveredByStanding(b *stacks.Built, lv *stacks.Level) bool {
	for _, a := range lv.Above {
		up := &b.Levels[a]
		if b.Load.Towers[b.Towers[up.Tower].Index].Levels[up.Number-1].Standing {
			return true
		}
	}
	return false
}

// refill packs what is free round what stays.
func (s *Search) refill(f *frame) {
	s.context.keepSights(f, s.bareOf(f))
	s.placePacks(f, false)
	s.fillAll(f, closerWork, 1)
	s.keep(f)
	if s.best == nil {
		s.refused = "What is locked or already stands has a problem of its own. Check the load first, and mend or unlock it."
	}
}
