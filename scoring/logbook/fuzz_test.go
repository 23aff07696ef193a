package logbook

import (
	"bytes"
	"testing"
)

func seedLines(f *testing.F) [][]byte {
	var out [][]byte
	for _, e := range kinds() {
		line, err := EncodeLine(&e)
		if err != nil {
			f.Fatal(err)
		}
		out = append(out, line)
	}
	return out
}

// mended gives bytes checksums and lengths that fit, so that the fuzzer gets
// behind them.
func mended(line []byte) []byte {
	f := parseFrame(line)
	if !f.complete || f.head > len(line)-2 {
		return line
	}
	line = bytes.Clone(line)
	putHex8(line[atLine:], uint32(len(line)))
	putHex8(line[atBodyCRC:], checksum(line[f.head:len(line)-1]))
	putHex8(line[atHeadCRC:], checksum(line[atCovered:f.head]))
	return line
}

// FuzzDecodeLine: no line panics, and one that is read and may be written
// again comes back the same.
func FuzzDecodeLine(f *testing.F) {
	for _, line := range seedLines(f) {
		f.Add(line)
		f.Add(line[:len(line)/2])
	}
	f.Fuzz(func(t *testing.T, line []byte) {
		for _, b := range [][]byte{line, mended(line)} {
			e, err := DecodeLine(b)
			if err != nil {
				continue
			}
			again, err := EncodeLine(e)
			if err != nil {
				continue // of a kind or with ids that this program does not write
			}
			back, err := DecodeLine(again)
			if err != nil {
				t.Fatalf("%q is read and written, and then: %v", b, err)
			}
			if third, err := EncodeLine(back); err != nil || !bytes.Equal(again, third) {
				t.Fatalf("%q is written as\n%q and then as\n%q", b, again, third)
			}
		}
	})
}

// FuzzImport: whatever a file holds, what was here stays, importing again adds
// nothing, and the logbook opens clean.
func FuzzImport(f *testing.F) {
	all := bytes.Join(seedLines(f), nil)
	f.Add(all)
	f.Add(all[100:])
	f.Add([]byte("\n{}\n\x00\xff"))
	f.Fuzz(func(t *testing.T, file []byte) {
		m := &Memory{}
		book, _ := openMemory(t, m)
		fill(t, book, small(77))
		for _, data := range [][]byte{file, mended(file)} {
			must(book.Import("copy.jsonl", bytes.NewReader(data)))(t)
			if report := must(book.Import("copy.jsonl", bytes.NewReader(data)))(t); report.Added != 0 {
				t.Fatalf("the second time adds %d", report.Added)
			}
		}
		again, report := openMemory(t, m)
		if len(report.Damaged) > 0 || again.Len() != book.Len() {
			t.Fatalf("%+v, %d of %d", report, again.Len(), book.Len())
		}
		must(again.Whole(small(77).ID))(t)
		must(again.All())(t)
	})
}

// FuzzOpen: whatever lies in the file, opening sets aside what is no line and
// the second opening is clean.
func FuzzOpen(f *testing.F) {
	all := bytes.Join(seedLines(f), nil)
	f.Add(all)
	f.Add(all[:len(all)-30])
	f.Add(bytes.Replace(all, []byte("\n"), []byte("\x00"), 2))
	f.Fuzz(func(t *testing.T, file []byte) {
		m := &Memory{Kept: bytes.Clone(file)}
		book, report := openMemory(t, m)
		fill(t, book, small(77))
		again, second := openMemory(t, m)
		if len(second.Damaged) > 0 || second.Repeated > 0 || again.Len() != book.Len() {
			t.Fatalf("%+v, then %+v", report, second)
		}
	})
}
