//go:build !unix

package cli

import "os"

// alive tells whether a process exists.
func alive(pid int) bool {
	p, err := os.FindProcess(pid)
	if err != nil {
		return false
	}
	p.Release()
	return true
}
