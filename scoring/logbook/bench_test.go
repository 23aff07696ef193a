//go:build !js

package logbook

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"testing"
	"time"
)

// A grade of a treated lesion has about fifty findings and thirty kilobytes.
const usualFindings, usualGradeBytes = 50, 30 << 10

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

// BenchmarkAppend saves an attempt and then writes and syncs the same bytes to
// a bare file, turn by turn, so that both meet the same disk. It reports the
// medians and how much the logbook adds.
func BenchmarkAppend(b *testing.B) {
	book, _, err := OpenFolder(b.TempDir())
	if err != nil {
		b.Fatal(err)
	}
	bare := must(os.OpenFile(filepath.Join(b.TempDir(), "bare"), os.O_CREATE|os.O_APPEND|os.O_RDWR, 0o600))(b)
	e := attempt(0, usualFindings, longGrade(usualGradeBytes))
	var saving, syncing []time.Duration
	b.ReportAllocs()
	for b.Loop() {
		e.ID = fmt.Sprintf("c%019d", len(saving))
		e.UTC++
		start := time.Now()
		if err := book.Append(e); err != nil {
			b.Fatal(err)
		}
		saving = append(saving, time.Since(start))

		b.StopTimer()
		line := must(EncodeLine(&e))(b)
		start = time.Now()
		if _, err := bare.Write(line); err != nil {
			b.Fatal(err)
		}
		if err := bare.Sync(); err != nil {
			b.Fatal(err)
		}
		syncing = append(syncing, time.Since(start))
		b.StartTimer()
	}
	slices.Sort(saving)
	slices.Sort(syncing)
	ours, theirs := saving[len(saving)/2], syncing[len(syncing)/2]
	b.ReportMetric(float64(ours.Microseconds()), "us-median")
	b.ReportMetric(float64(theirs.Microseconds()), "us-bare-median")
	b.ReportMetric(100*(float64(ours)/float64(theirs)-1), "%-over-bare")
	if err := errors.Join(book.Close(), bare.Close()); err != nil {
		b.Fatal(err)
	}
}

// BenchmarkEncode is the part of an append that is not the disk's.
func BenchmarkEncode(b *testing.B) {
	e := attempt(0, usualFindings, longGrade(usualGradeBytes))
	b.ReportAllocs()
	for b.Loop() {
		must(EncodeLine(&e))(b)
	}
}
