package document

import (
	"encoding/json"

	"threepost/layout/measure"
)

// schema is a JSON Schema as data.
type schema map[string]any

// schemas collects the definitions that fields share.
type schemas struct{ defs schema }

// Schema is the JSON Schema (draft 2020-12) of the document, for editors that
// complete and explain keys. It describes a file as a TOML reader gives it to
// JSON; what only the whole file can tell (names that are used twice, a tower
// on itself) Parse alone refuses.
func Schema() []byte {
	defs := &schemas{defs: schema{}}
	s := tableSchema(defs, loadTable())
	s["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	s["title"] = "Threepost load"
	s["$defs"] = defs.defs
	out, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		return nil // maps of strings, numbers and lists always marshal
	}
	return append(out, '\n')
}

// tableSchema describes a table by its fields.
func tableSchema[T any](defs *schemas, t table[T]) schema {
	properties, required := schema{}, []string{}
	for _, f := range t.fields {
		p := schema{}
		for k, v := range f.shape(defs) {
			p[k] = v
		}
		p["description"] = f.doc
		properties[f.key] = p
		if f.need != "" {
			required = append(required, f.key)
		}
	}
	s := schema{"type": "object", "description": t.doc, "properties": properties, "additionalProperties": false}
	if len(required) > 0 {
		s["required"] = required
	}
	if t.shape != nil {
		t.shape(s, defs)
	}
	return s
}

// share keeps a definition under a name and gives the reference to it.
func (d *schemas) share(name string, s schema) schema {
	d.defs[name] = s
	return schema{"$ref": "#/$defs/" + name}
}

// numberSchema is a number on its side of 0.
func numberSchema(s sign) schema {
	switch s {
	case positive:
		return schema{"type": "number", "exclusiveMinimum": 0}
	case notNegative:
		return schema{"type": "number", "minimum": 0}
	}
	return schema{"type": "number"}
}

// measure is a number, or a text with a unit.
func (d *schemas) measure(what string, s sign) schema {
	name := what
	switch s {
	case positive:
		name = "positive " + what
	case anySign:
		name = "signed " + what
	}
	text := schema{"type": "string", "pattern": "[0-9½¼¾⅓⅔⅛⅜⅝⅞]"}
	examples := map[string][]any{
		"length": {115, "4 1/2 in", "11.5 cm"}, "mass": {1.2, "310 g", "0.7 lb"}, "temperature": {1222, "2232 F"},
	}
	return d.share(name, schema{
		"description": "A " + what + ": a number, or a text with its unit.",
		"anyOf":       []any{numberSchema(s), text}, "examples": examples[what],
	})
}

// bearing is a clock bearing as text.
func (d *schemas) bearing() schema {
	return d.share("bearing", schema{
		"description": "A clock bearing, 12 at the back.", "type": "string", "minLength": 1,
		"examples": []any{"10:30", "315 deg"},
	})
}

// angle is a turn.
func (d *schemas) angle() schema {
	return d.share("turn", schema{
		"description": "Degrees clockwise.",
		"anyOf":       []any{schema{"type": "number", "minimum": -mostTurn, "maximum": mostTurn}, schema{"type": "string", "minLength": 1}},
	})
}

// place is [x, y] or [x, y, turn].
func (d *schemas) place() schema {
	return d.share("place", schema{
		"description": "Where it stands: x to the right, y to the back, turn in degrees clockwise.",
		"type":        "array", "minItems": 2, "maxItems": 3,
		"prefixItems": []any{d.measure("length", anySign), d.measure("length", anySign), d.angle()},
	})
}

// cone is a cone's name.
func (d *schemas) cone() schema {
	var names []any
	for _, c := range measure.Cones() {
		names = append(names, string(c))
	}
	return d.share("cone", schema{
		"description": "A cone, by its name in quotes: 6 and 06 are different cones.",
		"type":        "string", "pattern": "[0-9]", "examples": names,
	})
}
