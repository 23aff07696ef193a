package assess

import (
	"fmt"
	"slices"

	"leastwatt/cases"
	"leastwatt/scoring/solve"
	"leastwatt/scoring/tables"
)

// Usual is what a pass asks where no pack says otherwise.
const (
	UsualLeast      = cases.Milli(900) // share of a domain's items that must be right
	UsualLeastItems = 10               // a domain with fewer is told and not judged
)

const usualReason = "Panels set 88 to 91 % for a procedure's checklist: Academic Medicine, 2018, 93:1079."

// Blueprint is a plan of a run: which kinds of case, how long, and what must
// be reached in each domain.
type Blueprint struct {
	Title      string // for the sheet: whose it is
	Kinds      []cases.AssessmentKind
	LimitMin   int // 0: no limit
	Bench      bool
	LeastItems int
	standards  map[string]cases.Standard
}

// Usual is the program's own blueprint: twelve cases, mixed much as a list in a
// clinic would be, with the doubtful ones as often as the harmless.
func Usual() *Blueprint {
	return &Blueprint{
		Title:      "The usual run",
		LimitMin:   60,
		LeastItems: UsualLeastItems,
		Kinds: []cases.AssessmentKind{
			{Count: 2, LevelMin: 2, LevelMax: 3, Families: []string{"cherry_angioma", "spider_angioma", "facial_telangiectasia", "venous_lake", "pyogenic_granuloma"}},
			{Count: 2, LevelMin: 2, LevelMax: 4, Families: []string{"seborrhoeic_keratosis", "pigmented_suspicious", "melanoma", "dermatosis_papulosa_nigra"}},
			{Count: 2, LevelMin: 2, LevelMax: 4, Families: []string{"bcc_nodular", "intradermal_naevus", "bcc_infiltrative", "sebaceous_hyperplasia"}},
			{Count: 2, LevelMin: 2, LevelMax: 4, Families: []string{"common_wart", "cutaneous_horn", "scc_invasive", "keratoacanthoma", "genital_wart", "filiform_wart"}},
			{Count: 2, LevelMin: 2, LevelMax: 4, Families: []string{"actinic_keratosis", "scc_in_situ", "bcc_superficial"}},
			{Count: 1, LevelMin: 2, LevelMax: 3, Families: []string{"skin_tag", "milia", "molluscum", "syringoma"}},
			{Count: 1, LevelMin: 2, LevelMax: 4, Families: []string{"dermatofibroma", "keloid", "hypertrophic_scar", "leg_veins", "wound_bleeding"}},
		},
	}
}

// Of is the blueprint that a pack holds; nil when it holds none.
func Of(p *cases.Pack) *Blueprint {
	a := p.Assessment
	if a == nil {
		return nil
	}
	b := &Blueprint{Title: p.Title, Kinds: a.Kinds, Bench: a.Bench, LeastItems: UsualLeastItems, standards: map[string]cases.Standard{}}
	if a.TimeLimitMin != nil {
		b.LimitMin = int(*a.TimeLimitMin / 1000)
	}
	if a.LeastItems != nil {
		b.LeastItems = int(*a.LeastItems / 1000)
	}
	for _, s := range a.Standards {
		b.standards[s.Domain] = s
	}
	return b
}

// Standard is what a domain asks, and why.
func (b *Blueprint) Standard(domain string) (least cases.Milli, reason string) {
	if s, ok := b.standards[domain]; ok {
		return s.Least, s.Reason
	}
	return UsualLeast, usualReason
}

// Cases is how many cases a run has.
func (b *Blueprint) Cases() int {
	n := 0
	for _, k := range b.Kinds {
		n += k.Count
	}
	return n
}

// Draw makes the cases of a run and gives their codes in the order they are
// offered. The same blueprint, seed and tables give the same codes on every
// machine. The error is that of the generator.
func (b *Blueprint) Draw(set *tables.Set, seed uint64) ([]string, error) {
	var codes []string
	d := dice(seed)
	for _, k := range b.Kinds {
		families := slices.Clone(k.Families)
		for i := range k.Count {
			if i%len(families) == 0 { // each family once before any comes twice
				d.shuffle(len(families), func(x, y int) { families[x], families[y] = families[y], families[x] })
			}
			level := k.LevelMin + d.below(k.LevelMax-k.LevelMin+1)
			a, err := solve.Accept(set, cases.MadeVersion, families[i%len(families)], level, d.below(cases.MaxMadeSeed+1))
			if err != nil {
				return nil, fmt.Errorf("a case of the run cannot be made: %w", err)
			}
			codes = append(codes, a.Case.ID)
		}
	}
	d.shuffle(len(codes), func(x, y int) { codes[x], codes[y] = codes[y], codes[x] })
	return codes, nil
}

// throws is a splitmix64 generator (Steele, Lea and Flood, Fast splittable
// pseudorandom number generators, OOPSLA 2014, Portland): whole numbers only.
type throws struct{ state uint64 }

func dice(seed uint64) *throws { return &throws{seed} }

// below throws a number from 0 to n-1. With n far below 2^64 the remainder is
// as good as even.
func (t *throws) below(n int) int {
	t.state += 0x9E3779B97F4A7C15
	z := t.state
	z = (z ^ z>>30) * 0xBF58476D1CE4E5B9
	z = (z ^ z>>27) * 0x94D049BB133111EB
	return int((z ^ z>>31) % uint64(n))
}

func (t *throws) shuffle(n int, swap func(i, j int)) {
	for i := n - 1; i > 0; i-- {
		swap(i, t.below(i+1))
	}
}
