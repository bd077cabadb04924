#!/usr/bin/python3
"""Holds the documents against an outside validator, python3-jsonschema (draft 2020-12).

outside-validator.py shipped DATA                  every shipped document is valid
outside-validator.py equal DATA WRITE-SCHEMA       the committed schemas are what the tables say
outside-validator.py mutants DATA VERDICT N        N mutated documents get the same verdict from both

What no schema can say, and our reader tells apart by itself (verdict "beyond", for which the validator must say valid):
- an array of exactly as many numbers, values or units as the car has cylinders, or as there are values
- the funnel's depths rise from 0, its clearances do not fall; one parameter lies above or below another
- a band's lower limit under its upper one; an "about" needs two amounts that are not negative
- a text's length in bytes, where the program keeps it in a fixed room
- a number as typed that is too large or too small for a double, or out of its quantity's or condition's limits
- an uncertainty above 0; a unit for every value that was typed, where units are listed
- a shipped car of that name
- a parameter twice in the tolerances; a land of anything but the funnel's clearance
- a fault's key, or a parameter in one fault, that stands twice; a fault of one cylinder without such a parameter
"""
import copy
import json
import random
import subprocess
import sys
from pathlib import Path

import jsonschema

FORMATS = ("vehicle", "job", "faults", "tolerances")


def say(number, good, name, detail=""):
    print(("ok" if good else "not ok"), number, name)
    for line in detail.splitlines()[:40]:
        print("#", line)
    return good


def unique(pairs):
    keys = [key for key, _ in pairs]
    if len(set(keys)) != len(keys):
        raise ValueError("a name twice")
    return dict(pairs)


def no_constant(word):
    raise ValueError(word)


def strict(text):
    return json.loads(text, object_pairs_hook=unique, parse_constant=no_constant)


def validators(data):
    found = {}
    for name in FORMATS:
        schema = strict((data / "schemas" / f"{name}-1.schema.json").read_text(encoding="utf-8"))
        jsonschema.Draft202012Validator.check_schema(schema)
        found[name] = jsonschema.Draft202012Validator(schema)
    return found


def documents(data):
    for name, folder in (("vehicle", "vehicles"), ("job", "jobs"), ("faults", "faults"), ("tolerances", "tolerances")):
        for path in sorted((data / folder).glob("*.json")):
            yield name, path


def shipped(data):
    known = validators(data)
    rows = list(documents(data))
    good = True
    print(f"1..{len(rows)}")
    for number, (name, path) in enumerate(rows, 1):
        errors = [f"{list(e.absolute_path)}: {e.message}"
                  for e in known[name].iter_errors(strict(path.read_text(encoding="utf-8")))]
        good &= say(number, not errors, path.name, "\n".join(errors))
    return good


def equal(data, writer):
    good = True
    print(f"1..{len(FORMATS)}")
    for number, name in enumerate(FORMATS, 1):
        committed = (data / "schemas" / f"{name}-1.schema.json").read_bytes()
        written = subprocess.run([writer, name], stdout=subprocess.PIPE, check=True).stdout
        good &= say(number, committed == written, f"{name} schema",
                    "" if committed == written else "differs from the tables; run: ninja schemas")
    return good


# -- mutants ----------------------------------------------------------------------------------------------------------

SCALARS = [None, True, False, 0, 1, -1, 2, 0.5, 1e-9, 1e9, 1e300, -3.25, 1.0, "", "x", "7", "95", "bar", "°C", "l/h",
           "none", "limits", [], {}, [1], [0, 0.001], {"value": "1"}, {"value": "", "form": "95"}, "ä" * 100, "ä" * 200,
           "y" * 5000, [0.0002] * 9, [[0, 0.001], [0.01, 0.002]]]
TYPED = ["4,95", "1e999", "1e-999", "nan", "0x10", " 5 ", "1,234.5", "\u22124", "5.", ".5", ",", "+3", "1 2", "1e", "1e3",
         "\u00a05\u202f", "5\n", "\n", "9" * 64, "9" * 65, "0", "-0", "\u0663", 3.65, 7, -2, 1e22]
UNITS = ["bar", "Bar", "BAR", "kPa", "psi", "mbar", "inHg", "°C", "C", "degC", "°F", "K", "mm", "um", "µm", "m", "l/h",
         "cm3/30s", "cm³ in 30 s", "cm3in30s", "cm3  in 30 s", "cm³/min", "V", "s", "min", "h", "%", "1", "", "pint",
         ["bar"], ["l/h", "cm³/min"], ["l/h", "", "l/h", "l/h"], ["l/h"] * 6]
COURSES = ["linear", "geometric", "reciprocal", "square", "steep"]
NAMES = ["scale", "add", "course", "effects", "one_cylinder", "value", "values", "unit", "form", "note", "kind", "low", "high", "source", "key", "cylinders", "funnel",
         "conditions", "uncertainty", "vacuum_source", "colour", "$schema", "funnel_depth", "bands", "readings"]


def places(node, path=()):
    yield path
    if isinstance(node, dict):
        for key, value in node.items():
            yield from places(value, path + (key,))
    elif isinstance(node, list):
        for index, value in enumerate(node):
            yield from places(value, path + (index,))


def at(node, path):
    for step in path:
        node = node[step]
    return node


