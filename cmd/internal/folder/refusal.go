package folder

import (
	"errors"
	"fmt"
	"io/fs"
	"syscall"
)

// Kind says what kept the folder from doing what was asked.
type Kind int

// The kinds of refusals.
const (
	NoSuchLoad Kind = iota + 1 // no file of this name, or no name of a file
	Changed                    // the file is not at the revision that the save was based on
	Unreadable                 // the text is no load; it is in the journal
	TooLarge                   // beyond what a load may hold
	NotAllowed                 // this account may not read or write there
	NoRoom                     // the disk is full
	Broken                     // the system refuses for a reason of its own
)

// Refused is a refusal as a sentence for the person.
type Refused struct {
	Kind     Kind
	Sentence string
}

func (r Refused) Error() string { return r.Sentence }

// Conflict refuses a save over a file that has changed, with what it holds.
type Conflict struct {
	Refused
	Revision string // of the file as it is now; empty when it is gone
	Text     string
}

// KindOf is the kind of a refusal, or 0 for another failure.
func KindOf(err error) Kind {
	var c Conflict
	if errors.As(err, &c) {
		return c.Kind
	}
	var r Refused
	if errors.As(err, &r) {
		return r.Kind
	}
	return 0
}

// diskFull are the errors of a system that has no room left: on Windows 112,
// ERROR_DISK_FULL, and 39, ERROR_HANDLE_DISK_FULL ("System Error Codes").
func diskFull(err error) bool {
	if errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT) {
		return true
	}
	var n syscall.Errno
	return errors.As(err, &n) && onWindows && (n == 112 || n == 39)
}

// say makes a refusal of a system's failure on a file.
func say(name string, err error) error {
	if err == nil || KindOf(err) != 0 {
		return err
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return Refused{NoSuchLoad, fmt.Sprintf("%s is not in the folder. It may have been moved or renamed.", name)}
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return Refused{NotAllowed, fmt.Sprintf("%s may not be read or written by this account. Allow it, or open another folder.", name)}
	case diskFull(err):
		return Refused{NoRoom, fmt.Sprintf("The disk is full: %s is not saved and stands as it was. Make room and save again.", name)}
	}
	return Refused{Broken, fmt.Sprintf("%s cannot be read or written: %v.", name, err)}
}
