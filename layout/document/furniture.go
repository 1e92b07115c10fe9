package document

import (
	"fmt"
	"strings"

	"threepost/layout"
	"threepost/layout/measure"
)

// mostPieces is the most of one kind of furniture.
const mostPieces = 10000

func furnitureTable() table[layout.Furniture] {
	return table[layout.Furniture]{
		name: "[furniture]",
		doc:  "What the potter owns to build with.",
		fields: []field[layout.Furniture]{
			at("shelves", list(subAny(shelfTable()), mostRows, true), func(f *layout.Furniture) *[]layout.ShelfKind { return &f.Shelves }, "Shelves, a row for each kind."),
			at("posts", list(subAny(postTable()), mostRows, true), func(f *layout.Furniture) *[]layout.PostKind { return &f.Posts }, "Posts and spacers, a row for each height."),
			at("cookies", list(subAny(cookieTable()), mostRows, true), func(f *layout.Furniture) *[]layout.CookieKind { return &f.Cookies }, "Tiles under runny pots."),
			at("stilts", list(subAny(stiltTable()), mostRows, true), func(f *layout.Furniture) *[]layout.StiltKind { return &f.Stilts }, "Stilts under pots with a glazed foot."),
		},
		check: checkFurniture,
	}
}

// checkFurniture complains of kinds that could not be told apart.
func checkFurniture(r *reader, n *node, f *layout.Furniture) {
	rows := func(key string) []*node { return n.get(key).value.items }
	shelves := map[string]bool{}
	for i, s := range f.Shelves {
		if shelves[s.Name] {
			r.complain(rows("shelves")[i].at, "two kinds of shelf are called %s; give each its own name", show(s.Name))
		}
		shelves[s.Name] = true
	}
	posts := map[layout.Piece]bool{}
	for i, p := range f.Posts {
		piece := layout.Piece{Height: p.Height, Name: p.Name}
		if posts[piece] {
			r.complain(rows("posts")[i].at, "two rows of posts are %s high%s; make them one row, or give a matched set a name", sayHeight(r.units, p.Height), called(p.Name))
		}
		posts[piece] = true
	}
}

// called is a name in a sentence, or nothing.
func called(name string) string {
	if name == "" {
		return ""
	}
	return " and called " + show(name)
}

// sayHeight is a height with its unit.
func sayHeight(in measure.Units, mm float64) string {
	w := writer{units: in}
	text := w.lengthText(mm)
	if in == measure.Inches && !strings.HasSuffix(text, "mm") {
		return text + " in"
	}
	return text
}

func shelfTable() table[layout.ShelfKind] {
	fields := []field[layout.ShelfKind]{
		must(`name = "full"`, at("name", name(), func(s *layout.ShelfKind) *string { return &s.Name }, "What this kind is called; levels name it."))}
	fields = append(fields, shapeFields(func(s *layout.ShelfKind) *layout.Shape { return &s.Shape })...)
	fields = append(fields,
		must("thick = 16", at("thick", length(positive), func(s *layout.ShelfKind) *float64 { return &s.Thick }, "Its thickness.")),
		at("mass", mass(), func(s *layout.ShelfKind) *float64 { return &s.Mass }, "Of one, kg; from its size when not given."),
		must("count = 6", always("count", count(0, mostPieces), func(s *layout.ShelfKind) *int { return &s.Count }, "How many there are.")),
		at("material", choice("cordierite", "mullite", "high alumina", "silicon carbide"), func(s *layout.ShelfKind) *string { return &s.Material }, "What it is made of; cordierite when not given."),
		at("limit", temperature(), func(s *layout.ShelfKind) *float64 { return &s.Limit }, "Highest temperature, C; the material's when not given."),
		at("bow", length(notNegative), func(s *layout.ShelfKind) *float64 { return &s.Bow }, "How far its middle hangs or stands proud."),
		at("cracked", boolean(), func(s *layout.ShelfKind) *bool { return &s.Cracked }, "It is cracked."),
		at("damp", boolean(), func(s *layout.ShelfKind) *bool { return &s.Damp }, "It is damp."))
	return table[layout.ShelfKind]{
		name: "a shelf", doc: "A row of alike shelves.", fields: fields,
		check: func(r *reader, n *node, s *layout.ShelfKind) {
			checkShape(r, n, "shelf "+show(s.Name), &s.Shape)
		},
	}
}

