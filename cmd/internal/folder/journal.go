package folder

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"
	"unicode"

	"threepost/layout/document"
)

// Version is an entry of a journal.
type Version struct {
	N     int    `json:"n"`    // counted from 1, never used again
	When  string `json:"when"` // RFC 3339, in the zone of the computer
	What  string `json:"what"`
	Set   int    `json:"set"` // pots that have a place
	Of    int    `json:"of"`
	State State  `json:"state,omitempty"`
}

// State says what became of a text that was journalled.
type State string

// A text that was saved, or was about to be, has no state.
const (
	Aside  State = "aside"  // the file had changed: not written over it
	Unread State = "unread" // the text is no load: not written
	Found  State = "found"  // what another hand had left in the file
)

// entry is a line of a journal: a version with its text, or the mark that an
// earlier one has come into the file.
type entry struct {
	Version
	Text  string `json:"text"`
	Saved int    `json:"saved,omitempty"`
}

// known is what a journal says last, so that it need not be read again for
// every save.
type known struct {
	size  int64  // of the journal when it was last looked at
	n     int    // the newest version
	lines int    // versions that it holds
	saved string // revision of the newest text that is known to have been in the file
	text  string // revision of the newest text
	state State  // of the newest text
}

// The journal is trimmed when it holds more than trimAt versions or trimBytes:
// to the newest keepVersions, and the last of each day before.
const (
	keepVersions = 100
	trimAt       = 150
	trimBytes    = 48 << 20
	keepBytes    = 24 << 20
)

func journalName(id string) string { return journals + "/" + id + ".journal" }

// knownOf reads what the journal of a load says last; one that is not there
// says nothing.
func (f *Folder) knownOf(id string) (*known, error) {
	size := int64(0)
	info, err := f.root.Stat(journalName(id))
	switch {
	case err == nil && !info.Mode().IsRegular():
		return nil, Refused{NotAllowed, journalName(id) + " is no journal; move it out of the way."}
	case err == nil:
		size = info.Size()
	case !errors.Is(err, fs.ErrNotExist):
		return nil, say(journalName(id), err)
	}
	if k := f.known[id]; k != nil && k.size == size {
		return k, nil
	}
	k := &known{size: size}
	texts := map[int]string{}
	err = f.walk(id, func(e *entry) {
		if e.Saved > 0 {
			if rev := texts[e.Saved]; rev != "" {
				k.saved = rev
			}
			return
		}
		k.n, k.lines = max(k.n, e.N), k.lines+1
		k.text, k.state = Revision(e.Text), e.State
		texts[e.N] = k.text
		if e.State == Found {
			k.saved = k.text
		}
	})
	if err != nil {
		return nil, err
	}
	if size > 0 { // names that are none take no memory
		f.known[id] = k
	}
	return k, nil
}

// walk reads a journal line by line. A line that is torn or is no entry is
// passed over.
func (f *Folder) walk(id string, each func(e *entry)) error {
	file, err := f.root.Open(journalName(id))
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return say(journalName(id), outside(err))
	}
	defer file.Close()
	// A text doubles at most when it is written as JSON, but for control
	// letters, which no load holds many of.
	lines := bufio.NewReaderSize(file, 64<<10)
	for {
		line, err := readLine(lines, 3*document.MostBytes)
		var e entry
		if len(line) > 0 && json.Unmarshal(line, &e) == nil && (e.N > 0 || e.Saved > 0) {
			each(&e)
		}
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return say(journalName(id), err)
		}
	}
}

// readLine reads a whole line; what is longer than most is passed over, as is
// a last line without its end.
func readLine(r *bufio.Reader, most int) ([]byte, error) {
	var line []byte
	long := false
	for {
		part, err := r.ReadSlice('\n')
		if long = long || len(line)+len(part) > most; !long {
			line = append(line, part...)
		}
		switch {
		case errors.Is(err, bufio.ErrBufferFull):
			continue
		case err != nil:
			return nil, err
		case long:
			return nil, nil
		}
		return line, nil
	}
}

// note writes a version into the journal and syncs it. A text that is already
// the newest of its state is not written twice.
func (f *Folder) note(id string, k *known, v Version, text string) error {
	if k.text == Revision(text) && k.state == v.State {
		return nil
	}
	v.N, v.What = k.n+1, tidy(v.What)
	if v.When == "" {
		v.When = f.now().Format(time.RFC3339)
	}
	v.Set, v.Of = counts(text)
	if err := f.add(id, k, entry{Version: v, Text: text}, true); err != nil {
		return err
	}
	k.n, k.lines = v.N, k.lines+1
	k.text, k.state = Revision(text), v.State
	if v.State == Found {
		k.saved = k.text
	}
	return nil
}

