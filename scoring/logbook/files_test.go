//go:build !js

package logbook

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

func TestSecondWindow(t *testing.T) {
	dir := t.TempDir()
	first, _, err := OpenFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	var inUse *InUseError
	if _, _, err := OpenFolder(dir); !errors.As(err, &inUse) || !strings.Contains(err.Error(), dir) {
		t.Errorf("a second window gets %v", err)
	}
	fill(t, first, small(1))
	if err := first.Close(); err != nil {
		t.Fatal(err)
	}
	if err := first.Append(small(2)); !errors.Is(err, errClosed) {
		t.Errorf("a closed book answers %v", err)
	}
	second, report, err := OpenFolder(dir)
	if err != nil || report.Kept != 1 {
		t.Fatal(report, err)
	}
	if err := second.Close(); err != nil {
		t.Fatal(err)
	}
}

// A Replace that was killed is undone before its rename and done after.
func TestHalfReplaced(t *testing.T) {
	old, fresh := logOf(t, small(1), small(2)), logOf(t, small(1))
	for _, c := range []struct {
		log, fresh []byte
		want       int
	}{{old, fresh[:30], 2}, {old, fresh, 2}, {nil, fresh, 1}} {
		dir := t.TempDir()
		if c.log != nil {
			must(0, os.WriteFile(filepath.Join(dir, logName), c.log, 0o600))(t)
		}
		must(0, os.WriteFile(filepath.Join(dir, freshName), c.fresh, 0o600))(t)
		book, report, err := OpenFolder(dir)
		if err != nil || report.Kept != c.want || !report.Clean() {
			t.Fatalf("%+v, %v", report, err)
		}
		if _, err := os.Stat(filepath.Join(dir, freshName)); !errors.Is(err, os.ErrNotExist) {
			t.Error("the half-written file is still there")
		}
		if err := book.Close(); err != nil {
			t.Fatal(err)
		}
	}
}

// On real files: damage in the middle and at the end, set aside on disk.
func TestFilesSetAside(t *testing.T) {
	dir := t.TempDir()
	data := logOf(t, small(1), small(2), small(3))
	data[10] ^= 1
	must(0, os.WriteFile(filepath.Join(dir, logName), data[:len(data)-9], 0o600))(t)
	book, report, err := OpenFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	if len(report.Damaged) != 2 || report.Kept != 1 || report.Aside != filepath.Join(dir, asideName) {
		t.Errorf("%+v", report)
	}
	fill(t, book, small(4))
	if err := book.Close(); err != nil {
		t.Fatal(err)
	}
	if got, want := must(os.ReadFile(filepath.Join(dir, logName)))(t), logOf(t, small(2), small(4)); !bytes.Equal(got, want) {
		t.Errorf("the file holds\n%s", got)
	}
	if aside := must(os.ReadFile(filepath.Join(dir, asideName)))(t); bytes.Count(aside, []byte("\n")) != 2 {
		t.Errorf("beside it lies\n%s", aside)
	}
}

// The folder is the one that the system means for a program's data.
func TestDataFolder(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("the folder below is that of Linux")
	}
	t.Setenv("HOME", "/home/fell")
	for _, c := range []struct{ xdg, want string }{
		{"/data", "/data/leastwatt"},
		{"", "/home/fell/.local/share/leastwatt"},
		{"not/absolute", "/home/fell/.local/share/leastwatt"}, // the specification says to ignore it
	} {
		t.Setenv("XDG_DATA_HOME", c.xdg)
		if got := must(DataFolder())(t); got != c.want {
			t.Errorf("%q gives %s, want %s", c.xdg, got, c.want)
		}
	}
}

// A folder that cannot be made or written is told by its name.
func TestNoFolder(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	must(0, os.WriteFile(file, nil, 0o600))(t)
	if _, _, err := OpenFolder(filepath.Join(file, "below")); err == nil || !strings.Contains(err.Error(), file) {
		t.Error(err)
	}
}
