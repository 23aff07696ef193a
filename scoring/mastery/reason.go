package mastery

import (
	"fmt"
	"unicode"
	"unicode/utf8"

	"leastwatt/cases"
)

// Why a case is on today's list.
const (
	WhyDue   = "due"              // the domain was last met so long ago that it may be forgotten
	WhyWeak  = "weak"             // least was shown so far in the domain
	WhyNew   = "new"              // nothing like it was met before
	WhyNever = "never event back" // a never event returns in another patient
)

// Reason says why a case is on the list, by competency and time only: a reader
// of it learns nothing about the patient.
type Reason struct {
	Domain string
	Why    string
	Days   int // whole days since it was last met; 0 for weak and new
}

// Text is the reason in one line, such as "Room, due after 9 days". A never
// event's line reads almost like any other, because its rule is the trap.
func (r Reason) Text(words cases.Words) string {
	label := cases.Vocab.Label("domain", r.Domain, words)
	first, size := utf8.DecodeRuneInString(label)
	label = string(unicode.ToUpper(first)) + label[size:]
	switch r.Why {
	case WhyDue:
		return fmt.Sprintf("%s, due after %s", label, days(r.Days))
	case WhyNever:
		return fmt.Sprintf("%s, back after %s", label, days(r.Days))
	case WhyWeak:
		return label + ", least shown so far"
	}
	return label + ", in a case new to you"
}

func days(n int) string {
	if n == 1 {
		return "1 day"
	}
	return fmt.Sprintf("%d days", n)
}
