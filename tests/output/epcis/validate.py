#!/usr/bin/python3
"""An EPCIS document against the published JSON Schema, by python3-jsonschema.

    validate.py FILE [FOLDER]        into FOLDER, which is there, go the broken copies: broken-0.json, ...

Wanted: FILE is valid; ten copies of it, each broken in one way that the standard forbids, are not; and so are the schema's own rules that
the program leans on (offsets of local time, a transformation's two lists, ilmd only with ADD).
"""
import copy
import json
import re
import sys
from pathlib import Path

import jsonschema

schema = json.loads((Path(__file__).parent / "EPCISDocument.schema.json").read_text())
formats = jsonschema.FormatChecker(formats=())


@formats.checks("uri")
def is_uri(text):  # RFC 3986, appendix A: a scheme, and only characters that may stand in a URI
    return not isinstance(text, str) or bool(
        re.fullmatch(r"[A-Za-z][A-Za-z0-9+.-]*:(?:[A-Za-z0-9._~:/?#\[\]@!$&'()*+,;=-]|%[0-9A-Fa-f]{2})+", text))


@formats.checks("date-time")
def is_date_time(text):  # RFC 3339, section 5.6
    return not isinstance(text, str) or bool(
        re.fullmatch(r"\d{4}-(0\d|1[0-2])-([0-2]\d|3[01])T([01]\d|2[0-3]):[0-5]\d:[0-5]\d(\.\d+)?(Z|[+-]\d\d:\d\d)", text))


validator = jsonschema.Draft7Validator(schema, format_checker=formats)


def first_fault(document):
    fault = jsonschema.exceptions.best_match(validator.iter_errors(document))
    return None if fault is None else f"{'/'.join(map(str, fault.absolute_path))}: {fault.message[:200]}"


def first(document, kind):
    return next(e for e in document["epcisBody"]["eventList"] if e["type"] == kind)


def drop(key, kind):
    def breaking(document):
        del first(document, kind)[key]
    return breaking


def put(key, value, kind):
    def breaking(document):
        first(document, kind)[key] = value
    return breaking


def put_in_document(key, value):
    def breaking(document):
        document[key] = value
    return breaking


broken = {
    "no time of the event": drop("eventTime", "ObjectEvent"),
    "no offset of local time": drop("eventTimeZoneOffset", "ObjectEvent"),
    "an offset written as Z": put("eventTimeZoneOffset", "Z", "ObjectEvent"),
    "no action": drop("action", "ObjectEvent"),
    "an action that is none": put("action", "SHIP", "ObjectEvent"),
    "a business step that is none": put("bizStep", "transforming", "TransformationEvent"),
    "a disposition that is none": put("disposition", "fresh", "TransformationEvent"),
    "a transformation with an action": put("action", "ADD", "TransformationEvent"),
    "a transformation without inputs": drop("inputQuantityList", "TransformationEvent"),
    "an amount without what it is of": put("quantityList", [{"quantity": 4, "uom": "KGM"}], "ObjectEvent"),
    "a lot that is no address": put("quantityList", [{"epcClass": "LOT 1"}], "ObjectEvent"),
    "a version that is none": put_in_document("schemaVersion", 2),
}


def offset(text):
    return put("eventTimeZoneOffset", text, "ObjectEvent")


def lists(**events):
    def change(document):
        event = first(document, "TransformationEvent")
        event.pop("outputQuantityList")
        event.update(events)
    return change


def ilmd(action):
    def change(document):
        event = first(document, "ObjectEvent")
        event["action"] = action
        event["ilmd"] = {"cbvmda:lotNumber": "A-1"}
    return change


# The schema's own rules: what it says, and whether it accepts it.
rules = {
    "offset +14:00": (offset("+14:00"), True), "offset +14:30": (offset("+14:30"), False), "offset -00:30": (offset("-00:30"), True),
    "inputs only": (lists(), False), "inputs and a transformationID": (lists(transformationID="https://weir.example/run/1"), True),
    "ilmd when something is observed": (ilmd("OBSERVE"), False), "ilmd when something is added": (ilmd("ADD"), True),
}

document = json.loads(Path(sys.argv[1]).read_text())
faults = []
fault = first_fault(document)
if fault:
    sys.exit(f"{sys.argv[1]} is not valid: {fault}")
for number, (name, change) in enumerate(broken.items()):
    other = copy.deepcopy(document)
    change(other)
    if len(sys.argv) > 2:
        (Path(sys.argv[2]) / f"broken-{number}.json").write_text(json.dumps(other))
    if first_fault(other) is None:
        faults.append(f"accepted although broken: {name}")
for name, (change, wanted) in rules.items():
    other = copy.deepcopy(document)
    change(other)
    if (first_fault(other) is None) != wanted:
        faults.append(f"{name}: {'refused' if wanted else 'accepted'}; {first_fault(other)}")
names = [event["eventID"] for event in document["epcisBody"]["eventList"]]
if len(names) != len(set(names)):
    faults.append("two events bear one name")
for fault in faults:
    print(fault)
print(f"{len(names)} events valid, {len(broken) - sum('accepted although' in f for f in faults)} broken documents rejected")
sys.exit(1 if faults else 0)
