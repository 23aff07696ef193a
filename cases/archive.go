package cases

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"regexp"
	"slices"
	"strings"
	"unicode"
)

// Limits of a zipped pack, so that a hostile one can neither climb out of its
// folder nor fill a disk.
const (
	MaxZipBytes      = 64 << 20
	MaxUnpackedBytes = 256 << 20
	MaxZipFiles      = 2000
)

// zipFault is something wrong with a zip as a whole.
type zipFault struct{ message string }

func (e *zipFault) Error() string { return e.message }

func zipFaultf(format string, args ...any) error { return &zipFault{fmt.Sprintf(format, args...)} }

// OpenZip checks a zipped pack against every limit and returns its files. The
// sizes that the archive claims are believed only when they are too large:
// each file is unpacked and counted. The folder __MACOSX, which some zip tools
// add beside what was zipped, is passed over.
func OpenZip(data []byte) (fs.FS, error) {
	if len(data) > MaxZipBytes {
		return nil, zipFaultf("the zip is larger than 64 MiB")
	}
	r, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if errors.Is(err, zip.ErrInsecurePath) {
		err = nil // each name is judged below, with its own message
	}
	if err != nil {
		return nil, zipFaultf("this is not a zip that can be read: %v", err)
	}
	if len(r.File) > MaxZipFiles {
		return nil, zipFaultf("the zip holds %d files; at most %d are read", len(r.File), MaxZipFiles)
	}
	files := memoryFS{}
	left := int64(MaxUnpackedBytes)
	for _, f := range r.File {
		if err := checkZipName(f); err != nil {
			return nil, err
		}
		if f.FileInfo().IsDir() || strings.HasPrefix(f.Name, "__MACOSX/") {
			continue
		}
		if _, twice := files[f.Name]; twice {
			return nil, zipFaultf("the zip holds %q twice", short(f.Name))
		}
		content, err := unpack(f, left)
		if err != nil {
			return nil, err
		}
		left -= int64(len(content))
		files[f.Name] = content
	}
	return files.root(), nil
}

// driveForm is how a name begins that is absolute on some systems: "C:".
var driveForm = regexp.MustCompile(`^[A-Za-z]:`)

func checkZipName(f *zip.File) error {
	name := f.Name
	switch {
	case strings.Contains(name, `\`):
		return zipFaultf("the zip holds %q; names with a backslash are refused", short(name))
	case strings.HasPrefix(name, "/"), driveForm.MatchString(name):
		return zipFaultf("the zip holds %q; absolute names are refused", short(name))
	case slices.Contains(strings.Split(name, "/"), ".."):
		return zipFaultf("the zip holds %q; a name may not climb out of its folder", short(name))
	case strings.ContainsFunc(name, unicode.IsControl):
		return zipFaultf("the zip holds %q; names with a control character are refused", short(name))
	case !fs.ValidPath(strings.TrimSuffix(name, "/")):
		return zipFaultf("the zip holds %q; this is no plain name of a file", short(name))
	case f.Mode()&fs.ModeSymlink != 0:
		return zipFaultf("the zip holds the link %q; links are refused", name)
	case !f.Mode().IsRegular() && !f.FileInfo().IsDir():
		return zipFaultf("the zip holds %q, which is no plain file", name)
	}
	return nil
}

var errUnpacked = zipFaultf("the zip unpacks to more than 256 MiB")

func unpack(f *zip.File, left int64) ([]byte, error) {
	if f.UncompressedSize64 > uint64(left) {
		return nil, errUnpacked
	}
	rc, err := f.Open()
	if err != nil {
		return nil, zipFaultf("%q in the zip cannot be read: %v", f.Name, err)
	}
	defer rc.Close()
	content, err := io.ReadAll(io.LimitReader(rc, left+1))
	if int64(len(content)) > left {
		return nil, errUnpacked
	}
	if err != nil {
		return nil, zipFaultf("%q in the zip is damaged: %v", f.Name, err)
	}
	return content, nil
}

// memoryFS holds unpacked files by name.
type memoryFS map[string][]byte

// root steps into the one folder that holds everything, if there is one: a
// zipped folder often brings its own name along.
func (m memoryFS) root() fs.FS {
	if _, here := m["pack.json"]; here {
		return m
	}
	top := ""
	for name := range m {
		first, _, nested := strings.Cut(name, "/")
		if !nested || top != "" && first != top {
			return m
		}
		top = first
	}
	inner := memoryFS{}
	for name, content := range m {
		inner[strings.TrimPrefix(name, top+"/")] = content
	}
	return inner
}

// Open gives a file, or the listing of the root.
func (m memoryFS) Open(name string) (fs.File, error) {
	if content, ok := m[name]; ok {
		return &memoryFile{name: name, size: int64(len(content)), Reader: bytes.NewReader(content)}, nil
	}
	return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
}

// Names lists the files, for [fs.FS] users that need no folders.
func (m memoryFS) Names() []string {
	names := make([]string, 0, len(m))
	for n := range m {
		names = append(names, n)
	}
	return names
}

type memoryFile struct {
	name string
	size int64
	*bytes.Reader
}

func (f *memoryFile) Stat() (fs.FileInfo, error) { return memoryInfo{f.name, f.size}, nil }
func (f *memoryFile) Close() error               { return nil }
