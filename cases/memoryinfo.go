package cases

import (
	"io/fs"
	"path"
	"time"
)

// memoryInfo describes an unpacked file.
type memoryInfo struct {
	name string
	size int64
}

func (i memoryInfo) Name() string       { return path.Base(i.name) }
func (i memoryInfo) Size() int64        { return i.size }
func (i memoryInfo) Mode() fs.FileMode  { return 0o444 }
func (i memoryInfo) ModTime() time.Time { return time.Time{} }
func (i memoryInfo) IsDir() bool        { return false }
func (i memoryInfo) Sys() any           { return nil }
