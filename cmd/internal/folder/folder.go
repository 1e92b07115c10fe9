package folder

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"threepost/cmd/internal/files"
	"threepost/layout/document"
)

// journals is the folder of the journals.
const journals = ".threepost"

// Folder is an open folder of loads. It may be used by several goroutines.
type Folder struct {
	dir  string // absolute, links followed
	root *os.Root
	now  func() time.Time
	// write puts a whole file in its place.
	write func(path string, data []byte) error

	mu     sync.Mutex
	known  map[string]*known        // what the journal of a load says last
	heads  map[string]head          // what the list tells of a file
	change map[string]chan struct{} // closed when a load is saved
}

// Open opens a folder that is there. The clock dates the versions.
func Open(dir string, now func() time.Time) (*Folder, error) {
	full, err := filepath.Abs(dir)
	if err == nil {
		full, err = filepath.EvalSymlinks(full)
	}
	if err != nil {
		return nil, say(dir, err)
	}
	info, err := os.Stat(full)
	if err != nil {
		return nil, say(dir, err)
	}
	if !info.IsDir() {
		return nil, Refused{NoSuchLoad, fmt.Sprintf("%s is a file; name the folder that it lies in.", dir)}
	}
	root, err := os.OpenRoot(full)
	if err != nil {
		return nil, say(dir, err)
	}
	return &Folder{dir: full, root: root, now: now, write: files.Write, known: map[string]*known{}, heads: map[string]head{}, change: map[string]chan struct{}{}}, nil
}

// Close lets the folder go.
func (f *Folder) Close() error { return f.root.Close() }

// Dir is the folder's path as the person may see it.
func (f *Folder) Dir() string { return f.dir }

// Load is a load file as it was read.
type Load struct {
	ID       string
	Text     string
	Revision string
	Changed  time.Time
	// Unsaved is the newest text of the journal when it never came into the
	// file: a text that could not be read, or a save that was cut off.
	Unsaved *Version
}

// Revision names a text: the first 16 bytes of its SHA-256, in hex.
func Revision(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:16])
}

// Read reads a load file.
func (f *Folder) Read(id string) (Load, error) {
	if err := CheckID(id); err != nil {
		return Load{}, err
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	l, err := f.read(id)
	if err != nil {
		return Load{}, err
	}
	l.Unsaved = f.unsaved(id, l.Revision)
	return l, nil
}

// read reads a regular file inside the folder.
func (f *Folder) read(id string) (Load, error) {
	name := id + ending
	info, err := f.root.Stat(name)
	if err != nil {
		return Load{}, say(name, outside(err))
	}
	if !info.Mode().IsRegular() {
		return Load{}, Refused{NoSuchLoad, name + " is no file that holds a load."}
	}
	file, err := f.root.Open(name)
	if err != nil {
		return Load{}, say(name, outside(err))
	}
	defer file.Close()
	data, err := io.ReadAll(io.LimitReader(file, document.MostBytes+1))
	if err != nil {
		return Load{}, say(name, err)
	}
	if len(data) > document.MostBytes {
		return Load{}, Refused{TooLarge, fmt.Sprintf("%s is larger than %d MB; no load is.", name, document.MostBytes>>20)}
	}
	return Load{ID: id, Text: string(data), Revision: Revision(string(data)), Changed: info.ModTime()}, nil
}

// outside tells a path that leads out of the folder as one that is not there.
func outside(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) && strings.Contains(p.Err.Error(), "escapes") {
		return fs.ErrNotExist
	}
	return err
}

