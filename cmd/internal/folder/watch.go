package folder

import (
	"context"
	"time"
)

// Watch tells the revision of a load at once, and then whenever the file
// changes, by whatever hand; a file that is gone has the empty revision. It
// looks every so often and right after each save through this folder, and
// ends when the context does or tell refuses.
func (f *Folder) Watch(ctx context.Context, id string, every time.Duration, tell func(revision string) error) error {
	if err := CheckID(id); err != nil {
		return err
	}
	if every <= 0 {
		every = time.Second
	}
	tick := time.NewTicker(every)
	defer tick.Stop()
	last, first := "", true
	for {
		now, saved, err := f.look(id)
		if err != nil && (first || KindOf(err) != NoSuchLoad) {
			return err
		}
		if first || now != last {
			if err := tell(now); err != nil {
				return err
			}
			last, first = now, false
		}
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-saved:
		case <-tick.C:
		}
	}
}

// look is the revision of the file now, and a channel that is closed by the
// next save.
func (f *Folder) look(id string) (revision string, saved <-chan struct{}, err error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	l, err := f.read(id)
	c := f.change[id]
	if c == nil && (err == nil || f.known[id] != nil) { // names that are none take no memory
		c = make(chan struct{})
		f.change[id] = c
	}
	return l.Revision, c, err
}
