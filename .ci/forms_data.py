"""Reads every bundle and table as other programs do: forms_data.py FOLDER. Bundles by fhir.resources and ucumvert, tables by
Python's csv and by LibreOffice, which must have the same cells and run none."""
import copy
import csv
import glob
import json
import os
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree

from fhir.resources.R4B.bundle import Bundle
from pydantic import BaseModel
from ucumvert import InvalidUcumError, parse_ucum

UCUM = "http://unitsofmeasure.org"
OFFICE = "{urn:oasis:names:tc:opendocument:xmlns:office:1.0}"
TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
TEXT = "{urn:oasis:names:tc:opendocument:xmlns:text:1.0}"
# Comma, quotation mark, UTF-8, from line 1: what the import dialog offers for such a file.
AS_CSV = "--infilter=Text - txt - csv (StarCalc):44,34,76,1"


def inside(value):
    """Every object in a JSON value."""
    if isinstance(value, dict):
        yield value
    for one in value.values() if isinstance(value, dict) else value if isinstance(value, list) else []:
        yield from inside(one)


def other_codes(resource):
    """The codes that are none of those that FHIR has for their field: the library knows them and lets others pass."""
    for name, field in type(resource).model_fields.items():
        value = getattr(resource, name, None)
        codes = (field.json_schema_extra or {}).get("enum_values", [])
        if value is not None and codes and value not in codes:
            yield f"{name} is {value}, which is none of {', '.join(codes)}"
        for one in value if isinstance(value, list) else [value]:
            if isinstance(one, BaseModel):
                yield from other_codes(one)


def bundle_errors(bundle):
    """What is wrong with a bundle: its form, its references, its units."""
    errors = []
    try:
        read = Bundle.model_validate(bundle)
        if json.loads(read.model_dump_json()) != bundle:
            errors.append("it is not the same when it was read and written again")
        errors += other_codes(read)
    except ValueError as error:
        errors.append(f"fhir.resources refuses it: {error}")
    urls = [entry["fullUrl"] for entry in bundle["entry"]]
    if len(set(urls)) < len(urls):
        errors.append("a fullUrl stands there twice")
    uuid = re.compile(r"urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-[1-8][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}")
    errors += [f"{url} is no UUID (RFC 9562)" for url in urls if not uuid.fullmatch(url)]
    for one in inside(bundle):
        if "reference" in one and one["reference"] not in urls:
            errors.append(f"the reference {one['reference']} leads nowhere")
        if "unit" in one or one.get("system") == UCUM:
            try:
                parse_ucum(one["code"])
            except (InvalidUcumError, KeyError) as error:
                errors.append(f"{one} is no UCUM unit: {error!r}")
            if one.get("system") != UCUM:
                errors.append(f"{one} does not say that it is UCUM")
    return errors


def first(bundle, kind):
    return next(entry["resource"] for entry in bundle["entry"] if entry["resource"]["resourceType"] == kind)


def plant_in_bundle(sound):
    """Faulty bundles, each with what must be said of it."""

    def faulty(change):
        bundle = copy.deepcopy(sound)
        change(bundle)
        return bundle

    quantity = lambda bundle: next(one for one in inside(bundle) if one.get("system") == UCUM)
    yield faulty(lambda bundle: first(bundle, "Observation").pop("status")), "fhir.resources refuses"
    yield faulty(lambda bundle: first(bundle, "Procedure").update(status="done")), "status is done"
    yield faulty(lambda bundle: first(bundle, "Procedure").update(made_up=1)), "fhir.resources refuses"
    yield faulty(lambda bundle: first(bundle, "Procedure")["subject"].update(reference="urn:uuid:0")), "leads nowhere"
    yield faulty(lambda bundle: bundle["entry"].append(bundle["entry"][-1])), "twice"
    yield faulty(lambda bundle: bundle["entry"][0].update(fullUrl="urn:uuid:1")), "no UUID"
    yield faulty(lambda bundle: quantity(bundle).update(code="seconds")), "no UCUM unit"
    yield faulty(lambda bundle: quantity(bundle).pop("system")), "does not say"


def rows_of(path):
    """The cells, read strictly as RFC 4180 has them."""
    raw = open(path, "rb").read()
    if not raw.endswith(b"\r\n"):
        sys.exit(f"Error: {path}: its last line does not end as RFC 4180 has it.")
    with open(path, encoding="utf-8", newline="") as file:
        return list(csv.reader(file, strict=True))


