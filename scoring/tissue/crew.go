package tissue

import (
	"runtime"
	"sync"
	"sync/atomic"
	"time"
)

// crew shares numbered pieces of work among workers. Which worker takes which
// piece does not matter: every piece writes only its own results, and sums
// are made afterwards in the order of the pieces.
//
// The pieces of one job take some ten microseconds, less than it takes to wake
// a sleeping thread. So between begin and end the helpers stay awake and watch
// for the next job. One half of the workers takes pieces from the front and
// the other from the back, so that a piece mostly stays with the processor
// that has it in its cache.
type crew struct {
	workers int
	helpers int // awake now
	pieces  atomic.Int64
	work    func(piece int)
	ticket  atomic.Uint64 // number of the job, then 16 bits each of pieces taken from front and back
	left    atomic.Int64  // pieces not yet done
	closing atomic.Bool
	gone    sync.WaitGroup
	help    func()
	roll    atomic.Int64 // numbers the helpers
}

func (c *crew) start(workers int) {
	c.workers = max(workers, 1)
	c.help = c.watch
}

// begin wakes the helpers. No more are woken than there are processors: the
// results are the same, and a helper without one would be in the way.
func (c *crew) begin() {
	c.helpers = min(c.workers, runtime.GOMAXPROCS(0)) - 1
	if c.helpers <= 0 {
		return
	}
	c.closing.Store(false)
	c.roll.Store(0)
	c.gone.Add(c.helpers)
	for range c.helpers {
		go c.help()
	}
}

// end lets the helpers go and returns when they have gone.
func (c *crew) end() {
	if c.helpers > 0 {
		c.closing.Store(true)
		c.gone.Wait()
	}
	c.helpers = 0
}

// watch is a helper's life.
func (c *crew) watch() {
	defer c.gone.Done()
	back := c.roll.Add(1)&1 == 1
	idle := 0
	for !c.closing.Load() {
		if c.take(c.ticket.Load(), back) {
			idle = 0
			continue
		}
		idle++
		pause(idle)
	}
}

const (
	oneFront  = 1 << 16
	oneBack   = 1
	mostTaken = 1<<16 - 1
)

// take does one piece, if the job of that ticket has one left.
func (c *crew) take(ticket uint64, back bool) bool {
	fromFront, fromBack := int64(ticket>>16&mostTaken), int64(ticket&mostTaken)
	pieces := c.pieces.Load()
	if fromFront+fromBack >= pieces {
		return false
	}
	n, taken := fromFront, ticket+oneFront
	if back {
		n, taken = pieces-1-fromBack, ticket+oneBack
	}
	if !c.ticket.CompareAndSwap(ticket, taken) {
		return true // another was quicker; look again
	}
	// The piece is ours, so this job is not over and work belongs to it.
	c.work(int(n))
	c.left.Add(-1)
	return true
}

// share runs work for every piece and returns when all are done.
func (c *crew) share(pieces int, work func(piece int)) {
	if c.helpers <= 0 || pieces <= 1 || pieces > mostTaken {
		for n := range pieces {
			work(n)
		}
		return
	}
	c.work = work
	c.left.Store(int64(pieces))
	c.pieces.Store(0) // a late helper finds nothing until the ticket is new
	c.ticket.Store((c.ticket.Load()>>32 + 1) << 32)
	c.pieces.Store(int64(pieces))
	for c.take(c.ticket.Load(), false) {
	}
	for wait := 0; c.left.Load() > 0; wait++ {
		pause(wait)
	}
}

// pause waits a little for another worker, the longer the oftener it has waited
// already. On a busy machine the other may have lost its processor, perhaps to
// this very waiting; so after a while the waiting gives its own up. Without that
// two workers are slower than one there. No result depends on it.
func pause(waited int) {
	switch {
	case waited > 3000:
		time.Sleep(20 * time.Microsecond)
	case waited > 200 && waited%16 == 0:
		runtime.Gosched()
	}
}
