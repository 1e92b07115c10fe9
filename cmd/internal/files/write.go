package files

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
)

// Most is the largest file that is read, bytes.
const Most = 16 << 20

// Read reads a whole file of at most Most bytes.
func Read(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, say(path, err)
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return nil, fmt.Errorf("%s is a folder; name a file in it", path)
	}
	data, err := io.ReadAll(io.LimitReader(f, Most+1))
	if err != nil {
		return nil, say(path, err)
	}
	if len(data) > Most {
		return nil, fmt.Errorf("%s is larger than %d MB; no load is", path, Most>>20)
	}
	return data, nil
}

// Write puts data into a file: into a temporary name beside it, synced, then
// renamed over it. A link is followed; the file's permissions are kept.
func Write(path string, data []byte) error {
	if target, err := filepath.EvalSymlinks(path); err == nil {
		path = target
	}
	mode := os.FileMode(0o644)
	if info, err := os.Stat(path); err == nil {
		if info.IsDir() {
			return fmt.Errorf("%s is a folder; name a file in it", path)
		}
		mode = info.Mode().Perm()
		if old, err := os.ReadFile(path); err == nil && bytes.Equal(old, data) {
			return nil // the bytes are there already
		}
	}
	return write(path, data, mode, func(name string) error { return os.Rename(name, path) })
}

// write fills a temporary file beside the path, syncs it and lets place give
// it its name.
func write(path string, data []byte, mode os.FileMode, place func(name string) error) error {
	dir := filepath.Dir(path)
	tmp, err := os.CreateTemp(dir, "."+filepath.Base(path)+".*.part")
	if errors.Is(err, os.ErrNotExist) {
		return fmt.Errorf("%s cannot be written: the folder %s is not there", path, dir)
	}
	if err != nil {
		return say(path, err)
	}
	name := tmp.Name()
	if err := fill(tmp, data, mode); err != nil {
		os.Remove(name)
		return say(path, err)
	}
	if err := place(name); err != nil {
		os.Remove(name)
		return say(path, err)
	}
	syncDir(dir)
	return nil
}

// Create is Write for a file that must not be there yet, also when another
// program makes it at the same moment.
func Create(path string, data []byte) error {
	if _, err := os.Lstat(path); err == nil {
		return there(path)
	}
	return write(path, data, 0o644, func(name string) error {
		// A link is made only where nothing is; some file systems know none.
		err := os.Link(name, path)
		switch {
		case err == nil:
			return os.Remove(name)
		case errors.Is(err, os.ErrExist):
			return there(path)
		}
		return os.Rename(name, path)
	})
}

func there(path string) error {
	return failed{path + " is there already; choose another name, or remove it first", os.ErrExist}
}

func fill(f *os.File, data []byte, mode os.FileMode) error {
	_, err := f.Write(data)
	if err == nil {
		err = f.Chmod(mode)
	}
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

// syncDir makes the renaming last through a power cut, where the system can.
func syncDir(dir string) {
	if d, err := os.Open(dir); err == nil {
		_ = d.Sync() // some systems cannot sync a folder; the data is safe either way
		d.Close()
	}
}

// Earlier is the name that a copy of a file's former contents gets:
// october.toml -> october.earlier.toml.
func Earlier(path string) string {
	ext := filepath.Ext(path)
	return strings.TrimSuffix(path, ext) + ".earlier" + ext
}

// say makes a file system's error a sentence.
func say(path string, err error) error {
	switch {
	case errors.Is(err, os.ErrNotExist):
		return failed{path + " is not there; check the name, or begin one with `threepost new`", err}
	case errors.Is(err, os.ErrPermission):
		return failed{path + " may not be opened or written by this account", err}
	}
	if told := (failed{}); errors.As(err, &told) {
		return err
	}
	return fmt.Errorf("%s: %w", path, err)
}

// failed is a file system's error told as a sentence.
type failed struct {
	sentence string
	cause    error
}

func (f failed) Error() string { return f.sentence }

func (f failed) Unwrap() error { return f.cause }
