//go:build !linux

package window

func soundDevice() bool { return true }
