package folder

import (
	"errors"
	"path/filepath"
	"sort"
	"strings"
	"time"

	"threepost/layout"
	"threepost/layout/document"
)

// mostListed is the most loads that a list tells.
const mostListed = 500

// Entry is a load in the list.
type Entry struct {
	ID         string `json:"id"`
	Title      string `json:"title"`
	Set        int    `json:"set"` // pots that have a place
	Of         int    `json:"of"`
	Changed    string `json:"changed"`              // RFC 3339
	Unreadable string `json:"unreadable,omitempty"` // what keeps it from being read
}

// head is what the list tells of a file as it was at a time and a size.
type head struct {
	at    time.Time
	size  int64
	entry Entry
}

// List tells the loads of the folder, the last changed first.
func (f *Folder) List() ([]Entry, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	entries, err := f.entries(".")
	if err != nil {
		return nil, err
	}
	heads := map[string]head{}
	list := []Entry{}
	for _, e := range entries {
		id, ok := strings.CutSuffix(e.Name(), ending)
		if !ok || CheckID(id) != nil {
			continue
		}
		info, err := f.root.Stat(e.Name())
		if err != nil || !info.Mode().IsRegular() {
			continue
		}
		h, ok := f.heads[id]
		if !ok || !h.at.Equal(info.ModTime()) || h.size != info.Size() || f.now().Sub(h.at) < 2*time.Second {
			h = head{info.ModTime(), info.Size(), f.entry(id)}
		}
		heads[id] = h
		list = append(list, h.entry)
	}
	f.heads = heads
	sort.Slice(list, func(i, j int) bool {
		if list[i].Changed != list[j].Changed {
			return list[i].Changed > list[j].Changed
		}
		return list[i].ID < list[j].ID
	})
	return list[:min(len(list), mostListed)], nil
}

// entry reads a file for the list.
func (f *Folder) entry(id string) Entry {
	e := Entry{ID: id, Title: id}
	read, err := f.read(id)
	if err != nil {
		e.Unreadable = err.Error()
		return e
	}
	e.Changed = read.Changed.Format(time.RFC3339)
	l, err := document.Parse("", []byte(read.Text))
	if err != nil {
		e.Unreadable = firstOf(err)
		return e
	}
	if l.Title != "" {
		e.Title = l.Title
	}
	e.Set, e.Of = countOf(l)
	return e
}

// firstOf is the first complaint of a text that cannot be read.
func firstOf(err error) string {
	var all document.Complaints
	if errors.As(err, &all) && len(all) > 0 {
		return all[0].String()
	}
	return err.Error()
}

// countOf counts the pots that have a place, and all of them; cone packs are
// none.
func countOf(l *layout.Load) (set, of int) {
	for i := range l.Ware {
		of += l.Ware[i].Count
	}
	for _, t := range l.Towers {
		for _, v := range t.Levels {
			for _, p := range v.Set {
				if l.WareOf(p.Pot) != nil {
					set++
				}
			}
		}
	}
	return set, of
}

// Count counts the pots of a load that have a place, and all of them.
func Count(l *layout.Load) (set, of int) { return countOf(l) }

// IDOf is the id of a file of this folder by its path; ok is false for a path
// that is no load file right in the folder.
func (f *Folder) IDOf(path string) (id string, ok bool) {
	id, ok = strings.CutSuffix(filepath.Base(path), ending)
	return id, ok && CheckID(id) == nil
}
