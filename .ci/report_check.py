#!/usr/bin/env python3
"""report_check.py EXPORT.json REPORT.json - count a report's figures again from the journal's export.

Written apart from the program: only the documented fields of both files (docs/journal.md, docs/report.md), Python's own
library, and its own calendar and binomial sums. Prints what was compared, or the first difference.
"""

import datetime
import json
import math
import statistics
import sys


def exact_interval(hits, of):
    """Clopper and Pearson's 95 % interval, by halving."""

    def at_least(k, p):
        return sum(math.comb(of, i) * p**i * (1 - p) ** (of - i) for i in range(k, of + 1))

    def crossing(is_above):
        low, high = 0.0, 1.0
        for _ in range(80):
            middle = (low + high) / 2
            low, high = (low, middle) if is_above(middle) else (middle, high)
        return low

    low = 0.0 if hits == 0 else crossing(lambda p: at_least(hits, p) >= 0.025)
    high = 1.0 if hits == of else crossing(lambda p: 1 - at_least(hits + 1, p) < 0.025)
    return low, high


def main():
    export = json.load(open(sys.argv[1], encoding="utf-8"))
    report = json.load(open(sys.argv[2], encoding="utf-8"))
    compared = 0

    def same(what, found, expected):
        nonlocal compared
        compared += 1
        close = found == expected or (
            isinstance(found, float) and expected is not None and abs(found - expected) < 1e-9
        )
        if not close:
            sys.exit(f"Error: {what} is {found} in the report, and {expected} counted from the export.")

    day_of = lambda session: session["start"]["begun"][:10]
    inside = [s for s in export["sessions"] if report["since"] <= day_of(s) <= report["until"] and s["sets"]]
    dose = report["dose"]
    same("days", dose["days"], len({day_of(s) for s in inside}))
    sets = [(s, x) for s in inside for x in s["sets"]]
    whole = [x for _, x in sets if x["end"] and x["end"]["why"] == "completed"]
    same("sets", dose["sets"], len(whole))
    same("sets broken off", dose["sets_broken_off"], len(sets) - len(whole))
    same("active_ms", dose["active_ms"], sum(x["end"]["worked_ms"] for _, x in sets if x["end"]))
    same("cues", dose["cues"], sum(len(x["delivered"]) for _, x in sets))
    for week in dose["weeks"]:
        name = lambda day: "%04d-W%02d" % datetime.date.fromisoformat(day).isocalendar()[:2]
        same(f"days of {week['week']}", week["days"], len({day_of(s) for s in inside if name(day_of(s)) == week["week"]}))
        same(f"first day of {week['week']}", name(week["from"]), week["week"])

    noted = [
        (f"{x['start']['drill']}, {'with a partner' if x['start']['form'] == 'partner' else 'alone'}", cue, r["response"])
        for _, x in sets
        for r in x["responses"]
        for cue in [next(c for c in x["plans"][-1]["cues"] if c["cue"] == r["cue"])]
    ]
    responses = report["responses"]
    same("noted", responses["noted"], sum(r is not None for *_, r in noted))
    same("not noted", responses["not_noted"], sum(r is None for *_, r in noted))
    words = {
        "in_place": "feet in place", "one_step": "one step", "more_steps": "two or more steps",
        "touched": "touched support", "grabbed": "grabbed or steadied", "fell": "fell",
    }  # fmt: skip
    for group in responses["groups"]:
        belongs = {
            "all": lambda drill, cue: True,
            "drill": lambda drill, cue: drill == group["name"],
            "direction": lambda drill, cue: cue["direction"] == group["name"],
        }.get(group["by"])
        if belongs is None:
            continue
        of = [r for drill, cue, r in noted if r is not None and belongs(drill, cue)]
        for field, word in words.items():
            same(f"{group['name']}: {field}", group[field], of.count(word))
        good = of.count("feet in place") + of.count("one step")
        share = group["one_step_or_better"]
        if len(of) < 10:
            same(f"{group['name']}: share of few", share, None)
        else:
            low, high = exact_interval(good, len(of))
            same(f"{group['name']}: share", share["share"], good / len(of))
            same(f"{group['name']}: low", share["low"], low)
            same(f"{group['name']}: high", share["high"], high)

    for field, question, together in [("effort", "effort", max), ("steadiness", "steadiness", max), ("held_on", "held on", sum)]:
        values = []
        for s in inside:
            said = [a["answer"] for a in s["answers"] if a["question"] == question and a["answer"] is not None]
            if said:
                values.append(together(said))
        same(f"{field} of each session", report["ratings"][field]["values"], values)
        same(f"median {field}", report["ratings"][field]["median"], float(statistics.median(values)))
        slopes = [(values[b] - values[a]) / (b - a) for a in range(len(values)) for b in range(a + 1, len(values))]
        if len(values) >= 6:
            same(f"slope of {field}", report["ratings"][field]["trend"]["slope"], float(statistics.median(slopes)))
    print(f"{compared} figures of the report are those counted from the export.")


main()
