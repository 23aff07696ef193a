package window

import (
	"math"
	"sync/atomic"

	"github.com/ebitengine/oto/v3"
)

// Sounding is a screen that sounds a steady tone while something goes on. A
// unit must sound while its output is on (IEC 60601-2-2, Particular
// requirements for high frequency surgical equipment, Geneva).
type Sounding interface{ ToneHz() int }

const sampleRate = 48000

// tone plays one steady tone, or nothing. It opens the sound device at the
// first tone and not before; a machine without one stays silent, and that is no
// fault: the screen shows the pedal too.
type tone struct {
	tried  bool
	player *oto.Player
	wave   sine
}

// set changes the tone; 0 ends it.
func (t *tone) set(hz int) {
	if hz == 0 && !t.tried {
		return
	}
	t.wave.hz.Store(int64(hz))
	if t.tried {
		return
	}
	t.tried = true
	if !soundDevice() {
		return
	}
	go func() {
		ctx, ready, err := oto.NewContext(&oto.NewContextOptions{SampleRate: sampleRate, ChannelCount: 1, Format: oto.FormatSignedInt16LE})
		if err != nil {
			return
		}
		<-ready
		if ctx.Err() != nil {
			return
		}
		t.player = ctx.NewPlayer(&t.wave)
		t.player.SetBufferSize(sampleRate / 50 * 2) // 20 ms: it must end with the pedal
		t.player.Play()
	}()
}

// sine is an endless tone. It swells and fades over a few milliseconds so that
// it does not click.
type sine struct {
	hz    atomic.Int64
	held  float64 // the frequency that is still fading
	phase float64
	level float64
}

const (
	loudness = 0.18
	swell    = 1.0 / (0.006 * sampleRate)
)

// Read fills b with 16-bit samples.
func (s *sine) Read(b []byte) (int, error) {
	want := float64(s.hz.Load())
	n := len(b) / 2 * 2
	for i := 0; i < n; i += 2 {
		if want > 0 && (s.held == want || s.level <= 0) {
			s.held = want
			s.level = math.Min(1, s.level+swell)
		} else {
			s.level = math.Max(0, s.level-swell)
		}
		s.phase = math.Mod(s.phase+s.held/sampleRate, 1)
		v := int16(32767 * loudness * s.level * math.Sin(2*math.Pi*s.phase))
		b[i], b[i+1] = byte(v), byte(uint16(v)>>8)
	}
	return n, nil
}
