package logbook

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// The kinds of entry.
const (
	KindAttempt      = "attempt"      // a plan that was graded
	KindDisagreement = "disagreement" // "I disagree" at a finding
	KindAssessment   = "assessment"   // one step of a self-assessment
	KindResume       = "resume"       // where a half-done case stands
)

// Where an attempt came from.
const (
	FromToday      = "today"
	FromList       = "list"
	FromRound      = "round"
	FromAssessment = "assessment"
	FromAgain      = "again"
)

// Entry is one line of the logbook. Exactly the part that Kind names is set.
type Entry struct {
	ID        string `json:"id"`         // 1-64 letters, digits, - and _; made with rs/xid above this package
	UTC       int64  `json:"utc_ms"`     // milliseconds since 1970 in UTC
	OffsetMin int    `json:"offset_min"` // local time minus UTC in minutes
	Learner   string `json:"learner"`    // a code of the person's choice: 1-32 letters, digits, - and _
	Kind      string `json:"kind"`

	Attempt      *Attempt        `json:"attempt,omitempty"`
	Disagreement *Disagreement   `json:"disagreement,omitempty"`
	Assessment   json.RawMessage `json:"assessment,omitempty"` // a step with its own format name inside
	Resume       json.RawMessage `json:"resume,omitempty"`     // a half-done case with its own format name inside
}

// Attempt is a case as it was planned, perhaps treated, and graded. Plan,
// Session, Outcome and Grade are the body: [Book.Entries] leaves them nil and
// [Book.Whole] fills them, so that a long logbook opens fast.
type Attempt struct {
	Case       string `json:"case"`        // pack-id/case-id, or made/CODE
	CaseDigest string `json:"case_digest"` // SHA-256 in hex
	Family     string `json:"family"`      // what the lesion truly was: never shown before the debrief
	Level      int    `json:"level"`       // 1-5

	Bench         string `json:"bench"` // none or done
	TablesVersion string `json:"tables_version"`
	TablesDigest  string `json:"tables_digest"`
	Labels        string `json:"labels"`
	Words         string `json:"words"`
	ModelVersion  string `json:"model_version"`

	Verdict         string `json:"verdict"` // safe, needs work or unsafe
	Points          int    `json:"points"`
	Of              int    `json:"of"`
	ConfidenceMilli *int   `json:"confidence_milli,omitempty"` // thousandths, 0-1000; nil when not asked
	TookS           int    `json:"took_s"`                     // seconds
	From            string `json:"from"`
	Helped          bool   `json:"helped,omitempty"` // a hint or the debrief had been seen

	Findings []FindingMark `json:"-"` // what mastery reads; see findings.go for how it is written

	Plan    json.RawMessage `json:"-"` // leastwatt.plan/1
	Session json.RawMessage `json:"-"` // leastwatt.session/1, nil without a bench
	Outcome json.RawMessage `json:"-"` // nil without a bench
	Grade   json.RawMessage `json:"-"` // the whole grade as it was shown
}

// FindingMark is a finding without its words. A credit without points may also
// be a rule with a never event that the plan kept clear of.
type FindingMark struct {
	Rule   string
	Domain string
	Kind   string // credit, advice, caution or never
	Points int
	Of     int
}

// Disagreement is a reason why a finding was thought wrong, for the supervisor.
type Disagreement struct {
	Rule          string `json:"rule"`
	Case          string `json:"case"`
	CaseDigest    string `json:"case_digest"`
	TablesVersion string `json:"tables_version"`
	TablesDigest  string `json:"tables_digest"`
	Reason        string `json:"reason"`
	Attempt       string `json:"attempt"` // identity of the attempt's entry
}

// made tells whether a text has 1 to most bytes, all of them small letters,
// digits, - or _, or capital letters where they are allowed.
func made(text string, most int, capitals bool) bool {
	for i := range len(text) {
		c := text[i]
		if (c < 'a' || c > 'z') && (c < '0' || c > '9') && c != '-' && c != '_' && (!capitals || c < 'A' || c > 'Z') {
			return false
		}
	}
	return len(text) > 0 && len(text) <= most
}

func isWord(text string) bool { return made(text, 64, false) }

// CheckLearner says what is wrong with a learner's code, or nil.
func CheckLearner(code string) error {
	if !made(code, 32, true) {
		return fmt.Errorf("the learner code %q is not usable; a code has 1 to 32 letters, digits, - or _", shorten(code))
	}
	return nil
}

// latestMS is the end of the year 9999: a time past it is a mistaken unit.
const latestMS = 253402300799999

