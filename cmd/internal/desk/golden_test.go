package desk

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/session"
)

var update = flag.Bool("update", false, "write the golden files anew")

// TestGoldenAnswersOfSamples: what the page is told of every sample: the head,
// every level, every finding with its mends. The same test runs as WebAssembly
// (make test-wasm), so that the page's verdicts are those of the command line.
func TestGoldenAnswersOfSamples(t *testing.T) {
	for _, name := range samples(t) {
		got := told(t, laid(t, name))
		path := filepath.Join("testdata", name+".golden")
		if *update {
			require.NoError(t, os.MkdirAll("testdata", 0o755))
			require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, string(want), got, name)
	}
}

// told is a load as text.
func told(t *testing.T, d *Desk) string {
	var b strings.Builder
	s := ask[session.State](t, d, "state", m{})
	fmt.Fprintf(&b, "%s: %s, %s\n%d of %d set, %s. %s, %d watches, %d accepted\n", s.Title, s.Kiln, s.Firing, s.Set, s.Of, s.Said, s.Head, s.Watches, s.Accepted)
	if s.Lid != nil {
		fmt.Fprintf(&b, "%s\n", s.Lid.Said)
	}
	for _, l := range s.Levels {
		fmt.Fprintf(&b, "%s: %s, %s, %s. %s\n", l.Title, l.Takes, l.MassSaid, l.Kinds, l.MakeUp)
		if l.Balance != nil {
			fmt.Fprintf(&b, "  %s\n", l.Balance.Said)
		}
	}
	for _, f := range s.Findings {
		fmt.Fprintf(&b, "%s %s: %s\n  %s\n", f.Grade, f.Key, f.Sentence, f.Word)
		for _, mend := range ask[mends](t, d, "mends", m{"finding": f.Key}).Mends {
			fmt.Fprintf(&b, "  -> %s\n", mend.Say)
		}
	}
	if len(s.Pots) > 0 {
		c := ask[session.Chosen](t, d, "select", m{"pot": s.Pots[len(s.Pots)/2].ID})
		fmt.Fprintf(&b, "%s. %s %s\n", c.Title, c.Line, c.Place)
		for _, n := range c.Nears {
			fmt.Fprintf(&b, "  %s: %s\n", n.Name, n.Word)
		}
	}
	disturb(t, d, &b)
	return b.String()
}

// disturb moves the last pot of every level by a few mm and tells what is found
// then: a load that is planned well finds nothing.
func disturb(t *testing.T, d *Desk, b *strings.Builder) {
	s := ask[session.State](t, d, "state", m{})
	var moves []m
	for _, l := range s.Levels {
		if len(l.Pots) > 0 {
			p := s.Pots[l.Pots[len(l.Pots)-1]]
			moves = append(moves, m{"act": "set pot", "pot": p.ID, "tower": l.Tower, "level": l.Number, "at": []float64{p.At[0] + 3.3, p.At[1] - 4.1}, "turn": p.Turn})
		}
	}
	s = ask[session.State](t, d, "apply", m{"edits": moves, "what": "disturb"})
	fmt.Fprintf(b, "disturbed: %s, %d watches\n", s.Head, s.Watches)
	for _, f := range s.Findings {
		fmt.Fprintf(b, "%s %s: %s\n  %v against %v\n", f.Grade, f.Key, f.Sentence, f.Have, f.Need)
		for _, mend := range ask[mends](t, d, "mends", m{"finding": f.Key}).Mends {
			fmt.Fprintf(b, "  -> %s\n", mend.Say)
		}
	}
}
