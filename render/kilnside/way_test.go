package kilnside

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"threepost/layout/document"
	"threepost/layout/measure"
	"threepost/layout/order"
	"threepost/layout/stacks"
)

var update = flag.Bool("update", false, "write the golden files anew")

// samples are the reference arrangements.
func samples() []string {
	return []string{"bisque", "front-loader", "newcomer", "oval", "small-round", "studio"}
}

// built builds a reference arrangement.
func built(t testing.TB, name string) (*stacks.Built, *order.Order) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "loads", "reference", name+".toml"))
	require.NoError(t, err)
	l, err := document.Parse(name, text)
	require.NoError(t, err)
	b, err := stacks.Build(l)
	require.NoError(t, err)
	o, cycles := order.Of(b)
	require.Empty(t, cycles)
	return b, o
}

// sentence is what a step says as plain text.
func sentence(s *Step) string {
	out := ""
	for _, p := range s.Says {
		if p.Bold {
			if rest := strings.TrimLeft(p.Text, " "); rest != p.Text {
				out += " *" + rest + "*"
			} else {
				out += "*" + p.Text + "*"
			}
			continue
		}
		out += p.Text
	}
	return strings.ReplaceAll(out, "\u00a0", " ")
}

// listing is a way to read.
func listing(w Steps) string {
	var out strings.Builder
	for i := range w.Steps {
		s := &w.Steps[i]
		place := "before and after"
		if s.Level >= 0 {
			place = w.Levels[s.Level].Title
		}
		fmt.Fprintf(&out, "%d  %s, step %d of %d, %s to the %s\n   %s\n   %s\n", s.N, place, s.K, s.M, s.Room.Said, w.Lid, s.Title, sentence(s))
		for _, r := range s.Rows {
			fmt.Fprintf(&out, "     %s %s\n", r.Count, r.What)
		}
		for _, e := range s.Each {
			fmt.Fprintf(&out, "     %s: %s\n", e.N, strings.ReplaceAll(e.Says, "\u00a0", " "))
		}
		if s.Next != "" {
			fmt.Fprintf(&out, "   %s\n", strings.ReplaceAll(s.Next, "\u00a0", " "))
		}
	}
	return out.String()
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err, "run go test -update")
	require.Equal(t, string(want), got)
}

func TestSentencesAreAsBefore(t *testing.T) {
	for _, name := range samples() {
		words := measure.US
		if name == "newcomer" {
			words = measure.UK
		}
		b, o := built(t, name)
		golden(t, name+".txt", listing(Of(b, o, "", words)))
	}
}
