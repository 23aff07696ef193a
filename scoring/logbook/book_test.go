package logbook

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestEntriesComeBackInOrderOfTime(t *testing.T) {
	m := &Memory{}
	book, _ := openMemory(t, m)
	fill(t, book, small(3), small(1), small(1000), small(2), disagreement(7, "Sources differ."), step(4))
	again, report := openMemory(t, m)
	if !report.Clean() || report.Kept != 6 || report.Text() != "" {
		t.Errorf("%+v", report)
	}
	want := ids(t, book)
	if diff := cmp.Diff(want, ids(t, again)); diff != "" {
		t.Error("opened again: ", diff)
	}
	for e, err := range again.Entries() {
		if err != nil {
			t.Fatal(err)
		}
		whole := must(again.Whole(e.ID))(t)
		if e.Attempt != nil {
			if e.Attempt.Grade != nil || whole.Attempt.Grade == nil {
				t.Errorf("%s: the head holds the grade, or the whole does not", e.ID)
			}
			whole.Attempt.Plan, whole.Attempt.Grade = nil, nil
		}
		if diff := cmp.Diff(whole, e); diff != "" {
			t.Error(diff)
		}
	}
	all := must(again.All())(t)
	if !slices.IsSortedFunc(all, func(x, y *Entry) int { return int(x.UTC - y.UTC) }) || len(all) != 6 {
		t.Errorf("%d entries, or not in the order of time", len(all))
	}
}

// More entries than one batch of the walk holds, with appends on the way.
func TestWalkIsLong(t *testing.T) {
	book, _ := openMemory(t, &Memory{})
	for n := range 3*batchHeads + 5 {
		fill(t, book, small(n))
	}
	seen := 0
	for e, err := range book.Entries() {
		if err != nil || e.ID != small(seen).ID {
			t.Fatalf("entry %d is %v, %v", seen, e, err)
		}
		if seen == 10 {
			fill(t, book, small(100_000))
		}
		if seen++; seen == 3*batchHeads+5 {
			break
		}
	}
	if book.Len() != 3*batchHeads+6 {
		t.Error(book.Len())
	}
}

func TestAppendTwice(t *testing.T) {
	m := &Memory{}
	book, _ := openMemory(t, m)
	fill(t, book, small(1), small(2))
	before := bytes.Clone(m.Kept)
	fill(t, book, small(1))
	if !bytes.Equal(before, m.Kept) {
		t.Error("the same entry was written twice")
	}
	other := small(1)
	other.Attempt.TookS++
	if err := book.Append(other); err == nil || !strings.Contains(err.Error(), "is taken by another entry") {
		t.Errorf("an identity with other content gives %v", err)
	}
	if book.Len() != 2 {
		t.Error(book.Len())
	}
}

// logOf is the file of some entries.
func logOf(t testing.TB, entries ...Entry) []byte {
	var out []byte
	for _, e := range entries {
		out = append(out, must(EncodeLine(&e))(t)...)
	}
	return out
}

