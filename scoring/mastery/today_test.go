package mastery

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"leastwatt/cases"
)

const dayMS = 86_400_000

func offer(ref, family string, level int, asks ...string) Offer {
	return Offer{Ref: ref, Family: family, Level: level, Domains: asks}
}

func TestTodayAtFirst(t *testing.T) {
	offers := []Offer{
		offer("p/a", "skin_tag", 1, "decision", "room"), offer("p/b", "skin_tag", 1, "decision", "room"),
		offer("p/c", "common_wart", 2, "decision", "site"), offer("p/d", "milia", 1, "decision", "patient"), offer("p/e", "keloid", 5, "decision"),
	}
	list := Today(nil, offers, 0, 0, 1, 3)
	if len(list) != 3 {
		t.Fatalf("list %+v", list)
	}
	for _, d := range list {
		if d.Reason.Why != WhyNew || d.Reason.Days != 0 || d.Ref == "p/e" {
			t.Errorf("%+v; want a new case, and not the hardest", d)
		}
	}
	if list[2].Ref != "p/c" {
		t.Errorf("%+v; want each family once, level 2 last", list)
	}
	if Today(nil, nil, 0, 0, 1, 3) != nil || Today(nil, offers, 0, 0, 1, 0) != nil {
		t.Error("a list from nothing, or of nothing")
	}
}

// Three kinds take turns, and the first turn moves on from day to day.
func TestFirstTurnMovesOn(t *testing.T) {
	obs := attempts("room", "rrr")
	var offers []Offer
	for _, f := range families[:6] {
		offers = append(offers, offer("q/"+f, f, 1, "room"))
	}
	offers = append(offers, offer("q/skin_tag", "skin_tag", 1, "room"))
	for day, want := range map[int]string{90: WhyDue, 91: WhyWeak, 92: WhyNew, -1: WhyNew} {
		list := Today(obs, offers, int64(day)*dayMS, day, 1, 1)
		if len(list) != 1 || list[0].Reason.Why != want {
			t.Errorf("day %d: %+v, want %s", day, list, want)
		}
	}
}

// A thing passed on day 0 is due after its interval of 2 days, not before.
func TestTodayDue(t *testing.T) {
	obs := attempts("room", "r")
	offers := []Offer{offer("p/c0", "skin_tag", 1, "room")} // tried, so never new
	for day, want := range map[int]Reason{1: {"room", WhyWeak, 0}, 2: {"room", WhyDue, 2}, 9: {"room", WhyDue, 9}} {
		list := Today(obs, offers, int64(day)*dayMS, day, 1, 1)
		if len(list) != 1 || list[0].Reason != want {
			t.Errorf("day %d: %+v, want %+v", day, list, want)
		}
	}
}

// The domain of which least was shown goes first among the weak; day 4 begins
// with a weak one.
func TestTodayWeak(t *testing.T) {
	obs := append(attempts("room", "rrrrrrrr"), attempts("site", "wwwwwwww")...)
	for i := range obs {
		obs[i].UTC, obs[i].Day, obs[i].Case = dayMS, 1, fmt.Sprintf("p/%d", i)
	}
	list := Today(obs, []Offer{offer("q/x", "milia", 1, "room", "site")}, 4*dayMS, 4, 1, 1)
	if len(list) != 1 || list[0].Reason != (Reason{"site", WhyWeak, 0}) {
		t.Errorf("%+v", list)
	}
}

func TestTodayTakesTurns(t *testing.T) {
	obs := attempts("room", "rwrwrwrw")
	for i := range obs {
		obs[i].Family = families[i%4]
	}
	var offers []Offer
	for i, f := range families[:12] {
		offers = append(offers, offer("q/"+f, f, 1+i%3, "room", "site"))
	}
	whys := map[string]int{}
	for _, d := range Today(obs, offers, 60*dayMS, 60, 3, 6) {
		whys[d.Reason.Why]++
	}
	if whys[WhyDue] != 2 || whys[WhyWeak] != 2 || whys[WhyNew] != 2 {
		t.Errorf("turns %v", whys)
	}
}

// A never event comes back on the next day, in another patient, in one made
// for its rule if there is one; then not until the day after that.
func TestTodayBringsNeverEventBack(t *testing.T) {
	obs := []Observation{event(10, "p/a", kindNever)}
	plain := offer("p/a", "skin_tag", 1, "room")
	another := offer("p/b", "skin_tag", 1, "room")
	made := Offer{Ref: "made/c", Family: "skin_tag", Level: 1, Domains: []string{"room"}, Made: true}
	fitting := Offer{Ref: "made/d", Family: "skin_tag", Level: 1, Domains: []string{"room"}, Rules: []string{"fire"}, Made: true}
	unfit := Offer{Ref: "made/e", Family: "skin_tag", Level: 1, Domains: []string{"room"}, Rules: []string{"smoke"}, Made: true}
	elsewhere := offer("p/w", "common_wart", 1, "room")
	first := func(day int, offers ...Offer) (d Due) {
		if list := Today(obs, offers, int64(day)*dayMS, day, 1, 1); len(list) > 0 {
			d = list[0]
		}
		return d
	}
	back := Reason{"room", WhyNever, 3}
	if d := first(13, plain, another, made, fitting, unfit, elsewhere); d.Ref != "made/d" || d.Reason != back {
		t.Errorf("%+v; want made/d, made for the rule", d)
	}
	if d := first(13, plain, another, made, unfit, elsewhere); d.Ref != "made/c" || d.Reason != back {
		t.Errorf("%+v; want made/c, a generated patient", d)
	}
	if d := first(13, plain, another, unfit, elsewhere); d.Ref != "p/b" || d.Reason != back {
		t.Errorf("%+v; want p/b, another patient", d)
	}
	if d := first(13, plain, unfit, elsewhere); d.Reason.Why == WhyNever {
		t.Errorf("%+v; the same patient, or one without the rule, is no way back", d)
	}
	if d := first(10, fitting, another); d.Reason.Why == WhyNever {
		t.Errorf("%+v; too early on the same day", d)
	}
	aside := unfit
	aside.Family = "milia"
	if list := Today(obs, []Offer{fitting, aside}, 13*dayMS, 13, 1, 4); len(list) != 1 || list[0].Ref != "made/d" {
		t.Errorf("%+v; want made/d alone: what was made for a rule is there for nothing else", list)
	}
	obs = append(obs, event(13, "made/d", kindCredit))
	if d := first(13, made, fitting); d.Reason.Why == WhyNever {
		t.Errorf("%+v; too early after a right day", d)
	}
	if d := first(15, made, fitting); d.Ref != "made/c" || d.Reason.Days != 2 {
		t.Errorf("%+v; want made/c after 2 days: made/d has been met", d)
	}
}

