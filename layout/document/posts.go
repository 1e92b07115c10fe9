package document

import (
	"strings"

	"threepost/layout"
	"threepost/layout/measure"
)

// posts is "150 + 5", or a list with one make-up per line.
func posts() codec[[]layout.MakeUp] {
	several := list(makeUp(), mostLines, false)
	return codec[[]layout.MakeUp]{
		read: func(r *reader, what string, n *node) ([]layout.MakeUp, bool) {
			if n.kind == arrayKind {
				return several.read(r, what, n)
			}
			one, ok := makeUp().read(r, what, n)
			return []layout.MakeUp{one}, ok
		},
		write: func(w *writer, all []layout.MakeUp) string {
			if len(all) == 1 {
				return makeUp().write(w, all[0])
			}
			return several.write(w, all)
		},
		omit: func(all []layout.MakeUp) bool { return len(all) == 0 },
		shape: func(defs *schemas) schema {
			return schema{"anyOf": []any{makeUp().shape(defs), several.shape(defs)}}
		},
	}
}

// makeUp is the pieces of a post from the bottom up.
func makeUp() codec[layout.MakeUp] {
	return codec[layout.MakeUp]{
		read: func(r *reader, what string, n *node) (layout.MakeUp, bool) {
			if n.kind == integerKind || n.kind == floatKind {
				mm, ok := length(positive).read(r, what, n)
				piece := layout.Piece{Height: mm}
				return layout.MakeUp{piece}, ok && r.owned(what, n, piece)
			}
			if n.kind != textKind {
				r.complain(n.at, `%s is %s here; write the pieces from the bottom up, like "150 + 5"`, what, sayKind(n))
				return nil, false
			}
			parts := strings.Split(n.text, "+")
			if len(parts) > 20 {
				r.complain(n.at, "%s has %d pieces in one post; at most 20 can be read", what, len(parts))
				return nil, false
			}
			var m layout.MakeUp
			for _, part := range parts {
				piece, err := r.piece(part)
				if err != nil {
					r.complain(n.at, `%s is %s: %s; write the pieces from the bottom up, like "150 + 5"`, what, show(n.text), err)
					return nil, false
				}
				if !r.owned(what, n, piece) {
					return nil, false
				}
				m = append(m, piece)
			}
			return m, true
		},
		write: func(w *writer, m layout.MakeUp) string {
			texts := make([]string, len(m))
			for i, p := range m {
				texts[i] = w.lengthText(p.Height)
				if p.Name != "" {
					texts[i] += " (" + p.Name + ")"
				}
			}
			return quoted(strings.Join(texts, " + "))
		},
		shape: func(defs *schemas) schema {
			return schema{"anyOf": []any{schema{"type": "string", "minLength": 1}, numberSchema(positive)}}
		},
	}
}

// piece reads "150" or "150 (short)".
func (r *reader) piece(text string) (layout.Piece, error) {
	text = strings.TrimSpace(text)
	name := ""
	if open := strings.IndexByte(text, '('); open >= 0 && strings.HasSuffix(text, ")") {
		name = strings.TrimSpace(text[open+1 : len(text)-1])
		text = text[:open]
	}
	mm, err := measure.ParsePositive(text, r.units)
	return layout.Piece{Height: mm, Name: name}, err
}

// owned complains of a piece that no row of the furniture describes.
func (r *reader) owned(what string, n *node, p layout.Piece) bool {
	f := &r.load.Furniture
	if f.Post(p) != nil || r.unread("posts", len(f.Posts)) {
		return true
	}
	var heights []string
	for _, k := range f.Posts {
		heights = append(heights, sayHeight(r.units, k.Height)+bracketed(k.Name))
	}
	have := "the furniture has no posts"
	if len(heights) > 0 {
		have = "the furniture has " + strings.Join(heights, ", ")
	}
	r.complain(n.at, "%s: there is no post of %s%s; %s", what, sayHeight(r.units, p.Height), bracketed(p.Name), have)
	return false
}

func bracketed(name string) string {
	if name == "" {
		return ""
	}
	return " (" + name + ")"
}