def change(dice, document):
    """One random change somewhere below the root; the deeper places are many, so the head is chosen at times."""
    paths = [path for path in places(document) if path]
    if dice.random() < 0.2:
        paths = [path for path in paths if len(path) == 1]
    path = dice.choice(paths)
    parent, key = at(document, path[:-1]), path[-1]
    old = parent[key]
    kind = dice.randrange(9)
    if kind == 0:
        del parent[key]
    elif kind == 1:
        parent[key] = copy.deepcopy(dice.choice(SCALARS))
    elif kind == 2 and isinstance(old, (int, float)) and not isinstance(old, bool):
        parent[key] = old * dice.choice([-1, 0, 0.1, 0.9, 1.1, 2, 10, 1000])
    elif kind == 3 and key in ("value", "unit"):
        parent[key] = copy.deepcopy(dice.choice(TYPED if key == "value" else UNITS))
    elif kind == 3 and isinstance(parent, dict) and "parameter" in parent:
        parent["course"] = dice.choice(COURSES)
    elif kind == 4 and isinstance(parent, dict):
        parent[dice.choice(NAMES)] = parent.pop(key)
    elif kind == 5 and isinstance(old, dict):
        old[dice.choice(NAMES)] = copy.deepcopy(dice.choice(SCALARS))
    elif kind == 6 and isinstance(old, list):
        if old and dice.random() < 0.5:
            old.append(copy.deepcopy(old[-1]))
        else:
            old.append(copy.deepcopy(dice.choice(SCALARS + TYPED)))
    elif kind == 7:
        other = dice.choice(paths)
        if other[:len(path)] != path and path[:len(other)] != other:
            parent[key] = copy.deepcopy(at(document, other))
    elif kind == 8 and isinstance(old, str):
        parent[key] = dice.choice([old + " ", old.upper(), old[:-1], old * 40, dice.choice(UNITS), dice.choice(TYPED)])


def rich_jobs(data):
    """The shipped jobs, and one with its car written out and every member in use."""
    jobs = [strict(path.read_text(encoding="utf-8")) for name, path in documents(data) if name == "job"]
    whole = copy.deepcopy(jobs[0])
    whole["car"] = strict((data / "vehicles" / "hollin-six.json").read_text(encoding="utf-8"))
    whole["conditions"].update({"vacuum": {"value": "0.5", "unit": "bar"}, "temperature": {"value": 80, "unit": "degC"},
                                "minutes": {"value": "", "unit": "min"}, "vacuum_source": "engine"})
    whole["readings"][5]["uncertainty"] = {"value": "3", "unit": "%", "form": "95"}
    whole["readings"][5]["unit"] = ["cm³/min", "l/h"] * 3
    whole["readings"].append({"kind": "delivery", "value": ""})
    return jobs + [whole]


def few_faults(data):
    """Catalogues of three faults each, so that a change hits what matters."""
    for name, path in documents(data):
        if name == "faults":
            whole = strict(path.read_text(encoding="utf-8"))
            return [("faults", dict(whole, faults=whole["faults"][at:at + 3])) for at in range(0, len(whole["faults"]), 3)]


def mutated_tree(dice, originals):
    name, document = dice.choice(originals)
    document = copy.deepcopy(document)
    for _ in range(dice.choice([1, 1, 1, 2, 3])):
        change(dice, document)
    return name, json.dumps(document, ensure_ascii=dice.random() < 0.5)


def mutated_text(dice, originals):
    name, document = dice.choice(originals)
    text = list(json.dumps(document, ensure_ascii=False))
    for _ in range(dice.choice([1, 1, 2])):
        place = dice.randrange(len(text))
        text[place] = dice.choice(["", "0", "9", ",", ":", '"', "{", "}", "[", "]", ".", "-", "e", "\\", " ", "\n", "/", "\u00e4"])
    return name, "".join(text)


def outside(validator, text):
    """Valid, with a word why not."""
    try:
        document = strict(text)
    except (ValueError, RecursionError) as error:
        return False, f"syntax: {error}"
    error = next(validator.iter_errors(document), None)
    return error is None, "" if error is None else f"{list(error.absolute_path)}: {error.message[:200]}"


def compare(known, verdicts, mutants, tally):
    wrong = []
    for (name, text), verdict in zip(mutants, verdicts):
        valid, why = outside(known[name], text)
        word = verdict.split(" ", 1)[0]
        tally[word] = tally.get(word, 0) + 1
        if valid != (word in ("fine", "beyond")):
            wrong.append(f"ours: {verdict}; outside: {'valid' if valid else why}")
    return wrong


def mutants(data, program, count):
    dice = random.Random(20261125)
    known = validators(data)
    cars = [("vehicle", strict(path.read_text(encoding="utf-8"))) for name, path in documents(data) if name == "vehicle"]
    jobs = [("job", job) for job in rich_jobs(data)]
    faults = few_faults(data)
    builds = [("tolerances", strict(path.read_text(encoding="utf-8"))) for name, path in documents(data)
              if name == "tolerances"]
    good = True
    print("1..2")
    for number, (title, mutate, wanted) in enumerate((("mutated values", mutated_tree, count),
                                                      ("mutated letters", mutated_text, count // 4)), 1):
        made = [mutate(dice, dice.choice([jobs, jobs, cars, faults, builds])) for _ in range(wanted)]
        fed = b"".join(b"%s %d\n%s" % (name.encode(), len(text.encode()), text.encode()) for name, text in made)
        said = subprocess.run([program], input=fed, stdout=subprocess.PIPE, check=True).stdout.decode().split("\n")[:-1]
        tally = {}
        wrong = compare(known, said, made, tally)
        enough = len(said) == wanted and min(tally.get("fine", 0), tally.get("bad", 0)) > wanted // 20
        good &= say(number, not wrong and enough, f"{title}: {wanted} documents, the same verdict",
                    "\n".join([str(tally)] + wrong))
    return good


def main(arguments):
    task, data = arguments[0], Path(arguments[1])
    if task == "shipped":
        return shipped(data)
    if task == "equal":
        return equal(data, arguments[2])
    return mutants(data, arguments[2], int(arguments[3]))


sys.exit(0 if main(sys.argv[1:]) else 1)