// saved marks that the newest text has come into the file, trims the journal
// where it has grown and wakes who waits for a change. The mark is a
// convenience: without it the file's own text tells the same.
func (f *Folder) saved(id string, k *known, text string) {
	k.saved = Revision(text)
	_ = f.add(id, k, entry{Saved: k.n}, false)
	if k.lines > trimAt || k.size > trimBytes {
		_ = f.trim(id, k)
	}
	if c := f.change[id]; c != nil {
		close(c)
		delete(f.change, id)
	}
}

// add appends a line; a failure leaves the journal as long as it was.
func (f *Folder) add(id string, k *known, e entry, sync bool) error {
	name := journalName(id)
	if err := f.root.Mkdir(journals, 0o755); err != nil && !errors.Is(err, fs.ErrExist) {
		return say(journals, outside(err))
	}
	file, err := f.root.OpenFile(name, os.O_RDWR|os.O_CREATE|os.O_APPEND, 0o644)
	if err != nil {
		return say(name, outside(err))
	}
	defer file.Close()
	size, err := file.Seek(0, io.SeekEnd)
	if err != nil {
		return say(name, err)
	}
	line, err := oneLine(e)
	if err != nil {
		return say(name, err)
	}
	if torn(file, size) {
		line = append([]byte("\n"), line...)
	}
	_, err = file.Write(line)
	if err == nil && sync {
		err = file.Sync()
	}
	if err != nil {
		_ = file.Truncate(size) // best effort: a torn line is passed over when it is read
		return say(name, err)
	}
	k.size = size + int64(len(line))
	f.known[id] = k
	return nil
}

// oneLine is an entry as a line.
func oneLine(e entry) ([]byte, error) {
	var v any = e
	if e.Saved > 0 {
		v = struct {
			Saved int `json:"saved"`
		}{e.Saved}
	}
	var buf bytes.Buffer
	enc := json.NewEncoder(&buf)
	enc.SetEscapeHTML(false)
	err := enc.Encode(v)
	return buf.Bytes(), err
}

// torn says whether a file ends in the middle of a line.
func torn(file io.ReaderAt, size int64) bool {
	last := make([]byte, 1)
	if size == 0 {
		return false
	}
	_, err := file.ReadAt(last, size-1)
	return err == nil && last[0] != '\n'
}

// trim writes the journal anew with the newest versions and the last of each
// day before.
func (f *Folder) trim(id string, k *known) error {
	var all []entry
	saved := 0
	if err := f.walk(id, func(e *entry) {
		if e.Saved > 0 {
			saved = e.Saved
			return
		}
		all = append(all, *e)
	}); err != nil {
		return err
	}
	var out bytes.Buffer
	lines := 0
	for i, keep := range kept(all) {
		if !keep {
			continue
		}
		line, err := oneLine(all[i])
		if err != nil {
			return err
		}
		out.Write(line)
		lines++
		if all[i].N == saved {
			mark, err := oneLine(entry{Saved: saved})
			if err != nil {
				return err
			}
			out.Write(mark)
		}
	}
	if err := f.write(filepath.Join(f.dir, filepath.FromSlash(journalName(id))), out.Bytes()); err != nil {
		return err
	}
	k.size, k.lines = int64(out.Len()), lines
	return nil
}

// kept says which versions a trimmed journal keeps.
func kept(all []entry) []bool {
	keep := make([]bool, len(all))
	day, bytes := "", 0
	for i := len(all) - 1; i >= 0; i-- {
		e := &all[i]
		today := e.When[:min(len(e.When), len("2006-01-02"))]
		newest := len(all)-i <= keepVersions && (bytes < keepBytes || len(all)-i <= 3)
		if newest || today != day && bytes < 2*keepBytes {
			keep[i] = true
			bytes += len(e.Text)
		}
		day = today
	}
	return keep
}

// tidy makes one short line of what a page says was done.
func tidy(what string) string {
	const most = 160
	what = strings.Join(strings.FieldsFunc(what, func(r rune) bool { return unicode.IsSpace(r) || unicode.IsControl(r) }), " ")
	if r := []rune(what); len(r) > most {
		what = string(r[:most-1]) + "…"
	}
	if what == "" {
		return "saved"
	}
	return what
}

// counts are the pots of a text that have a place, and all of them. A text
// that is no load has none.
func counts(text string) (set, of int) {
	l, err := document.Parse("", []byte(text))
	if err != nil {
		return 0, 0
	}
	return countOf(l)
}
