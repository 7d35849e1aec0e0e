#!/usr/bin/python3
"""bomcheck.py SCHEMAS BOM.json - an SBOM against the schema of CycloneDX 1.5.

SCHEMAS is the folder schema of the module github.com/CycloneDX/cyclonedx-go.
Prints what is wrong and ends with status 1. Needs python3-jsonschema.
"""
import copy
import json
import pathlib
import sys

import jsonschema


def validator(folder):
    """The schema, with the two that it refers to; none comes from the network."""
    schema, *others = [
        json.loads((folder / name).read_text())
        for name in ("bom-1.5.schema.json", "spdx.schema.json", "jsf-0.82.schemax.json")
    ]
    known = jsonschema.RefResolver.from_schema(schema, store={s["$id"]: s for s in others})
    return jsonschema.Draft7Validator(schema, resolver=known)


def flaws(check, bom):
    return [f"{'/'.join(map(str, e.absolute_path))}: {e.message}" for e in check.iter_errors(bom)]


check = validator(pathlib.Path(sys.argv[1]))
bom = json.loads(pathlib.Path(sys.argv[2]).read_text())

# A check that cannot fail is none: damage that each of the schemas must see.
for damage in (
    lambda b: b.pop("bomFormat"),
    lambda b: b["components"][0].pop("name"),
    lambda b: b["components"][0].update(licenses=[{"license": {"id": "no licence of SPDX"}}]),
    lambda b: b["components"][0]["hashes"][0].update(content="0"),
    lambda b: b.update(signature={}),
):
    damaged = copy.deepcopy(bom)
    damage(damaged)
    if not flaws(check, damaged):
        sys.exit("the schema accepts what is damaged")

wrong = flaws(check, bom)
print(*wrong, sep="\n", end="\n" if wrong else "")
sys.exit(bool(wrong))
