package display

import (
	"errors"
	"os"
	"strconv"
	"strings"
	"syscall"
)

// startServer starts Xvfb on a number of this process's own, sets DISPLAY, and
// lets it end with this process. A number taken from the low free ones could
// still be in the hands of a server that is just ending, which would then remove
// the new one's socket.
func startServer() error {
	path, err := lookUp("Xvfb")
	if err != nil {
		return err
	}
	r, w, err := os.Pipe()
	if err != nil {
		return err
	}
	defer r.Close()
	devNull, err := os.OpenFile(os.DevNull, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	defer devNull.Close()
	number := ":" + strconv.Itoa(1000+os.Getpid()%50000)
	// -displayfd writes the number to that file once the server is ready. The
	// screen holds a window at device scale 2.
	args := []string{"Xvfb", number, "-displayfd", "3", "-screen", "0", "2600x1700x24", "-nolisten", "tcp"}
	p, err := os.StartProcess(path, args, &os.ProcAttr{
		Files: []*os.File{devNull, devNull, devNull, w},
		Sys:   &syscall.SysProcAttr{Pdeathsig: syscall.SIGTERM},
	})
	w.Close()
	if err != nil {
		return err
	}
	// It writes the number and the line's end apart, and gives up when nobody
	// reads the second.
	said := ""
	for buf := make([]byte, 16); !strings.Contains(said, "\n"); {
		n, err := r.Read(buf)
		if err != nil {
			_ = p.Kill()
			return errors.New("Xvfb did not start on display " + number)
		}
		said += string(buf[:n])
	}
	return os.Setenv("DISPLAY", number)
}

func lookUp(name string) (string, error) {
	for _, dir := range strings.Split(os.Getenv("PATH"), ":") {
		if info, err := os.Stat(dir + "/" + name); dir != "" && err == nil && !info.IsDir() && info.Mode()&0o111 != 0 {
			return dir + "/" + name, nil
		}
	}
	return "", errors.New(name + " is not installed")
}
