//go:build !linux

package display

// PlainSuffix is added to the program's name to find its build without a window.
const PlainSuffix = "-plain"

// Reachable tells whether a window can be opened.
func Reachable() bool { return true }