// Create writes a new load, its name made from the title. It never overwrites:
// a name that is taken, in whatever case, gets a number.
func (f *Folder) Create(title, text string) (Load, error) {
	if err := readable("", text); err != nil {
		return Load{}, err
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	id, err := f.free(slug(title))
	if err != nil {
		return Load{}, err
	}
	k, err := f.knownOf(id)
	if err != nil {
		return Load{}, err
	}
	if err := f.note(id, k, Version{What: "new load"}, text); err != nil {
		return Load{}, err
	}
	if err := files.Create(filepath.Join(f.dir, id+ending), []byte(text)); err != nil {
		return Load{}, say(id+ending, err)
	}
	f.saved(id, k, text)
	return Load{ID: id, Text: text, Revision: Revision(text)}, nil
}

// free finds a name that no file of the folder has, in any case.
func (f *Folder) free(stem string) (string, error) {
	taken := map[string]bool{}
	for _, dir := range []string{".", journals} {
		entries, err := f.entries(dir)
		if err != nil {
			return "", err
		}
		for _, e := range entries {
			name := strings.ToLower(e.Name())
			taken[strings.TrimSuffix(strings.TrimSuffix(name, ending), ".journal")] = true
		}
	}
	for n := 1; n < 10000; n++ {
		id := stem
		if n > 1 {
			id = fmt.Sprintf("%s-%d", stem, n)
		}
		if !taken[strings.ToLower(id)] {
			return id, nil
		}
	}
	return "", Refused{NotAllowed, fmt.Sprintf("There are %d loads called %s; give this one another title.", 9999, stem)}
}

// entries lists a folder; one that is not there is empty.
func (f *Folder) entries(dir string) ([]fs.DirEntry, error) {
	d, err := f.root.Open(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, say(dir, outside(err))
	}
	defer d.Close()
	entries, err := d.ReadDir(-1)
	return entries, say(dir, err)
}

// readable refuses a text that is no load.
func readable(id, text string) error {
	if len(text) > document.MostBytes {
		return Refused{TooLarge, fmt.Sprintf("The text is larger than %d MB; no load is.", document.MostBytes>>20)}
	}
	name := ""
	if id != "" {
		name = id + ending
	}
	if _, err := document.Parse(name, []byte(text)); err != nil {
		return Refused{Unreadable, err.Error()}
	}
	return nil
}

// Save writes a text over the file when the file is at the revision base; base
// is empty for a file that must not be there. The text goes to the journal
// first, whatever comes after. what says in a sentence what was done.
func (f *Folder) Save(id, base, text, what string) (revision string, err error) {
	if err := CheckID(id); err != nil {
		return "", err
	}
	unread := readable(id, text)
	if KindOf(unread) == TooLarge {
		return "", unread
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	now, err := f.read(id)
	gone := KindOf(err) == NoSuchLoad
	if err != nil && !gone {
		return "", err
	}
	if gone {
		// What lies there under this name and is no file of a load stays.
		if _, err := f.root.Lstat(id + ending); err == nil {
			return "", Refused{NoSuchLoad, id + ending + " is no file that holds a load."}
		}
	}
	if gone && f.clashes(id) {
		return "", Refused{NotAllowed, fmt.Sprintf("There is a load called %s in other letters, large or small. Choose another name.", id)}
	}
	k, err := f.knownOf(id)
	if err != nil {
		return "", err
	}
	switch {
	case now.Revision != base:
		if err := f.note(id, k, Version{What: what, State: Aside}, text); err != nil {
			return "", err
		}
		sentence := fmt.Sprintf("%s was changed by another hand and is not overwritten. What you have is kept among the versions.", id+ending)
		if gone {
			sentence = fmt.Sprintf("%s is not in the folder any more. What you have is kept among the versions; save it as a new load.", id+ending)
		}
		return "", Conflict{Refused{Changed, sentence}, now.Revision, now.Text}
	case unread != nil:
		if err := f.note(id, k, Version{What: what, State: Unread}, text); err != nil {
			return "", err
		}
		return "", unread
	case !gone && now.Text == text:
		return now.Revision, nil
	}
	if !gone && k.saved != now.Revision {
		if err := f.note(id, k, Version{What: "as it was found", When: now.Changed.Format(time.RFC3339), State: Found}, now.Text); err != nil {
			return "", err
		}
	}
	if err := f.note(id, k, Version{What: what}, text); err != nil {
		return "", err
	}
	if err := f.put(id, gone, text); err != nil {
		return "", err
	}
	f.saved(id, k, text)
	return Revision(text), nil
}

// put writes the file: over the one that is there, or as a new one.
func (f *Folder) put(id string, fresh bool, text string) error {
	path := filepath.Join(f.dir, id+ending)
	if fresh {
		return say(id+ending, files.Create(path, []byte(text)))
	}
	// A link inside the folder is followed; the way out was refused when the
	// file was read.
	return say(id+ending, f.write(path, []byte(text)))
}

// clashes says whether a file of the folder has this name in other letters.
func (f *Folder) clashes(id string) bool {
	entries, err := f.entries(".")
	if err != nil {
		return false
	}
	for _, e := range entries {
		if e.Name() != id+ending && strings.EqualFold(e.Name(), id+ending) {
			return true
		}
	}
	return false
}
