package logbook

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
)

// attempt is an invented attempt, number n, with as many findings and as long
// a grade as wanted.
func attempt(n, findings int, grade string) Entry {
	milli := 10 * (n % 101)
	a := &Attempt{
		Case: fmt.Sprintf("harrow-fell/case-%d", n%40), CaseDigest: strings.Repeat(fmt.Sprintf("%02x", n%256), 32),
		Family: "seborrhoeic_keratosis", Level: 1 + n%5, Bench: "none",
		TablesVersion: "3", TablesDigest: strings.Repeat("5a", 32), Labels: "cautious", Words: "uk", ModelVersion: "1",
		Verdict: []string{"safe", "needs work", "unsafe"}[n%3], Points: n % 60, Of: 60, ConfidenceMilli: &milli, TookS: 30 + n%200,
		From: FromToday, Helped: n%7 == 0,
		Plan:  json.RawMessage(fmt.Sprintf(`{"format":"leastwatt.plan/1","case":"harrow-fell/case-%d","disposition":"treat"}`, n%40)),
		Grade: json.RawMessage(grade),
	}
	domains := []string{"decision", "tissue", "technique", "power", "anaesthesia", "site", "patient", "room", "bench", "aftercare"}
	for i := range findings {
		a.Findings = append(a.Findings, FindingMark{
			Rule: fmt.Sprintf("%s_rule_%d", domains[i%10], i), Domain: domains[i%10],
			Kind: []string{"credit", "advice", "caution", "never"}[(n+i)%4], Points: i % 3, Of: 2,
		})
	}
	return Entry{ID: fmt.Sprintf("c%019d", n), UTC: 1_700_000_000_000 + int64(n)*60_000, OffsetMin: 60, Learner: fmt.Sprintf("fell-%d", n%3), Kind: KindAttempt, Attempt: a}
}

// longGrade is a grade of about n bytes.
func longGrade(n int) string {
	return `{"verdict":"safe","why":"` + strings.Repeat("Use the least power that works. ", n/32) + `"}`
}

func small(n int) Entry { return attempt(n, 3, `{"verdict":"safe"}`) }

func disagreement(n int, reason string) Entry {
	return Entry{
		ID: fmt.Sprintf("d%019d", n), UTC: 1_700_000_000_000 + int64(n)*1000, OffsetMin: -330, Learner: "fell-1", Kind: KindDisagreement,
		Disagreement: &Disagreement{Rule: "power_low", Case: "harrow-fell/case-1", CaseDigest: "aa", TablesVersion: "3", TablesDigest: "bb", Reason: reason, Attempt: "c1"},
	}
}

func step(n int) Entry {
	return Entry{
		ID: fmt.Sprintf("e%019d", n), UTC: 1_700_000_000_500 + int64(n)*1000, Learner: "fell-2", Kind: KindAssessment,
		Assessment: json.RawMessage(`{"format":"leastwatt.assessment/1","run":"r1","step":"begin"}`),
	}
}

func must[T any](v T, err error) func(testing.TB) T {
	return func(t testing.TB) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func openMemory(t testing.TB, m *Memory) (*Book, Report) {
	t.Helper()
	b, report, err := Open(m)
	if err != nil {
		t.Fatal(err)
	}
	return b, report
}

func fill(t testing.TB, b *Book, entries ...Entry) {
	t.Helper()
	for _, e := range entries {
		if err := b.Append(e); err != nil {
			t.Fatal(err)
		}
	}
}

func ids(t testing.TB, b *Book) []string {
	t.Helper()
	got := []string{}
	for e, err := range b.Entries() {
		if err != nil {
			t.Fatal(err)
		}
		got = append(got, e.ID)
	}
	return got
}
