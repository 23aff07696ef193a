package cases

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestCodeRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRecipe(t)
		code, err := MadeCode(r)
		if err != nil {
			t.Fatal(err)
		}
		loose := strings.ToLower(strings.ReplaceAll(code, "-", " "))
		loose = strings.NewReplacer("0", "o", "1", "l").Replace(loose)
		for _, written := range []string{code, strings.ReplaceAll(code, "-", ""), loose} {
			if got, err := ParseMadeCode(written); err != nil || got != r {
				t.Fatalf("%q: %+v %v; want %+v", written, got, err, r)
			}
		}
		if !caseIDForm.MatchString(MadePackID + "/" + code) {
			t.Fatalf("%q is no name for a case", code)
		}
	})
}

// Every single wrong letter, and every swap of two letters, is caught.
func TestSlipsAreCaught(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		code, err := MadeCode(drawRecipe(t))
		if err != nil {
			t.Fatal(err)
		}
		letters := []byte(strings.ReplaceAll(code, "-", ""))
		try := func(wrong []byte) {
			if r, err := ParseMadeCode(string(wrong)); err == nil {
				t.Fatalf("%s for %s is read as %+v", wrong, letters, r)
			}
		}
		for i := range letters {
			for _, other := range []byte(madeLetters) {
				if other != letters[i] {
					wrong := append([]byte(nil), letters...)
					wrong[i] = other
					try(wrong)
				}
			}
			for k := range i {
				if letters[i] != letters[k] {
					wrong := append([]byte(nil), letters...)
					wrong[i], wrong[k] = wrong[k], wrong[i]
					try(wrong)
				}
			}
		}
		try(letters[1:])
		try(append(letters, '0'))
	})
}

// Neighbours share little: of eight letters that carry the recipe, one in 32
// agrees by chance, so a quarter of a letter a pair.
func TestNeighboursDiffer(t *testing.T) {
	alike, pairs := 0, 0
	for seed := range 2000 {
		for _, other := range []Recipe{{1, "milia", 3, seed + 1}, {1, "milia", 4, seed}, {1, "keloid", 3, seed}} {
			a, errA := MadeCode(Recipe{1, "milia", 3, seed})
			b, errB := MadeCode(other)
			if errA != nil || errB != nil {
				t.Fatal(errA, errB)
			}
			same := 0
			for i := range a {
				if a[i] == b[i] && a[i] != '-' {
					same++
				}
			}
			if same > 5 {
				t.Errorf("%s and %s share %d letters", a, b, same)
			}
			alike += same
			pairs++
		}
	}
	if mean := float64(alike) / float64(pairs); mean > 0.35 {
		t.Errorf("neighbours share %.2f letters on average; chance is 0.28", mean)
	}
}

func TestRefusedCodes(t *testing.T) {
	later, nobody := encodeAnyVersion(2, 1, 1, 7), encodeAnyVersion(1, 62, 1, 7)
	good, err := MadeCode(Recipe{1, "milia", 1, 7})
	if err != nil {
		t.Fatal(err)
	}
	for code, says := range map[string]string{
		"":                "has 0 letters; a case code has 9",
		good[:9]:          "has 7 letters",
		"UUU-UUU-UUU":     `holds 'U', which no case code has`,
		"7KQ-4TB-9X?":     `holds '?'`,
		later:             "generator version 2; this program makes version 1",
		nobody:            "names no case that generator version 1 makes",
		swapLast(good):    "has a slip in it",
		good + "-" + good: "has 18 letters",
	} {
		if _, err := ParseMadeCode(code); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v; want %q", code, err, says)
		}
	}
}

// encodeAnyVersion writes a code as a later program might.
func encodeAnyVersion(version, family, level, seed uint64) string {
	n := scramble(version<<35 | family<<29 | level<<26 | seed)
	var digits [madeCodeLength]byte
	for i := madeCodeLength - 2; i >= 0; i-- {
		digits[i] = byte(n & 31)
		n >>= 5
	}
	digits[madeCodeLength-1] = checkDigit(digits[:madeCodeLength-1])
	var b strings.Builder
	for _, d := range digits {
		b.WriteByte(madeLetters[d])
	}
	return b.String()
}

// swapLast puts another letter in the last place.
func swapLast(code string) string {
	last := strings.IndexByte(madeLetters, code[len(code)-1])
	return code[:len(code)-1] + string(madeLetters[(last+1)%32])
}

func FuzzParseMadeCode(f *testing.F) {
	for _, code := range []string{"", "JS8-W2Y-RRV", "js8w2yrrv", "O1l-ILo-000", "7KQ-4TB-9XM", "\xff", "é", strings.Repeat("A", 5000)} {
		f.Add(code)
	}
	f.Fuzz(func(t *testing.T, code string) {
		r, err := ParseMadeCode(code)
		if err != nil {
			if len(err.Error()) > 500 {
				t.Fatalf("a message of %d bytes", len(err.Error()))
			}
			return
		}
		written, err := MadeCode(r)
		if err != nil {
			t.Fatalf("%q gives %+v: %v", code, r, err)
		}
		if again, err := ParseMadeCode(written); err != nil || again != r {
			t.Fatalf("%q gives %+v, written %q, read %+v %v", code, r, written, again, err)
		}
		if c, err := Compose(r.Version, r.Family, r.Level, r.Seed); err != nil || c.ID != written {
			t.Fatalf("%q: %v", code, err)
		}
	})
}
