package open

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/jezek/xgb"
	"github.com/jezek/xgb/damage"
	"github.com/jezek/xgb/xproto"

	"leastwatt/cases"
	"leastwatt/cases/packs"
	"leastwatt/game/bench"
	"leastwatt/game/keep"
	"leastwatt/game/screen"
	"leastwatt/game/sitting"
	"leastwatt/game/ui"
	"leastwatt/game/verb"
)

// What a treatment takes. The benchmark prints and asserts no time:
//
//	go test ./game/open -run '^$' -bench BenchFrames -benchtime 1x
//	LEASTWATT_LONG=1 go test ./game/open -run MemoryOnTheBench

// stageID is the picture of the bench.
const stageID = "bench stage"

// benchFolder holds what an earlier sitting left: settings, and the plan for
// the usual case.
func benchFolder(t testing.TB) (data string) {
	t.Helper()
	data = usedFolder(t)
	folder, err := keep.Open(data)
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join("testdata", "plans", "towel-safe.json"))
	if err != nil {
		t.Fatal(err)
	}
	plan, err := cases.ReadPlan("towel-safe.json", text)
	if err != nil {
		t.Fatal(err)
	}
	if err := folder.SaveDraft(plan); err != nil {
		t.Fatal(err)
	}
	return data
}

// openedBench is the program without a window, laid out as the usual window
// lays it out, with the usual case on the bench.
func openedBench(t testing.TB) *ui.Host {
	t.Helper()
	cfg, err := sitting.Begin(verb.Stdio(), benchFolder(t), sitting.World{Now: theMorning, Random: rand.NewChaCha8([32]byte{})})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { cfg.Close() })
	app, err := screen.NewApp(cfg)
	if err != nil {
		t.Fatal(err)
	}
	host := ui.NewHost(app)
	host.SetSize(float64(usual.w), float64(usual.h))
	host.Frame()
	host.Type("a")
	for range slices.Index(app.Cases(), towel) {
		host.KeyDown(ui.Key{Name: "Down"})
	}
	host.KeyDown(ui.Key{Name: "Enter"})
	host.KeyDown(ui.Key{Name: "3", Alt: true})
	if host.Frame().Stop(stageID) == nil {
		t.Fatalf("the bench does not open:\n%s", ui.Accessible(host.Tree()).Text())
	}
	return host
}

const pedalTime = 8 * time.Second

// BenchmarkBenchFrames holds the pedal down in the real window, drawn by the
// processor at 1280 by 800, and takes the time between the frames that the
// display gets; how much of the clock the bench keeps up with; and what of a
// processor the program takes for a frame. Then, alone, what of a processor
// the tissue takes for 33 ms of the same burst.
func BenchmarkBenchFrames(b *testing.B) {
	desk, path, data := newDesktop(b), build(b), benchFolder(b)
	p := desk.start(path, data)
	p.waitFor("today's cases", holds("cases for today"))
	openTowel(p)
	h := takePlace(p)
	markAndNumb(h)
	scrape(h)
	h.take("e", "Electrode")
	shown := desk.frames(h.window())
	var gaps []time.Duration
	var used, wall, live float64
	for b.Loop() {
		_, h.heard = h.screen()
		h.desk.xdotool("keydown", "space")
		h.during("a burst", 0.1)
		_, before := h.bursts()
		cpu, from, first := processorTime(b, p.cmd.Process.Pid), time.Now(), len(shown())
		time.Sleep(pedalTime)
		at := shown()
		wall += time.Since(from).Seconds()
		used += (processorTime(b, p.cmd.Process.Pid) - cpu).Seconds()
		words, _ := h.screen()
		if !running(words) {
			b.Fatalf("the current has stopped:\n%s", words)
		}
		_, after := h.bursts()
		live += after - before
		_, h.heard = h.screen()
		h.desk.xdotool("keyup", "space")
		h.wants("the burst's end", func(w string) bool { return !running(w) })
		for i := first + 1; i < len(at); i++ {
			gaps = append(gaps, at[i]-at[i-1])
		}
	}
	p.close()
	if len(gaps) < 10 {
		b.Fatalf("the display got %d frames in %v", len(gaps), pedalTime)
	}
	slices.Sort(gaps)
	b.ReportMetric(0, "ns/op")
	b.ReportMetric(ms(gaps[len(gaps)/2]), "ms-median")
	b.ReportMetric(ms(gaps[len(gaps)*99/100]), "ms-99th")
	b.ReportMetric(float64(len(gaps)), "frames")
	b.ReportMetric(live/wall, "of-the-clock")
	b.ReportMetric(1000*used/float64(len(gaps)), "cpu-ms/frame")
	b.ReportMetric(tissueCPUms(b), "tissue-cpu-ms/33ms")
}

// tissueCPUms is the processor time of all cores, ms, that 33 ms of a burst
// take without any picture.
func tissueCPUms(b *testing.B) float64 {
	b.Helper()
	pack, c := builtinCase(b, towel)
	text, err := os.ReadFile(filepath.Join("testdata", "plans", "towel-safe.json"))
	if err != nil {
		b.Fatal(err)
	}
	plan, err := cases.ReadPlan("towel-safe.json", text)
	if err != nil {
		b.Fatal(err)
	}
	bn, err := bench.Open(pack, c, plan, bench.Options{Workers: 2})
	if err != nil {
		b.Fatal(err)
	}
	half, wait, on := cases.Milli(1000), cases.Milli(150_000), true
	for _, e := range []cases.SessionEvent{
		{Tool: "pen", Act: "mark"},
		{Tool: "syringe", Act: "inject", VolumeML: &half},
		{Act: "wait", WaitS: &wait},
		{Tool: "curette", Act: "curette"},
		{Act: "specimen_to_pot"},
		{Tool: "electrode", Pedal: &on},
	} {
		if err := bn.Do(e); err != nil {
			b.Fatal(err)
		}
		if e.Act == "wait" {
			bn.Advance(int(wait))
		}
	}
	const frames = 60
	from := ownCPU(b)
	for range frames {
		bn.Advance(33)
	}
	used := ownCPU(b) - from
	if s := bn.State(); !s.Live {
		b.Fatalf("no current flows: %q", s.Caution)
	}
	return ms(used) / frames
}

