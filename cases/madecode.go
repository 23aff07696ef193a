package cases

import (
	"fmt"
	"strings"
)

// Recipe is all that a generated case is made from: the same recipe gives the
// same case on every machine.
type Recipe struct {
	Version int    // of the generator
	Family  string // what truly is there
	Level   int    // 1 to 5
	Seed    int    // 0 to MaxMadeSeed
}

// A code is 40 bits, scrambled, as eight letters of five bits, and a ninth
// letter that checks them:
//
//	version 5 bits, family 6 bits, level 3 bits, seed 26 bits
const (
	madeSeedBits   = 26
	madeLevelBits  = 3
	madeFamilyBits = 6
	madeCodeLength = 9

	// MaxMadeSeed is the largest seed that a code can hold.
	MaxMadeSeed = 1<<madeSeedBits - 1
)

// madeLetters are the digits and the capitals less I, L, O and U: none is
// taken for another, and few words can be spelled.
const madeLetters = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"

// MadeCode writes a recipe as a code like "7KQ-4TB-9XM". The error says what
// in the recipe no generator here makes.
func MadeCode(r Recipe) (string, error) {
	f, err := checkRecipe(r)
	if err != nil {
		return "", err
	}
	n := uint64(r.Version)
	n = n<<madeFamilyBits | uint64(f.Number)
	n = n<<madeLevelBits | uint64(r.Level)
	n = n<<madeSeedBits | uint64(r.Seed)
	n = scramble(n)
	var digits [madeCodeLength]byte
	for i := madeCodeLength - 2; i >= 0; i-- {
		digits[i] = byte(n & 31)
		n >>= 5
	}
	digits[madeCodeLength-1] = checkDigit(digits[:madeCodeLength-1])
	var b strings.Builder
	for i, d := range digits {
		if i > 0 && i%3 == 0 {
			b.WriteByte('-')
		}
		b.WriteByte(madeLetters[d])
	}
	return b.String(), nil
}

// ParseMadeCode reads a code. Small letters, spaces and missing or other
// hyphens are forgiven; O is read as 0, I and L as 1. A wrong letter, or two
// that changed places, is an error, and so is a version or a family that this
// program does not make.
func ParseMadeCode(code string) (Recipe, error) {
	digits, err := madeDigits(code)
	if err != nil {
		return Recipe{}, err
	}
	last := madeCodeLength - 1
	if checkDigit(digits[:last]) != digits[last] {
		return Recipe{}, fmt.Errorf("the case code %q has a slip in it: its letters do not fit each other; copy it again", short(code))
	}
	var n uint64
	for _, d := range digits[:last] {
		n = n<<5 | uint64(d)
	}
	n = unscramble(n)
	take := func(bits int) int {
		v := int(n & (1<<bits - 1))
		n >>= bits
		return v
	}
	r := Recipe{Seed: take(madeSeedBits), Level: take(madeLevelBits)}
	number := take(madeFamilyBits)
	r.Version = int(n)
	if err := checkVersion(r.Version); err != nil {
		return Recipe{}, fmt.Errorf("the case code %q cannot be used: %w", short(code), err)
	}
	for i := range made().Families {
		if f := &made().Families[i]; f.Number == number {
			r.Family = f.Family
		}
	}
	if r.Family == "" || r.Level < 1 || r.Level > 5 {
		return Recipe{}, fmt.Errorf("the case code %q names no case that generator version %d makes; copy it again", short(code), r.Version)
	}
	return r, nil
}

// madeDigits turns the letters of a code into numbers from 0 to 31.
func madeDigits(code string) ([madeCodeLength]byte, error) {
	var digits [madeCodeLength]byte
	n := 0
	for _, c := range code {
		switch {
		case c == '-' || c == ' ':
			continue
		case c >= 'a' && c <= 'z':
			c -= 'a' - 'A'
		}
		switch c {
		case 'O':
			c = '0'
		case 'I', 'L':
			c = '1'
		}
		at := strings.IndexRune(madeLetters, c)
		if at < 0 {
			return digits, fmt.Errorf("%q holds %q, which no case code has; a code looks like 7KQ-4TB-9XM", short(code), c)
		}
		if n < madeCodeLength {
			digits[n] = byte(at)
		}
		n++
	}
	if n != madeCodeLength {
		return digits, fmt.Errorf("%q has %d letters; a case code has %d, like 7KQ-4TB-9XM", short(code), n, madeCodeLength)
	}
	return digits, nil
}

// checkDigit is the sum of the digits, each times another power of 2, in the
// field of 32 elements (polynomial x^5 + x^2 + 1). Every single wrong letter
// changes it, and so does every swap of two letters, since no two weights are
// equal.
func checkDigit(digits []byte) byte {
	var sum byte
	for _, d := range digits {
		sum = double(sum ^ d)
	}
	return sum
}

func double(d byte) byte {
	d <<= 1
	if d&32 != 0 {
		d ^= 0b100101
	}
	return d
}

// scramble mixes 40 bits so that a code reads as noise and neighbours share
// little: six rounds of a Feistel network over two halves of 20 bits. It hides
// nothing from someone who looks for it; it keeps eyes from reading a family
// off a code.
func scramble(n uint64) uint64 {
	left, right := n>>20, n&halfMask
	for round := range uint64(scrambleRounds) {
		left, right = right, left^mixHalf(right, round)
	}
	return left<<20 | right
}

func unscramble(n uint64) uint64 {
	left, right := n>>20, n&halfMask
	for round := uint64(scrambleRounds); round > 0; round-- {
		left, right = right^mixHalf(left, round-1), left
	}
	return left<<20 | right
}

const (
	halfMask       = 1<<20 - 1
	scrambleRounds = 6
)

func mixHalf(half, round uint64) uint64 { return stir(half<<8|round+1) >> 17 & halfMask }
