package licences

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const root = "../.."

// NOTICE names exactly the modules that are linked, with version and licence,
// and none of a licence that does not go with ours.
func TestNoticeListsWhatIsLinked(t *testing.T) {
	modules, err := Linked(root, Builds())
	require.NoError(t, err)
	require.Greater(t, len(modules), 15)
	listed, err := Listed(root)
	require.NoError(t, err)
	assert.Equal(t, List(modules), listed, "hint: make notice")
	for _, m := range modules {
		for id := range strings.SplitSeq(m.Licence, " AND ") {
			assert.Contains(t, Mixable, id, "%s %s", m.Path, m.Version)
		}
		assert.True(t, m.Path == "std" || strings.HasPrefix(m.Sum, "h1:"), "%s has a checksum", m.Path)
	}
	full := Full(modules)
	assert.Contains(t, full, "The excelize Authors", "texts are whole")
	assert.Contains(t, full, "Copyright 2009 The Go Authors")
}

// Only Windows needs mousetrap, so more than this machine's build is looked at.
func TestEverySystemIsLookedAt(t *testing.T) {
	modules, err := Linked(root, []Build{{"windows", "amd64", Program}})
	require.NoError(t, err)
	assert.True(t, slices.ContainsFunc(modules, func(m Module) bool { return m.Path == "github.com/inconshreveable/mousetrap" }))
}

func TestIdentify(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"Redistribution and use in source\n and binary forms, … Neither the name of", "BSD-3-Clause"},
		{"Redistribution and use in source and binary forms", "BSD-2-Clause"},
		{"  Apache License\n  Version 2.0, January 2004\nPermission is hereby granted, free of charge, to any person obtaining a copy", "Apache-2.0 AND MIT"},
		{"GNU GENERAL PUBLIC LICENSE", "GPL"},
	} {
		got, err := Identify([]Text{{"LICENSE", c.text}})
		require.NoError(t, err)
		assert.Equal(t, c.want, got)
	}
	_, err := Identify([]Text{{"LICENSE", "all rights reserved"}})
	assert.Error(t, err)
}
