package folder

// Versions lists what the journal of a load holds, newest first.
func (f *Folder) Versions(id string) ([]Version, error) {
	all := []Version{}
	err := f.versions(id, func(e *entry) { all = append(all, e.Version) })
	for i, j := 0, len(all)-1; i < j; i, j = i+1, j-1 {
		all[i], all[j] = all[j], all[i]
	}
	return all, err
}

// Version is a version and its text.
func (f *Folder) Version(id string, n int) (Version, string, error) {
	var v Version
	text := ""
	err := f.versions(id, func(e *entry) {
		if e.N == n {
			v, text = e.Version, e.Text
		}
	})
	if err == nil && v.N == 0 {
		err = Refused{NoSuchLoad, "There is no such version; the list of versions says which there are."}
	}
	return v, text, err
}

// versions walks the versions of a load that is in the folder, or was.
func (f *Folder) versions(id string, each func(e *entry)) error {
	if err := CheckID(id); err != nil {
		return err
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	k, err := f.knownOf(id)
	if err != nil {
		return err
	}
	if k.n == 0 {
		if _, err := f.read(id); err != nil {
			return err
		}
	}
	return f.walk(id, func(e *entry) {
		if e.N > 0 {
			each(e)
		}
	})
}

// unsaved is the newest text of a journal when it has never come into the
// file. What was set aside because the file had changed was told of then, and
// is among the versions.
func (f *Folder) unsaved(id, revision string) *Version {
	k, err := f.knownOf(id)
	if err != nil || k.n == 0 || k.text == revision || k.text == k.saved || k.state == Found || k.state == Aside {
		return nil
	}
	var newest *Version
	if err := f.walk(id, func(e *entry) {
		if e.N == k.n {
			newest = &e.Version
		}
	}); err != nil {
		return nil
	}
	return newest
}