func TestDamageIsSetAsideAndSaidOnce(t *testing.T) {
	three := logOf(t, small(1), small(2), small(3))
	one := len(logOf(t, small(1)))
	two := len(logOf(t, small(1), small(2)))
	for _, c := range []struct {
		name   string
		harm   func([]byte) []byte
		kept   []int
		aside  string // what must be among the bytes set aside
		report string
	}{
		{"a torn tail", func(b []byte) []byte { return b[:len(b)-40] }, []int{1, 2}, string(three[two : len(three)-40]), ":3:1: a last line"},
		{"a tail of one byte", func(b []byte) []byte { return b[:two+1] }, []int{1, 2}, "{", ":3:1: a last line"},
		{"zeros at the end", func(b []byte) []byte { return append(b, make([]byte, 5000)...) }, []int{1, 2, 3}, string(make([]byte, 5000)), ":4:1: a last line"},
		{"a flipped length", func(b []byte) []byte { b[one+atLine+7] ^= 1; return b }, []int{1, 3}, `"entry":{"id":"c0000000000000000002"`, ":2:1: "},
		{"a flipped newline", func(b []byte) []byte { b[two-1] ^= 8; return b }, []int{1, 2, 3}, "", ""},
		{"a newline inside", func(b []byte) []byte { b[one+60] = '\n'; return b }, []int{1, 3}, `0000000002`, ":2:1: "},
		{"letters between", func(b []byte) []byte { return slices.Concat(b[:one], []byte("hello\nworld\n"), b[one:]) }, []int{1, 2, 3}, "hello\nworld\n", ":2:1: 12 bytes are damaged"},
		{"a flipped byte of the last body", func(b []byte) []byte { b[len(b)-5] ^= 2; return b }, []int{1, 2}, "0000000003", ":3:1: "},
		{"no newline at the end", func(b []byte) []byte { return b[:len(b)-1] }, []int{1, 2, 3}, "", ""},
		{"nothing but damage", func(b []byte) []byte { return []byte("no logbook at all") }, []int{}, "no logbook at all\n", ":1:1: a last line"},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := &Memory{Kept: c.harm(bytes.Clone(three))}
			book, report := openMemory(t, m)
			want := []string{}
			for _, n := range c.kept {
				want = append(want, small(n).ID)
			}
			if diff := cmp.Diff(want, ids(t, book)); diff != "" {
				t.Error(diff)
			}
			if !strings.Contains(string(m.Beside), c.aside) || (c.aside == "") != (len(m.Beside) == 0) {
				t.Errorf("set aside: %q", m.Beside)
			}
			if !strings.Contains(report.Text(), c.report) || (c.report == "") != (report.Text() == "") {
				t.Errorf("the report says %q", report.Text())
			}
			fill(t, book, small(9))
			again, second := openMemory(t, m)
			if !second.Clean() {
				t.Errorf("said again: %s", second.Text())
			}
			if diff := cmp.Diff(append(want, small(9).ID), ids(t, again)); diff != "" {
				t.Error("after one more: ", diff)
			}
		})
	}
}

// Damage in a body is found when the body is read; the marks stay.
func TestDamagedBodyKeepsTheMarks(t *testing.T) {
	entries := []Entry{}
	long := strings.Repeat("x", batchBytes) // so that the first line is no part of the last batch
	for n := range 3 {
		e := small(n)
		if n == 1 {
			e.Attempt.Grade = []byte(`"` + long + `"`)
		}
		entries = append(entries, e)
	}
	data := logOf(t, entries...)
	data[len(logOf(t, entries[0]))-5] ^= 1
	m := &Memory{Kept: data}
	book, report := openMemory(t, m)
	if !report.Clean() || book.Len() != 3 {
		t.Fatalf("%d entries; %s", book.Len(), report.Text())
	}
	if _, err := book.Whole(entries[0].ID); err == nil || !strings.Contains(err.Error(), ":1:1: the line is damaged") {
		t.Errorf("its body gives %v", err)
	}
	var out bytes.Buffer
	exported := must(book.Export(&out))(t)
	if len(exported.Damaged) != 1 || exported.Damaged[0].Line != 1 || exported.Kept != 2 {
		t.Errorf("%+v", exported)
	}
}

// A whole line of a newer version stays in the file and in the export, unread.
func TestNewerLinesAreLeftAlone(t *testing.T) {
	line := logOf(t, small(1))
	line[atVersion] = '2'
	f := parseFrame(line)
	putHex8(line[atHeadCRC:], checksum(line[atCovered:f.head]))
	m := &Memory{Kept: append(logOf(t, small(2)), line...)}
	book, report := openMemory(t, m)
	if report.Newer != 1 || book.Len() != 1 || len(m.Beside) > 0 || !strings.Contains(report.Text(), "newer version: 1") {
		t.Errorf("%+v", report)
	}
	var out bytes.Buffer
	must(book.Export(&out))(t)
	if !bytes.Contains(out.Bytes(), line) {
		t.Error("the export leaves it out")
	}
	got := must(book.Import("copy.jsonl", &out))(t)
	if got.Newer != 1 || got.Added != 0 || got.Repeated != 1 {
		t.Errorf("%+v", got)
	}
}

func TestManyGoroutines(t *testing.T) {
	m := &Memory{}
	book, _ := openMemory(t, m)
	done := make(chan error)
	for g := range 8 {
		go func() {
			for n := range 50 {
				if err := book.Append(small(g*50 + n)); err != nil {
					done <- err
					return
				}
				if n%10 == 0 {
					for _, err := range book.Entries() {
						if err != nil {
							done <- err
							return
						}
					}
				}
			}
			done <- nil
		}()
	}
	for range 8 {
		if err := <-done; err != nil {
			t.Fatal(err)
		}
	}
	if again, _ := openMemory(t, m); again.Len() != 400 {
		t.Error(fmt.Sprint(again.Len(), " of 400"))
	}
}
