package warelist

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/measure"
)

// column is one thing to tell about a row of ware: a column of a CSV file and,
// but for count, name and size, a word of the short form.
type column struct {
	name string
	also []string // other headings that mean it
	in   string   // "length" or "mass" when a heading may name a unit
	text bool     // the person's own words, which the short form may quote
	set  func(w *layout.Ware, text string, in measure.Units) error
	get  func(w *layout.Ware, in measure.Units) string
}

// longestText is how long a name or a text may be, in characters.
const longestText = 60

// columns lists everything in the order of a CSV file.
func columns() []column {
	cols := []column{
		{name: "count", also: []string{"number", "qty", "quantity", "how many", "pieces", "pcs", "no", "nr", "amount"},
			set: func(w *layout.Ware, text string, _ measure.Units) error { return setCount(w, text) },
			get: func(w *layout.Ware, _ measure.Units) string { return strconv.Itoa(w.Count) }},
		own("name", func(w *layout.Ware) *string { return &w.Name }, "pot", "ware", "item", "piece", "what", "kind", "form"),
		size("height", func(w *layout.Ware) *float64 { return &w.Height }, "high", "h", "tall"),
		size("across", func(w *layout.Ware) *float64 { return &w.Across }, "diameter", "wide", "dia", "d", "ø", "width across", "rim"),
		size("length", func(w *layout.Ware) *float64 { return &w.Length }, "long", "l"),
		size("width", func(w *layout.Ware) *float64 { return &w.Width }, "w", "breadth"),
		words("silhouette", silhouettes(), func(w *layout.Ware) *layout.Silhouette { return &w.Silhouette }, "as", "outline"),
		words("plan", []layout.ShapeKind{layout.Oval, layout.Rectangle}, func(w *layout.Ware) *layout.ShapeKind { return &w.Plan }, "plan shape"),
		size("foot", func(w *layout.Ware) *float64 { return &w.Foot }, "base", "foot ring"),
		{name: "profile", set: setProfile, get: getProfile},
		yes("measured", func(w *layout.Ware) *bool { return &w.Measured }),
		{name: "handles", also: []string{"handle", "lugs"}, set: setHandles, get: getHandles},
		{name: "spout", set: setSpout, get: getSpout},
		size("knob", func(w *layout.Ware) *float64 { return &w.Knob }, "lid and knob"),
		{name: "lid", set: setLid, get: getLid},
		allowance("allow high", func(w *layout.Ware) **float64 { return &w.HighAllowance }),
		allowance("allow wide", func(w *layout.Ware) **float64 { return &w.WideAllowance }),
		{name: "mass", also: []string{"weight", "kg"}, in: "mass", set: setMass, get: getMass},
		size("wall", func(w *layout.Ware) *float64 { return &w.Wall }, "wall thickness", "thickness"),
		material("clay", func(w *layout.Ware) *layout.Material { return &w.Clay }, "clay body", "body"),
		materialCone("clay cone", func(w *layout.Ware) *layout.Material { return &w.Clay }),
		material("glaze", func(w *layout.Ware) *layout.Material { return &w.Glaze }, "glazes"),
		materialCone("glaze cone", func(w *layout.Ware) *layout.Material { return &w.Glaze }),
		{name: "flags", also: []string{"flag", "remember"}, set: setFlags, get: getFlags},
		{name: "stand", also: []string{"stands on"}, set: setStand, get: getStand},
		{name: "nested", also: []string{"bundle", "stacked"}, set: setNested, get: getNested},
		size("adds", func(w *layout.Ware) *float64 { return &w.Adds }, "each adds"),
		own("owner", func(w *layout.Ware) *string { return &w.Owner }, "whose", "who", "maker", "potter"),
		own("ticket", func(w *layout.Ware) *string { return &w.Ticket }, "order", "label"),
		{name: "since", also: []string{"waiting since", "date"}, set: setSince, get: func(w *layout.Ware, _ measure.Units) string { return w.Since }},
		words("must", []layout.Must{layout.MustGo, layout.Filler}, func(w *layout.Ware) *layout.Must { return &w.Must }, "priority"),
		{name: "value", also: []string{"worth"}, set: setValue, get: getValue},
		words("dry", []layout.Dryness{layout.Bisqued, layout.BoneDry, layout.DampClay}, func(w *layout.Ware) *layout.Dryness { return &w.Dry }, "dryness", "state"),
	}
	return cols
}

// silhouettes are the usual forms by name.
func silhouettes() []layout.Silhouette {
	return []layout.Silhouette{layout.Mug, layout.Tumbler, layout.Bowl, layout.Plate, layout.Vase, layout.Bottle, layout.Jug,
		layout.Teapot, layout.LiddedJar, layout.OvalBaker, layout.Box, layout.Tile, layout.Cylinder}
}

// columnNamed finds a column by its own name.
func columnNamed(cols []column, name string) *column {
	for i := range cols {
		if cols[i].name == name {
			return &cols[i]
		}
	}
	return nil
}

// lengthText writes a length so that reading it gives the same mm.
func lengthText(mm float64, in measure.Units) string {
	if mm == 0 {
		return ""
	}
	if in != measure.Inches {
		return measure.FormatFile(mm)
	}
	if text := measure.FormatLength(mm, in, measure.Exact); !strings.Contains(text, ".") {
		return text
	}
	return measure.FormatFile(mm) + " mm"
}

// size is a length of more than 0.
func size(name string, place func(*layout.Ware) *float64, also ...string) column {
	return column{name: name, also: also, in: "length",
		set: func(w *layout.Ware, text string, in measure.Units) error {
			mm, err := measure.ParsePositive(text, in)
			*place(w) = mm
			return err
		},
		get: func(w *layout.Ware, in measure.Units) string { return lengthText(*place(w), in) },
	}
}

