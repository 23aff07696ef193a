package cases

import (
	"fmt"
	"strconv"
)

// Generated cases
//
// A generated case is composed from a [Recipe]: version, family, level and
// seed. Nothing else goes in: no clock, no rules, no setting. So a code of nine
// letters gives the same case on every machine, and a supervisor can read it
// out over a telephone. Whether a case can be solved is asked elsewhere, before
// a code is handed out; the code holds the seed that passed.
//
// Composition runs in the order in which life would: who comes, where the
// lesion sits, what it is like, what the patient carries in and what the room
// holds, and last the words. Each step reads its own rows of made.json and its
// own dice.

// MadeVersion is the generator's version. It rises when any recipe would give
// another case, and codes of an older version are then refused by name.
const MadeVersion = 1

// MadePackID is the pack id of generated cases: their names are made/CODE.
const MadePackID = "made"

// madePack carries generated cases where a pack is needed.
var madePack = &Pack{
	Format: PackFormat, ID: MadePackID, Version: MadeVersion, Title: "Made cases", Author: "Harrow Fell teaching clinic",
	Language: "en-GB", Licence: "CC0-1.0", Note: "Composed from a code. Every patient is invented.",
}

// MadePack is the pack that generated cases belong to. It lists none: each is
// composed from its code when asked for.
func MadePack() *Pack { return madePack }

// MadeFamilies lists the families that cases can be composed for.
func MadeFamilies() []string {
	ids := make([]string, len(made().Families))
	for i := range ids {
		ids[i] = made().Families[i].Family
	}
	return ids
}

// MadeCase composes the case that a code names. The error says what is wrong
// with the code.
func MadeCase(code string) (*Case, error) {
	r, err := ParseMadeCode(code)
	if err != nil {
		return nil, err
	}
	return Compose(r.Version, r.Family, r.Level, r.Seed)
}

// Compose makes the case of a recipe. The error says which part of the recipe
// no generator here makes.
func Compose(version int, family string, level, seed int) (*Case, error) {
	r := Recipe{version, family, level, seed}
	f, err := checkRecipe(r)
	if err != nil {
		return nil, err
	}
	code, err := MadeCode(r)
	if err != nil {
		return nil, err
	}
	m := &composing{made(), r, f, &Case{ID: code, Level: level}, nil}
	m.patient()
	m.lesion()
	m.report()
	m.room()
	m.hazards()
	m.words()
	return m.c, nil
}

// composing is a case on its way.
type composing struct {
	*madeTables
	recipe  Recipe
	f       *madeFamily
	c       *Case
	lessons []string // what the debrief teaches, most telling first
}

func (m *composing) dice(subject string) *dice {
	return newDice(subject, m.recipe.Version, m.f.Number, m.recipe.Level, m.recipe.Seed)
}

func checkVersion(version int) error {
	if version != MadeVersion {
		return fmt.Errorf("it is of generator version %d; this program makes version %d", version, MadeVersion)
	}
	return nil
}

func checkRecipe(r Recipe) (*madeFamily, error) {
	if err := checkVersion(r.Version); err != nil {
		return nil, fmt.Errorf("this recipe cannot be used: %w", err)
	}
	f := made().family(r.Family)
	switch {
	case f == nil:
		return nil, fmt.Errorf("no case is made of the family %q%s", short(r.Family), DidYouMean(r.Family, MadeFamilies()))
	case r.Level < 1 || r.Level > 5:
		return nil, fmt.Errorf("the level is %d; it must be from 1 to 5", r.Level)
	case r.Seed < 0 || r.Seed > MaxMadeSeed:
		return nil, fmt.Errorf("the seed is %s; it must be from 0 to %d", strconv.Itoa(r.Seed), MaxMadeSeed)
	}
	return f, nil
}
