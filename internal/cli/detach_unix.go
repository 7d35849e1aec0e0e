//go:build unix

package cli

import (
	"os/exec"
	"syscall"
)

// detach lets a program live on when the terminal closes that it was started
// from: a session of its own gets no hang-up.
func detach(c *exec.Cmd) { c.SysProcAttr = &syscall.SysProcAttr{Setsid: true} }