def sheets_of(paths, folder):
    """The cells of each table as LibreOffice has them: (kind, value, formula)."""
    command = ["soffice", "--headless", f"-env:UserInstallation=file://{folder}/office", AS_CSV, "--convert-to", "fods"]
    subprocess.run([*command, "--outdir", folder, *paths], check=True, capture_output=True, timeout=120)
    for path in paths:
        name = os.path.splitext(os.path.basename(path))[0]
        rows = []
        for row in ElementTree.parse(f"{folder}/{name}.fods").iter(f"{TABLE}table-row"):
            cells = []
            for cell in row.iter(f"{TABLE}table-cell"):
                kind = cell.get(f"{OFFICE}value-type")
                value = cell.get(f"{OFFICE}date-value") or cell.get(f"{OFFICE}value")
                if kind == "string":
                    value = "\n".join("".join(lines.itertext()) for lines in cell.iter(f"{TEXT}p"))
                times = int(cell.get(f"{TABLE}number-columns-repeated", 1))
                # Empty cells fill the sheet to its last column.
                cells += [(kind, value, cell.get(f"{TABLE}formula"))] * (times if kind else min(times, 99))
            rows += [cells] * (int(row.get(f"{TABLE}number-rows-repeated", 1)) if any(c[0] for c in cells) else 1)
        yield rows


def table_errors(rows, sheet):
    """Where the spreadsheet has something else than the file."""
    errors = []
    width = len(rows[0])
    for number, row in enumerate(rows):
        if len(row) != width:
            errors.append(f"row {number} has {len(row)} cells, the head {width}")
        cells = sheet[number] if number < len(sheet) else []
        cells = cells + [(None, None, None)] * (len(row) - len(cells))
        for name, text, (kind, value, formula) in zip(rows[0], row, cells):
            where = f"row {number}, {name}"
            if formula is not None:
                errors.append(f"{where}: \"{text}\" is run as the formula {formula}")
            elif kind == "float":
                # 15 digits are what a spreadsheet keeps of a number.
                if not re.fullmatch(r"-?\d{1,15}", text) or float(text) != float(value):
                    errors.append(f"{where}: \"{text}\" becomes the number {value}")
            elif (value or "") != text:
                errors.append(f"{where}: \"{text}\" becomes {kind} \"{value}\"")
        if any(kind for kind, _, _ in cells[width:]):
            errors.append(f"row {number} runs over its last column")
    if any(kind for row in sheet[len(rows) :] for kind, _, _ in row):
        errors.append("there are more rows in the spreadsheet")
    return errors


def main():
    folder = sys.argv[1]
    bundles = sorted(glob.glob(f"{folder}/*.fhir.json"))
    bundle = lambda path: json.load(open(path, encoding="utf-8"))
    faults = list(plant_in_bundle(bundle(next(path for path in bundles if "usual" in path))))
    for faulty, said in faults:
        errors = bundle_errors(faulty)
        if not any(said in error for error in errors):
            sys.exit(f"Error: a planted fault of a bundle was not found ({said}): {errors}")
    found = [(path, error) for path in bundles for error in bundle_errors(bundle(path))]

    tables = sorted(glob.glob(f"{folder}/*.csv"))
    rich = next(path for path in tables if "report-rich" in path)
    if not any("'=1+1" in row for row in rows_of(rich)):
        sys.exit("Error: the planted title \"=1+1\" is not in the table.")
    with tempfile.TemporaryDirectory() as place:
        # The same table without what keeps it from being run.
        fault = os.path.join(place, "fault.csv")
        text = open(rich, "rb").read().replace(b"'=1+1", b"=1+1")
        open(fault, "wb").write(text)
        *sheets, faulty = sheets_of([*tables, fault], place)
        errors = table_errors(rows_of(fault), faulty)
        if not any("formula" in error for error in errors):
            sys.exit(f"Error: a planted formula was not found: {errors}")
    found += [(path, error) for path, sheet in zip(tables, sheets) for error in table_errors(rows_of(path), sheet)]
    for path, error in found:
        print(f"Error: {os.path.basename(path)}: {error}", file=sys.stderr)
    if found:
        sys.exit(1)
    print(f"{len(faults) + 1} planted faults of bundles and tables were found.")
    print(f"{len(bundles)} bundles and {len(tables)} tables are read by others as they were written.")


if __name__ == "__main__":
    main()
