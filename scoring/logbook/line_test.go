package logbook

import (
	"bytes"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Check values of CRC-32C: RFC 3720 (iSCSI), appendix B.4, 2004.
func TestChecksumIsCastagnoli(t *testing.T) {
	rising := make([]byte, 32)
	for i := range rising {
		rising[i] = byte(i)
	}
	for _, c := range []struct {
		data []byte
		want uint32
	}{
		{make([]byte, 32), 0x8a9136aa},
		{bytes.Repeat([]byte{0xff}, 32), 0x62a8ab43},
		{rising, 0x46dd794e},
	} {
		if got := checksum(c.data); got != c.want {
			t.Errorf("%x has %08x, want %08x", c.data, got, c.want)
		}
	}
}

func kinds() []Entry {
	benched := small(4)
	benched.Attempt.Bench = "done"
	benched.Attempt.Session = json.RawMessage(`{"format":"leastwatt.session/1","events":[]}`)
	benched.Attempt.Outcome = json.RawMessage(`{"energy_j":"12.5"}`)
	bare := small(5)
	bare.Attempt.Findings, bare.Attempt.ConfidenceMilli = nil, nil
	resume := Entry{ID: "r1", UTC: 5, Learner: "A_b-9", Kind: KindResume, Resume: json.RawMessage(`{"format":"leastwatt.resume/1","case":"harrow-fell/case-1"}`)}
	return []Entry{small(3), benched, bare, disagreement(1, "The label says 7 mg/kg.\nIt is <not> 4.5 & \u2028 ends."), step(2), resume}
}

func TestLineComesBack(t *testing.T) {
	for _, e := range kinds() {
		line := must(EncodeLine(&e))(t)
		if !json.Valid(line) || bytes.IndexByte(line, '\n') != len(line)-1 {
			t.Errorf("%s: the line is no JSON of one line:\n%s", e.ID, line)
		}
		got := must(DecodeLine(line))(t)
		if diff := cmp.Diff(&e, got); diff != "" {
			t.Error(diff)
		}
		again := must(EncodeLine(got))(t)
		if !bytes.Equal(line, again) {
			t.Errorf("%s is written differently the second time:\n%s%s", e.ID, line, again)
		}
	}
}

// A JSON text with breaks in it becomes one line with the same value.
func TestBreaksInPartsGo(t *testing.T) {
	e := small(1)
	e.Attempt.Grade = json.RawMessage("{\n \"verdict\": \"safe\",\r\n\t\"points\": 3 }")
	got := must(DecodeLine(must(EncodeLine(&e))(t)))(t)
	if string(got.Attempt.Grade) != `{"verdict":"safe","points":3}` {
		t.Errorf("%s", got.Attempt.Grade)
	}
}

func TestEveryFlippedBitIsFound(t *testing.T) {
	for _, e := range kinds() {
		line := must(EncodeLine(&e))(t)
		for i := range line[:len(line)-1] {
			for bit := range 8 {
				line[i] ^= 1 << bit
				if _, err := DecodeLine(line); err == nil {
					t.Fatalf("%s: bit %d of byte %d of %q flips unnoticed", e.ID, bit, i, line)
				}
				line[i] ^= 1 << bit
			}
		}
	}
}

func TestEveryCutIsFound(t *testing.T) {
	e := small(9)
	line := must(EncodeLine(&e))(t)
	for n := range len(line) - 1 {
		if _, err := DecodeLine(line[:n]); err == nil {
			t.Errorf("a line cut to %d of %d bytes is read", n, len(line))
		}
	}
}

func TestRefusedEntries(t *testing.T) {
	for _, c := range []struct {
		want string
		harm func(*Entry)
	}{
		{"identity", func(e *Entry) { e.ID = "" }},
		{"identity", func(e *Entry) { e.ID = `a"b` }},
		{"utc_ms", func(e *Entry) { e.UTC = -1 }},
		{"utc_ms", func(e *Entry) { e.UTC = 1_700_000_000_000_000 }},
		{"offset_min", func(e *Entry) { e.OffsetMin = 2000 }},
		{"learner code", func(e *Entry) { e.Learner = "" }},
		{"learner code", func(e *Entry) { e.Learner = "two words" }},
		{"learner code", func(e *Entry) { e.Learner = strings.Repeat("a", 33) }},
		{"kind", func(e *Entry) { e.Kind = "note" }},
		{"missing", func(e *Entry) { e.Kind = KindResume }},
		{"another part", func(e *Entry) { e.Resume = json.RawMessage("{}") }},
		{"verdict", func(e *Entry) { e.Attempt.Verdict = "fine" }},
		{"from", func(e *Entry) { e.Attempt.From = "bus" }},
		{"confidence_milli", func(e *Entry) { n := 1001; e.Attempt.ConfidenceMilli = &n }},
		{"lacks its plan", func(e *Entry) { e.Attempt.Plan = nil }},
		{"grade is no valid JSON", func(e *Entry) { e.Attempt.Grade = json.RawMessage(`{"a":`) }},
		{"finding 2", func(e *Entry) { e.Attempt.Findings[1].Rule = "a;b" }},
		{"control", func(e *Entry) { e.Attempt.Family = "a\x00" }},
		{"reason", func(e *Entry) { *e = disagreement(1, " ") }},
	} {
		e := small(1)
		c.harm(&e)
		if _, err := EncodeLine(&e); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("want an error about %q, have %v", c.want, err)
		}
	}
}

// A line that fits its checksums and lacks what its kind promises is no entry:
// nobody who reads entries needs to look for that.
func TestKindWithoutItsPart(t *testing.T) {
	for _, kind := range []string{KindAttempt, KindDisagreement} {
		line := logOf(t, step(1))
		line = bytes.Replace(line, []byte(`"kind":"assessment"`), []byte(`"kind":"`+kind+`"`), 1)
		head := parseFrame(line).head + len(kind) - len(KindAssessment)
		putHex8(line[atLine:], uint32(len(line)))
		putHex8(line[atHead:], uint32(head))
		m := &Memory{Kept: append(logOf(t, small(1)), mended(line)...)}
		book, report := openMemory(t, m)
		if report.Kept != 2 {
			t.Fatalf("%+v", report)
		}
		if all, err := book.All(); len(all) != 1 || err == nil || !strings.Contains(err.Error(), "memory:2:1: the entry is of the kind") {
			t.Errorf("%s: %d entries, %v", kind, len(all), err)
		}
		other, _ := openMemory(t, &Memory{})
		if got := must(other.Import("copy.jsonl", bytes.NewReader(m.Kept)))(t); got.Added != 1 || len(got.Damaged) != 1 {
			t.Errorf("%+v", got)
		}
	}
}

// Version 1 is read for ever. The file was written when it was new and is
// never written again.
func TestVersion1IsRead(t *testing.T) {
	data := must(os.ReadFile("testdata/version1.jsonl"))(t)
	book, report := openMemory(t, &Memory{Kept: data})
	if !report.Clean() || report.Kept != len(kinds()) {
		t.Fatalf("%d kept\n%s", report.Kept, report.Text())
	}
	for _, want := range kinds() {
		got := must(book.Whole(want.ID))(t)
		if diff := cmp.Diff(&want, got); diff != "" {
			t.Error(diff)
		}
	}
}
