package serve

import (
	"os"
	"path/filepath"
)

// writeBeside puts a file beside the folder of a server: no path may reach it.
func writeBeside(dir, name, text string) error {
	return os.WriteFile(filepath.Join(filepath.Dir(dir), name), []byte(text), 0o644)
}
