//go:build !windows

package folder

const onWindows = false
