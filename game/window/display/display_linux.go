package display

import (
	"os"
	"strings"
)

// ExitNoDisplay is how the program ends when no display answers, so that the
// one that started it can fall back to the plain mode.
const ExitNoDisplay = 3

func init() {
	if Reachable() {
		return
	}
	if testBinary(os.Args[0]) {
		if err := startServer(); err != nil {
			fail("the window's tests need a display: " + err.Error() + ". Install it with: apt-get install xvfb")
		}
		return
	}
	os.Stderr.WriteString("leastwatt: no display answers (DISPLAY=" + os.Getenv("DISPLAY") + ")\n")
	os.Exit(ExitNoDisplay)
}

func fail(message string) {
	os.Stderr.WriteString("leastwatt: " + message + "\n")
	os.Exit(2)
}

// Reachable tells whether DISPLAY names a server. A local one must have its
// socket; one on another machine is taken at its word.
func Reachable() bool {
	d := os.Getenv("DISPLAY")
	if d == "" {
		return false
	}
	number, local := localNumber(d)
	if !local {
		return true
	}
	if _, err := os.Stat("/tmp/.X11-unix/X" + number); err == nil {
		return true
	}
	// Some servers listen only on the abstract socket or on TCP: try both by
	// letting the kernel's list of sockets speak.
	list, err := os.ReadFile("/proc/net/unix")
	return err == nil && strings.Contains(string(list), "@/tmp/.X11-unix/X"+number+"\n")
}

// localNumber takes the number out of ":77" or ":77.0".
func localNumber(display string) (number string, local bool) {
	if display[0] != ':' {
		return "", false
	}
	number, _, _ = strings.Cut(display[1:], ".")
	return number, true
}

// testBinary recognises what "go test" builds and runs.
func testBinary(name string) bool {
	return strings.HasSuffix(name, ".test")
}
