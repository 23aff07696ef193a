package logbook

import (
	"bufio"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// A grade of a treated lesion has about fifty findings and thirty kilobytes.
const usualFindings, usualGradeBytes = 50, 30 << 10

func longGrade(n int) string {
	return `{"verdict":"safe","why":"` + strings.Repeat("Use the least power that works. ", n/32) + `"}`
}

// hundredThousand writes a logbook of so many attempts. Bodies are short
// unless LEASTWATT_LONG is set: opening hops over them either way.
func hundredThousand(b *testing.B) string {
	b.Helper()
	dir := b.TempDir()
	f := must(os.Create(filepath.Join(dir, logName)))(b)
	w := bufio.NewWriterSize(f, 1<<20)
	size := 2 << 10
	if os.Getenv("LEASTWATT_LONG") != "" {
		size = usualGradeBytes
	}
	grade := longGrade(size)
	for n := range 100_000 {
		e := attempt(n, usualFindings, grade)
		if _, err := w.Write(must(EncodeLine(&e))(b)); err != nil {
			b.Fatal(err)
		}
	}
	if err := w.Flush(); err != nil {
		b.Fatal(err)
	}
	if err := f.Close(); err != nil {
		b.Fatal(err)
	}
	return dir
}

// heapMB is what is held after a collection.
func heapMB() float64 {
	var m runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&m)
	return float64(m.HeapAlloc) / (1 << 20)
}

func BenchmarkOpen100k(b *testing.B) {
	dir := hundredThousand(b)
	before := heapMB()
	b.ReportAllocs()
	var held float64
	for b.Loop() {
		book, report, err := OpenFolder(dir)
		if err != nil || report.Kept != 100_000 {
			b.Fatal(report.Kept, err)
		}
		b.StopTimer()
		held = heapMB() - before
		if err := book.Close(); err != nil {
			b.Fatal(err)
		}
		b.StartTimer()
	}
	b.ReportMetric(held, "MB-held")
}

// BenchmarkWalk100k opens and goes through every head with its marks, as the
// list of what is due does.
func BenchmarkWalk100k(b *testing.B) {
	dir := hundredThousand(b)
	b.ReportAllocs()
	for b.Loop() {
		book, _, err := OpenFolder(dir)
		if err != nil {
			b.Fatal(err)
		}
		marks := 0
		for e, err := range book.Entries() {
			if err != nil {
				b.Fatal(err)
			}
			marks += len(e.Attempt.Findings)
		}
		if marks != 100_000*usualFindings {
			b.Fatal(marks)
		}
		if err := book.Close(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAppend(b *testing.B) {
	grade := longGrade(usualGradeBytes)
	b.Run("logbook", func(b *testing.B) {
		book, _, err := OpenFolder(b.TempDir())
		if err != nil {
			b.Fatal(err)
		}
		n := 0
		for b.Loop() {
			if err := book.Append(attempt(n, usualFindings, grade)); err != nil {
				b.Fatal(err)
			}
			n++
		}
		if err := book.Close(); err != nil {
			b.Fatal(err)
		}
	})
	b.Run("write-and-sync", func(b *testing.B) {
		f := must(os.OpenFile(filepath.Join(b.TempDir(), "raw"), os.O_CREATE|os.O_APPEND|os.O_RDWR, 0o600))(b)
		e := attempt(0, usualFindings, grade)
		line := must(EncodeLine(&e))(b)
		for b.Loop() {
			if _, err := f.Write(line); err != nil {
				b.Fatal(err)
			}
			if err := f.Sync(); err != nil {
				b.Fatal(err)
			}
		}
		if err := f.Close(); err != nil {
			b.Fatal(err)
		}
	})
	b.Run("encode", func(b *testing.B) {
		e := attempt(0, usualFindings, grade)
		for b.Loop() {
			must(EncodeLine(&e))(b)
		}
	})
}
