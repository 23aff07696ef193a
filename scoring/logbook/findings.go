package logbook

import (
	"fmt"
	"strconv"
	"strings"
)

// The marks of an attempt stand in its line as one text,
//
//	never oxygen_off room 0/4;caution power_low power 0/2
//
// because a hundred thousand attempts hold five million of them, and a text
// can be cut up without copying.

func appendFindings(b []byte, marks []FindingMark) []byte {
	for i, f := range marks {
		if i > 0 {
			b = append(b, ';')
		}
		b = append(b, f.Kind...)
		b = append(b, ' ')
		b = append(b, f.Rule...)
		b = append(b, ' ')
		b = append(b, f.Domain...)
		b = append(b, ' ')
		b = strconv.AppendInt(b, int64(f.Points), 10)
		b = append(b, '/')
		b = strconv.AppendInt(b, int64(f.Of), 10)
	}
	return b
}

func parseFindings(text string) ([]FindingMark, error) {
	if text == "" {
		return nil, nil
	}
	marks := make([]FindingMark, 0, strings.Count(text, ";")+1)
	for more := true; more; {
		var one string
		one, text, more = strings.Cut(text, ";")
		f, ok := parseFinding(one)
		if !ok {
			return nil, fmt.Errorf("finding %d is %q; it must read \"kind rule domain points/of\"", len(marks)+1, shorten(one))
		}
		marks = append(marks, f)
	}
	return marks, nil
}

func parseFinding(text string) (f FindingMark, ok bool) {
	kind, rest, ok1 := strings.Cut(text, " ")
	rule, rest, ok2 := strings.Cut(rest, " ")
	domain, rest, ok3 := strings.Cut(rest, " ")
	points, of, ok4 := strings.Cut(rest, "/")
	f = FindingMark{Rule: rule, Domain: domain, Kind: kind}
	var ok5, ok6 bool
	f.Points, ok5 = count(points)
	f.Of, ok6 = count(of)
	return f, ok1 && ok2 && ok3 && ok4 && ok5 && ok6 && kind != "" && rule != "" && domain != ""
}

// count reads a short decimal without sign.
func count(text string) (n int, ok bool) {
	for i := 0; i < len(text); i++ {
		c := text[i] - '0'
		if c > 9 {
			return 0, false
		}
		n = n*10 + int(c)
	}
	return n, len(text) > 0 && len(text) < 10
}
