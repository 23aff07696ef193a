package cases

import (
	"errors"
	"strconv"
	"strings"
)

var errRatio = errors.New(`it must be written like "1:200000", from 1:1000 to 1:1000000, or left out for plain`)

// ParseRatio reads an adrenaline strength "1:N" and returns N.
func ParseRatio(text string) (int64, error) {
	tail, ok := strings.CutPrefix(text, "1:")
	if !ok || tail == "" || tail[0] < '1' || tail[0] > '9' {
		return 0, errRatio
	}
	n, err := strconv.ParseInt(tail, 10, 64)
	if err != nil || n < 1000 || n > 1000000 {
		return 0, errRatio
	}
	return n, nil
}
