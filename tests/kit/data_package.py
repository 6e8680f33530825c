#!/usr/bin/env python3
"""An independent validator of tabular data packages, and its trial on our folders.

Written from the published specifications (Data Package, Data Resource, Tabular Data Resource, Table Schema, CSV Dialect,
version 1, specs.frictionlessdata.io), not from our C code: the descriptor against a JSON Schema (python3-jsonschema),
then every table with Python's own csv module against the descriptor's schema: types, constraints, primary and foreign
keys. Debian has no validator of data packages, so this stands in for one. A validator that accepts everything proves
nothing: at the end it must refuse a dozen spoilt packages.

    data_package.py KITBENCH FOLDER...    each folder as it is, and with a datapackage.json written by KITBENCH
"""
import copy
import csv
import datetime
import decimal
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile

import jsonschema

TYPES = ["string", "number", "integer", "boolean", "object", "array", "date", "time", "datetime", "year",
         "yearmonth", "duration", "geopoint", "geojson", "any"]

KEY = {"anyOf": [{"type": "string", "minLength": 1},
                 {"type": "array", "minItems": 1, "uniqueItems": True, "items": {"type": "string"}}]}

DESCRIPTOR = {
    "type": "object",
    "required": ["profile", "resources"],
    "properties": {
        "profile": {"const": "tabular-data-package"},
        "name": {"type": "string", "pattern": "^([-a-z0-9._/])+$"},
        "title": {"type": "string"},
        "resources": {
            "type": "array",
            "minItems": 1,
            "items": {
                "type": "object",
                "required": ["name", "path", "schema", "profile"],
                "properties": {
                    "name": {"type": "string", "pattern": "^([-a-z0-9._/])+$"},
                    "path": {"type": "string", "pattern": r"^(?!/|~|\.\.?/)(?!.*/\.\.?/)[^\\:]+$"},
                    "profile": {"const": "tabular-data-resource"},
                    "encoding": {"type": "string"},
                    "description": {"type": "string"},
                    "schema": {
                        "type": "object",
                        "required": ["fields"],
                        "properties": {
                            "fields": {
                                "type": "array",
                                "minItems": 1,
                                "items": {
                                    "type": "object",
                                    "required": ["name"],
                                    "properties": {
                                        "name": {"type": "string", "minLength": 1},
                                        "type": {"enum": TYPES},
                                        "format": {"type": "string"},
                                        "trueValues": {"type": "array", "minItems": 1, "items": {"type": "string"}},
                                        "falseValues": {"type": "array", "minItems": 1, "items": {"type": "string"}},
                                        "constraints": {
                                            "type": "object",
                                            "properties": {
                                                "required": {"type": "boolean"},
                                                "unique": {"type": "boolean"},
                                                "enum": {"type": "array", "minItems": 1, "uniqueItems": True},
                                                "pattern": {"type": "string"},
                                            },
                                        },
                                    },
                                },
                            },
                            "primaryKey": KEY,
                            "foreignKeys": {
                                "type": "array",
                                "minItems": 1,
                                "items": {
                                    "type": "object",
                                    "required": ["fields", "reference"],
                                    "properties": {
                                        "fields": KEY,
                                        "reference": {
                                            "type": "object",
                                            "required": ["resource", "fields"],
                                            "properties": {"resource": {"type": "string"}, "fields": KEY},
                                        },
                                    },
                                },
                            },
                        },
                    },
                },
            },
        },
    },
}

# Constraints that the specification allows for each type we meet.
ALLOWED = {"string": {"required", "unique", "enum", "pattern", "minLength", "maxLength"},
           "integer": {"required", "unique", "enum", "pattern", "minimum", "maximum"},
           "number": {"required", "unique", "enum", "pattern", "minimum", "maximum"},
           "boolean": {"required", "enum"},
           "date": {"required", "unique", "enum", "pattern", "minimum", "maximum"}}


def names(key):
    return [key] if isinstance(key, str) else key


def cast(field, cell):
    """The value of a cell, None for a missing one; ValueError when it is not of the field's type."""
    if cell == "":
        return None
    kind = field.get("type", "string")
    if kind == "string":
        return cell
    if kind == "integer":
        if not re.fullmatch(r"[+-]?[0-9]+", cell):
            raise ValueError("not an integer")
        return int(cell)
    if kind == "number":
        if not re.fullmatch(r"[+-]?[0-9]+(\.[0-9]+)?([eE][+-]?[0-9]+)?", cell):
            raise ValueError("not a number")
        return decimal.Decimal(cell)
    if kind == "boolean":
        if cell in field.get("trueValues", ["true", "True", "TRUE", "1"]):
            return True
        if cell in field.get("falseValues", ["false", "False", "FALSE", "0"]):
            return False
        raise ValueError("not a boolean")
    if kind == "date":
        if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", cell):
            raise ValueError("not a date")
        return datetime.date.fromisoformat(cell)
    raise ValueError("a type this validator does not know: " + kind)


def check_value(field, value):
    rules = field.get("constraints", {})
    unknown = set(rules) - ALLOWED[field.get("type", "string")]
    if unknown:
        raise ValueError("constraints that its type does not have: %s" % sorted(unknown))
    if value is None:
        if rules.get("required"):
            raise ValueError("required, but missing")
        return
    if "enum" in rules and value not in rules["enum"]:
        raise ValueError("not in the enum")
    if "pattern" in rules and not re.search(rules["pattern"], value):
        raise ValueError("against the pattern")
    if "minimum" in rules and value < decimal.Decimal(str(rules["minimum"])):
        raise ValueError("below the minimum")
    if "maximum" in rules and value > decimal.Decimal(str(rules["maximum"])):
        raise ValueError("above the maximum")


