"""Writes the shipped cars as C, so that tests of the metering room need no documents room.

cars-from-documents.py PARAMETERS.def DOCUMENT.json... OUTPUT.c
"""

import json
import pathlib
import re
import sys

ROW = re.compile(r"^PARAMETER \((\w+), (\w+), (\w+), (\w+),")


def rows(definition):
    return [match.groups() for match in map(ROW.match, definition.read_text().splitlines()) if match]


def values(document, key, group, many):
    data = document[group]
    if key == "funnel_depth":
        return [point[0] for point in data["funnel"]]
    if key == "funnel_clearance":
        return [point[1] for point in data["funnel"]]
    value = data[key]
    if many == "EACH_CYLINDER" and not isinstance(value, list):
        value = [value] * document["cylinders"]
    return value


def initializer(document, table):
    direction = {"pressed-down": "PLATE_PRESSED_DOWN", "lifted": "PLATE_LIFTED"}[document["plate_direction"]]
    yield f"  .cylinders = {document['cylinders']},"
    yield f"  .direction = {direction},"
    yield f"  .sensor.funnel_points = {len(document['sensor']['funnel'])},"
    for key, group, member, many in table:
        value = values(document, key, group, many)
        text = "{ " + ", ".join(map(repr, value)) + " }" if isinstance(value, list) else repr(value)
        yield f"  .{group}.{member} = {text},"


def bands(document):
    for key, band in document["bands"].items():
        reading = {"delivery": "DELIVERY", "system-pressure": "SYSTEM_PRESSURE", "control-pressure-cold": "CONTROL_COLD",
                   "control-pressure-warm": "CONTROL_WARM",
                   "control-pressure-without-vacuum": "CONTROL_WITHOUT_VACUUM", "cylinders-small": "CYLINDERS_SMALL",
                   "cylinders-middle": "CYLINDERS_MIDDLE", "cylinders-full": "CYLINDERS_FULL",
                   "rest-height": "REST_HEIGHT"}[key]
        low, high = (repr(band[end]) if end in band else f"{sign}INFINITY" for end, sign in (("low", "-"), ("high", "")))
        yield f"  [READING_{reading}] = {{ BAND_{band['form'].upper()}, {low}, {high}, {json.dumps(band['source'])} }},"


def main(definition, *documents_and_output):
    *documents, output = documents_and_output
    table = rows(pathlib.Path(definition))
    lines = ["/* Written by cars-from-documents.py */", '#include "cars.h"', "", "#include <math.h>", ""]
    for path in map(pathlib.Path, documents):
        document = json.loads(path.read_text())
        name = path.stem.replace("-", "_")
        lines += [f"const struct car {name} = {{", *initializer(document, table), "};", ""]
        lines += [f"const struct band {name}_bands[READINGS] = {{", *bands(document), "};", ""]
    pathlib.Path(output).write_text("\n".join(lines))


main(*sys.argv[1:])
