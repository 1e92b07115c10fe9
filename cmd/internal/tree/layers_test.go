package tree

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// listed is what `go list -json` tells of a package.
type listed struct {
	ImportPath string
	Imports    []string
	Deps       []string
}

// list asks the go command for the project's packages.
func list(t *testing.T) []listed {
	t.Helper()
	out, err := exec.Command("go", "list", "-json=ImportPath,Imports,Deps", "threepost/...").Output()
	require.NoError(t, err)
	var all []listed
	dec := json.NewDecoder(bytes.NewReader(out))
	for {
		var p listed
		err := dec.Decode(&p)
		if errors.Is(err, io.EOF) {
			return all
		}
		require.NoError(t, err)
		all = append(all, p)
	}
}

// room is the top folder of a package of the project, or "".
func room(path string) string {
	rest, ok := strings.CutPrefix(path, "threepost/")
	if !ok {
		return ""
	}
	top, _, _ := strings.Cut(rest, "/")
	return top
}

// TestLayersPointOneWay: geometry <- layout <- render <- cmd.
func TestLayersPointOneWay(t *testing.T) {
	allowed := map[string]string{
		"assets":   "assets",
		"geometry": "geometry",
		"layout":   "geometry layout",
		"render":   "geometry layout render assets",
		"cmd":      "geometry layout render assets cmd",
	}
	packages := list(t)
	require.NotEmpty(t, packages)
	for _, p := range packages {
		may, known := allowed[room(p.ImportPath)]
		require.True(t, known, "%s stands in no room of the project", p.ImportPath)
		for _, dep := range p.Deps {
			if r := room(dep); r != "" {
				require.Contains(t, strings.Fields(may), r, "%s must not import %s", p.ImportPath, dep)
			}
		}
	}
}

// TestLowRoomsDoNoInputOrOutput: nothing below cmd opens a file, a socket or a
// clock; geometry and layout do not even import what could.
func TestLowRoomsDoNoInputOrOutput(t *testing.T) {
	for _, p := range list(t) {
		switch room(p.ImportPath) {
		case "geometry", "layout":
			for _, imp := range p.Imports {
				require.NotContains(t, []string{"os", "net", "net/http", "time", "os/exec", "io/ioutil"}, imp,
					"%s must not import %s", p.ImportPath, imp)
			}
		case "render":
			for _, imp := range p.Imports {
				require.NotContains(t, []string{"os", "net", "net/http", "os/exec"}, imp,
					"%s must not import %s", p.ImportPath, imp)
			}
		}
	}
}

// TestOnlyViewportImportsG3N keeps the 3D library in one room.
func TestOnlyViewportImportsG3N(t *testing.T) {
	for _, p := range list(t) {
		for _, imp := range p.Imports {
			if strings.HasPrefix(imp, "github.com/g3n/engine") {
				require.Equal(t, "threepost/render/viewport", p.ImportPath)
			}
		}
	}
}