// own is the person's own words.
func own(name string, place func(*layout.Ware) *string, also ...string) column {
	return column{name: name, also: also, text: true,
		set: func(w *layout.Ware, text string, _ measure.Units) error {
			*place(w) = text
			return readable(text)
		},
		get: func(w *layout.Ware, _ measure.Units) string { return *place(w) },
	}
}

// readable refuses a text that cannot stand on a line of paper.
func readable(text string) error {
	switch n := utf8.RuneCountInString(text); {
	case !utf8.ValidString(text):
		return errors.New("it holds bytes that are not UTF-8 text; save the list as UTF-8")
	case n > longestText:
		return fmt.Errorf("it has %d characters; type at most %d", n, longestText)
	case strings.ContainsFunc(text, unicode.IsControl):
		return errors.New("it holds a line break or another control character; type it on one line")
	}
	return nil
}

// words is one of a few words, in any case.
func words[S ~string](name string, known []S, place func(*layout.Ware) *S, also ...string) column {
	return column{name: name, also: also,
		set: func(w *layout.Ware, text string, _ measure.Units) error {
			for _, k := range known {
				if strings.EqualFold(strings.TrimSpace(text), string(k)) {
					*place(w) = k
					return nil
				}
			}
			list := make([]string, len(known))
			for i, k := range known {
				list[i] = string(k)
			}
			return fmt.Errorf("%s is not known; %s", show(text), nearestOf(text, list))
		},
		get: func(w *layout.Ware, _ measure.Units) string { return string(*place(w)) },
	}
}

// nearestOf says which word to type.
func nearestOf(word string, known []string) string {
	if near, ok := document.Nearest(word, known); ok {
		return "the nearest is " + show(near)
	}
	if len(known) > 1 {
		last := len(known) - 1
		return "type " + strings.Join(known[:last], ", ") + " or " + known[last]
	}
	return "type " + strings.Join(known, "")
}

// show puts a typed word into a sentence: in quotes, short, printable.
func show(word string) string {
	word = strings.TrimSpace(word)
	if runes := []rune(word); len(runes) > 40 {
		word = string(runes[:40]) + "..."
	}
	return strconv.Quote(strings.ToValidUTF8(word, "?"))
}

// yes is true or false, as people tick it.
func yes(name string, place func(*layout.Ware) *bool) column {
	return column{name: name,
		set: func(w *layout.Ware, text string, _ measure.Units) error {
			switch strings.ToLower(strings.TrimSpace(text)) {
			case "yes", "y", "true", "1", "x", name:
				*place(w) = true
			case "no", "n", "false", "0":
				*place(w) = false
			default:
				return fmt.Errorf("%s is not known; type yes or no", show(text))
			}
			return nil
		},
		get: func(w *layout.Ware, _ measure.Units) string {
			if *place(w) {
				return "yes"
			}
			return ""
		},
	}
}

// allowance is a length that may be 0 and may be absent.
func allowance(name string, place func(*layout.Ware) **float64) column {
	return column{name: name, in: "length",
		set: func(w *layout.Ware, text string, in measure.Units) error {
			mm, err := measure.ParseNotNegative(text, in)
			*place(w) = &mm
			return err
		},
		get: func(w *layout.Ware, in measure.Units) string {
			switch v := *place(w); {
			case v == nil:
				return ""
			case *v == 0:
				return "0"
			default:
				return lengthText(*v, in)
			}
		},
	}
}

// material is a clay or a glaze: its name, then the cone it is made for.
func material(name string, place func(*layout.Ware) *layout.Material, also ...string) column {
	return column{name: name, also: also,
		set: func(w *layout.Ware, text string, _ measure.Units) error {
			m := place(w)
			text = strings.TrimSpace(text)
			rest := text
			if strings.HasPrefix(text, `"`) {
				m.Name, rest = unquote(text)
			} else if cut := coneAt(text); cut >= 0 {
				m.Name, rest = strings.TrimSpace(text[:cut]), text[cut:]
			} else {
				m.Name, rest = text, ""
			}
			if err := readable(m.Name); err != nil {
				return err
			}
			if rest = strings.TrimSpace(rest); rest == "" {
				return nil
			}
			if coneAt(rest) != 0 {
				return fmt.Errorf("after the name %s comes its cone, like cone 6", show(m.Name))
			}
			cone, err := measure.ParseCone(rest)
			m.Cone = cone
			return err
		},
		get: func(w *layout.Ware, _ measure.Units) string {
			m := *place(w)
			text := m.Name
			if text != "" && (needsQuotes(text) || coneAt(text) >= 0) {
				text = quote(text)
			}
			if m.Cone != "" {
				text = strings.TrimSpace(text + " cone " + string(m.Cone))
			}
			return text
		},
	}
}

// coneAt is where the word cone begins in a text, the last one, or -1.
func coneAt(text string) int {
	low := strings.ToLower(text)
	if len(low) != len(text) {
		low = text
	}
	for cut := strings.LastIndex(low, "cone"); cut >= 0; cut = strings.LastIndex(low[:cut], "cone") {
		before := cut == 0 || low[cut-1] == ' '
		after := cut+4 == len(low) || low[cut+4] == ' '
		if before && after {
			return cut
		}
	}
	return -1
}

// materialCone is the cone of a clay or glaze in a column of its own.
func materialCone(name string, place func(*layout.Ware) *layout.Material) column {
	return column{name: name,
		set: func(w *layout.Ware, text string, _ measure.Units) error {
			cone, err := measure.ParseCone(text)
			place(w).Cone = cone
			return err
		},
		get: func(*layout.Ware, measure.Units) string { return "" }, // told with the name
	}
}
