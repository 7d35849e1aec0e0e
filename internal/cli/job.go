package cli

import (
	"github.com/spf13/cobra"

	"github.com/evapbook/evapbook/internal/job"
	"github.com/evapbook/evapbook/internal/units"
)

type jobOptions struct {
	*streams
	jobFlags
}

func newJobCmd(s *streams) *cobra.Command {
	o := &jobOptions{streams: s}
	cmd := &cobra.Command{
		Use:   "job",
		Short: "Print a job file with every input, its default and its reason",
		Long: `Job prints a commented job file in TOML. Every input stands there with its unit,
allowed range, default and the reason for it; take off the # of a line to state it.`,
		Example: `  # start a job file
  evapbook job > house.toml

  # the same with values already stated, in SI units
  evapbook job --units si --set cooler.kind=two-stage > house.toml

  # the inputs of a workbook that somebody has changed
  evapbook job --from boise.xlsx`,
		Args: usageArgs(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error { return o.run() },
	}
	cmd.Flags().StringVar(&o.from, "from", "", "take the inputs from a workbook that was edited")
	cmd.Flags().StringArrayVar(&o.offer, "option", nil, optionUsage)
	cmd.Flags().StringVar(&o.show, "show", "", showUsage)
	o.jobFlags.add(cmd.Flags())
	return cmd
}

func (o *jobOptions) run() error {
	if err := o.readFrom(o.err); err != nil {
		return err
	}
	sys := units.IP
	if o.base != nil {
		sys = o.base.Units
	}
	if o.units != "" {
		var err error
		if sys, err = units.ParseSystem(o.units); err != nil {
			return usageError{err}
		}
	}
	j, err := o.build()
	if err != nil {
		return err
	}
	return job.WriteTOML(o.out, j, sys, true)
}
