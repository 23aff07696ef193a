package window

import (
	"os"
	"path/filepath"
	"strings"
)

// soundDevice tells whether there is anything to sound on: a sound card, or a
// sound server. Without one the sound library would write its complaints into
// the terminal.
func soundDevice() bool {
	if cards, err := os.ReadFile("/proc/asound/cards"); err == nil && !strings.Contains(string(cards), "no soundcards") && len(cards) > 0 {
		return true
	}
	if os.Getenv("PULSE_SERVER") != "" {
		return true
	}
	run := os.Getenv("XDG_RUNTIME_DIR")
	for _, socket := range []string{"pulse/native", "pipewire-0"} {
		if run == "" {
			break
		}
		if _, err := os.Stat(filepath.Join(run, socket)); err == nil {
			return true
		}
	}
	return false
}
