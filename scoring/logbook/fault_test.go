package logbook

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"testing"
)

func long() bool { return os.Getenv("LEASTWATT_LONG") != "" }

// TestFaultyDisk: short writes, errors, a full disk, failed syncs that drop
// what they held, torn renames, losses of power: nothing acknowledged is lost.
func TestFaultyDisk(t *testing.T) { overSeeds(t, sitting{}) }

// TestFlippedBits: a flipped bit loses the line that it is in, and that alone.
func TestFlippedBits(t *testing.T) { overSeeds(t, sitting{flips: true}) }

// TestLyingDisk: what was synced in truth is kept, though later syncs lie.
func TestLyingDisk(t *testing.T) { overSeeds(t, sitting{lies: true}) }

func overSeeds(t *testing.T, s sitting) {
	t.Parallel()
	seeds := 500
	if long() {
		seeds = 10_000
	}
	acknowledged, failed := 0, 0
	for seed := range uint64(seeds) {
		run := s
		run.seed = seed
		if err := run.play(); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		acknowledged += run.saved
		failed += run.refused
	}
	if acknowledged == 0 || failed == 0 {
		t.Errorf("%d appends acknowledged and %d refused: the disk was too good or too bad", acknowledged, failed)
	}
	t.Logf("%d seeds: %d appends acknowledged, %d refused", seeds, acknowledged, failed)
}

// sitting is a time at a logbook on a faulty disk.
type sitting struct {
	flips, lies bool
	seed        uint64

	rng      *rand.Rand
	disk     *faultyDisk
	book     *Book
	safe     map[string]Entry // acknowledged, and not in a line that was flipped
	doubtful map[string]Entry // acknowledged since the last sync that was done
	offered  map[string]Entry // all that were ever given
	flipped  map[string][]byte
	next     int
	saved    int
	refused  int
}

func (s *sitting) play() error {
	s.rng = rand.New(rand.NewPCG(s.seed, 12))
	s.disk = newFaultyDisk(s.rng)
	s.disk.lying = s.lies
	s.safe, s.doubtful, s.offered, s.flipped = map[string]Entry{}, map[string]Entry{}, map[string]Entry{}, map[string][]byte{}
	if err := s.reopen(); err != nil {
		return err
	}
	for range 25 {
		s.disk.faults = true
		if s.rng.IntN(12) == 0 {
			s.disk.room = s.rng.IntN(2000)
		}
		switch s.rng.IntN(8) {
		case 0:
			if err := s.interrupt(); err != nil {
				return err
			}
		case 1:
			s.importSome()
		default:
			s.append()
		}
		if s.rng.IntN(4) == 0 {
			s.disk.room = 1 << 30
		}
	}
	return s.interrupt()
}

func (s *sitting) entry() Entry {
	s.next++
	if s.next%3 == 0 {
		return disagreement(s.next, strings.Repeat("many teach otherwise ", 1+s.rng.IntN(20)))
	}
	return attempt(s.next, s.rng.IntN(4), longGrade(s.rng.IntN(600)))
}

func (s *sitting) append() {
	e := s.entry()
	s.offered[e.ID] = e
	for range 1 + s.rng.IntN(3) { // a person tries again, or not
		truths, drops := s.disk.truths, s.disk.drops
		err := s.book.Append(e)
		s.settle(truths, drops)
		if err == nil {
			s.acknowledge(e)
			return
		}
		s.refused++
	}
}

// settle moves what was doubtful to what is safe when a sync was done in
// truth. A failed sync drops what an earlier one only said it had done.
func (s *sitting) settle(truths, drops int) {
	if s.disk.drops > drops {
		clear(s.doubtful)
	}
	if s.disk.truths > truths {
		for id, e := range s.doubtful {
			s.safe[id] = e
		}
		clear(s.doubtful)
	}
}

func (s *sitting) acknowledge(e Entry) {
	s.saved++
	if !s.disk.lied {
		s.safe[e.ID] = e
	} else if _, before := s.safe[e.ID]; !before {
		s.doubtful[e.ID] = e
	}
}