func TestCaseRests(t *testing.T) {
	tried := Observation{UTC: 10*dayMS - 1000, Day: 9, Case: "p/a", Family: "skin_tag"}
	offers := []Offer{offer("p/a", "skin_tag", 1, "room")}
	if list := Today([]Observation{tried}, offers, 10*dayMS+1000, 10, 1, 1); list != nil {
		t.Errorf("two seconds and one midnight later: %+v", list)
	}
	tried.Rules = []RuleResult{{"r", "room", kindCredit, 1, 1}}
	sameDay := tried
	sameDay.UTC = 9 * dayMS
	if list := Today([]Observation{sameDay}, offers, 9*dayMS+restMS+1, 9, 1, 1); list != nil {
		t.Errorf("half a day later, on the same day: %+v", list)
	}
	if list := Today([]Observation{tried}, offers, 11*dayMS, 11, 1, 1); len(list) != 1 {
		t.Errorf("a day later: %+v", list)
	}
}

func TestApart(t *testing.T) {
	for in, want := range map[string]string{
		"": "", "a": "a", "aa": "a", "aab": "aba", "baa": "aba", "aaab": "aba", "aabbc": "ababc", "abcabc": "abcabc", "bcaaa": "abaca",
	} {
		var rows []row
		for i, f := range in {
			rows = append(rows, row{Due{Ref: fmt.Sprintf("%c%d", f, i)}, string(f)})
		}
		got := ""
		for _, d := range apart(rows) {
			got += d.Ref[:1]
		}
		if got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
}

// The list is the same each time, holds nothing twice and nothing that was not
// offered, keeps families apart, is as long as asked at most, and gives each
// row a reason that its case can bear.
func TestTodayProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		obs, offers := drawObservations(t), drawOffers(t)
		day := rapid.IntRange(0, 60).Draw(t, "today")
		n := rapid.IntRange(1, 12).Draw(t, "n")
		seed := rapid.Uint64().Draw(t, "seed")
		now := int64(day)*dayMS + 20*3_600_000
		list := Today(obs, offers, now, day, seed, n)
		if again := Today(obs, offers, now, day, seed, n); !reflect.DeepEqual(list, again) {
			t.Fatalf("%+v\nthen %+v", list, again)
		}
		if len(list) > n {
			t.Fatalf("%d rows, asked for %d", len(list), n)
		}
		seen := map[string]bool{}
		last := ""
		nevers := 0
		for _, d := range list {
			at := slices.IndexFunc(offers, func(o Offer) bool { return o.Ref == d.Ref })
			if at < 0 || seen[d.Ref] {
				t.Fatalf("%q was not offered, or is there twice: %+v", d.Ref, list)
			}
			seen[d.Ref] = true
			if offers[at].Family == last {
				t.Fatalf("two of family %s in a row: %+v", last, list)
			}
			last = offers[at].Family
			if d.Reason.Days < 0 || (d.Reason.Why == WhyNever && d.Reason.Days == 0) || domainIndex(d.Reason.Domain) < 0 {
				t.Fatalf("reason %+v", d.Reason)
			}
			if d.Reason.Why == WhyNever {
				nevers++
			}
			for _, o := range obs {
				setBack := slices.ContainsFunc(obs, func(o Observation) bool { return o.Day > day })
				if o.Case == d.Ref && o.Day == day && !setBack {
					t.Fatalf("%s was done today", d.Ref)
				}
				if o.Case == d.Ref && d.Reason.Why == WhyNew {
					t.Fatalf("%s is not new", d.Ref)
				}
			}
		}
		if nevers > (n+1)/2 {
			t.Fatalf("%d never events of %d rows", nevers, n)
		}
	})
}

// A reason names a domain and a time, never a family, a case or a rule.
func TestReasonsGiveNothingAway(t *testing.T) {
	for _, words := range []cases.Words{cases.UK, cases.US} {
		for _, d := range domains {
			for _, why := range []string{WhyDue, WhyWeak, WhyNew, WhyNever} {
				text := strings.ToLower(Reason{d, why, 9}.Text(words))
				label := cases.Vocab.Label("domain", d, words)
				rest, ok := strings.CutPrefix(text, label+", ")
				if !ok || !slices.Contains([]string{"due after 9 days", "back after 9 days", "least shown so far", "in a case new to you"}, rest) {
					t.Errorf("%q", text)
				}
				for _, f := range families {
					if strings.Contains(text, strings.ToLower(cases.Vocab.Label("family", f, words))) || strings.Contains(text, f) {
						t.Errorf("%q names the family %s", text, f)
					}
				}
			}
		}
	}
	if got := (Reason{"anaesthesia", WhyDue, 1}).Text(cases.US); got != "Anesthesia, due after 1 day" {
		t.Errorf("%q", got)
	}
}
