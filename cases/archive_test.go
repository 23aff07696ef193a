package cases

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"encoding/binary"
	"fmt"
	"io"
	"io/fs"
	"strings"
	"testing"
)

// entry is one file of a zip that a test makes.
type entry struct {
	name, text string
	mode       fs.FileMode
}

func makeZip(t testing.TB, entries ...entry) []byte {
	t.Helper()
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, e := range entries {
		h := &zip.FileHeader{Name: e.name, Method: zip.Deflate}
		if e.mode != 0 {
			h.SetMode(e.mode)
		}
		f, err := w.CreateHeader(h)
		if err != nil {
			t.Fatal(err)
		}
		if !strings.HasSuffix(e.name, "/") {
			if _, err := f.Write([]byte(e.text)); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// makeBomb packs files of zeros, each of the given MiB, into a small zip.
func makeBomb(t testing.TB, files, mib int) []byte {
	t.Helper()
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	w.RegisterCompressor(zip.Deflate, func(out io.Writer) (io.WriteCloser, error) { return flate.NewWriter(out, flate.BestSpeed) })
	zeros := make([]byte, 1<<20)
	for i := range files {
		f, err := w.Create(fmt.Sprintf("zeros-%d.bin", i))
		if err != nil {
			t.Fatal(err)
		}
		for range mib {
			if _, err := f.Write(zeros); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// claimSize overwrites the unpacked size that the first entry of the central
// directory claims.
func claimSize(t testing.TB, data []byte, size uint32) []byte {
	t.Helper()
	at := bytes.Index(data, []byte("PK\x01\x02"))
	if at < 0 {
		t.Fatal("no central directory")
	}
	out := bytes.Clone(data)
	binary.LittleEndian.PutUint32(out[at+24:], size)
	return out
}

func TestOpenZipReads(t *testing.T) {
	for name, entries := range map[string][]entry{
		"flat":                      {{name: "pack.json", text: samplePack}, {name: "a.txt", text: "x"}},
		"folders":                   {{name: "pack.json", text: samplePack}, {name: "pictures/"}, {name: "pictures/a.txt", text: "x"}},
		"nested":                    {{name: "sample/"}, {name: "sample/pack.json", text: samplePack}, {name: "sample/b/a.txt", text: "x"}},
		"nested without its folder": {{name: "my pack (1)/pack.json", text: samplePack}},
		"nested beside __MACOSX":    {{name: "sample/pack.json", text: samplePack}, {name: "__MACOSX/"}, {name: "__MACOSX/sample/._pack.json", text: "\x00"}},
		"names in other letters":    {{name: "pack.json", text: samplePack}, {name: "bilder/ü 日本.txt", text: "x"}, {name: "..a/b..c", text: "x"}},
	} {
		l := loadZip("sample.zip", makeZip(t, entries...))
		if l.Pack == nil || l.Pack.ID != "sample" || l.File != "sample.zip/pack.json" {
			t.Errorf("%s: %v, file %q", name, l.Faults, l.File)
		}
	}
}

func TestOpenZipRefuses(t *testing.T) {
	good := entry{name: "pack.json", text: samplePack}
	whole := makeZip(t, good)
	crowd := make([]entry, MaxZipFiles+1)
	for i := range crowd {
		crowd[i].name = fmt.Sprintf("f%d", i)
	}
	damaged := bytes.Clone(whole)
	damaged[60] ^= 0x55
	wrongSum := bytes.Clone(whole)
	binary.LittleEndian.PutUint32(wrongSum[bytes.Index(wrongSum, []byte("PK\x01\x02"))+16:], 1)
	bomb := makeBomb(t, 1, 257)
	otherMethod := bytes.Clone(whole)
	binary.LittleEndian.PutUint16(otherMethod[bytes.Index(otherMethod, []byte("PK\x01\x02"))+10:], 99)
	for _, test := range []struct {
		name  string
		data  []byte
		words string
	}{
		{"climbs", makeZip(t, good, entry{name: "../evil.txt"}), `"../evil.txt"; a name may not climb out of its folder`},
		{"climbs inside", makeZip(t, good, entry{name: "a/../../evil.txt"}), `may not climb out`},
		{"climbs and stays", makeZip(t, good, entry{name: "a/../evil.txt"}), `may not climb out`},
		{"a climbing folder", makeZip(t, good, entry{name: "../evil/"}), `may not climb out`},
		{"climbs beside __MACOSX", makeZip(t, good, entry{name: "__MACOSX/../../evil"}), `may not climb out`},
		{"only dots", makeZip(t, good, entry{name: ".."}), `may not climb out`},
		{"absolute", makeZip(t, good, entry{name: "/etc/evil"}), `"/etc/evil"; absolute names are refused`},
		{"a drive", makeZip(t, good, entry{name: "C:/evil"}), `"C:/evil"; absolute names are refused`},
		{"backslash", makeZip(t, good, entry{name: `..\evil`}), `names with a backslash are refused`},
		{"backslash inside", makeZip(t, good, entry{name: `a\b`}), `names with a backslash are refused`},
		{"control character", makeZip(t, good, entry{name: "a\x1b[2J.png"}), `"a\x1b[2J.png"; names with a control character are refused`},
		{"NUL", makeZip(t, good, entry{name: "a\x00b"}), `names with a control character are refused`},
		{"empty name", makeZip(t, good, entry{name: ""}), `this is no plain name of a file`},
		{"empty part", makeZip(t, good, entry{name: "a//b"}), `this is no plain name of a file`},
		{"dot part", makeZip(t, good, entry{name: "./a"}), `this is no plain name of a file`},
		{"not UTF-8", makeZip(t, good, entry{name: "a\xff"}), `this is no plain name of a file`},
		{"link", makeZip(t, good, entry{name: "link", text: "/etc/passwd", mode: fs.ModeSymlink | 0o777}), `the link "link"; links are refused`},
		{"link in place of the pack", makeZip(t, entry{name: "pack.json", text: "/etc/passwd", mode: fs.ModeSymlink | 0o777}), `links are refused`},
		{"pipe", makeZip(t, good, entry{name: "pipe", mode: fs.ModeNamedPipe | 0o644}), `which is no plain file`},
		{"device", makeZip(t, good, entry{name: "zero", mode: fs.ModeDevice | 0o644}), `which is no plain file`},
		{"too many files", makeZip(t, crowd...), `the zip holds 2001 files; at most 2000 are read`},
		{"the same name twice", makeZip(t, good, good), `the zip holds "pack.json" twice`},
		{"bomb", bomb, `the zip unpacks to more than 256 MiB`},
		{"bomb in parts", makeBomb(t, 3, 100), `the zip unpacks to more than 256 MiB`},
		{"bomb that claims little", claimSize(t, bomb, 10), `"zeros-0.bin" in the zip is damaged`},
		{"claims more than it holds", claimSize(t, whole, 257<<20), `the zip unpacks to more than 256 MiB`},
		{"claims a little more", claimSize(t, whole, uint32(len(samplePack))+1), `"pack.json" in the zip is damaged`},
		{"damaged", damaged, `"pack.json" in the zip is damaged`},
		{"wrong sum", wrongSum, `"pack.json" in the zip is damaged: zip: checksum error`},
		{"unknown method", otherMethod, `"pack.json" in the zip cannot be read`},
		{"truncated", whole[:len(whole)-30], `this is not a zip that can be read`},
		{"empty file", nil, `this is not a zip that can be read`},
		{"no zip", []byte(samplePack), `this is not a zip that can be read`},
		{"over 64 MiB", make([]byte, MaxZipBytes+1), `the zip is larger than 64 MiB`},
		{"no pack", makeZip(t, entry{name: "a.txt"}), `there is no pack.json in this zip`},
		{"nothing", makeZip(t), `there is no pack.json in this zip`},
		{"two folders", makeZip(t, entry{name: "a/pack.json", text: samplePack}, entry{name: "b/pack.json", text: samplePack}), `there is no pack.json in this zip`},
		{"a folder called pack.json", makeZip(t, entry{name: "pack.json/"}, entry{name: "x"}), `there is no pack.json in this zip`},
	} {
		t.Run(test.name, func(t *testing.T) {
			l := loadZip("bad.zip", test.data)
			if l.Pack != nil {
				t.Error("a pack was read")
			}
			wantFault(t, l.Faults, 1, 1, test.words)
			if l.Faults[0].File != "bad.zip" {
				t.Errorf("the fault stands in %q", l.Faults[0].File)
			}
		})
	}
}

func TestZipAtItsLimitsIsRead(t *testing.T) {
	crowd := make([]entry, MaxZipFiles)
	for i := range crowd {
		crowd[i].name = fmt.Sprintf("f%d", i)
	}
	crowd[7] = entry{name: "pack.json", text: samplePack}
	if l := loadZip("full.zip", makeZip(t, crowd...)); l.Pack == nil {
		t.Error(l.Faults)
	}
	if _, err := OpenZip(makeBomb(t, 1, 256)); err != nil {
		t.Errorf("exactly 256 MiB: %v", err)
	}
}

// A fault inside a zipped pack names the zip and the file in it.
func TestZipFaultHasItsPlace(t *testing.T) {
	text, line, column := unmark(t, replaced(`"weight_kg": 70`, `"weight_kg": «700`))
	l := loadZip("dir/bad.zip", makeZip(t, entry{name: "p/pack.json", text: text}))
	wantFault(t, l.Faults, line, column, "700")
	if l.Faults[0].File != "dir/bad.zip/pack.json" {
		t.Errorf("the fault stands in %q", l.Faults[0].File)
	}
}
