//go:build !amd64

package tissue

func forPlain(func()) {}
