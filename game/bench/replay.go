package bench

import (
	"fmt"

	"leastwatt/cases"
)

// Replay does a session's events again, each at its tick. The bench ends bit
// for bit as the one that made the session. Seed, grid and assessment come
// from the session, the number of workers from o.
func Replay(pack *cases.Pack, c *cases.Case, s *cases.Session, o Options) (*Bench, error) {
	p, err := NewPlayer(pack, c, s, o)
	if err != nil {
		return nil, err
	}
	if err := p.To(p.EndMS()); err != nil {
		return nil, err
	}
	return p.Bench, nil
}

// Player replays a session up to any tick, for scrubbing.
type Player struct {
	Bench   *Bench // as it stands at the tick reached
	pack    *cases.Pack
	c       *cases.Case
	session *cases.Session
	o       Options
	next    int
}

// NewPlayer opens the bench at the session's beginning.
func NewPlayer(pack *cases.Pack, c *cases.Case, s *cases.Session, o Options) (*Player, error) {
	if s.ModelVersion != modelVersion() {
		return nil, fmt.Errorf("the session was made with model version %d; this is version %d and cannot replay it exactly", s.ModelVersion, modelVersion())
	}
	if ref := pack.ID + "/" + c.ID; s.Case != ref {
		return nil, fmt.Errorf("the session is of %q, the case is %q; they must agree", s.Case, ref)
	}
	o.Seed, o.GridMM, o.Assessed = s.Seed, s.GridMM.Float(), s.Assessed != nil && *s.Assessed
	p := &Player{pack: pack, c: c, session: s, o: o}
	return p, p.rewind()
}

func (p *Player) rewind() error {
	b, err := Open(p.pack, p.c, p.session.Plan, p.o)
	p.Bench, p.next = b, 0
	return err
}

// EndMS is when the session ended.
func (p *Player) EndMS() int {
	end := 0
	if p.session.EndMS != nil {
		end = *p.session.EndMS
	}
	if n := len(p.session.Events); n > 0 {
		end = max(end, p.session.Events[n-1].Tick)
	}
	return end
}

// To plays on to a tick, ms; for one that has passed it begins again.
func (p *Player) To(tick int) error {
	if tick < p.Bench.clockMS {
		if err := p.rewind(); err != nil {
			return err
		}
	}
	_, err := p.Step(tick, 1<<62)
	return err
}

// Step plays on towards a tick for at most so many ms, and tells whether it
// has come there. It never goes back.
func (p *Player) Step(tick, mostMS int) (done bool, err error) {
	b := p.Bench
	for {
		if p.next == len(p.session.Events) || p.session.Events[p.next].Tick > tick {
			n := min(tick-b.clockMS, mostMS)
			b.Advance(n)
			return b.clockMS >= tick || b.ended, nil
		}
		e := p.session.Events[p.next]
		if e.Tick > b.clockMS {
			n := min(e.Tick-b.clockMS, mostMS)
			b.Advance(n)
			mostMS -= n
			if b.clockMS < e.Tick && !b.ended {
				return false, nil
			}
		}
		if err := b.Do(e); err != nil {
			return false, fmt.Errorf("event %d at %d ms cannot be replayed: %w", p.next, e.Tick, err)
		}
		p.next++
	}
}
