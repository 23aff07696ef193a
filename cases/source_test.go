package cases

import (
	"bytes"
	"image"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func writeFile(t *testing.T, data []byte, path ...string) string {
	t.Helper()
	name := filepath.Join(path...)
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, data, 0o644); err != nil {
		t.Fatal(err)
	}
	return name
}

func pngOf(t testing.TB, width, height int) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, width, height))); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestLoadPackFromEachForm(t *testing.T) {
	dir := t.TempDir()
	folder := filepath.Join(dir, "folder")
	file := writeFile(t, []byte(samplePack), folder, "pack.json")
	writeFile(t, pngOf(t, 4, 4), folder, "pictures", "a.PNG")
	for name, wantFile := range map[string]string{
		folder: filepath.ToSlash(file),
		file:   file,
		writeFile(t, makeZip(t, entry{name: "pack.json", text: samplePack}), dir, "a.ZIP"): filepath.ToSlash(filepath.Join(dir, "a.ZIP", "pack.json")),
		writeFile(t, []byte(samplePack), dir, "other-name.json"):                           filepath.Join(dir, "other-name.json"),
	} {
		l, err := LoadPack(name)
		if err != nil || l.Pack == nil || l.Pack.ID != "sample" {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if l.File != wantFile || l.Path != name {
			t.Errorf("%s: messages name %q", name, l.File)
		}
	}
}

func TestPathsThatCannotBeRead(t *testing.T) {
	dir := t.TempDir()
	writeFile(t, nil, dir, "odd", "pack.json", "file")
	for name, words := range map[string]string{
		filepath.Join(dir, "missing"):      "there is no such file or folder",
		filepath.Join(dir, "missing.zip"):  "there is no such file or folder",
		filepath.Join(dir, "missing.json"): "there is no such file or folder",
		dir:                                "there is no pack.json in this folder",
		filepath.Join(dir, "odd"):          "there is no pack.json in this folder",
	} {
		if l, err := LoadPack(name); err == nil || l != nil || err.Error() != name+": "+words {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := ReadFile(dir); err == nil || err.Error() != dir+": this is a folder; a file is needed" {
		t.Error(err)
	}
	if _, err := ReadFile(filepath.Join(dir, "no.json")); err == nil || !strings.HasSuffix(err.Error(), "no.json: there is no such file or folder") {
		t.Error(err)
	}
}

// Files that claim a gigabyte take no more memory than the limit.
func TestHugeFilesAreNotRead(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"huge.json", "huge.zip"} {
		path := writeFile(t, nil, dir, name)
		if err := os.Truncate(path, 1<<30); err != nil {
			t.Skip("no sparse files here:", err)
		}
		l, err := LoadPack(path)
		if err != nil {
			t.Fatal(err)
		}
		wantFault(t, l.Faults, 1, 1, "larger than")
	}
	if data, err := ReadFile(filepath.Join(dir, "huge.json")); err != nil || len(data) != MaxFileBytes+1 {
		t.Errorf("%d bytes, %v", len(data), err)
	}
}

func TestPictures(t *testing.T) {
	var jpg bytes.Buffer
	if err := jpeg.Encode(&jpg, image.NewGray(image.Rect(0, 0, 3, 3)), nil); err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		name  string
		data  []byte
		words string // empty when the picture is sound
	}{
		{"a.png", pngOf(t, 1, 1), ""},
		{"a.jpg", jpg.Bytes(), ""},
		{"b.jpeg", pngOf(t, 2, 2), ""}, // what it is counts, not what it is called
		{"wide.png", pngOf(t, MaxPictureSide, 1), ""},
		{"notes.txt", []byte("text"), ""},
		{"text.png", []byte("this is text"), "this is not a PNG or JPEG picture"},
		{"empty.jpg", nil, "this is not a PNG or JPEG picture"},
		{"page.PNG", []byte("<svg/>"), "this is not a PNG or JPEG picture"},
		{"cut.png", pngOf(t, 9, 9)[:20], "this is not a PNG or JPEG picture"},
		{"wide.png", pngOf(t, MaxPictureSide+1, 1), "the picture is 4097 by 1 pixels; at most 4096 a side are read"},
		{"tall.png", pngOf(t, 1, MaxPictureSide+1), "the picture is 1 by 4097 pixels; at most 4096 a side are read"},
	} {
		dir := t.TempDir()
		writeFile(t, []byte(samplePack), dir, "pack.json")
		writeFile(t, test.data, dir, "sub", test.name)
		fromFolder, err := LoadPack(dir)
		if err != nil {
			t.Fatal(err)
		}
		fromZip := loadZip(dir, makeZip(t, entry{name: "pack.json", text: samplePack}, entry{name: "sub/" + test.name, text: string(test.data)}))
		if diff := cmp.Diff(fromFolder.Faults, fromZip.Faults); diff != "" {
			t.Errorf("%s: folder and zip differ: %s", test.name, diff)
		}
		if test.words == "" {
			if fromFolder.Pack == nil {
				t.Errorf("%s: %v", test.name, fromFolder.Faults)
			}
			continue
		}
		wantFault(t, fromFolder.Faults, 1, 1, test.words)
		if want := filepath.ToSlash(filepath.Join(dir, "sub", test.name)); fromFolder.Faults[0].File != want {
			t.Errorf("the fault stands in %q, not %q", fromFolder.Faults[0].File, want)
		}
	}
}

func TestLinkInAFolderIsRefused(t *testing.T) {
	dir := t.TempDir()
	writeFile(t, []byte(samplePack), dir, "pack.json")
	if err := os.Symlink("/etc/hosts", filepath.Join(dir, "link.png")); err != nil {
		t.Skip("no links here:", err)
	}
	l, err := LoadPack(dir)
	if err != nil {
		t.Fatal(err)
	}
	wantFault(t, l.Faults, 1, 1, "links are refused in a pack")
}

func TestFindPacks(t *testing.T) {
	dir := t.TempDir()
	b := filepath.Dir(writeFile(t, []byte(samplePack), dir, "b", "pack.json"))
	a := writeFile(t, nil, dir, "a.zip")
	writeFile(t, nil, dir, "c", "deep", "pack.json") // only direct children count
	writeFile(t, nil, dir, "notes.txt")
	for path, want := range map[string][]string{
		dir:                           {a, b},
		b:                             {b},
		a:                             {a},
		filepath.Join(b, "pack.json"): {filepath.Join(b, "pack.json")},
	} {
		got, err := FindPacks(path)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: %s", path, diff)
		}
	}
	if _, err := FindPacks(filepath.Join(dir, "c", "deep", "..", "..", "none")); err == nil || !strings.Contains(err.Error(), "there is no such file or folder") {
		t.Error(err)
	}
	writeFile(t, nil, dir, "c", "shallow", "deep", "pack.json")
	if _, err := FindPacks(filepath.Join(dir, "c", "shallow", "deep")); err != nil {
		t.Error(err)
	}
	writeFile(t, nil, dir, "none-here", "x", "y", "pack.json")
	if _, err := FindPacks(filepath.Join(dir, "none-here")); err == nil || !strings.Contains(err.Error(), "there is no pack here") {
		t.Error(err)
	}
}
