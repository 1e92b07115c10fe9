package session

import (
	"threepost/layout"
	"threepost/layout/stacks"
)

// moment is a load that undo or redo goes to.
type moment struct {
	load *layout.Load
	what string // what was done after it (past), or what redo does (future)
}

type held struct {
	load  *layout.Load
	built *stacks.Built
}
type lift struct{}
type form struct{}
type offered struct{}
type waiting struct{}
type mending struct{}
