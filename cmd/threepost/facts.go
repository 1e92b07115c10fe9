package main

import (
	"strconv"
	"strings"

	"threepost/layout"
	"threepost/layout/measure"
	"threepost/layout/session"
)

// facts are what may be other than planned, as a person types it: one of them.
type facts struct{ taller, wider, noPost, noShelf, without, oneMore string }

// change is the one fact that was told, read against a load.
func (f facts) change(l *layout.Load) (session.Change, error) {
	told := 0
	var out session.Change
	var err error
	for _, x := range []struct {
		text string
		read func(string) (session.Change, error)
	}{
		{f.taller, func(s string) (session.Change, error) { return grownChange(l, "taller", session.TooTall, s) }},
		{f.wider, func(s string) (session.Change, error) { return grownChange(l, "wider", session.TooWide, s) }},
		{f.noPost, func(s string) (session.Change, error) { return postChange(l, s) }},
		{f.noShelf, func(s string) (session.Change, error) {
			n, name := countOf(s)
			return session.Change{Kind: session.ShelfOut, Name: name, Count: n}, nil
		}},
		{f.without, func(s string) (session.Change, error) {
			p, err := l.Find(s)
			if err != nil {
				return session.Change{}, usage("--without: %w", err)
			}
			return session.Change{Kind: session.LeaveOut, Pot: p.String()}, nil
		}},
		{f.oneMore, func(s string) (session.Change, error) { return session.Change{Kind: session.OneMore, Ware: s}, nil }},
	} {
		if x.text == "" {
			continue
		}
		if told++; told == 1 {
			out, err = x.read(x.text)
		}
	}
	if told != 1 {
		return out, usage("fit takes one of --taller, --wider, --no-post, --no-shelf, --without and --one-more; here are %d", told)
	}
	return out, err
}

// grownChange reads "mug 3: 4 mm", or "mug: 4 mm" for a whole row.
func grownChange(l *layout.Load, flag, kind, text string) (session.Change, error) {
	cut := strings.LastIndexByte(text, ':')
	if cut < 0 {
		return session.Change{}, usage(`--%s wants a pot or a row, a colon, and by how much: "mug 3: 4 mm"`, flag)
	}
	name, by := strings.TrimSpace(text[:cut]), strings.TrimSpace(text[cut+1:])
	if _, err := measure.ParsePositive(by, l.Units); err != nil {
		return session.Change{}, usage("--%s: %w", flag, err)
	}
	c := session.Change{Kind: kind, By: by}
	if w := l.WareOf(layout.Pot{Ware: name}); w != nil {
		if c.Ware = w.Name; w.Count == 1 {
			c.Pot = w.Name
		}
		return c, nil
	}
	p, err := l.Find(name)
	switch {
	case err != nil:
		return c, usage("--%s: %w", flag, err)
	case l.WareOf(p) == nil:
		return c, usage("--%s: %s is a cone pack; give it its size in the load", flag, p)
	}
	c.Pot = p.String()
	return c, nil
}

// postChange reads "100", "2 of 100", or "2 of" a matched set by its name.
func postChange(l *layout.Load, text string) (session.Change, error) {
	n, what := countOf(text)
	c := session.Change{Kind: session.PostMissing, Count: n}
	for _, k := range l.Furniture.Posts {
		if k.Name != "" && k.Name == what {
			c.Height, c.Name = k.Height, k.Name
			return c, nil
		}
	}
	mm, err := measure.ParsePositive(what, l.Units)
	if err != nil {
		return c, usage("--no-post: %w", err)
	}
	c.Height = mm
	for _, k := range l.Furniture.Posts { // as the file's own figure, where it is rounded otherwise
		if k.Name == "" && k.Height-mm < 0.05 && mm-k.Height < 0.05 {
			c.Height = k.Height
		}
	}
	return c, nil
}

// countOf parts "2 of half" into a count and the rest; without a count it is 1.
func countOf(text string) (n int, rest string) {
	if before, after, ok := strings.Cut(strings.TrimSpace(text), " of "); ok {
		if n, err := strconv.Atoi(strings.TrimSpace(before)); err == nil && n > 0 {
			return n, strings.TrimSpace(after)
		}
	}
	return 1, strings.TrimSpace(text)
}
