package drawing

// Fonts are the embedded fonts with their measures. They are read-only and
// may be shared by goroutines.
type Fonts struct{}
