package cases

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"flag"
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

var updateMade = flag.Bool("update-made", false, "write the golden digests of generated cases")

func drawRecipe(t *rapid.T) Recipe {
	return Recipe{
		MadeVersion, rapid.SampledFrom(MadeFamilies()).Draw(t, "family"),
		rapid.IntRange(1, 5).Draw(t, "level"), rapid.IntRange(0, MaxMadeSeed).Draw(t, "seed"),
	}
}

func compose(t interface {
	Helper()
	Fatal(...any)
}, r Recipe,
) *Case {
	t.Helper()
	c, err := Compose(r.Version, r.Family, r.Level, r.Seed)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestEveryFamilyIsMade(t *testing.T) {
	for _, id := range Vocab.IDs("family") {
		if made().family(id) == nil {
			t.Errorf("no case is made of %q", id)
		}
	}
}

func TestSameRecipeSameBytes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRecipe(t)
		first := Canonical(compose(t, r))
		if again := Canonical(compose(t, r)); !bytes.Equal(first, again) {
			t.Fatalf("%s\nthen\n%s", first, again)
		}
		r.Seed = (r.Seed + 1) % (MaxMadeSeed + 1)
		if bytes.Equal(first, Canonical(compose(t, r))) {
			t.Fatal("the next seed gives the same case")
		}
	})
}

func TestRefusedRecipes(t *testing.T) {
	for _, bad := range []struct {
		r    Recipe
		says string
	}{
		{Recipe{2, "milia", 1, 1}, "generator version 2; this program makes version 1"},
		{Recipe{1, "mila", 1, 1}, `did you mean "milia"?`},
		{Recipe{1, "milia", 0, 1}, "the level is 0; it must be from 1 to 5"},
		{Recipe{1, "milia", 6, 1}, "the level is 6"},
		{Recipe{1, "milia", 1, -1}, "the seed is -1"},
		{Recipe{1, "milia", 1, MaxMadeSeed + 1}, "it must be from 0 to 67108863"},
	} {
		if _, err := Compose(bad.r.Version, bad.r.Family, bad.r.Level, bad.r.Seed); err == nil || !strings.Contains(err.Error(), bad.says) {
			t.Errorf("%+v: %v; want %q", bad.r, err, bad.says)
		}
	}
}

// A generated case passes every check of a pack, without one warning: no side
// or width that cannot be, no pregnant man, no INR without warfarin, no answer
// that hides a fact, no title that tells.
func TestMadeCasesPassTheChecksOfPacks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := *compose(t, drawRecipe(t))
		c.ID = strings.ToLower(c.ID)
		p := &Pack{Format: PackFormat, ID: "sample", Version: 1, Title: "t", Author: "a", Language: "en-GB", Licence: "CC0-1.0", Cases: []Case{c}}
		read, _, sheet := ReadPack("made", Canonical(p))
		if len(sheet.Faults)+len(sheet.Warnings) > 0 {
			t.Fatalf("%v %v\n%s", sheet.Faults, sheet.Warnings, Canonical(&c))
		}
		if !bytes.Equal(Canonical(&read.Cases[0]), Canonical(&c)) {
			t.Fatal("a case changes when it is written and read")
		}
	})
}

var sentenceOver = regexp.MustCompile(`[.?]+(?:\s+|$)`)

// Nothing that is read before the debrief names the family: neither its label
// nor a word that only labels of lesions hold. What the patient says first is
// chosen by what anybody can see, so no family has words of its own, but the
// wound, which the eye knows.
func TestNothingTellsTheFamily(t *testing.T) {
	telling := []string{
		"cherry", "spider", "angioma", "venous", "telangiectasia", "vein", "keratosis", "dermatosis", "papulosa", "nigra", "skin tag",
		"wart", "verruca", "mollusc", "granuloma", "naevus", "nevus", "mole", "melanoma", "actinic", "squamous", "carcinoma", "basal",
		"cancer", "tumour", "syringoma", "milia", "dermatofibroma", "keloid", "hypertrophic", "horn", "wound", "sebaceous", "seborrhoeic",
	}
	rapid.Check(t, func(t *rapid.T) {
		c := compose(t, drawRecipe(t))
		texts := []string{c.Title, c.Presenting}
		for _, topic := range Vocab.IDs("topic") {
			texts = append(texts, c.Ask[topic])
		}
		for _, text := range texts {
			for _, word := range telling {
				if strings.Contains(strings.ToLower(text), word) {
					t.Fatalf("%s %s: %q holds %q", c.Lesion.Family, c.Lesion.Looks(), text, word)
				}
			}
		}
		if own := made().family(c.Lesion.Family).Openings; len(own) > 0 && c.Lesion.Family != "wound_bleeding" {
			t.Fatalf("%s has opening words of its own", c.Lesion.Family)
		}
	})
}

