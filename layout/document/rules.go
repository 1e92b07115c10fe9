package document

import (
	"strings"

	"threepost/layout"
)

// bare tells whether a rule's figures are counts or shares, without a unit.
func bare(rule layout.RuleName) bool {
	switch rule {
	case layout.PostOverPost, layout.Pieces, layout.Slender, layout.PostCount, layout.TallNarrow:
		return true
	}
	return false
}

// ruleFigure is the codec of a rule's figures. Only the distances to a
// shelf's edge may be less than 0: past the edge.
func ruleFigure(rule layout.RuleName) codec[float64] {
	switch {
	case bare(rule):
		return plainNumber(notNegative)
	case rule == layout.FootToEdge, rule == layout.CookieToEdge:
		return length(anySign)
	}
	return length(notNegative)
}

// limitsTable is one rule with its three columns. What is not given stays as
// the stage has it.
func limitsTable(rule layout.RuleName, was layout.Limits) table[layout.Limits] {
	column := func(key string, place func(*layout.Limits) *float64, doc string) field[layout.Limits] {
		c := ruleFigure(rule)
		c.omit = func(x float64) bool { return x == *place(&was) }
		return at(key, c, place, doc)
	}
	return table[layout.Limits]{
		name: string(rule),
		doc:  "The figures of a rule; those not given stay as the stage has them.",
		fields: []field[layout.Limits]{
			column("problem", func(l *layout.Limits) *float64 { return &l.Problem }, "Where a problem begins."),
			column("watch", func(l *layout.Limits) *float64 { return &l.Watch }, "Where a watch begins."),
			column("plan", func(l *layout.Limits) *float64 { return &l.Plan }, "What plans are made at."),
		},
		start: func(l *layout.Limits) { *l = was },
	}
}

// rulesField is [rules]: changes to the table of the stage.
func rulesField() field[layout.Load] {
	return field[layout.Load]{
		key: "rules", doc: "Changes to the rules of the stage, by rule.",
		read: func(r *reader, n *node, l *layout.Load) {
			if n.kind != tableKind {
				r.complain(n.at, `rules is %s here; write [rules] and a line like "pot to pot" = { plan = 8 } for each`, sayKind(n))
				return
			}
			known := make([]string, 0, len(layout.RuleNames()))
			for _, rule := range layout.RuleNames() {
				known = append(known, string(rule))
			}
			for _, e := range n.keys {
				rule := layout.RuleName(e.key)
				if !contains(known, e.key) {
					r.complain(e.at, "%s", sayUnknown(e.key, "rule with figures", known))
					continue
				}
				var limits layout.Limits
				if !readTable(r, e.value, limitsTable(rule, layout.DefaultLimits(l.Firing.Stage, rule)), &limits) {
					continue
				}
				if l.Rules == nil {
					l.Rules = layout.Rules{}
				}
				l.Rules[rule] = limits
			}
		},
		section: func(w *writer, l *layout.Load) {
			if len(l.Rules) == 0 {
				return
			}
			w.heading("[rules]", true)
			for _, rule := range layout.RuleNames() {
				limits, ok := l.Rules[rule]
				if !ok {
					continue
				}
				text := writeInline(w, limitsTable(rule, layout.DefaultLimits(l.Firing.Stage, rule)), &limits)
				w.line(bareKey(string(rule)) + " = " + strings.Replace(text, "{}", "{ plan = "+ruleFigure(rule).write(w, limits.Plan)+" }", 1))
			}
		},
		shape: func(defs *schemas) schema {
			rules := schema{}
			for _, rule := range layout.RuleNames() {
				rules[string(rule)] = tableSchema(defs, limitsTable(rule, layout.Limits{}))
			}
			return schema{"type": "object", "properties": rules, "additionalProperties": false}
		},
	}
}

func contains(list []string, word string) bool {
	for _, w := range list {
		if w == word {
			return true
		}
	}
	return false
}
