"""Makes what the other checks of the forms read: forms_make.py PROGRAM PLACE, where PLACE/people has invented journals.

One of them gets everything that a report can tell, with texts that are meant to break a form: markup, a formula, letters of
other languages, a word longer than a line. PLACE/pages gets every page, PLACE/data every bundle and table."""
import json
import os
import shutil
import subprocess
import sys

PERIOD = ("--since", "2025-11-01", "--until", "2026-04-30")
FORMULA = "=1+1"
MARKUP = "<b>Größe</b> & \"Maß\" 'çà' <script>alert(1)</script>"
LONG = "Donau" + "dampfschiff" * 12


def moment(day, hour):
    return f"{day}T{hour:02}:00:00-05:00[America/New_York]"


def day_of(session):
    return session["start"]["begun"][:10]


def first_form(kept):
    """Sessions as an export of the first form has them, which can be written by hand and imported."""
    def without(row, *names):
        return {name: value for name, value in row.items() if name not in names}

    def placed(rows):
        return [without(row, "id") | {"place": place} for place, row in enumerate(rows)]

    sessions = []
    for session in kept["sessions"]:
        start = without(session["start"], "drawn") | session["start"]["drawn"]
        sets = [
            without(one, "responses", "disturbed")
            | {"responses": [without(row, "id") for row in one["responses"]], "disturbed": placed(one["disturbed"])}
            for one in session["sets"]
        ]
        sessions.append(without(session, "seen") | {
            "start": start, "sets": sets, "answers": placed(session["answers"]),
            "mishaps": placed(session["mishaps"]), "advised": placed(session["advised"]),
        })  # fmt: skip
    suitability = [without(row, "id", "replaces") for row in kept["suitability"]]
    return {"schema": "counterpoise.journal/1", "sessions": sessions, "changes": [], "suitability": suitability,
            "clearances": [], "tests": kept["tests"], "corrections": []}


def with_everything(export):
    """The same history, in which everything happened that a report has a word for."""
    sessions = export["sessions"]
    # Of somebody else, so that both are in the overview.
    for session in sessions:
        session["id"] = "a" + session["id"][1:]
    # Other prescriptions, by titles that try to be more than a title.
    for at, title in [(2, FORMULA), (3, MARKUP), (4, "+" + LONG), (5, "@sum, \"quoted\"\nand a second line")]:
        sessions[at]["start"]["title"] = title
        sessions[at]["start"]["digest"] = "sha256:" + f"{at:x}" * 64
    # Random ids may have no letter in them; a spreadsheet would take one for a number.
    sessions[6]["id"] = "1234567890" * 3 + "12"
    sessions[7]["id"] = "12345678901234567890e12345678901"
    # Ends that are not "finished", each with what was said of it.
    ends = {20: ("felt unwell", 5), 26: ("grabbed hold or nearly fell", None), 30: ("fell", None), 40: ("felt unwell", 1)}
    for at, (why, symptom) in ends.items():
        sessions[at]["end"]["why"] = why
        if symptom:
            sessions[at]["answers"].append({"place": 90, "set": None, "question": "what felt wrong", "answer": symptom})
    sessions[30]["answers"].append({"place": 91, "set": None, "question": "hurt or a knock to the head", "answer": 1})
    export["changes"] = [{
        "at": moment(day_of(sessions[0]), 9), "what": f"prescription in use: {LONG}.toml",
        "digest": sessions[0]["start"]["digest"],
    }]  # fmt: skip
    export["tests"] = [
        {"at": moment(day_of(sessions[at]), 8), "test": test, "value": value, "age": 80, "sex": "female",
         "company": "elsewhere", "by_whom": MARKUP}
        for at, values in [(1, (82, 31, 9, 141, 170)), (24, (100, 45, 11, 128, 151)), (50, (100, None, 12, 119, 139))]
        for test, value in zip(["four-stage", "one-leg", "chair-stand", "timed-up-and-go", "five-rises"], values)
    ]  # fmt: skip
    export["corrections"] = [
        {"at": moment(day_of(sessions[9]), 20), "session": sessions[8]["id"], "what": "set aside", "set": None,
         "question": None, "cue": None, "right": None, "reason": f"Somebody else sat there: {MARKUP}"},
        {"at": moment(day_of(sessions[12]), 20), "session": sessions[11]["id"], "what": "answer", "set": 1,
         "question": "effort", "cue": None, "right": "7", "reason": LONG},
    ]  # fmt: skip
    return export


def main():
    program, place = sys.argv[1:]
    people, pages, data = (os.path.join(place, name) for name in ("people", "pages", "data"))
    os.mkdir(pages)
    os.mkdir(data)

    def run(folder, *arguments):
        done = subprocess.run([program, "--data-dir", folder, *arguments], capture_output=True)
        if done.returncode != 0:
            sys.exit(f"Error: {' '.join(arguments)} of {folder}: {(done.stderr or done.stdout).decode()}")
        return done.stdout

    def keep(folder, name, *arguments):
        with open(os.path.join(folder, name), "wb") as file:
            file.write(run(*arguments))

    rich = os.path.join(people, "rich")
    kept = json.loads(run(os.path.join(people, "00000"), "journal", "export", "--format", "sessions"))
    export = with_everything(first_form(kept))
    with open(os.path.join(place, "rich.json"), "w", encoding="utf-8") as file:
        json.dump(export, file)
    run(rich, "journal", "import", os.path.join(place, "rich.json"))
    empty = os.path.join(place, "nobody")

    for name, folder in [("rich", rich), ("usual", os.path.join(people, "00001")), ("nobody", empty)]:
        report = (folder, "report", *PERIOD, "--format")
        keep(pages, f"report-{name}.html", *report, "html")
        keep(data, f"report-{name}.fhir.json", *report, "fhir")
        keep(data, f"report-{name}.csv", *report, "csv")
    keep(data, "journal.csv", rich, "journal", "export", "--format", "csv")
    keep(data, "overview.csv", rich, "report", "--folder", people, "--until", PERIOD[-1], "--format", "csv")

    overview = ("--folder", people, "--until", PERIOD[-1], "--format", "html")
    run(rich, "report", *overview, "--out", os.path.join(pages, "overview-clinic.html"))

    for name in ["gentle", "typical", "steps-and-rises", "with-a-partner"]:
        folder = os.path.join(place, "for", name)
        os.makedirs(folder)
        if name != "gentle":
            shutil.copy(f"presets/prescriptions/{name}.toml", os.path.join(folder, "prescription.toml"))
        run(folder, "sheet", "--out", os.path.join(pages, f"sheet-{name}.html"))
    keep(pages, "audit-gentle.html", empty, "audit", "gentle", "--cues", "2000", "--format", "html")
    listed = os.path.join(place, "list.txt")
    with open(listed, "w", encoding="utf-8") as file:
        file.write("left\nright\nforward\nleft\n" * 60)
    keep(pages, "audit-list.html", empty, "audit", "--sequence", listed, "--format", "html")


main()
