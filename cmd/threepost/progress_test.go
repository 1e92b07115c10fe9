package main

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestProgress draws a bar of one length at every share, and clears it.
func TestProgress(t *testing.T) {
	for _, share := range []float64{-1, 0, 0.5, 1, 7, math.Inf(1)} {
		var out bytes.Buffer
		p := &progress{out: &out}
		p.show(share, "12 of 19 set")
		line := out.String()
		require.Equal(t, 30, strings.IndexByte(line, ']')-strings.IndexByte(line, '[')-1)
		require.Equal(t, int(30*max(0, min(1, share))), strings.Count(line, "="))
		require.Contains(t, line, "12 of 19 set")
		out.Reset()
		p.show(share, "12 of 19 set")
		require.Empty(t, out.String(), "nothing new, nothing drawn")
		p.done()
		require.Equal(t, "\r"+strings.Repeat(" ", len(line))+"\r", out.String())
	}
}

// TestProgressIsSilentInAPipe: what is no terminal gets no bar.
func TestProgressIsSilentInAPipe(t *testing.T) {
	var out bytes.Buffer
	p := newProgress(&out)
	p.show(0.5, "12 of 19 set")
	p.done()
	require.Empty(t, out.String())
}
