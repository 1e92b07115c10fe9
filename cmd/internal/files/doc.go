// Package files reads and writes the person's files so that a crash, a full
// disk or a pulled plug leaves the old file or the new one whole, never half
// of either.
package files
