package licences

import (
	"errors"
	"slices"
	"strings"
)

// phrases by which a licence is known, after its white space is made single.
// The words are those of the licences as the SPDX licence list gives them.
var phrases = []struct{ id, has, not string }{
	{"Apache-2.0", "Apache License Version 2.0", ""},
	{"BSD-2-Clause", "Redistribution and use in source and binary forms", "Neither the name"},
	{"BSD-3-Clause", "Neither the name", ""},
	{"MIT", "Permission is hereby granted, free of charge, to any person obtaining a copy", ""},
	{"MPL-2.0", "Mozilla Public License Version 2.0", ""},
	{"ISC", "Permission to use, copy, modify, and/or distribute this software for any purpose", ""},
	{"GPL", "GNU GENERAL PUBLIC LICENSE", ""},
	{"LGPL", "GNU LESSER GENERAL PUBLIC LICENSE", ""},
}

// Mixable are the licences that a program under the Apache License may hold.
var Mixable = []string{"Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "ISC", "MIT"}

// Identify names the licences in some files, as an expression of SPDX
// identifiers. Files of patents and notices only add to a licence.
func Identify(texts []Text) (string, error) {
	var ids []string
	for _, t := range texts {
		text := strings.Join(strings.Fields(t.Body), " ")
		for _, p := range phrases {
			if strings.Contains(text, p.has) && (p.not == "" || !strings.Contains(text, p.not)) {
				ids = append(ids, p.id)
			}
		}
	}
	if len(ids) == 0 {
		return "", errors.New("no licence that is known")
	}
	slices.Sort(ids)
	return strings.Join(slices.Compact(ids), " AND "), nil
}
