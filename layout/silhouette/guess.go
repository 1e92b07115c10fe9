package silhouette

import (
	"strings"

	"threepost/layout"
)

// Guess is the silhouette that a typed name means: "soup bowls" is a bowl,
// "water bottle" a bottle, "platter" a plate. The last word that means a form
// decides, so a "bowl vase" is a vase. A name that says nothing is a Cylinder,
// the safe choice.
func Guess(name string) layout.Silhouette {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r > 127)
	})
	// "bowl with lid", "vase for Ida": what follows tells about it, it is not it.
	lidded := false
	for i, w := range words {
		w = Singular(w)
		if w == "lidded" || w == "lid" && i > 0 {
			lidded = true
		}
	}
	for i, w := range words {
		if i > 0 && preposition(w) {
			words = words[:i]
			break
		}
	}
	for i := len(words) - 1; i >= 0; i-- {
		before := ""
		if i > 0 {
			before = words[i-1]
		}
		s := formOf(before, Singular(words[i]))
		if s == "" {
			continue
		}
		if lidded && s != layout.Teapot && s != layout.Box && s != layout.OvalBaker {
			return layout.LiddedJar
		}
		return s
	}
	return layout.Cylinder
}

func preposition(word string) bool {
	switch word {
	case "with", "without", "for", "of", "from", "by", "in", "on":
		return true
	}
	return false
}

// formOf is the form that a word means after the word before it, or "".
func formOf(before, word string) layout.Silhouette {
	if word == "pot" {
		switch Singular(before) {
		case "tea", "coffee":
			return layout.Teapot
		case "pinch":
			return layout.Tumbler
		case "honey", "sugar", "jam", "salt":
			return layout.LiddedJar
		}
		return ""
	}
	if word == "dish" {
		switch Singular(before) {
		case "baking", "butter":
			return layout.OvalBaker
		case "soap":
			return layout.Box
		}
		return layout.Plate
	}
	switch word {
	case "mug", "cup", "teacup", "stein", "tankard":
		return layout.Mug
	case "tumbler", "beaker", "goblet", "yunomi", "egg", "planter", "flowerpot", "candleholder", "shot":
		return layout.Tumbler
	case "bowl", "colander", "mortar", "chawan", "basin":
		return layout.Bowl
	case "plate", "platter", "saucer", "charger", "coaster", "trivet":
		return layout.Plate
	case "vase", "urn", "amphora":
		return layout.Vase
	case "bottle", "decanter", "flask", "carafe", "cruet":
		return layout.Bottle
	case "jug", "pitcher", "ewer", "creamer":
		return layout.Jug
	case "teapot", "coffeepot", "kettle":
		return layout.Teapot
	case "jar", "canister", "casserole", "crock", "tureen", "ginger":
		return layout.LiddedJar
	case "baker", "roaster", "gratin":
		return layout.OvalBaker
	case "box", "tray", "brick", "trough":
		return layout.Box
	case "tile", "slab", "plaque":
		return layout.Tile
	case "cylinder":
		return layout.Cylinder
	}
	return ""
}
