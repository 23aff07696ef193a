package packs

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"sort"
	"strconv"
	"strings"
	"testing"

	"leastwatt/cases"
)

// proseFile is a file of the program that holds words a person reads, and the
// keys under which they stand. "ask" stands for every answer below it.
type proseFile struct {
	glob string
	keys []string
}

var proseFiles = []proseFile{
	{"../../scoring/tables/rules/*.json", []string{"says", "why", "right", "fault", "advice_says"}},
	{"../../scoring/tables/terms.json", []string{"says"}},
	{"../../scoring/dose/ceilings.json", []string{"says", "why", "notes"}},
	{"../vocabulary.json", []string{"uk", "us", "line", "title"}},
	{"../../game/screen/phrases.json", []string{"name", "says", "absent", "yes", "no", "yes_past", "no_past", "absent_past"}},
	{"../../game/screen/notewords.json", []string{"text", "past"}},
	{"../../game/screen/lookalikes.json", []string{"told"}},
	{"../made.json", []string{"where", "diagnosis", "histology", "teaching", "texts", "small", "wide", "many", "one"}},
	{"*/pack.json", []string{"title", "note", "presenting", "ask", "teaching", "diagnosis", "histology", "reason", "margins"}},
}

// said is one text that a person reads, and where it stands.
type said struct {
	file, key string
	line      int
	text      string
}

func (s said) place() string { return fmt.Sprintf("%s:%d: %s", s.file, s.line, s.key) }

// allProse reads every text that a person reads, by file.
func allProse(t *testing.T) map[string][]said {
	t.Helper()
	texts := map[string][]said{}
	for _, f := range proseFiles {
		files, err := filepath.Glob(f.glob)
		if err != nil || len(files) == 0 {
			t.Fatalf("no file %s (%v)", f.glob, err)
		}
		for _, file := range files {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			tree, faults := cases.ReadJSON(file, data)
			if tree == nil {
				t.Fatal(faults)
			}
			name := strings.TrimPrefix(filepath.ToSlash(filepath.Join("cases/packs", file)), "./")
			collect(tree, f.keys, "", func(key string, v *cases.Value) {
				texts[name] = append(texts[name], said{name, key, v.Line, v.Text})
			})
			if len(texts[name]) == 0 {
				t.Errorf("%s: nothing to read under %v", name, f.keys)
			}
		}
	}
	return texts
}

// collect hands on every text that stands under one of the keys, or anywhere
// below it.
func collect(v *cases.Value, keys []string, under string, found func(string, *cases.Value)) {
	switch v.Kind {
	case cases.String:
		if under != "" {
			found(under, v)
		}
	case cases.List:
		for _, item := range v.Items {
			collect(item, keys, under, found)
		}
	case cases.Object:
		for _, k := range v.Keys {
			next := under
			if slices.Contains(keys, k.Name) {
				next = k.Name
			}
			collect(k.Value, keys, next, found)
		}
	}
}

// run runs a tool of the Debian packages that the tests ask for.
func run(t *testing.T, input, tool string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(tool); err != nil {
		t.Fatalf("%s is not installed; \".ci/packages test\" installs hunspell, its dictionaries and diction", tool)
	}
	cmd := exec.Command(tool, args...)
	cmd.Stdin = strings.NewReader(input)
	cmd.Env = append(os.Environ(), "LC_ALL=C.UTF-8")
	var out, faults bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &faults
	if err := cmd.Run(); err != nil {
		t.Fatalf("%s %v: %v\n%s", tool, args, err, faults.String())
	}
	return out.String()
}

// possessive is the ending that dictionaries hold for some words only.
var possessive = regexp.MustCompile(`(\pL)['’]s\b`)

// misspelt lists the words of a text that neither the dictionary nor, when it
// is named, the word list knows.
func misspelt(t *testing.T, dictionary, list, text string) []string {
	t.Helper()
	args := []string{"-l", "-i", "utf-8", "-d", dictionary}
	if list != "" {
		full, err := filepath.Abs(list)
		if err != nil {
			t.Fatal(err)
		}
		args = append(args, "-p", full)
	}
	words := strings.Fields(run(t, possessive.ReplaceAllString(text, "$1"), "hunspell", args...))
	sort.Strings(words)
	return slices.Compact(words)
}

const wordList = "testdata/words.txt"

