package sitting

import (
	"fmt"
	"io"

	"github.com/rs/xid"
)

// Identities makes identities of entries: xid values, which sort by time, with
// a random part where the host's own number would stand, so that nothing of
// the machine is in an exported logbook. The error is that of random.
func Identities(random io.Reader) (func() string, error) {
	machine := make([]byte, 3)
	if _, err := io.ReadFull(random, machine); err != nil {
		return nil, fmt.Errorf("identities cannot be made: %w", err)
	}
	return func() string {
		b := xid.New().Bytes()
		copy(b[4:7], machine)
		id, err := xid.FromBytes(b)
		if err != nil {
			panic(err) // twelve bytes are always an identity
		}
		return id.String()
	}, nil
}