// checkWho says what is wrong with identity, time or learner, or nil.
func (e *Entry) checkWho() error {
	if !made(e.ID, 64, true) {
		return fmt.Errorf("the identity %q is not usable; it has 1 to 64 letters, digits, - or _", shorten(e.ID))
	}
	if e.UTC < 0 || e.UTC > latestMS {
		return fmt.Errorf("utc_ms is %d; it counts milliseconds since 1970, up to %d", e.UTC, int64(latestMS))
	}
	if e.OffsetMin < -18*60 || e.OffsetMin > 18*60 {
		return fmt.Errorf("offset_min is %d; it is local time minus UTC in minutes, -1080 to 1080", e.OffsetMin)
	}
	return CheckLearner(e.Learner)
}

// check says what is wrong with an entry that is to be written, or nil. What
// is read is held to checkWho only: a later program may add kinds and ids.
func (e *Entry) check() error {
	if err := e.checkWho(); err != nil {
		return err
	}
	parts := 0
	for _, p := range []struct {
		kind string
		set  bool
	}{
		{KindAttempt, e.Attempt != nil},
		{KindDisagreement, e.Disagreement != nil},
		{KindAssessment, e.Assessment != nil},
		{KindResume, e.Resume != nil},
	} {
		if p.set {
			parts++
		}
		if p.kind == e.Kind && !p.set {
			return fmt.Errorf("the kind is %q and that part is missing", e.Kind)
		}
	}
	switch {
	case !slices.Contains([]string{KindAttempt, KindDisagreement, KindAssessment, KindResume}, e.Kind):
		return fmt.Errorf("the kind %q is unknown; it is attempt, disagreement, assessment or resume", shorten(e.Kind))
	case parts != 1:
		return fmt.Errorf("the kind is %q and another part is set too", e.Kind)
	case e.Attempt != nil:
		return e.Attempt.check()
	case e.Disagreement != nil:
		return e.Disagreement.check()
	}
	return nil
}

func (a *Attempt) check() error {
	switch {
	case a.Case == "":
		return fmt.Errorf("the attempt names no case; it needs pack-id/case-id")
	case !slices.Contains([]string{"safe", "needs work", "unsafe"}, a.Verdict):
		return fmt.Errorf("the verdict %q is unknown; it is safe, needs work or unsafe", shorten(a.Verdict))
	case !slices.Contains([]string{FromToday, FromList, FromRound, FromAssessment, FromAgain}, a.From):
		return fmt.Errorf("from is %q; it is today, list, round, assessment or again", shorten(a.From))
	case a.ConfidenceMilli != nil && (*a.ConfidenceMilli < 0 || *a.ConfidenceMilli > 1000):
		return fmt.Errorf("confidence_milli is %d; it is 0 to 1000", *a.ConfidenceMilli)
	case a.Points < 0 || a.Of < 0 || a.TookS < 0:
		return fmt.Errorf("points %d, of %d and took_s %d are never negative", a.Points, a.Of, a.TookS)
	case a.Plan == nil || a.Grade == nil:
		return fmt.Errorf("the attempt lacks its plan or its grade; both are kept")
	}
	for i, f := range a.Findings {
		if !isWord(f.Rule) || !isWord(f.Domain) || !isWord(f.Kind) || f.Points < 0 || f.Of < 0 {
			return fmt.Errorf("finding %d (%q, %q, %q, %d of %d) is not usable; rule, domain and kind are ids", i+1, f.Rule, f.Domain, f.Kind, f.Points, f.Of)
		}
	}
	return checkTexts(a.Case, a.CaseDigest, a.Family, a.Bench, a.TablesVersion, a.TablesDigest, a.Labels, a.Words, a.ModelVersion)
}

// longestReason is in bytes, as every string of a file.
const longestReason = 64 << 10

func (d *Disagreement) check() error {
	switch {
	case d.Rule == "" || d.Case == "":
		return fmt.Errorf("the disagreement names no rule or no case; it needs both")
	case strings.TrimSpace(d.Reason) == "":
		return fmt.Errorf("the disagreement gives no reason")
	case len(d.Reason) > longestReason:
		return fmt.Errorf("the reason has %d bytes; %d are the most", len(d.Reason), longestReason)
	case !utf8.ValidString(d.Reason):
		return fmt.Errorf("the reason is not valid UTF-8")
	}
	return checkTexts(d.Rule, d.Case, d.CaseDigest, d.TablesVersion, d.TablesDigest, d.Attempt)
}

// checkTexts holds short texts to what every file of the program may hold.
func checkTexts(texts ...string) error {
	for _, t := range texts {
		if len(t) > 1024 || !utf8.ValidString(t) || strings.ContainsFunc(t, func(r rune) bool { return r < ' ' || r == 0x7f }) {
			return fmt.Errorf("the text %q is not usable; it is UTF-8 of at most 1024 bytes without control characters", shorten(t))
		}
	}
	return nil
}

func shorten(s string) string {
	if len(s) > 60 {
		return s[:57] + "..."
	}
	return s
}
