package cli

import (
	"fmt"
	"runtime"

	"github.com/spf13/cobra"

	"github.com/evapbook/evapbook/internal/version"
)

func newVersionCmd(s *streams) *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "Print the version, its date and what it was built for",
		Args:  usageArgs(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error {
			text := version.Text()
			if date := version.Date(); date != "" {
				text += " of " + date
			}
			_, err := fmt.Fprintf(s.out, "evapbook %s, %s for %s on %s\n", text, runtime.Version(), runtime.GOOS, runtime.GOARCH)
			return err
		},
	}
}