// Every text is spelled as British readers spell, and after the one setting
// as American readers do. The word list holds trade terms and names alone:
// each is needed, and a slip cannot hide in it unused.
func TestSpelling(t *testing.T) {
	british, american := map[string][]said{}, map[string][]said{}
	var uk, us strings.Builder
	for file, texts := range allProse(t) {
		for _, s := range texts {
			if s.key != "us" || file != "cases/vocabulary.json" {
				fmt.Fprintln(&uk, s.text)
				british[file] = append(british[file], s)
			}
			s.text = cases.Spell(s.text, cases.US)
			fmt.Fprintln(&us, s.text)
			american[file] = append(american[file], s)
		}
	}
	for _, language := range []struct {
		dictionary, text string
		texts            map[string][]said
	}{{"en_GB", uk.String(), british}, {"en_US", us.String(), american}} {
		for _, word := range misspelt(t, language.dictionary, wordList, language.text) {
			t.Errorf("%s: %q at %s", language.dictionary, word, placesOf(word, language.texts))
		}
	}
	if got := misspelt(t, "en_GB", wordList, "The coulour of the tumor"); len(got) != 2 {
		t.Errorf("the tool finds %v in a text with two slips", got)
	}
	if got := misspelt(t, "en_US", wordList, "The colour of the tumor"); len(got) != 1 {
		t.Errorf("the tool finds %v in a text with one British word", got)
	}
	data, err := os.ReadFile(wordList)
	if err != nil {
		t.Fatal(err)
	}
	listed := strings.Fields(string(data))
	if !slices.IsSortedFunc(listed, func(a, b string) int { return strings.Compare(strings.ToLower(a), strings.ToLower(b)) }) {
		t.Errorf("%s is not in the order of the alphabet", wordList)
	}
	needed := append(misspelt(t, "en_GB", "", uk.String()), misspelt(t, "en_US", "", us.String())...)
	for _, word := range listed {
		if !slices.ContainsFunc(needed, func(n string) bool { return strings.EqualFold(n, word) }) {
			t.Errorf("%s: %q is not needed", wordList, word)
		}
	}
	t.Logf("%d words of prose, %d trade terms", len(strings.Fields(uk.String())), len(listed))
}

// The one setting changes what is spelled in two ways, and nothing that holds
// such a stem by chance.
func TestSpellingSetting(t *testing.T) {
	for uk, us := range map[string]string{
		"anaesthetic": "anesthetic", "Haemostasis": "Hemostasis", "aluminium chloride": "aluminum chloride", "Vapour": "Vapor",
		"phaeochromocytoma": "pheochromocytoma", "methaemoglobinaemia": "methemoglobinemia", "weak defences": "weak defenses",
		"a programme, programmed": "a program, programmed", "centred in the centre": "centered in the center",
		"sticking plaster": "sticking bandage", "plastered over": "plastered over", "an organism is organised": "an organism is organized",
		"analysed by analysis": "analyzed by analysis", "an ampoule": "an ampule", "symmetry": "symmetry", "three millimetres": "three millimeters",
		"the minimum for his mum": "the minimum for his mum", "molluscum": "molluscum", "practised": "practiced",
	} {
		if got := cases.Spell(uk, cases.US); got != us {
			t.Errorf("%q becomes %q; %q is American", uk, got, us)
		}
		if got := cases.Spell(uk, cases.UK); got != uk {
			t.Errorf("%q becomes %q for British readers", uk, got)
		}
	}
}

// placesOf names up to three places that hold the word.
func placesOf(word string, texts map[string][]said) string {
	whole := regexp.MustCompile(`(^|[^\pL])` + regexp.QuoteMeta(word) + `($|[^\pL])`)
	var places []string
	for _, list := range texts {
		for _, s := range list {
			if whole.MatchString(s.text) {
				places = append(places, s.place())
			}
		}
	}
	sort.Strings(places)
	return strings.Join(places[:min(3, len(places))], ", ")
}

var kincaidLine = regexp.MustCompile(`Kincaid: (-?[0-9.]+)`)

// readingGrade is the Flesch-Kincaid grade that the tool gives.
func readingGrade(t *testing.T, text string) float64 {
	t.Helper()
	m := kincaidLine.FindStringSubmatch(run(t, text, "style", "-L", "en"))
	if m == nil {
		t.Fatal("the tool names no grade")
	}
	g, err := strconv.ParseFloat(m[1], 64)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// The prose of each file reads at grade 9 at most.
func TestReadingGradeOfEachFile(t *testing.T) {
	const most = 9
	texts := allProse(t)
	var files []string
	for file := range texts {
		files = append(files, file)
	}
	sort.Strings(files)
	for _, file := range files {
		var prose strings.Builder
		for _, s := range texts[file] {
			if !isSentence(s.text) {
				continue
			}
			prose.WriteString(s.text + "\n\n")
		}
		if prose.Len() == 0 {
			continue
		}
		g := readingGrade(t, prose.String())
		t.Logf("%-42s grade %.1f", file, g)
		if g > most {
			t.Errorf("%s: reading grade %.1f; at most %d", file, g, most)
		}
	}
	if g := readingGrade(t, "The utilisation of electrodesiccation necessitates comprehensive preparation, including documentation of contraindications."); g < 12 {
		t.Errorf("the tool grades a hard sentence %.1f", g)
	}
}

// isSentence tells prose from labels: a label has no reading grade.
func isSentence(text string) bool {
	return strings.HasSuffix(strings.TrimRight(text, "\"”'"), ".") || strings.HasSuffix(text, "?")
}
