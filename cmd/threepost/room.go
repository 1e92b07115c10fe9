package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"threepost/layout"
	"threepost/layout/edit"
	"threepost/layout/planner"
	"threepost/layout/silhouette"
	"threepost/layout/warelist"
)

func roomCommand(t *terminal) *cobra.Command {
	var write bool
	var seed uint64
	cmd := &cobra.Command{
		Use:   "room LOAD POT",
		Short: `Is there room for one more, "110 x 95"?`,
		Long: `Looks for a place for one more pot as the load stands, at the plan distances and
without moving what is locked. With --write it is set there.`,
		Example: `  threepost room october.toml "110 x 95"
  threepost room october.toml "jug 180 x 120, handle 40 from 40 to 150" --write`,
		Args: atLeast(2, `threepost room october.toml "110 x 95"`),
		RunE: func(_ *cobra.Command, args []string) error {
			o, err := open(args[0])
			if err != nil {
				return err
			}
			if len(o.load.Towers) == 0 {
				return usage("%s has no levels yet; plan it first: threepost plan %s", args[0], args[0])
			}
			w, err := onePot(o.load, strings.Join(args[1:], " "))
			if err != nil {
				return err
			}
			r, err := planner.RoomForOne(o.load, w, seed)
			if err != nil {
				return o.refused(err)
			}
			if r.OK && write {
				l, err := edit.Apply(o.load, r.Edits...)
				if err != nil {
					return ending{exitInternal, err}
				}
				if err := o.save(o.path, l); err != nil {
					return err
				}
			}
			return t.tellRoom(r, w, write)
		},
	}
	cmd.Flags().BoolVar(&write, "write", false, "set it there and write the load")
	cmd.Flags().Uint64Var(&seed, "seed", 1, "start of the random streams")
	return cmd
}

// onePot reads a pot in the short form; a bare size gets a name of its own.
func onePot(l *layout.Load, text string) (layout.Ware, error) {
	text = strings.TrimSpace(text)
	w, err := warelist.ParseLine(text, l.Units)
	if err != nil {
		named, second := warelist.ParseLine(freeName(l)+" "+text, l.Units)
		if second != nil {
			return w, unreadable(err)
		}
		w = named
	}
	if old := l.WareOf(layout.Pot{Ware: w.Name}); old != nil {
		if !alike(*old, w, l.Units) {
			return w, unreadable(fmt.Errorf("there is a row %q already, and it differs; give the pot another name", w.Name))
		}
		return *old, nil
	}
	w.Count = 1
	return w, nil
}

// freeName is a name for a pot of which only the size was told.
func freeName(l *layout.Load) string {
	name := "extra pot"
	for _, more := range []string{"", " b", " c", " d", " e", " f"} {
		if l.WareOf(layout.Pot{Ware: name + more}) == nil {
			return name + more
		}
	}
	return name
}

// roomAnswer is the JSON of a question for room.
type roomAnswer struct {
	Room  bool          `json:"room"`
	Level string        `json:"level,omitempty"`
	Moves int           `json:"moves"`
	Edits []layout.Edit `json:"edits,omitempty"`
	Why   string        `json:"why,omitempty"`
}

func (t *terminal) tellRoom(r planner.Room, w layout.Ware, written bool) error {
	if t.json {
		return t.answer(roomAnswer{r.OK, r.Level, r.Moves, r.Edits, r.Why})
	}
	switch {
	case !r.OK:
		t.say("No room for one more %s. %s", silhouette.Singular(w.Name), r.Why)
	case r.Moves == 0:
		t.say("Yes: on %s, and nothing else moves.", r.Level)
	default:
		t.say("Yes: on %s, when %s there move closer together.", r.Level, silhouette.Counted(r.Moves, "pot"))
	}
	if r.OK && written {
		t.say("It is set there.")
	}
	return nil
}
