package solve

import (
	"slices"
	"sync"

	"leastwatt/scoring/tables"
)

// kit is the changes that could satisfy each row, one group a plan phrase.
type kit map[*tables.Row][][]move

var kits sync.Map // by *tables.Set; a set's kit is made once and then only read

// kitFor makes the kit of a set of tables. Decision and technique are never
// changed: they are what a search is for.
func kitFor(set *tables.Set) kit {
	if k, ok := kits.Load(set); ok {
		return k.(kit)
	}
	k := kit{}
	for _, r := range set.Rows {
		if groups := groupsFor(r); len(groups) > 0 {
			k[r] = groups
		}
	}
	made, _ := kits.LoadOrStore(set, k)
	return made.(kit)
}

// groupsFor lists the changes that could satisfy what asks, a group a phrase.
func groupsFor(r asker) [][]move {
	var groups [][]move
	injecting := false
	for _, fact := range tables.PlanFacts() {
		if !r.Reads(fact) || fact == "disposition" || fact == "technique" {
			continue
		}
		if wholeAnaesthetic(fact) {
			if injecting {
				continue // one group of whole anaesthetics serves every part of them
			}
			injecting = true
		}
		if group := moves(r, fact); len(group) > 0 {
			groups = append(groups, group)
		}
	}
	// The phrase with the fewest values is tried first: it is the one that
	// the row is about more often than not.
	slices.SortStableFunc(groups, func(a, b []move) int { return len(a) - len(b) })
	return groups
}
