//go:build !js

package tissue

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"
)

// TestOtherPlatforms builds this package's tests for an arm64 and for a
// WebAssembly machine and plays the sessions there, on a program that acts as
// one: they must end in the committed digests. One worker is enough, since the
// number of workers is tried on this machine by TestSameBits.
func TestOtherPlatforms(t *testing.T) {
	if testing.Short() {
		t.Skip("building for other machines is left out of the short tests")
	}
	goRoot := strings.TrimSpace(output(t, nil, "go", "env", "GOROOT"))
	for _, p := range []struct {
		name, program, needs string
		env, args            []string
	}{
		{
			name: "arm64", program: "qemu-aarch64-static", needs: "qemu-user-static",
			env: []string{"GOOS=linux", "GOARCH=arm64"},
		},
		{
			name: "wasm", program: "node", needs: "nodejs",
			env:  []string{"GOOS=js", "GOARCH=wasm"},
			args: []string{"--stack-size=8192", filepath.Join(goRoot, "lib", "wasm", "wasm_exec_node.js")},
		},
	} {
		t.Run(p.name, func(t *testing.T) {
			if runtime.GOARCH == p.name {
				t.Skip("this machine is one: TestSameBits does it")
			}
			program, err := exec.LookPath(p.program)
			if err != nil {
				t.Skipf("%s is not installed (Debian package %s): the bits of %s are not checked here", p.program, p.needs, p.name)
			}
			binary := filepath.Join(t.TempDir(), "tissue.test")
			output(t, append(p.env, "CGO_ENABLED=0"), "go", "test", "-c", "-o", binary, ".")
			out := output(t, nil, program, append(p.args, binary, "-test.run=^TestSameBits$", "-test.short", "-test.v")...)
			for _, s := range sessions {
				if line := "--- PASS: TestSameBits/" + strings.ReplaceAll(s.name, " ", "_") + " "; !strings.Contains(out, line) {
					t.Errorf("%s: the session was not played to its end:\n%s", s.name, out)
				}
			}
		})
	}
}

// output runs a program with further settings of the environment and returns
// what it prints.
func output(t *testing.T, env []string, program string, args ...string) string {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), 4*time.Minute)
	defer cancel()
	c := exec.CommandContext(ctx, program, args...)
	c.Env = append(os.Environ(), env...)
	out, err := c.CombinedOutput()
	if err != nil {
		t.Fatalf("%s %s: %v\n%s", program, strings.Join(args, " "), err, out)
	}
	return string(out)
}
