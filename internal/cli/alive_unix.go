//go:build unix

package cli

import (
	"errors"
	"syscall"
)

// alive tells whether a process exists, anybody's.
func alive(pid int) bool {
	err := syscall.Kill(pid, 0)
	return err == nil || !errors.Is(err, syscall.ESRCH)
}
