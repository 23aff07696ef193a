package screen

import (
	_ "embed"
	"fmt"
	"slices"

	"leastwatt/cases"
	"leastwatt/scoring"
)

// roundSize is how many pictures a short round has.
const roundSize = 10

//go:embed lookalikes.json
var lookalikesJSON []byte

// lookalikes are lesions that a hurried eye takes for one another.
type lookalikes struct {
	Group    string   `json:"group" jsonschema:"required" form:"id"`
	Families []string `json:"families" jsonschema:"required" vocab:"family"`
	Told     string   `json:"told" jsonschema:"required"` // how the members are told apart
	Source   string   `json:"source" jsonschema:"required"`
}

type lookalikeFile struct {
	About  string       `json:"about" jsonschema:"required"`
	Groups []lookalikes `json:"groups" jsonschema:"required"`
}

var lookalikeGroups = mustReadLookalikes()

func mustReadLookalikes() []lookalikes {
	groups, err := readLookalikes("game/screen/lookalikes.json", lookalikesJSON)
	if err != nil {
		panic(err) // the file is part of the program; a test reads it too
	}
	return groups
}

// readLookalikes reads the file, or returns [cases.Faults]. A family belongs
// to one group at most.
func readLookalikes(file string, data []byte) ([]lookalikes, error) {
	var f lookalikeFile
	sheet, tree := readData(file, data, &f)
	home := map[string]string{}
	for i, g := range f.Groups {
		for k, family := range g.Families {
			if home[family] != "" {
				sheet.Errorf(tree.At("groups", i, "families", k), "%q is in %q already; keep it in one group", family, home[family])
			}
			home[family] = g.Group
		}
	}
	if len(sheet.Faults) > 0 {
		sheet.Faults.Sort()
		return nil, sheet.Faults
	}
	return f.Groups, nil
}

// groupOf is the group of what a lesion is taken for, -1 when it has none.
func groupOf(c *cases.Case) int {
	return slices.IndexFunc(lookalikeGroups, func(g lookalikes) bool { return slices.Contains(g.Families, c.Lesion.Looks()) })
}

// NewRound picks the pictures of a short round: from each group of look-alikes
// as many that may be left as not, in an order of the desk's seed, and another
// selection each time. It is an error when the packs at hand hold none.
func (d *Desk) NewRound(timed bool) (*Round, error) {
	d.rounds++
	picked := d.pickRound(d.Seed + uint64(d.rounds)*0x9E3779B97F4A7C15)
	if len(picked) == 0 {
		return nil, fmt.Errorf("no case at hand can be decided from a picture, a touch and the card alone")
	}
	r := &Round{Timed: timed}
	for _, e := range picked {
		r.Items = append(r.Items, Glance{entry: e, LeftS: RoundSeconds})
		d.glanced[e.ref] = true
	}
	return r, nil
}

// pickRound takes pairs from the groups in turn, mixes them and keeps as many
// as a round has. Cases that an earlier round showed come last.
func (d *Desk) pickRound(seed uint64) []entry {
	var harmless, doubtful [16][]entry // by group
	for _, e := range d.fair() {
		g := groupOf(e.c)
		if e.mayLeave {
			harmless[g] = append(harmless[g], e.entry)
		} else {
			doubtful[g] = append(doubtful[g], e.entry)
		}
	}
	groups := make([]int, len(lookalikeGroups))
	for i := range groups {
		groups[i] = i
		d.mix(harmless[i], seed)
		d.mix(doubtful[i], seed)
	}
	slices.SortStableFunc(groups, func(a, b int) int {
		return compareHash(shuffle(seed, lookalikeGroups[a].Group), shuffle(seed, lookalikeGroups[b].Group))
	})
	var picked, spare []entry
	for turn := 0; turn < len(d.order); turn++ {
		for _, g := range groups {
			h, t := at(harmless[g], turn), at(doubtful[g], turn)
			if len(h)+len(t) == 2 {
				picked = append(picked, h[0], t[0])
			} else {
				spare = append(spare, append(h, t...)...)
			}
		}
	}
	// A few more than needed, so that nobody can count how many may be left.
	picked = append(picked, spare...)
	picked = picked[:min(len(picked), roundSize+roundSize/5*2)]
	d.mix(picked, seed+1)
	return picked[:min(len(picked), roundSize)]
}

// at is the entry at an index as a list, empty when there is none.
func at(list []entry, i int) []entry {
	if i < len(list) {
		return list[i : i+1 : i+1]
	}
	return nil
}

// mix orders entries by a seed, those of earlier rounds behind the others.
func (d *Desk) mix(list []entry, seed uint64) {
	slices.SortStableFunc(list, func(a, b entry) int {
		if seen := b2i(d.glanced[a.ref]) - b2i(d.glanced[b.ref]); seen != 0 {
			return seen
		}
		return compareHash(shuffle(seed, a.ref), shuffle(seed, b.ref))
	})
}

func compareHash(a, b uint64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// fairEntry is a case that a short round may show.
type fairEntry struct {
	entry
	mayLeave bool // leaving it is acceptable
}

// fair lists the cases that can be decided at a glance: they are look-alikes,
// and the same rules judge every decision in the same way whether or not they
// know what only questions bring out. Nobody is graded on what they could not
// learn.
func (d *Desk) fair() []fairEntry {
	if len(d.fairCases) == 0 {
		for _, e := range d.order {
			if groupOf(e.c) < 0 {
				continue
			}
			if fair, mayLeave := d.fairAtAGlance(e); fair {
				d.fairCases = append(d.fairCases, fairEntry{e, mayLeave})
			}
		}
	}
	return d.fairCases
}

func (d *Desk) fairAtAGlance(e entry) (fair, mayLeave bool) {
	whole, err := scoring.NewJudge(d.Set, e.c, e.pack.LocalRules, d.Settings.Labels)
	if err != nil {
		return false, false
	}
	seen, err := scoring.NewJudge(d.Set, atAGlance(e.c), e.pack.LocalRules, d.Settings.Labels)
	if err != nil {
		return false, false
	}
	yes, no := true, false
	for _, disposition := range append([]string{""}, scoring.Dispositions...) {
		for _, send := range []*bool{nil, &yes, &no} {
			g := Glance{entry: e, Disposition: disposition, Send: send}
			if !slices.EqualFunc(marksAtAGlance(whole, &g), marksAtAGlance(seen, &g), sameMark) {
				return false, false
			}
		}
	}
	return true, whole.Acceptable("leave")
}

func sameMark(a, b scoring.Mark) bool { return a.Row == b.Row && a.Kind == b.Kind }

// atAGlance is a case with only what a round shows of it: age, sex, weight,
// skin type, site and size from the card, and the features that the picture
// and a touch show.
func atAGlance(c *cases.Case) *cases.Case {
	seen := *c
	p := c.Patient
	seen.Patient = cases.Patient{AgeYears: p.AgeYears, Sex: p.Sex, WeightKG: p.WeightKG, HeightCM: p.HeightCM, SkinType: p.SkinType}
	seen.Setting = cases.Setting{SmokeEvacuator: true, PathologyService: true}
	seen.Ask, seen.Expect = nil, nil
	seen.Lesion.Report = nil
	seen.Lesion.Features = nil
	for _, f := range c.Lesion.Features {
		if slices.ContainsFunc(cases.Reveals(f), func(topic string) bool { return topic == "feel" || topic == "magnify" }) || f == "on_a_stalk" {
			seen.Lesion.Features = append(seen.Lesion.Features, f)
		}
	}
	return &seen
}
