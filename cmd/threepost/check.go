package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"threepost/layout"
	"threepost/layout/clearance"
	"threepost/layout/edit"
	"threepost/layout/silhouette"
	"threepost/layout/stacks"
)

func checkCommand(t *terminal) *cobra.Command {
	var strict, mends bool
	cmd := &cobra.Command{
		Use:   "check LOAD",
		Short: "Check every clearance, post, weight and rule of a load",
		Long: `Checks the load as it stands by every rule. Problems weld, melt, fall, hit the
probe or keep the lid open; watches are worth a second look. Where an edit is
known to mend a finding it is told; --mends tries them all.`,
		Example: "  threepost check october.toml\n  threepost check october.toml --strict --mends",
		Args:    one("LOAD"),
		RunE: func(_ *cobra.Command, args []string) error {
			_, b, err := openBuilt(args[0])
			if err != nil {
				return err
			}
			var r clearance.Report
			if mends {
				r = edit.CheckWithMends(b)
			} else {
				r = clearance.Check(b)
			}
			if t.json {
				if err := t.answer(checkAnswer(b, r)); err != nil {
					return err
				}
			} else {
				t.report(b, r)
			}
			return verdict(r, strict)
		},
	}
	cmd.Flags().BoolVar(&strict, "strict", false, "exit with 1 when a watch is open, too")
	cmd.Flags().BoolVar(&mends, "mends", false, "try what would mend each finding")
	return cmd
}

// one asks for exactly one argument of that name.
func one(name string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) != 1 {
			return usage("%s takes one %s; here are %d", cmd.Name(), name, len(args))
		}
		return nil
	}
}

// atLeast asks for a load and n more arguments.
func atLeast(n int, example string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) < n {
			return usage("%s takes a load and what it is about; write %s", cmd.Name(), example)
		}
		return nil
	}
}

// verdict is the exit of a checked load.
func verdict(r clearance.Report, strict bool) error {
	if r.Problems > 0 || strict && r.Watches > 0 {
		return ending{code: exitProblems}
	}
	return nil
}

// checked is the JSON of a check.
type checked struct {
	Set      int              `json:"set"`
	Of       int              `json:"of"`
	Problems int              `json:"problems"`
	Watches  int              `json:"watches"`
	Accepted int              `json:"accepted"`
	Findings []layout.Finding `json:"findings"`
}

func checkAnswer(b *stacks.Built, r clearance.Report) checked {
	set, of := countPots(b.Load)
	findings := r.Findings
	if findings == nil {
		findings = []layout.Finding{}
	}
	return checked{set, of, r.Problems, r.Watches, r.Accepted, findings}
}

// countPots is how many pots of the ware list are set, of how many.
func countPots(l *layout.Load) (set, of int) {
	for _, w := range l.Ware {
		of += w.Count
	}
	for _, t := range l.Towers {
		for _, v := range t.Levels {
			for _, p := range v.Set {
				if l.WareOf(p.Pot) != nil {
					set++
				}
			}
		}
	}
	return set, of
}

// report prints findings the gravest first, notes last.
func (t *terminal) report(b *stacks.Built, r clearance.Report) {
	set, of := countPots(b.Load)
	t.say("%s. %d of %s set, %s.", headline(r), set, silhouette.Counted(of, "pot"), silhouette.Counted(len(b.Levels), "level"))
	for _, f := range r.Findings {
		word := f.Grade.String()
		if f.Accepted != "" {
			word = "accepted"
		}
		t.say("%-8s  %s", word, hang(f.Sentence, 10))
		if f.Accepted != "" {
			t.say("%-8s  %s", "", hang("Accepted: "+f.Accepted, 10))
		}
		for _, m := range f.Mends {
			t.say("%-8s  -> %s", "", m.Say)
		}
	}
}

// headline counts what is open: "No problem, 2 watches, 1 accepted".
func headline(r clearance.Report) string {
	parts := []string{"No problem"}
	if r.Problems > 0 {
		parts[0] = silhouette.Counted(r.Problems, "problem")
	}
	if r.Watches > 0 {
		parts = append(parts, silhouette.Counted(r.Watches, "watch"))
	}
	if r.Accepted > 0 {
		parts = append(parts, fmt.Sprintf("%d accepted", r.Accepted))
	}
	return strings.Join(parts, ", ")
}

// hang wraps a sentence at 78 columns and indents what follows the first line.
func hang(text string, indent int) string {
	const width = 78
	var out strings.Builder
	column := indent
	for i, word := range strings.Fields(text) {
		n := len([]rune(word))
		switch {
		case i == 0:
		case column+1+n > width:
			out.WriteString("\n" + strings.Repeat(" ", indent))
			column = indent
		default:
			out.WriteByte(' ')
			column++
		}
		out.WriteString(word)
		column += n
	}
	return out.String()
}
