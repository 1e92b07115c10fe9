package document

import (
	"strings"

	"threepost/layout"
)

// Source is a file from which rows of a load were taken.
type Source struct {
	Text    []byte
	Renamed map[string]string // what rows of ware are called in the load, by what they are called in the file
	Ware    bool              // only its rows of ware were taken: comments elsewhere stay behind
}

// Gather writes a load that was put together from several files in the
// canonical form, with the comments of those files. A comment goes with its
// row: those of ware, pots and towers that the load does not have stay behind,
// and so do comments outside the rows of ware where only those were taken. The
// new bytes have been read back; what could not be read again, or a source
// that cannot be read, is returned as Complaints.
func Gather(l *layout.Load, from ...Source) ([]byte, error) {
	after := plant("", Format(l))
	there := map[string]bool{}
	for _, it := range itemsOf(after) {
		there[it.path] = true
	}
	var kept []anchor
	for _, s := range from {
		before, err := open("", s.Text)
		if err != nil {
			return nil, err
		}
		for _, a := range anchors(before) {
			a.path = renamed(a.path, s.Renamed)
			row, moves := rowOf(a.path)
			switch {
			case moves && !there[row], s.Ware && !strings.HasPrefix(row, separator+"ware"+separator):
			default:
				kept = append(kept, a)
			}
		}
	}
	return written(settle(kept, after))
}

// rowOf is the path of the row of ware, pot or tower that a path lies in. moves
// is false for paths in no such row.
func rowOf(path string) (row string, moves bool) {
	parts := strings.SplitN(path, separator, 4) // "", list, row, what is in it
	if len(parts) < 3 {
		return path, false
	}
	switch parts[1] {
	case "ware", "pot", "tower":
		return strings.Join(parts[:3], separator), true
	}
	return path, false
}

// renamed is a path with the new name of its row of ware.
func renamed(path string, names map[string]string) string {
	parts := strings.Split(path, separator)
	if len(names) == 0 || len(parts) < 3 || parts[1] != "ware" {
		return path
	}
	// As identity writes it: the name, then the height where there is one.
	id, height := strings.TrimPrefix(parts[2], "name"), ""
	for {
		if now, ok := names[id]; ok {
			parts[2] = "name" + now + height
			return strings.Join(parts, separator)
		}
		cut := strings.LastIndex(id, "height")
		if cut < 0 {
			return path
		}
		height = id[cut:] + height
		id = id[:cut]
	}
}