def read_table(folder, resource):
    """The records of a resource as dictionaries of values; faults as texts."""
    fields, faults, records = resource["schema"]["fields"], [], []
    where = resource["name"]
    if len({f["name"] for f in fields}) != len(fields):
        faults.append(where + ": a field name is there twice")
    with open(os.path.join(folder, resource["path"]), encoding="utf-8-sig", newline="") as file:
        rows = list(csv.reader(file, strict=True))
    if not rows or rows[0] != [f["name"] for f in fields]:
        return [], faults + [where + ": the heading is not that of the schema"]
    for number, row in enumerate(rows[1:], 2):
        if len(row) != len(fields):
            faults.append("%s row %d: %d cells" % (where, number, len(row)))
            continue
        record = {}
        for field, cell in zip(fields, row):
            try:
                record[field["name"]] = cast(field, cell)
                check_value(field, record[field["name"]])
            except ValueError as why:
                faults.append("%s row %d, %s: %s" % (where, number, field["name"], why))
        records.append(record)
    return records, faults


def check_keys(resource, tables):
    schema, where, faults = resource["schema"], resource["name"], []
    known = {f["name"] for f in schema["fields"]}
    if "primaryKey" in schema:
        key = names(schema["primaryKey"])
        if not set(key) <= known:
            return [where + ": the primary key names no field"]
        values = [tuple(r.get(k) for k in key) for r in tables[where]]
        if len(set(values)) != len(values) or any(None in v for v in values):
            faults.append(where + ": the primary key is not unique, or missing")
    for foreign in schema.get("foreignKeys", []):
        target = foreign["reference"]["resource"] or where
        mine, theirs = names(foreign["fields"]), names(foreign["reference"]["fields"])
        if not set(mine) <= known or target not in tables or len(mine) != len(theirs):
            faults.append("%s: the foreign key %s leads nowhere" % (where, mine))
            continue
        there = {tuple(r.get(k) for k in theirs) for r in tables[target]}
        for record in tables[where]:
            value = tuple(record.get(k) for k in mine)
            if None not in value and value not in there:
                faults.append("%s: %s %s is not in %s" % (where, mine, value, target))
    return faults


def validate(folder, descriptor=None):
    """All faults of a package, as texts."""
    if descriptor is None:
        with open(os.path.join(folder, "datapackage.json"), encoding="utf-8") as file:
            descriptor = json.load(file)
    faults = ["%s: %s" % ("/".join(map(str, e.path)), e.message)
              for e in jsonschema.Draft7Validator(DESCRIPTOR).iter_errors(descriptor)]
    if faults:
        return faults
    resources, tables = descriptor["resources"], {}
    if len({r["name"] for r in resources}) != len(resources):
        faults.append("a resource name is there twice")
    for resource in resources:
        tables[resource["name"]], more = read_table(folder, resource)
        faults += more
    for resource in resources:
        faults += check_keys(resource, tables)
    return faults


def spoilt(descriptor):
    """The descriptor of the small good kit, spoilt in one way after the other."""
    def spoil(change):
        copied = copy.deepcopy(descriptor)
        change(copied, {r["name"]: r for r in copied["resources"]})
        return copied

    def field(resource, name):
        return next(f for f in resource["schema"]["fields"] if f["name"] == name)

    yield spoil(lambda d, r: d.pop("profile"))
    yield spoil(lambda d, r: d.update(name="Bird Table"))
    yield spoil(lambda d, r: d.update(resources=[]))
    yield spoil(lambda d, r: r["parts"].update(path="../parts.csv"))
    yield spoil(lambda d, r: r["parts"].pop("schema"))
    yield spoil(lambda d, r: r["parts"]["schema"]["fields"].pop())
    yield spoil(lambda d, r: field(r["parts"], "mass_g").update(type="mass"))
    yield spoil(lambda d, r: field(r["parts"], "name").update(type="integer"))
    yield spoil(lambda d, r: field(r["parts"], "note").update(constraints={"required": True}))
    yield spoil(lambda d, r: field(r["rows"], "quantity").update(constraints={"maximum": 5}))
    yield spoil(lambda d, r: field(r["containers"], "kind").update(constraints={"enum": ["box"]}))
    yield spoil(lambda d, r: r["rows"]["schema"].update(primaryKey="container"))
    yield spoil(lambda d, r: r["step_after"]["schema"]["foreignKeys"][0]["reference"].update(resource="parts"))
    yield spoil(lambda d, r: r["step_after"]["schema"]["foreignKeys"][0]["reference"].update(resource="nowhere"))


def main(kitbench, folders):
    failed = 0
    for folder in folders:
        with tempfile.TemporaryDirectory() as work:
            written = os.path.join(work, os.path.basename(folder))
            shutil.copytree(folder, written)
            os.remove(os.path.join(written, "datapackage.json"))
            if "crew.csv" in os.listdir(folder):
                kit = shutil.copytree(os.path.join(os.path.dirname(folder), "kit"), os.path.join(work, "its-kit"))
                command = [kitbench, "check", kit, "--workshop", written, "--package"]
            else:
                command = [kitbench, "check", written, "--package"]
            subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
            for what, faults in ((folder, validate(folder)), (folder + " written anew", validate(written))):
                print("%s: %s" % (what, "; ".join(faults[:5]) if faults else "valid"))
                failed += bool(faults)
    with open(os.path.join(folders[0], "datapackage.json"), encoding="utf-8") as file:
        descriptor = json.load(file)
    for number, bad in enumerate(spoilt(descriptor), 1):
        if not validate(folders[0], bad):
            print("the validator accepts spoilt package %d" % number)
            failed += 1
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], [os.path.normpath(f) for f in sys.argv[2:]]))
