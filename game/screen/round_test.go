package screen

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"leastwatt/cases"
)

// roundOf makes a round of built-in cases.
func roundOf(t testing.TB, timed bool, refs ...string) *Round {
	t.Helper()
	r := &Round{Timed: timed}
	for _, ref := range refs {
		pack, c := caseOf(t, ref)
		r.Items = append(r.Items, Glance{entry: entry{ref, pack, c}, LeftS: RoundSeconds})
	}
	return r
}

// Whatever is done, the round goes forward one picture at a time, counts no
// second twice, and undo gives back the state before the last decision.
func TestARoundGoesForward(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pack, c := anyCase(t)
		r := &Round{Timed: rapid.Bool().Draw(t, "timed")}
		for range rapid.IntRange(1, 4).Draw(t, "pictures") {
			r.Items = append(r.Items, Glance{entry: entry{pack.ID + "/" + c.ID, pack, c}, LeftS: rapid.IntRange(1, 5).Draw(t, "seconds")})
		}
		for range rapid.IntRange(0, 40).Draw(t, "steps") {
			was, at := append([]Glance(nil), r.Items...), r.At
			switch rapid.IntRange(0, 4).Draw(t, "step") {
			case 0:
				r.Decide(rapid.SampledFrom(cases.Vocab.IDs("disposition")).Draw(t, "decision"))
				mustUndoTo(t, r, was, at)
			case 1:
				r.Send(rapid.Bool().Draw(t, "send"))
				mustUndoTo(t, r, was, at)
			case 2:
				r.Tick()
			case 3:
				r.Undo()
				if r.At > at || r.At < at-1 {
					t.Fatalf("undo went from picture %d to %d", at, r.At)
				}
				continue
			case 4:
				r.Skip()
			}
			if r.At < at || r.At > at+1 {
				t.Fatalf("a step went from picture %d to %d", at, r.At)
			}
			for i, g := range r.Items {
				switch {
				case i != at && !same(g, was[i]):
					t.Fatalf("picture %d changed while %d was in hand", i, at)
				case g.LeftS < 0 || g.LeftS < was[i].LeftS-1 || !r.Timed && g.LeftS != was[i].LeftS:
					t.Fatalf("the clock of picture %d went from %d to %d", i, was[i].LeftS, g.LeftS)
				case g.TimeUp != (r.Timed && g.LeftS == 0):
					t.Fatalf("picture %d has %d s left, time up %v", i, g.LeftS, g.TimeUp)
				}
			}
		}
	})
}

func same(a, b Glance) bool {
	return a.ref == b.ref && a.Disposition == b.Disposition && a.LeftS == b.LeftS && a.TimeUp == b.TimeUp && a.Lens == b.Lens && cmp.Equal(a.Send, b.Send)
}

// mustUndoTo takes a decision back on a copy of the round and compares.
func mustUndoTo(t *rapid.T, r *Round, was []Glance, at int) {
	if r.Over() || at == r.At && same(r.Items[at], was[at]) {
		return
	}
	undone := &Round{Items: append([]Glance(nil), r.Items...), At: r.At, Timed: r.Timed}
	if !undone.Undo() || undone.At != at {
		t.Fatalf("undo led to picture %d, should be %d", undone.At, at)
	}
	for i := range was {
		if !same(undone.Items[i], was[i]) {
			t.Fatalf("undo left picture %d as %+v", i, undone.Items[i])
		}
	}
}

func TestOnlyTreatingAsksForTissue(t *testing.T) {
	for _, d := range cases.Vocab.IDs("disposition") {
		r := roundOf(t, false, "first-list/collar", "first-list/strap")
		r.Send(true) // nothing is decided yet
		if r.Items[0].Send != nil {
			t.Fatal("tissue was decided before the decision")
		}
		r.Decide(d)
		if wait := r.At == 0; wait != (d == "treat") {
			t.Errorf("after %s the round waits for tissue: %v", d, wait)
		}
	}
}

func TestChoiceInWords(t *testing.T) {
	for _, test := range []struct {
		glance Glance
		want   string
	}{
		{Glance{}, "not decided"},
		{Glance{Disposition: "treat"}, "treat, tissue not decided"},
		{Glance{Disposition: "treat", Send: yes()}, "treat, tissue sent"},
		{Glance{Disposition: "treat", Send: no()}, "treat, nothing sent"},
		{Glance{Disposition: "biopsy_first"}, "biopsy first"},
		{Glance{Disposition: "leave"}, "leave"},
	} {
		if got := test.glance.Choice(cases.UK); got != test.want {
			t.Errorf("%q, should be %q", got, test.want)
		}
	}
	for left, want := range map[int]int{60: 60, 56: 60, 55: 55, 11: 15, 10: 10, 9: 9, 1: 1, 0: 0} {
		if got := ShownSeconds(left); got != want {
			t.Errorf("%d s are shown as %d, should be %d", left, got, want)
		}
	}
}
