package logbook

import (
	"bytes"
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// someEntries draws entries from few identities, so that copies overlap, repeat
// and clash.
func someEntries(t *rapid.T, name string) []Entry {
	var out []Entry
	for _, n := range rapid.SliceOfN(rapid.IntRange(0, 59), 0, 25).Draw(t, name) {
		e := small(n % 20)
		if n%5 == 0 {
			e = disagreement(n%20, "Many teach otherwise.")
		}
		switch n / 20 { // two more contents for the same identity
		case 1:
			e.OffsetMin++
		case 2:
			e.UTC += 7_000_000
		}
		out = append(out, e)
	}
	return out
}

func lines(t *rapid.T, entries []Entry) []byte {
	var out []byte
	for _, e := range entries {
		line, err := EncodeLine(&e)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, line...)
	}
	return out
}

// imported is the export of a book that imported files in their order, opened
// anew in between.
func imported(t *rapid.T, files ...[]byte) []byte {
	m := &Memory{}
	for _, file := range files {
		book, _, err := Open(m)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := book.Import("copy.jsonl", bytes.NewReader(file)); err != nil {
			t.Fatal(err)
		}
	}
	return exported(t, m)
}

func exported(t *rapid.T, m *Memory) []byte {
	book, report, err := Open(m)
	if err != nil {
		t.Fatal(err)
	}
	if report.Repeated > 0 || len(report.Damaged) > 0 {
		t.Fatalf("%+v", report)
	}
	var out bytes.Buffer
	if _, err := book.Export(&out); err != nil {
		t.Fatal(err)
	}
	shown := map[string]bool{}
	for e, err := range book.Entries() {
		if err != nil || shown[e.ID] {
			t.Fatalf("%v counts twice, or %v", e, err)
		}
		shown[e.ID] = true
	}
	return out.Bytes()
}

func TestImportIsUnion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := lines(t, someEntries(t, "a")), lines(t, someEntries(t, "b")), lines(t, someEntries(t, "c"))
		ab := imported(t, a, b)
		for _, law := range []struct {
			name      string
			got, want []byte
		}{
			{"the order", imported(t, b, a), ab},
			{"grouping", imported(t, imported(t, a, b), c), imported(t, a, imported(t, b, c))},
			{"importing twice", imported(t, a, b, a, b), ab},
			{"importing itself", imported(t, ab, ab), ab},
			{"one file with both", imported(t, slices.Concat(b, a)), ab},
		} {
			if !bytes.Equal(law.got, law.want) {
				t.Fatalf("%s matters:\n%s\n%s", law.name, law.got, law.want)
			}
		}
		set := map[string]bool{}
		for line := range bytes.Lines(slices.Concat(a, b)) {
			set[string(line)] = true
		}
		if n := bytes.Count(ab, []byte("\n")); n != len(set) {
			t.Fatalf("the union holds %d lines of %d", n, len(set))
		}
	})
}

// Which of two contents counts depends neither on the order nor on the way in.
func TestClashIsSettledOnce(t *testing.T) {
	first, second := small(1), small(1)
	second.Attempt.TookS = 999
	var winners []int
	for _, order := range [][]Entry{{first, second}, {second, first}} {
		m := &Memory{}
		book, _ := openMemory(t, m)
		fill(t, book, order[0], small(5))
		report := must(book.Import("copy.jsonl", bytes.NewReader(logOf(t, order[1]))))(t)
		if diff := cmp.Diff([]string{first.ID}, report.Clashes); diff != "" || report.Added != 1 {
			t.Error(diff, report.Added)
		}
		if !strings.Contains(report.Text(), "has two contents") {
			t.Errorf("the report says %q", report.Text())
		}
		winners = append(winners, must(book.Whole(first.ID))(t).Attempt.TookS)
		again, second := openMemory(t, m)
		winners = append(winners, must(again.Whole(first.ID))(t).Attempt.TookS)
		if len(second.Clashes) != 1 || again.Len() != 2 {
			t.Errorf("%+v with %d entries", second, again.Len())
		}
	}
	if len(slices.Compact(winners)) != 1 {
		t.Errorf("the attempts that count took %v s", winners)
	}
}

func TestImportOfDamagedFiles(t *testing.T) {
	whole := logOf(t, small(1), small(2), small(3))
	first := len(logOf(t, small(1)))
	for _, c := range []struct {
		name        string
		file        []byte
		added, torn int
		want        string
	}{
		{"nothing", nil, 0, 0, ""},
		{"blank lines", []byte("\n\n \n"), 0, 0, ""},
		{"no newline at the end", whole[:len(whole)-1], 3, 0, ""},
		{"carriage returns", bytes.ReplaceAll(whole, []byte("\n"), []byte("\r\n")), 3, 0, ""},
		{"cut off", whole[:len(whole)-20], 2, 1, "copy.jsonl:3:1: a last line"},
		{"another kind of file", []byte("Dear colleague,\nplease find\n"), 0, 0, "copy.jsonl:1:1: 16 bytes are damaged: this is no line of a logbook"},
		{"a strange line", slices.Concat(whole[:first], []byte("{}\n"), whole[first:]), 3, 0, "copy.jsonl:2:1: 3 bytes"},
		{"a line without end", bytes.Repeat([]byte("x"), MaxLineBytes+10), 0, 0, "longer than"},
	} {
		t.Run(c.name, func(t *testing.T) {
			book, _ := openMemory(t, &Memory{})
			report := must(book.Import("copy.jsonl", bytes.NewReader(c.file)))(t)
			torn := 0
			for _, d := range report.Damaged {
				if d.Torn {
					torn++
				}
			}
			if report.Added != c.added || torn != c.torn || book.Len() != c.added {
				t.Errorf("%+v", report)
			}
			if text := report.Text(); !strings.Contains(text, c.want) || (c.want == "") != (text == "") {
				t.Errorf("the report says %q", text)
			}
		})
	}
}

type brokenReader struct{ data []byte }

func (r *brokenReader) Read(p []byte) (int, error) {
	if len(r.data) == 0 {
		return 0, errIO
	}
	n := copy(p, r.data)
	r.data = r.data[n:]
	return n, nil
}

func TestImportOfUnreadableFile(t *testing.T) {
	book, _ := openMemory(t, &Memory{})
	if _, err := book.Import("stick.jsonl", &brokenReader{logOf(t, small(1), small(2))}); !errors.Is(err, errIO) || !strings.Contains(err.Error(), "stick.jsonl") {
		t.Error(err)
	}
}

// Long files come in over several batches.
func TestImportOfManyBatches(t *testing.T) {
	var file []byte
	grade := longGrade(300 << 10)
	for n := range 40 {
		e := attempt(39-n, 3, grade)
		file = append(file, logOf(t, e)...)
	}
	m := &Memory{}
	book, _ := openMemory(t, m)
	if report := must(book.Import("copy.jsonl", bytes.NewReader(file)))(t); report.Added != 40 {
		t.Fatalf("%+v", report)
	}
	again, report := openMemory(t, m)
	if diff := cmp.Diff(ids(t, again), ids(t, book)); diff != "" || report.Kept != 40 {
		t.Error(diff, report.Kept)
	}
}
