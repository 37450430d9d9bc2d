"""Checks messages against a schema with the jsonschema library.

Reads lines of definition, tab, payload; tells every one that does not match, and ends with 1 where there is one.
"""

import json
import sys

import jsonschema

with open(sys.argv[1], encoding="utf-8") as file:
    document = json.load(file)
jsonschema.Draft7Validator.check_schema(document)
resolver = jsonschema.RefResolver.from_schema(document)


def no_constant(name):
    raise ValueError(name + " is no JSON")


checked = wrong = 0
for line in sys.stdin.buffer.read().decode("utf-8").rstrip("\n").split("\n"):
    definition, payload = line.split("\t", 1)
    checked += 1
    validator = jsonschema.Draft7Validator(
        {"$ref": "#/definitions/" + definition}, resolver=resolver
    )
    for error in validator.iter_errors(json.loads(payload, parse_constant=no_constant)):
        wrong += 1
        print("wrong", definition, payload, list(error.absolute_path), error.message)
print("checked", checked)
sys.exit(1 if wrong else 0)
