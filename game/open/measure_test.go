package open

import (
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/jezek/xgb"
	"github.com/jezek/xgb/xproto"

	"leastwatt/game/keep"
	"leastwatt/game/screen"
)

// What a person waits for, and what the program takes while nobody touches it.
// These print and assert no time:
//
//	go test ./game/open -run '^$' -bench FirstFrame -benchtime 20x
//	go test ./game/open -run '^$' -bench Idle

// BenchmarkFirstFrame takes the time from the start of the process to the first
// frame that an X server shows, on a folder that was used before. The program
// and the program of its window are both started.
func BenchmarkFirstFrame(b *testing.B) {
	desk, path, data := newDesktop(b), build(b), usedFolder(b)
	watch := newWatch(b, desk)
	firstFrame(b, path, desk, data, watch) // reads the files into memory
	var took []time.Duration
	for b.Loop() {
		took = append(took, firstFrame(b, path, desk, data, watch))
	}
	slices.Sort(took)
	b.ReportMetric(0, "ns/op") // holds the ending of the process too
	b.ReportMetric(ms(took[len(took)/2]), "ms-median")
	b.ReportMetric(ms(took[0]), "ms-least")
	b.ReportMetric(ms(took[len(took)-1]), "ms-most")
}

func ms(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }

// usedFolder holds what an earlier sitting left, so that the program opens on
// today's cases and not on the first case.
func usedFolder(t testing.TB) string {
	t.Helper()
	data := t.TempDir()
	folder, err := keep.Open(data)
	if err != nil {
		t.Fatal(err)
	}
	if err := folder.SaveSettings(screen.DefaultSettings()); err != nil {
		t.Fatal(err)
	}
	return data
}

func firstFrame(b *testing.B, path string, desk *desktop, data string, w *watch) time.Duration {
	b.Helper()
	w.until(false)
	cmd := exec.Command(path, "--data", data, "--scale", "1")
	cmd.Env = desk.env
	cmd.Stderr = os.Stderr
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	from := time.Now()
	if err := cmd.Start(); err != nil {
		b.Fatal(err)
	}
	w.until(true)
	took := time.Since(from)
	stop(cmd)
	return took
}

// watch looks at one pixel in the middle of an X server's screen, which is
// black while no window shows anything there.
type watch struct {
	b *testing.B
	x *xgb.Conn
	s *xproto.ScreenInfo
}

func newWatch(b *testing.B, d *desktop) *watch {
	b.Helper()
	x, err := xgb.NewConnDisplay(d.display)
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(x.Close)
	return &watch{b, x, xproto.Setup(x).DefaultScreen(x)}
}

func (w *watch) until(lit bool) {
	w.b.Helper()
	for limit := time.Now().Add(20 * time.Second); time.Now().Before(limit); time.Sleep(time.Millisecond) {
		r, err := xproto.GetImage(w.x, xproto.ImageFormatZPixmap, xproto.Drawable(w.s.Root),
			int16(w.s.WidthInPixels/2), int16(w.s.HeightInPixels/2), 1, 1, ^uint32(0)).Reply()
		if err != nil {
			w.b.Fatal(err)
		}
		if lit == (r.Data[0]|r.Data[1]|r.Data[2] != 0) {
			return
		}
	}
	w.b.Fatalf("no frame came or went within 20 s (waiting for light: %v)", lit)
}

const idleTime = 20 * time.Second

// BenchmarkIdle takes what the program's processes use of a processor, and of
// memory, while an open case is left alone.
func BenchmarkIdle(b *testing.B) {
	desk, path := newDesktop(b), build(b)
	p := desk.start(path, b.TempDir())
	p.waitFor("the first case", holds("Asking never costs."))
	time.Sleep(5 * time.Second) // the pictures are drawn and the loop has gone to sleep
	var used time.Duration
	var rounds int
	for b.Loop() {
		before := processorTime(b, p.cmd.Process.Pid)
		time.Sleep(idleTime)
		used += processorTime(b, p.cmd.Process.Pid) - before
		rounds++
	}
	b.ReportMetric(0, "ns/op")
	b.ReportMetric(100*used.Seconds()/(float64(rounds)*idleTime.Seconds()), "%-of-a-core")
	b.ReportMetric(memoryMiB(b, p.cmd.Process.Pid, "VmRSS:"), "MiB-resident")
	b.ReportMetric(memoryMiB(b, p.cmd.Process.Pid, "VmHWM:"), "MiB-at-most")
	p.close()
}

// groupOf lists the processes of a group: the program and that of its window.
func groupOf(t testing.TB, leader int) (stats [][]string, pids []string) {
	t.Helper()
	names, err := filepath.Glob("/proc/[0-9]*/stat")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			continue // it ended just now
		}
		// The second field is a name in brackets that may hold anything.
		_, rest, _ := strings.Cut(string(data[strings.LastIndexByte(string(data), ')'):]), " ")
		fields := strings.Fields(rest) // from the third field of the whole on
		if len(fields) > 12 && fields[2] == strconv.Itoa(leader) {
			stats = append(stats, fields)
			pids = append(pids, filepath.Base(filepath.Dir(name)))
		}
	}
	if len(pids) == 0 {
		t.Fatalf("no process is of the group %d", leader)
	}
	return stats, pids
}

// tick is the unit of processor time in /proc, the same on every Linux.
const tick = time.Second / 100

func processorTime(t testing.TB, leader int) time.Duration {
	t.Helper()
	stats, _ := groupOf(t, leader)
	sum := 0
	for _, f := range stats {
		for _, k := range []int{11, 12} { // utime and stime
			n, err := strconv.Atoi(f[k])
			if err != nil {
				t.Fatal(err)
			}
			sum += n
		}
	}
	return time.Duration(sum) * tick
}

func memoryMiB(t testing.TB, leader int, key string) float64 {
	t.Helper()
	_, pids := groupOf(t, leader)
	sum := 0.0
	for _, pid := range pids {
		data, err := os.ReadFile(filepath.Join("/proc", pid, "status"))
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(data)) {
			if f := strings.Fields(line); len(f) > 1 && f[0] == key {
				n, err := strconv.Atoi(f[1])
				if err != nil {
					t.Fatal(err)
				}
				sum += float64(n) / 1024
			}
		}
	}
	return sum
}
