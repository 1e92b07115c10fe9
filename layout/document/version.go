package document

import (
	"strconv"
	"strings"

	"threepost/layout"
)

// migration brings the tree of a file from one version to the next.
type migration func(t *tree)

// migrations holds, by the version it starts from, each step to the next. A
// new version of the format adds its step here and a file of the old one to
// testdata/versions.
func migrations() map[int]migration { return map[int]migration{} }

// migrate brings a tree to the newest version, or complains that it cannot.
func migrate(t *tree) {
	e := t.root.get("threepost")
	if e == nil {
		t.broken = true
		t.complain(0, "this is not a load of Threepost; its first line is threepost = %d", layout.FormatVersion)
		return
	}
	version, err := strconv.Atoi(strings.ReplaceAll(e.value.text, "_", ""))
	switch {
	case e.value.kind != integerKind || err != nil || version < 1:
		t.broken = true
		t.complain(e.value.at, "threepost is %s; it is the version of the file, a whole number like %d", sayKind(e.value), layout.FormatVersion)
		return
	case version > layout.FormatVersion:
		t.broken = true
		t.complain(e.value.at, "the file has version %d and this Threepost reads up to %d; a newer Threepost reads it", version, layout.FormatVersion)
		return
	}
	steps := migrations()
	for ; version < layout.FormatVersion; version++ {
		steps[version](t)
	}
}
