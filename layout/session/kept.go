package session

import (
	"threepost/layout"
	"threepost/layout/stacks"
)

type held struct {
	load  *layout.Load
	built *stacks.Built
}
type lift struct{}
type form struct{}