func ownCPU(t testing.TB) time.Duration {
	t.Helper()
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		t.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// frames watches what is drawn on a window. The function it gives tells when
// each frame so far began to arrive, by the display's clock. A frame comes in
// bands from the top down; a band no lower than the one before begins another.
func (d *desktop) frames(window string) func() []time.Duration {
	d.t.Helper()
	x, err := xgb.NewConnDisplay(d.display)
	if err != nil {
		d.t.Fatal(err)
	}
	d.t.Cleanup(x.Close)
	if err := damage.Init(x); err != nil {
		d.t.Fatal(err)
	}
	if _, err := damage.QueryVersion(x, 1, 1).Reply(); err != nil {
		d.t.Fatal(err)
	}
	id, err := damage.NewDamageId(x)
	if err != nil {
		d.t.Fatal(err)
	}
	if err := damage.CreateChecked(x, id, xproto.Drawable(number(d.t, window)), damage.ReportLevelRawRectangles).Check(); err != nil {
		d.t.Fatal(err)
	}
	var mu sync.Mutex
	var at []time.Duration
	go func() {
		lastY := int16(-1)
		for {
			ev, err := x.WaitForEvent()
			if ev == nil && err == nil {
				return // closed
			}
			n, ok := ev.(damage.NotifyEvent)
			if !ok {
				continue
			}
			mu.Lock()
			if n.Area.Y <= lastY || lastY < 0 {
				at = append(at, time.Duration(n.Timestamp)*time.Millisecond)
			}
			mu.Unlock()
			lastY = n.Area.Y
		}
	}()
	return func() []time.Duration {
		mu.Lock()
		defer mu.Unlock()
		return slices.Clone(at)
	}
}

// anotherWindow gives the keyboard to a window of its own; giveBack returns it.
func (d *desktop) anotherWindow(from string) (giveBack func()) {
	d.t.Helper()
	x, err := xgb.NewConnDisplay(d.display)
	if err != nil {
		d.t.Fatal(err)
	}
	d.t.Cleanup(x.Close)
	id, err := xproto.NewWindowId(x)
	if err != nil {
		d.t.Fatal(err)
	}
	root := xproto.Setup(x).DefaultScreen(x)
	focus := func(w xproto.Window) {
		if err := xproto.SetInputFocusChecked(x, xproto.InputFocusPointerRoot, w, xproto.TimeCurrentTime).Check(); err != nil {
			d.t.Fatal(err)
		}
	}
	err = xproto.CreateWindowChecked(x, root.RootDepth, id, root.Root, 0, 0, 8, 8, 0, xproto.WindowClassInputOutput, root.RootVisual, 0, nil).Check()
	if err == nil {
		err = xproto.MapWindowChecked(x, id).Check()
	}
	if err != nil {
		d.t.Fatal(err)
	}
	focus(id)
	return func() { focus(xproto.Window(number(d.t, from))) }
}

func builtinCase(t testing.TB, ref string) (*cases.Pack, *cases.Case) {
	t.Helper()
	loaded, err := packs.Load()
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range loaded {
		for i := range l.Pack.Cases {
			if l.Pack.ID+"/"+l.Pack.Cases[i].ID == ref {
				return l.Pack, &l.Pack.Cases[i]
			}
		}
	}
	t.Fatalf("there is no case %q", ref)
	return nil, nil
}

// Ten minutes of the bench's clock, a burst of a second in every ten, leave no
// more in memory than the second minute did, but for what is kept for undo and
// replay.
func TestMemoryOnTheBenchStaysFlat(t *testing.T) {
	if os.Getenv("LEASTWATT_LONG") == "" {
		t.Skip("ten minutes of the bench take minutes: set LEASTWATT_LONG=1")
	}
	host := openedBench(t)
	tap := func(names ...string) {
		for _, name := range names {
			host.KeyDown(ui.Key{Name: name})
			host.KeyUp(name)
			host.Frame()
		}
	}
	pass := func(totalMS int) {
		for range totalMS / 40 {
			host.Tell(ui.Elapsed{MS: 40})
			host.Frame()
		}
	}
	tap("m", "Space", "y", "Space", "Space", "d", "d", "d", "d", "d", "u", "Space", "t", "e")
	var live []float64
	for minute := range 10 {
		for range 6 {
			tap("n")
			host.KeyDown(ui.Key{Name: "Space"})
			pass(1000)
			host.KeyUp("Space")
			pass(9000)
		}
		live = append(live, liveMiB())
		t.Logf("minute %d: %.1f MiB live", minute+1, live[minute])
	}
	words := plainSpaces(ui.Accessible(host.Tree()).Text())
	if want := fmt.Sprintf("%d bursts, ", 60); !strings.Contains(words, want) {
		t.Errorf("the meters do not tell of %s:\n%s", want, words)
	}
	if grown := live[9] - live[1]; grown > 4 {
		t.Errorf("from minute 2 to minute 10 the memory in use grew by %.1f MiB: %.1f", grown, live)
	}
}

func liveMiB() float64 {
	runtime.GC()
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return float64(m.HeapAlloc) / (1 << 20)
}
