package screen

import (
	"fmt"
	"testing"
	"time"

	"leastwatt/cases"
	"leastwatt/scoring/logbook"
	"leastwatt/scoring/solve"
	"leastwatt/scoring/tables"
)

// yearsOfAttempts is a logbook of n attempts over the built-in cases, a hundred
// a day.
func yearsOfAttempts(b *testing.B, n int) *logbook.Memory {
	b.Helper()
	d, err := NewDesk(config())
	if err != nil {
		b.Fatal(err)
	}
	var heads []*logbook.Attempt
	for i, e := range d.order {
		s, err := d.Open(e.ref)
		if err != nil {
			b.Fatal(err)
		}
		j, err := s.Judge(tables.Builtin, "cautious")
		if err != nil {
			b.Fatal(err)
		}
		plan := solve.Solve(j, e.ref).Plan
		if i%3 == 0 {
			plan.Advice = nil
		}
		s.Change("", func(p *cases.Plan) { *p = *plan })
		if err := s.GradeNow(tables.Builtin, "cautious", cases.UK); err != nil {
			b.Fatal(err)
		}
		a, err := attemptOf(s, s.Grade, logbook.FromList)
		if err != nil {
			b.Fatal(err)
		}
		a.Grade = []byte(`{}`) // bodies are passed over in opening
		heads = append(heads, a)
	}
	store := &logbook.Memory{}
	const day = 24 * 60 * 60 * 1000
	for i := range n {
		line, err := logbook.EncodeLine(&logbook.Entry{
			ID: fmt.Sprintf("a%07d", i), UTC: 1_700_000_000_000 + int64(i)*day/100, Learner: "learner", Kind: logbook.KindAttempt, Attempt: heads[i%len(heads)],
		})
		if err != nil {
			b.Fatal(err)
		}
		store.Kept = append(store.Kept, line...)
	}
	return store
}

// BenchmarkTodayAfter100k opens a logbook of 100,000 attempts and makes today's
// list.
func BenchmarkTodayAfter100k(b *testing.B) {
	store := yearsOfAttempts(b, 100_000)
	b.ReportAllocs()
	for b.Loop() {
		book, _, err := logbook.Open(store)
		if err != nil {
			b.Fatal(err)
		}
		cfg := config()
		cfg.Today = func() time.Time { return time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC) }
		cfg.Record = RecordConfig{Book: book, NewID: nextID}
		d, err := NewDesk(cfg)
		if err != nil {
			b.Fatal(err)
		}
		if len(d.today()) == 0 || d.rec.attempts != 100_000 {
			b.Fatalf("%d attempts, nothing for today", d.rec.attempts)
		}
	}
}
