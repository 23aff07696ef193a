package tissue

import (
	"sync"
	"sync/atomic"
)

// crew shares numbered pieces of work among workers. Which worker takes which
// piece does not matter: every piece writes only its own results, and sums
// are made afterwards in the order of the pieces.
type crew struct {
	workers int
	pieces  int
	work    func(piece int)
	next    atomic.Int64
	done    sync.WaitGroup
	loop    func()
}

func (c *crew) start(workers int) {
	c.workers = max(workers, 1)
	c.loop = func() {
		c.take()
		c.done.Done()
	}
}

func (c *crew) take() {
	for {
		n := int(c.next.Add(1)) - 1
		if n >= c.pieces {
			return
		}
		c.work(n)
	}
}

// share runs work for every piece and returns when all are done.
func (c *crew) share(pieces int, work func(piece int)) {
	if c.workers <= 1 || pieces <= 1 {
		for n := range pieces {
			work(n)
		}
		return
	}
	c.pieces, c.work = pieces, work
	c.next.Store(0)
	helpers := min(c.workers, pieces) - 1
	c.done.Add(helpers)
	for range helpers {
		go c.loop()
	}
	c.take()
	c.done.Wait()
}
