//go:build !unix

package cli

import "os/exec"

// detach does nothing: programs live on there when a window closes.
func detach(*exec.Cmd) {}
