package mastery

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The published test of the long-term scheduler, that is without steps within
// a day: Open Spaced Repetition project, go-fsrs (version 6 of the algorithm),
// fsrs_test.go, TestLongTermScheduler. The intervals are those of the test; its
// scheduler also forces the intervals of the four grades apart.
func TestSpacingAgainstPublishedRun(t *testing.T) {
	grades := []Recalled{3, 3, 3, 3, 3, 3, 1, 1, 3, 3, 3, 3, 3}
	intervals := []int{3, 14, 57, 196, 586, 1559, 10, 1, 3, 5, 9, 15, 25}
	stability := []float64{
		2.3065, 13.8269, 56.9567, 196.2353, 586.4835, 1559.3567, 9.8832, 1.3527, 2.392, 4.8562, 8.7624, 15.186, 25.1362,
	}
	difficulty := []float64{
		2.1181, 2.1112, 2.1043, 2.0975, 2.0906, 2.0837, 7.3832, 9.1251, 9.1112, 9.0973, 9.0835, 9.0696, 9.0558,
	}
	var m Memory
	for i, g := range grades {
		if i == 0 {
			m = FSRS6.First(g)
		} else {
			m = FSRS6.Next(m, g, intervals[i-1])
		}
		near(t, "stability", m.StabilityDays, stability[i], 0.0001)
		near(t, "difficulty", m.Difficulty, difficulty[i], 0.0001)
		// One day apart at most: the test's scheduler keeps good a day beyond hard.
		if got := FSRS6.IntervalDays(m, 0.9); got < intervals[i]-1 || got > intervals[i] {
			t.Errorf("review %d: interval %d days, published %d", i, got, intervals[i])
		}
	}
}

// The same project's TestNextInterval: stability 1, aims of 0.1 to 1.0.
func TestIntervalsAgainstPublished(t *testing.T) {
	for i, want := range []int{36500, 34793, 2508, 387, 90, 27, 9, 3, 1, 1} {
		aim := float64(i+1) / 10
		if got := FSRS6.IntervalDays(Memory{StabilityDays: 1}, aim); got != want {
			t.Errorf("aim %.1f: %d days, published %d", aim, got, want)
		}
	}
}

// Values of the published formulae with the default weights, reckoned apart
// from this program.
func TestSpacingWorked(t *testing.T) {
	for i, want := range []float64{6.4133, 5.112171, 2.118104, 1} {
		near(t, "first difficulty", FSRS6.First(Recalled(i+1)).Difficulty, want, 1e-6)
	}
	m := Memory{StabilityDays: 5, Difficulty: 5}
	near(t, "recall after 10 days", FSRS6.Recall(m, 10), 0.845885, 1e-6)
	near(t, "recall after 30 days", FSRS6.Recall(m, 30), 0.742717, 1e-6)
	near(t, "recall after its stability", FSRS6.Recall(m, 5), 0.9, 1e-12)
	for g, want := range map[Recalled]Memory{
		Failed: {0.953502, 8.341762}, WithHelp: {12.434214, 6.665995}, Passed: {17.361513, 4.990228}, Sure: {28.151877, 3.314461},
	} {
		got := FSRS6.Next(m, g, 5)
		near(t, "stability", got.StabilityDays, want.StabilityDays, 1e-6)
		near(t, "difficulty", got.Difficulty, want.Difficulty, 1e-6)
	}
}

func TestSpacingStaysInBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		grade := rapid.Custom(func(t *rapid.T) Recalled { return Recalled(rapid.IntRange(1, 4).Draw(t, "grade")) })
		m := FSRS6.First(grade.Draw(t, "first"))
		for range rapid.IntRange(0, 60).Draw(t, "reviews") {
			days := rapid.IntRange(1, 40000).Draw(t, "days")
			g := grade.Draw(t, "next")
			next := FSRS6.Next(m, g, days)
			switch {
			case g == Failed && next.StabilityDays > m.StabilityDays:
				t.Fatalf("a failure made %v more stable: %v", m, next)
			case g != Failed && next.StabilityDays < m.StabilityDays:
				t.Fatalf("a success made %v less stable: %v", m, next)
			}
			m = next
			if !(m.Difficulty >= 1 && m.Difficulty <= 10) || !(m.StabilityDays >= 0.001) || math.IsInf(m.StabilityDays, 0) {
				t.Fatalf("memory %v", m)
			}
			if d := FSRS6.IntervalDays(m, 0.9); d < 1 || d > 36500 {
				t.Fatalf("interval %d", d)
			}
		}
	})
}

// The first intervals are short until two unaided passes, and none is longer
// than a year.
func TestIntervalLimits(t *testing.T) {
	u := unit{}
	u.take(0, Sure)
	u.close()
	if u.dueAfterDays() > earlyIntervalDays {
		t.Errorf("after one pass: due after %d days", u.dueAfterDays())
	}
	u = unit{memory: Memory{StabilityDays: 900, Difficulty: 1}, known: true, passes: 1}
	if u.dueAfterDays() != earlyIntervalDays {
		t.Errorf("with one pass: due after %d days, want %d", u.dueAfterDays(), earlyIntervalDays)
	}
	u.passes = 2
	if u.dueAfterDays() != longIntervalDays {
		t.Errorf("with two passes: due after %d days, want %d", u.dueAfterDays(), longIntervalDays)
	}
}

// One day is one review, graded by its worst; a clock set back adds no day.
func TestDayIsOneReview(t *testing.T) {
	var a, b unit
	for _, u := range []*unit{&a, &b} {
		u.take(3, Passed)
		u.close()
	}
	a.take(9, Sure)
	a.take(9, Failed)
	a.take(8, Passed)
	a.close()
	b.take(9, Failed)
	b.close()
	if a != b {
		t.Errorf("%+v after a mixed day, %+v after a failure", a, b)
	}
}

// Days of review reach the model with the whole days between them, and only
// unaided passes count as passes.
func TestUnitFollowsModel(t *testing.T) {
	var u unit
	u.take(2, Passed)
	u.take(7, WithHelp)
	u.take(20, Failed)
	u.close()
	want := FSRS6.Next(FSRS6.Next(FSRS6.First(Passed), WithHelp, 5), Failed, 13)
	if u.memory != want || u.passes != 1 || u.prior != 20 {
		t.Errorf("%+v, want memory %+v, 1 pass, last on day 20", u, want)
	}
}

func TestRecalled(t *testing.T) {
	sure, unsure := 0.8, 0.79
	for _, row := range []struct {
		m    mark
		o    Observation
		want Recalled
	}{
		{wrong, Observation{Helped: true, Confidence: &sure, Verdict: verdictSafe}, Failed},
		{clean, Observation{Helped: true, Confidence: &sure, Verdict: verdictSafe}, WithHelp},
		{clean, Observation{Confidence: &sure, Verdict: verdictSafe}, Sure},
		{clean, Observation{Confidence: &unsure, Verdict: verdictSafe}, Passed},
		{clean, Observation{Confidence: &sure, Verdict: "needs work"}, Passed},
		{right, Observation{Confidence: &sure, Verdict: verdictSafe}, Passed},
		{clean, Observation{Verdict: verdictSafe}, Passed},
	} {
		if got := row.o.recalled(row.m); got != row.want {
			t.Errorf("mark %d of %+v: %d, want %d", row.m, row.o, got, row.want)
		}
	}
}
