package levels

import (
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

// kind is a row of ware that is set, with its letter in the drawings.
type kind struct {
	letter string
	name   string
}

// kindsOf are the rows of ware that are set, keyed by stacks.Pot.Kind.
func kindsOf(b *stacks.Built) map[int]kind {
	out := map[int]kind{}
	for k, letter := range stacks.KindLetters(b) {
		out[k] = kind{letter, silhouette.Singular(b.Load.Ware[k].Name)}
	}
	return out
}
