// Command fused fails when a package's arm64 or GOAMD64=v3 code holds fused
// multiply-add instructions. Fused code rounds once where other machines round
// twice, so the same load could be planned or judged differently.
//
//	go run ./cmd/internal/fused ./geometry/... ./layout/...
package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"regexp"
	"sort"
	"strings"
)

// target is a processor whose compiler fuses x*y+z on its own.
type target struct{ arch, level string }

// fusing matches the fused instructions of arm64 by name, and those of x86 by
// their bytes, which the disassembler does not name: a VEX prefix of map 0F38
// with opcodes 98-9F, A8-AF or B8-BF (Intel 64 Architectures Software
// Developer's Manual, volume 2, VFMADD132SD and its kin).
var fusing = regexp.MustCompile(`\bFN?M(ADD|SUB)\w*\b|\s0x[0-9a-f]+\s+c4[0-9a-f]2[0-9a-f]{2}[9ab][89a-f]`)

func main() {
	if len(os.Args) < 2 {
		fmt.Fprintln(os.Stderr, "usage: fused PACKAGE...")
		os.Exit(2)
	}
	found := 0
	for _, t := range []target{{"arm64", ""}, {"amd64", "v3"}} {
		places, packages, err := scan(t, os.Args[1:])
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(4)
		}
		for _, p := range places {
			fmt.Println(p)
		}
		found += len(places)
		fmt.Printf("%s%s: %d packages, %d fused places\n", t.arch, t.level, packages, len(places))
	}
	if found > 0 {
		fmt.Println("Write each product that is added or subtracted as float64(a*b).")
		os.Exit(1)
	}
}

// scan compiles the packages for a target and lists the source lines that hold
// fused instructions.
func scan(t target, patterns []string) (places []string, packages int, err error) {
	args := append([]string{"list", "-export", "-f", "{{.ImportPath}} {{.Export}}"}, patterns...)
	list := exec.Command("go", args...)
	list.Env = append(os.Environ(), "GOOS=linux", "GOARCH="+t.arch, "CGO_ENABLED=0")
	if t.level != "" {
		list.Env = append(list.Env, "GOAMD64="+t.level)
	}
	list.Stderr = os.Stderr
	out, err := list.Output()
	if err != nil {
		return nil, 0, fmt.Errorf("go list: %w", err)
	}
	seen := map[string]bool{}
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		path, archive, ok := strings.Cut(line, " ")
		if !ok || archive == "" {
			continue // a package of tests only
		}
		packages++
		dump := exec.Command("go", "tool", "objdump", archive)
		dump.Env = list.Env
		text, err := dump.Output()
		if err != nil {
			return nil, 0, fmt.Errorf("go tool objdump of %s: %w", path, err)
		}
		for _, row := range bytes.Split(text, []byte("\n")) {
			if !fusing.Match(row) {
				continue
			}
			if fields := strings.Fields(string(row)); len(fields) > 0 {
				seen[path+"/"+fields[0]] = true
			}
		}
	}
	for p := range seen {
		places = append(places, p)
	}
	sort.Strings(places)
	return places, packages, nil
}
