package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"

	"threepost/cmd/internal/files"
	"threepost/layout"
	"threepost/layout/document"
	"threepost/layout/stacks"
)

// opened is a load file as it was read.
type opened struct {
	path string
	text []byte
	load *layout.Load
}

// open reads a load file.
func open(path string) (*opened, error) {
	text, err := files.Read(path)
	if err != nil {
		return nil, unreadable(err)
	}
	load, err := document.Parse(path, text)
	if err != nil {
		return nil, unreadable(err)
	}
	return &opened{path, text, load}, nil
}

// openBuilt reads a load file and stands the load up.
func openBuilt(path string) (*opened, *stacks.Built, error) {
	o, err := open(path)
	if err != nil {
		return nil, nil, err
	}
	b, err := o.build()
	return o, b, err
}

// build stands the load up.
func (o *opened) build() (*stacks.Built, error) {
	b, err := stacks.Build(o.load)
	if err != nil {
		return nil, o.refused(err)
	}
	return b, nil
}

// refused puts the file's name before each thing that cannot be built.
func (o *opened) refused(err error) error {
	var all stacks.Refusals
	if !errors.As(err, &all) {
		return unreadable(fmt.Errorf("%s: %w", o.path, err))
	}
	text := ""
	for i, r := range all {
		if i > 0 {
			text += "\n"
		}
		text += o.path + ": " + r.Error()
	}
	return unreadable(errors.New(text))
}

// save writes a load back over the text it came from, comments kept.
func (o *opened) save(path string, load *layout.Load) error {
	text, err := document.Update(o.text, load)
	if err != nil {
		return unreadable(fmt.Errorf("%s: %w", o.path, err))
	}
	// What is written must read back: a file the program cannot open again
	// would be worse than none.
	if _, err := document.Parse(path, text); err != nil {
		return ending{exitInternal, fmt.Errorf("%s was not written: the new text would not read back: %w", path, err)}
	}
	if err := files.Write(path, text); err != nil {
		return unreadable(err)
	}
	return nil
}

// answer prints a value as JSON.
func (t *terminal) answer(v any) error {
	var buf bytes.Buffer
	enc := json.NewEncoder(&buf)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		return ending{exitInternal, err}
	}
	return t.write("", buf.Bytes())
}