func TestMadeWordsAreShort(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := compose(t, drawRecipe(t))
		texts := []string{c.Title, c.Presenting, c.Teaching}
		for _, topic := range Vocab.IDs("topic") {
			texts = append(texts, AnswerFor(c, topic, UK).Text)
		}
		for _, text := range texts {
			if strings.TrimSpace(text) == "" || strings.ContainsAny(text, "!_{}") {
				t.Fatalf("%s: %q", c.ID, text)
			}
			for _, s := range sentenceOver.Split(text, -1) {
				if n := len(strings.Fields(s)); n > 20 {
					t.Fatalf("%s: %d words in %q", c.ID, n, s)
				}
			}
		}
		if n := len([]rune(c.Presenting)); n > maxOpening {
			t.Fatalf("%d letters in %q", n, c.Presenting)
		}
		if n := len(sentenceOver.FindAllString(c.Teaching, -1)); n < 2 || n > 5 {
			t.Fatalf("%d sentences in %q", n, c.Teaching)
		}
	})
}

// What a level holds shows only when asked: none at the first, and never in
// the patient's first words.
func TestHazardsByLevel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRecipe(t)
		c := compose(t, r)
		found := len(hazardsOf(c))
		n := made().Levels[r.Level-1].Hazards
		if found > n[1] || r.Level == 1 && found > 0 {
			t.Fatalf("level %d holds %v", r.Level, hazardsOf(c))
		}
	})
}

// hazardsOf names the groups of hazard that a case holds.
func hazardsOf(c *Case) []string {
	p, s := &c.Patient, &c.Setting
	history := p.History
	if f := made().family(c.Lesion.Family); len(f.History) > 0 {
		history = without(history, []string{f.History[0].Illness})
	}
	var found []string
	for _, g := range []struct {
		there bool
		group string
	}{
		{len(p.Devices) > 0, "device"},
		{p.HasThinner(), "thinner"},
		{len(p.Medicines) > 0 && !p.HasThinner(), "medicine"},
		{len(p.Allergies) > 0, "allergy"},
		{p.Pregnant || p.Breastfeeding, "pregnancy"},
		{s.OxygenRunning || s.MetalTable || !s.SmokeEvacuator || !s.PathologyService || s.Unit != nil, "room"},
		{contains(c.Lesion.Features, "infected"), "lesion"},
		{len(history) > 0 && len(p.Devices) == 0 && len(p.Medicines) == 0 && !s.OxygenRunning, "illness"},
	} {
		if g.there {
			found = append(found, g.group)
		}
	}
	return found
}

// The golden file holds 20 codes with the SHA-256 of the case each gives. It
// changes only with MadeVersion: a code in somebody's hands must not change
// its case.
func TestGoldenCodes(t *testing.T) {
	const file = "testdata/made-v1.txt"
	if *updateMade {
		var b strings.Builder
		for i := range 20 {
			r := Recipe{MadeVersion, MadeFamilies()[i*5%len(MadeFamilies())], 1 + i%5, i * 3_355_443}
			c := compose(t, r)
			fmt.Fprintf(&b, "%s %s\n", c.ID, caseSum(c))
		}
		if err := os.WriteFile(file, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines := 0
	for scan := bufio.NewScanner(f); scan.Scan(); lines++ {
		code, want, _ := strings.Cut(scan.Text(), " ")
		c, err := MadeCase(code)
		if err != nil {
			t.Fatal(err)
		}
		if got := caseSum(c); got != want {
			t.Errorf("%s gives another case than it did: %s, not %s; raise MadeVersion", code, got, want)
		}
	}
	if lines != 20 {
		t.Errorf("%s holds %d codes; 20 are kept", file, lines)
	}
}

func caseSum(c *Case) string {
	sum := sha256.Sum256(Canonical(c))
	return hex.EncodeToString(sum[:])
}

func BenchmarkCompose(b *testing.B) {
	families := MadeFamilies()
	i := 0
	for b.Loop() {
		if _, err := Compose(MadeVersion, families[i%len(families)], 1+i%5, i); err != nil {
			b.Fatal(err)
		}
		i++
	}
}
