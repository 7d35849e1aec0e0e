package cli

import (
	"strings"

	"github.com/spf13/cobra"

	"github.com/evapbook/evapbook/internal/places"
)

// mostCompletions is how many names a shell is offered at a time.
const mostCompletions = 200

// completePlaces completes town and station names in all shells.
func completePlaces(cmd *cobra.Command, _ []string, typed string) ([]string, cobra.ShellCompDirective) {
	return placesLike(typed), cobra.ShellCompDirectiveNoFileComp
}

// completeStates completes the TEXT of the command places.
func completeStates(typed string) []string { return placesLike(typed) }

// placesLike lists towns whose names begin with what was typed, whatever its
// case, and stations by number. Shells keep only completions that begin with
// what was typed, so the typed letters are given back as they stand.
func placesLike(typed string) []string {
	if len(typed) < 2 {
		return nil
	}
	var out []string
	add := func(name string) {
		if len(out) < mostCompletions && len(name) >= len(typed) && strings.EqualFold(name[:len(typed)], typed) {
			out = append(out, typed+name[len(typed):])
		}
	}
	towns := places.Towns()
	for i := range towns {
		add(towns[i].Full())
	}
	stations := places.Stations()
	for i := range stations {
		add(stations[i].Number + "\t" + stations[i].Full())
		add(stations[i].Full())
	}
	return out
}

// completable makes --place of a command complete names.
func completable(cmd *cobra.Command) *cobra.Command {
	if err := cmd.RegisterFlagCompletionFunc("place", completePlaces); err != nil {
		panic("cli: " + err.Error())
	}
	return cmd
}