func encoded(e *Entry) []byte {
	line, err := EncodeLine(e)
	if err != nil {
		panic(err)
	}
	return line
}

func (s *sitting) importSome() {
	var lines bytes.Buffer
	var some []Entry
	for range 1 + s.rng.IntN(5) {
		e := s.entry()
		s.offered[e.ID] = e
		lines.Write(encoded(&e))
		some = append(some, e)
	}
	truths, drops := s.disk.truths, s.disk.drops
	_, err := s.book.Import("copy.jsonl", &lines)
	s.settle(truths, drops)
	if err != nil {
		s.refused++
		return
	}
	for _, e := range some {
		s.acknowledge(e)
	}
}

// interrupt loses power or only ends the process, and looks at what is left.
func (s *sitting) interrupt() error {
	if s.rng.IntN(3) > 0 {
		if s.disk.liedAll { // the whole log was put in place under a lie
			s.safe = map[string]Entry{}
		}
		s.disk.losePower()
		clear(s.doubtful)
	}
	if s.flips {
		s.flip()
	}
	return s.reopen()
}

// flip turns one bit of the log and notes whose line it is in.
func (s *sitting) flip() {
	f := s.disk.live[logName]
	if f == nil || len(f.live) == 0 || s.disk.live[freshName] != nil {
		return
	}
	i := s.rng.IntN(len(f.live))
	from := bytes.LastIndexByte(f.live[:i], '\n') + 1
	end := i + bytes.IndexByte(f.live[i:], '\n')
	if end < i {
		return // in a torn tail, which is nobody's
	}
	e, err := DecodeLine(f.live[from : end+1])
	f.live[i] ^= 1 << s.rng.IntN(8)
	f.durable = bytes.Clone(f.live)
	if err == nil {
		delete(s.safe, e.ID)
		delete(s.doubtful, e.ID)
		s.flipped[e.ID] = bytes.Clone(f.live[from:end])
	}
}

// reopen opens the logbook, at first with faults, and checks what it holds.
func (s *sitting) reopen() error {
	s.disk.faults, s.disk.lying = true, false // lies while opening would only hide what is tested
	s.disk.room = max(s.disk.room, s.rng.IntN(4000))
	for range 3 {
		if store, err := openFiles(s.disk); err == nil {
			if s.book, _, err = Open(store); err == nil {
				break
			}
		}
	}
	s.disk.faults, s.disk.room = false, 1<<30
	store, err := openFiles(s.disk)
	if err != nil {
		return err
	}
	if s.book, _, err = Open(store); err != nil {
		return err
	}
	s.disk.lying = s.lies
	return s.check()
}

func (s *sitting) check() error {
	there := map[string]bool{}
	for e, err := range s.book.Entries() {
		if err != nil {
			return err
		}
		want, ok := s.offered[e.ID]
		if !ok {
			return fmt.Errorf("the entry %s was never given", e.ID)
		}
		there[e.ID] = true
		got, err := s.book.Whole(e.ID)
		if err != nil {
			return err
		}
		if !bytes.Equal(encoded(&want), encoded(got)) {
			return fmt.Errorf("the entry %s came back otherwise:\n%s%s", e.ID, encoded(got), encoded(&want))
		}
	}
	for id := range s.safe {
		if !there[id] {
			return fmt.Errorf("the acknowledged entry %s is lost", id)
		}
	}
	for id, line := range s.flipped {
		aside := s.disk.live[asideName]
		if !there[id] && (aside == nil || !bytes.Contains(aside.live, line)) {
			return fmt.Errorf("the flipped line of %s is neither read nor set aside", id)
		}
	}
	clear(s.flipped)
	// What the sitting does not lose may count from now on.
	for id := range s.doubtful {
		if !there[id] {
			return fmt.Errorf("the entry %s is lost though nothing happened to the disk", id)
		}
	}
	return nil
}
