package plain

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"leastwatt/cases"
	"leastwatt/cases/packs"
	"leastwatt/game/screen"
)

func builtin(t testing.TB) []*cases.Pack {
	t.Helper()
	var list []*cases.Pack
	for _, name := range packs.Names() {
		data, err := fs.ReadFile(packs.FS(), name+"/pack.json")
		if err != nil {
			t.Fatal(err)
		}
		p, _, sheet := cases.ReadPack(name+"/pack.json", data)
		if p == nil {
			t.Fatal(sheet.Faults)
		}
		list = append(list, p)
	}
	return list
}

// onePack is a pack with the cases of the given ids, in that order by level,
// so that a script does not depend on what other cases are built in.
func onePack(t testing.TB, ids ...string) []*cases.Pack {
	t.Helper()
	p := &cases.Pack{ID: "script", Version: 1, Title: "Script", Author: "Harrow Fell teaching clinic", Language: "en-GB", Licence: "CC0-1.0"}
	for i, id := range ids {
		for _, b := range builtin(t) {
			for _, c := range b.Cases {
				if b.ID+"/"+c.ID == id {
					c.Level = i + 1
					p.Cases = append(p.Cases, c)
				}
			}
		}
	}
	if len(p.Cases) != len(ids) {
		t.Fatalf("found %d of the cases %v", len(p.Cases), ids)
	}
	return []*cases.Pack{p}
}

// A script is lines of "> " input, "= " text that must follow it before the
// next prompt, and "! " text that must not. Lines beginning with # are words
// for the reader.
type turn struct {
	input       string
	must, never []string
}

func readScript(t *testing.T, path string) []turn {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	turns := []turn{{}}
	for i, line := range strings.Split(string(data), "\n") {
		last := &turns[len(turns)-1]
		switch {
		case line == "", line[0] == '#':
		case line == ">":
			turns = append(turns, turn{})
		case strings.HasPrefix(line, "> "):
			turns = append(turns, turn{input: line[2:]})
		case strings.HasPrefix(line, "= "):
			last.must = append(last.must, line[2:])
		case strings.HasPrefix(line, "! "):
			last.never = append(last.never, line[2:])
		default:
			t.Fatalf("%s:%d: %q is no line of a script", path, i+1, line)
		}
	}
	return turns
}

func flat(s string) string { return strings.Join(strings.Fields(s), " ") }

func TestScripts(t *testing.T) {
	files, err := filepath.Glob("testdata/*.txt")
	if err != nil || len(files) < 3 {
		t.Fatalf("found the scripts %v (%v)", files, err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			turns := readScript(t, file)
			var in strings.Builder
			for _, turn := range turns[1:] {
				in.WriteString(turn.input + "\n")
			}
			var out strings.Builder
			cfg := screen.Config{
				Packs: onePack(t, "first-list/wedding", "first-list/collar"), Settings: screen.DefaultSettings(),
				LoadPack: func(fs.FS, string) screen.PackReport {
					return screen.PackReport{Name: "broken", Faults: cases.Faults{{File: "broken/pack.json", Line: 3, Column: 9, Message: "no"}}}
				},
			}
			if err := Run(strings.NewReader(in.String()), &out, cfg); err != nil {
				t.Fatal(err)
			}
			checkWidth(t, out.String())
			said := strings.Split("\n"+out.String(), "\n> ")
			for i, turn := range turns {
				if i >= len(said) {
					t.Fatalf("the program ended before %q", turn.input)
				}
				now := flat(said[i])
				for _, want := range turn.must {
					if !strings.Contains(now, flat(want)) {
						t.Errorf("after %q there is no %q in:\n%s", turn.input, want, said[i])
					}
				}
				for _, bad := range turn.never {
					if strings.Contains(now, flat(bad)) {
						t.Errorf("after %q there is %q in:\n%s", turn.input, bad, said[i])
					}
				}
			}
		})
	}
}

func checkWidth(t testing.TB, out string) {
	t.Helper()
	for _, l := range strings.Split(out, "\n") {
		if n := utf8.RuneCountInString(l); n > width+2 { // an answer follows its prompt "> "
			t.Errorf("a line has %d characters: %q", n, l)
		}
		if strings.ContainsAny(l, "\u202f\u2009\u00a0\t\r\x1b") {
			t.Errorf("a line holds spaces or signs that not every terminal knows: %q", l)
		}
	}
}

// Any input ends cleanly, within the width, and tells no truth before a grade.
func TestAnyInputEndsCleanly(t *testing.T) {
	list := builtin(t)
	words := []string{
		"", "?", "<", "u", "1", "2", "3", "7", "30", "99", "-", "none", "plan", "case", "note", "all", "today", "usual", "2.5", "1 2 3",
		"touching", "lidocaine", "p 3", "n", "credits", "copy", "words us", "labels uk", "rules nose", "packs", "x", "grade", "findings", "-1", "0", "list", "card", "short", "s", "again",
	}
	rapid.Check(t, func(t *rapid.T) {
		answers := rapid.SliceOfN(rapid.SampledFrom(words), 0, 60).Draw(t, "answers")
		var out strings.Builder
		cfg := screen.Config{Packs: list, Seed: 3, Settings: screen.DefaultSettings(), FirstCase: rapid.Bool().Draw(t, "first")}
		if err := Run(strings.NewReader(strings.Join(answers, "\n")), &out, cfg); err != nil {
			t.Fatal(err)
		}
		if !strings.HasSuffix(out.String(), "The end. Your plans are kept as you left them.\n") {
			t.Fatalf("it ends with %q", out.String()[max(0, out.Len()-80):])
		}
		if before, _, _ := strings.Cut(out.String(), "Debrief."); strings.Contains(before, "What it was") {
			t.Fatal("the truth is told before the debrief")
		}
	})
}

type brokenPipe struct{}

func (brokenPipe) Write([]byte) (int, error) { return 0, errors.New("broken pipe") }

func TestErrorsComeBack(t *testing.T) {
	if err := Run(strings.NewReader(""), brokenPipe{}, screen.Config{Packs: builtin(t)}); err == nil || !strings.Contains(err.Error(), "broken pipe") {
		t.Errorf("a broken pipe gives %v", err)
	}
	if err := Run(strings.NewReader(""), &strings.Builder{}, screen.Config{}); err == nil {
		t.Error("no pack at all is no error")
	}
}

func TestWrap(t *testing.T) {
	for _, test := range []struct {
		text string
		room int
		want string
	}{
		{"a b c", 3, "a b|c"}, {"", 5, ""}, {"abcdefgh ij", 4, "abcdefgh|ij"}, {"één twee", 8, "één twee"}, {"  a   b ", 9, "a b"},
	} {
		if got := strings.Join(wrap(test.text, test.room), "|"); got != test.want {
			t.Errorf("%q in %d: %q, should be %q", test.text, test.room, got, test.want)
		}
	}
}
