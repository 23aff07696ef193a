package logbook

import (
	"bytes"
	"errors"
	"io"
	"syscall/js"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestBrowser runs where there is a database of a browser: in a browser, or in
// a runtime that was given one.
func TestBrowser(t *testing.T) {
	if js.Global().Get("indexedDB").Type() != js.TypeObject {
		t.Skip("there is no browser's database here")
	}
	book, report, err := OpenFolder("test")
	if err != nil || report.Kept != 0 {
		t.Fatal(report, err)
	}
	fill(t, book, small(2), small(1), disagreement(3, "Sources differ."))
	if js.Global().Get("navigator").Get("locks").Type() == js.TypeObject {
		var inUse *InUseError
		if _, _, err := OpenFolder("test"); !errors.As(err, &inUse) {
			t.Errorf("a second tab gets %v", err)
		}
	}
	want := ids(t, book)
	if err := book.Close(); err != nil {
		t.Fatal(err)
	}

	// What was synced is there; what was only appended is not.
	store := must(OpenFiles("test"))(t)
	torn := logOf(t, small(9))
	if err := errors.Join(store.Append(torn[:50]), store.Sync(), store.Append(torn[50:]), store.Close()); err != nil {
		t.Fatal(err)
	}
	book, report, err = OpenFolder("test")
	if err != nil || len(report.Damaged) != 1 || report.Undone != "" {
		t.Fatalf("%+v, %v", report, err)
	}
	if diff := cmp.Diff(want, ids(t, book)); diff != "" {
		t.Error(diff)
	}
	fill(t, book, small(10))
	if err := book.Close(); err != nil {
		t.Fatal(err)
	}

	store = must(OpenFiles("test"))(t)
	size := must(store.Size())(t)
	got := make([]byte, size)
	must(store.ReadAt(got, 0))(t)
	whole := logOf(t, small(2), small(1), disagreement(3, "Sources differ."), small(10))
	if !bytes.Equal(got, whole) {
		t.Errorf("the database holds\n%s", got)
	}
	replace := func(w io.Writer) error { _, err := w.Write(whole[:10]); return err }
	if err := errors.Join(store.Replace(replace), store.Close()); err != nil {
		t.Fatal(err)
	}
	store = must(OpenFiles("test"))(t)
	if size := must(store.Size())(t); size != 10 {
		t.Errorf("after a replace it holds %d bytes", size)
	}
	if err := errors.Join(store.Cut(0), store.Close(), store.Close()); err != nil {
		t.Error(err)
	}
	if err := store.Append(whole); err == nil && store.Sync() == nil {
		t.Error("a closed database says that it has synced")
	}
}
