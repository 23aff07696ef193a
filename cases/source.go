package cases

import (
	"errors"
	"fmt"
	"image"
	_ "image/jpeg" // pictures of a pack may be JPEG
	_ "image/png"  // or PNG
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"sort"
	"strings"
)

// MaxPictureSide is the most pixels a picture of a pack may have on a side.
const MaxPictureSide = 4096

// Loaded is a pack as it was read: nil Pack when it cannot be used, and every
// fault and warning with its place.
type Loaded struct {
	Path     string // what was asked for
	File     string // the pack.json that messages name
	Pack     *Pack
	Tree     *Value
	Faults   Faults
	Warnings Faults
}

// LoadPack reads a pack from a folder, a .zip or a pack.json. The error is
// about the path itself (missing, no permission); what is wrong inside is in
// the Loaded.
func LoadPack(name string) (*Loaded, error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, PathError(err)
	}
	switch {
	case info.IsDir():
		file := filepath.Join(name, "pack.json")
		info, err := os.Stat(file)
		switch {
		case errors.Is(err, fs.ErrNotExist), err == nil && info.IsDir():
			return nil, fmt.Errorf("%s: there is no pack.json in this folder", name)
		case err != nil:
			return nil, PathError(err)
		}
		l, err := LoadPackFS(os.DirFS(name), name)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, PathError(err))
		}
		return l, nil
	case strings.EqualFold(filepath.Ext(name), ".zip"):
		data, err := readLimited(name, MaxZipBytes)
		if err != nil {
			return nil, err
		}
		return loadZip(name, data), nil
	}
	data, err := readLimited(name, MaxFileBytes)
	if err != nil {
		return nil, err
	}
	return loadBytes(name, name, data), nil
}

// readLimited reads no more than one byte over the limit: a file of a
// gigabyte is refused without being read.
func readLimited(name string, limit int64) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, PathError(err)
	}
	defer f.Close()
	return readAll(f, limit)
}

func readAll(f io.Reader, limit int64) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(f, limit+1))
	if err != nil {
		return nil, PathError(err)
	}
	return data, nil
}

// ReadFile reads a JSON file given on the command line, or says in one plain
// sentence why it cannot be read.
func ReadFile(name string) ([]byte, error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, PathError(err)
	}
	if info.IsDir() {
		return nil, fmt.Errorf("%s: this is a folder; a file is needed", name)
	}
	return readLimited(name, MaxFileBytes)
}

// PathError says in plain words which path cannot be used; other errors are
// returned as they are.
func PathError(err error) error {
	var p *fs.PathError
	if !errors.As(err, &p) {
		return err
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s: there is no such file or folder", p.Path)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s: there is no permission to use it", p.Path)
	}
	return fmt.Errorf("%s: %v", p.Path, p.Err)
}

func loadZip(name string, data []byte) *Loaded {
	fsys, err := OpenZip(data)
	if err != nil {
		return &Loaded{Path: name, Faults: Faults{{name, 1, 1, err.Error()}}}
	}
	l, err := LoadPackFS(fsys, name)
	if err != nil {
		return &Loaded{Path: name, Faults: Faults{{name, 1, 1, "there is no pack.json in this zip"}}}
	}
	return l
}

// LoadPackFS reads the pack whose pack.json lies at the root of fsys; name is
// what messages call the folder. The error says that there is no pack.json.
func LoadPackFS(fsys fs.FS, name string) (*Loaded, error) {
	f, err := fsys.Open("pack.json")
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, MaxFileBytes+1))
	if err != nil {
		return nil, err
	}
	l := loadBytes(name, path.Join(filepath.ToSlash(name), "pack.json"), data)
	l.Faults = append(l.Faults, checkPictures(fsys, name)...)
	if len(l.Faults) > 0 {
		l.Pack = nil
	}
	return l, nil
}

func loadBytes(name, file string, data []byte) *Loaded {
	pack, tree, sheet := ReadPack(file, data)
	return &Loaded{Path: name, File: file, Pack: pack, Tree: tree, Faults: sheet.Faults, Warnings: sheet.Warnings}
}

