package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"github.com/evapbook/evapbook/internal/version"
)

func newVersionCmd(s *streams) *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "Print the version",
		Args:  usageArgs(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error {
			_, err := fmt.Fprintf(s.out, "evapbook %s\n", version.Text())
			return err
		},
	}
}