func postTable() table[layout.PostKind] {
	return table[layout.PostKind]{
		name: "a post",
		doc:  "A row of alike posts or spacers.",
		fields: []field[layout.PostKind]{
			at("name", postName(), func(p *layout.PostKind) *string { return &p.Name }, "Tells matched sets of one height apart: \"100 (short)\" in a make-up."),
			must("height = 100", at("height", length(positive), func(p *layout.PostKind) *float64 { return &p.Height }, "The height it is called by.")),
			at("real", length(positive), func(p *layout.PostKind) *float64 { return &p.Real }, "The height as measured, when it differs."),
			must(`section = "square 38"`, at("section", postSection(), func(p *layout.PostKind) *layout.Section { return &p.Section }, "Its plan: square, round, hexagon or triangle, and how wide.")),
			must("count = 6", always("count", count(0, mostPieces), func(p *layout.PostKind) *int { return &p.Count }, "How many there are.")),
			at("spacer", boolean(), func(p *layout.PostKind) *bool { return &p.Spacer }, "A thin piece that goes on top of a post."),
			at("mass", mass(), func(p *layout.PostKind) *float64 { return &p.Mass }, "Of one, kg."),
		},
	}
}

// postName is a name that can stand in brackets in a make-up.
func postName() codec[string] {
	c := name()
	plain := c.read
	c.read = func(r *reader, what string, n *node) (string, bool) {
		v, ok := plain(r, what, n)
		if ok && strings.ContainsAny(v, "()+") {
			r.complain(n.at, "%s is %s; a post's name has no ( ) or +", what, show(v))
			return "", false
		}
		return v, ok
	}
	return c
}

// postSection is "square 38": the kind and how wide.
func postSection() codec[layout.Section] {
	kinds := []string{string(layout.SquareSection), string(layout.RoundSection), string(layout.HexagonSection), string(layout.TriangleSection)}
	return codec[layout.Section]{
		read: func(r *reader, what string, n *node) (layout.Section, bool) {
			if n.kind != textKind {
				r.complain(n.at, `%s is %s here; write one like "square 38"`, what, sayKind(n))
				return layout.Section{}, false
			}
			word, width, _ := strings.Cut(strings.TrimSpace(n.text), " ")
			mm, err := measure.ParsePositive(width, r.units)
			for _, k := range kinds {
				if word == k && err == nil {
					return layout.Section{Kind: layout.SectionKind(k), Width: mm}, true
				}
			}
			r.complain(n.at, `%s is %s; write square, round, hexagon or triangle and how wide, like "square 38"`, what, show(n.text))
			return layout.Section{}, false
		},
		write: func(w *writer, s layout.Section) string {
			return quoted(string(s.Kind) + " " + w.lengthText(s.Width))
		},
		omit: func(layout.Section) bool { return false },
		shape: func(*schemas) schema {
			return schema{"type": "string", "pattern": fmt.Sprintf("^ *(%s) +[0-9]", strings.Join(kinds, "|"))}
		},
	}
}

func cookieTable() table[layout.CookieKind] {
	return table[layout.CookieKind]{
		name: "a cookie",
		doc:  "A row of alike cookies.",
		fields: []field[layout.CookieKind]{
			must("across = 110", at("across", length(positive), func(c *layout.CookieKind) *float64 { return &c.Across }, "How wide.")),
			must("thick = 10", at("thick", length(positive), func(c *layout.CookieKind) *float64 { return &c.Thick }, "How thick.")),
			must("count = 6", always("count", count(0, mostPieces), func(c *layout.CookieKind) *int { return &c.Count }, "How many there are.")),
		},
	}
}

func stiltTable() table[layout.StiltKind] {
	return table[layout.StiltKind]{
		name: "a stilt",
		doc:  "A row of alike stilts.",
		fields: []field[layout.StiltKind]{
			must("across = 60", at("across", length(positive), func(s *layout.StiltKind) *float64 { return &s.Across }, "Between its points.")),
			must("height = 12", at("height", length(positive), func(s *layout.StiltKind) *float64 { return &s.Height }, "What it adds to the pot.")),
			must("count = 6", always("count", count(0, mostPieces), func(s *layout.StiltKind) *int { return &s.Count }, "How many there are.")),
			at("limit", temperature(), func(s *layout.StiltKind) *float64 { return &s.Limit }, "Highest temperature, C."),
			at("metal", boolean(), func(s *layout.StiltKind) *bool { return &s.Metal }, "It has metal points."),
		},
	}
}
