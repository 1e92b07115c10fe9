package page

import (
	"embed"
	"io/fs"
	"path"
	"strings"
)

//go:embed all:web
var web embed.FS

//go:embed all:built
var built embed.FS

//go:embed samples/*.toml
var samples embed.FS

// Files of the compiled viewport; both are there or the page has no program.
const (
	Viewport = "viewport.wasm.gz" // WebAssembly, gzip as stored
	WasmExec = "wasm_exec.js"     // Go's own support file of the same release
)

// Web gives a file of the page by its name, "index.html" or "lib/view.js". ok
// is false when there is none of that name.
func Web(name string) (data []byte, ok bool) { return read(web, "web", name) }

// WebNames lists the page's own files, sorted, hidden ones left out.
func WebNames() []string {
	var names []string
	// The files are part of the program: walking them does not fail.
	_ = fs.WalkDir(web, "web", func(p string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && !strings.HasPrefix(d.Name(), ".") {
			names = append(names, strings.TrimPrefix(p, "web/"))
		}
		return err
	})
	return names
}

// Built gives a file of the compiled viewport. ok is false when the program
// was built without it.
func Built(name string) (data []byte, ok bool) {
	if name != Viewport && name != WasmExec {
		return nil, false
	}
	return read(built, "built", name)
}

// Complete says whether the viewport was compiled before the program was.
func Complete() bool {
	_, wasm := Built(Viewport)
	_, exec := Built(WasmExec)
	return wasm && exec
}

// SampleNames lists the sample loads in the order in which they are offered.
func SampleNames() []string {
	return []string{"studio", "newcomer", "small-round", "oval", "front-loader", "bisque"}
}

// Sample gives the load document of a sample.
func Sample(name string) (text []byte, ok bool) { return read(samples, "samples", name+".toml") }

// read reads an embedded file; names that are no plain path have none.
func read(files embed.FS, room, name string) ([]byte, bool) {
	if !fs.ValidPath(name) || strings.HasPrefix(path.Base(name), ".") {
		return nil, false
	}
	data, err := files.ReadFile(room + "/" + name)
	return data, err == nil
}