// checkPictures finds pictures of a pack that are none, or too large.
func checkPictures(fsys fs.FS, name string) Faults {
	names, fault := fileNames(fsys, name)
	if fault != nil {
		return Faults{*fault}
	}
	var faults Faults
	for _, n := range names {
		switch strings.ToLower(path.Ext(n)) {
		case ".png", ".jpg", ".jpeg":
		default:
			continue
		}
		at := path.Join(filepath.ToSlash(name), n)
		f, err := fsys.Open(n)
		if err != nil {
			faults = append(faults, Fault{at, 1, 1, "the picture cannot be read"})
			continue
		}
		config, _, err := image.DecodeConfig(f)
		f.Close()
		switch {
		case err != nil:
			faults = append(faults, Fault{at, 1, 1, "this is not a PNG or JPEG picture"})
		case config.Width > MaxPictureSide || config.Height > MaxPictureSide:
			faults = append(faults, Fault{at, 1, 1, fmt.Sprintf("the picture is %d by %d pixels; at most %d a side are read", config.Width, config.Height, MaxPictureSide)})
		}
	}
	return faults
}

// fileNames lists the plain files of a pack, and refuses links.
func fileNames(fsys fs.FS, name string) ([]string, *Fault) {
	if m, ok := fsys.(memoryFS); ok {
		names := m.Names()
		sort.Strings(names)
		return names, nil
	}
	var names []string
	var fault *Fault
	err := fs.WalkDir(fsys, ".", func(p string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.Type()&fs.ModeSymlink != 0:
			fault = &Fault{path.Join(filepath.ToSlash(name), p), 1, 1, "links are refused in a pack"}
			return fs.SkipAll
		case d.Type().IsRegular():
			names = append(names, p)
		}
		if len(names) > MaxZipFiles {
			fault = &Fault{name, 1, 1, fmt.Sprintf("the pack holds more than %d files", MaxZipFiles)}
			return fs.SkipAll
		}
		return nil
	})
	if err != nil && fault == nil {
		fault = &Fault{name, 1, 1, fmt.Sprintf("the folder cannot be listed: %v", err)}
	}
	return names, fault
}

// FindPacks lists the packs under a path of --packs: the path itself when it
// is a pack, else its direct children that are packs.
func FindPacks(dir string) ([]string, error) {
	info, err := os.Stat(dir)
	if err != nil {
		return nil, PathError(err)
	}
	if !info.IsDir() {
		return []string{dir}, nil
	}
	if _, err := os.Stat(filepath.Join(dir, "pack.json")); err == nil {
		return []string{dir}, nil
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, PathError(err)
	}
	var found []string
	for _, e := range entries {
		child := filepath.Join(dir, e.Name())
		if strings.EqualFold(filepath.Ext(child), ".zip") && !e.IsDir() {
			found = append(found, child)
		} else if _, err := os.Stat(filepath.Join(child, "pack.json")); err == nil {
			found = append(found, child)
		}
	}
	if len(found) == 0 {
		return nil, fmt.Errorf("%s: there is no pack here: neither a pack.json nor a folder or .zip with one", dir)
	}
	return found, nil
}

// LoadPackIn reads a pack that lies in fsys under name: a folder, a .zip or a
// JSON file, as when it was dropped on the window.
func LoadPackIn(fsys fs.FS, name string) (*Loaded, error) {
	info, err := fs.Stat(fsys, name)
	if err != nil {
		return nil, PathError(err)
	}
	if info.IsDir() {
		sub, err := fs.Sub(fsys, name)
		if err != nil {
			return nil, err
		}
		l, err := LoadPackFS(sub, name)
		if err != nil {
			return nil, fmt.Errorf("%s: there is no pack.json in this folder", name)
		}
		return l, nil
	}
	limit := int64(MaxFileBytes)
	zipped := strings.EqualFold(path.Ext(name), ".zip")
	if zipped {
		limit = MaxZipBytes
	}
	f, err := fsys.Open(name)
	if err != nil {
		return nil, PathError(err)
	}
	defer f.Close()
	data, err := readAll(f, limit)
	if err != nil {
		return nil, err
	}
	if zipped {
		return loadZip(name, data), nil
	}
	return loadBytes(name, name, data), nil
}
