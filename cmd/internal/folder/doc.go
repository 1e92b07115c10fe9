// Package folder keeps the person's loads: a folder of *.toml files that they
// see, and beside them a journal of every text that was ever saved, refused or
// found, so that nothing typed is lost and nothing is overwritten silently.
//
//	loads/
//	  october.toml                  the load, whole at every moment
//	  .threepost/october.journal    one line a version, written and synced first
//
// A save names the revision that it is based on. When the file has another
// one, by whatever hand, the save is refused with what the file holds now; the
// text that was to be saved is in the journal. Ids are file names without
// their ending and are looked at strictly; a link that leads out of the folder
// is not followed.
//
// It knows no HTTP and plans nothing.
package folder
