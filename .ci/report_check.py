#!/usr/bin/env python3
"""report_check.py EXPORT.json REPORT.json REPORT.csv PRESCRIPTION.toml - count a report again from the journal's export.

Written apart from the program: only what the documents say of both files (docs/journal.md, docs/report.md,
docs/progression.md, docs/prescription.md), Python's own library, and its own calendar, binomial sums and slopes. The whole
report, and the rows of its spreadsheet, are counted anew and held against those that were written, field by field; what cannot be counted from an export (the
audit's sentence, the words of findings) is named and counted. Then the check is checked: each figure of the report is
altered in memory, one at a time, and each must be noticed.
"""

import collections
import copy
import csv
import datetime
import hashlib
import json
import math
import statistics
import sys
import tomllib

FEWEST_FOR_SHARE = 10
FEWEST_FOR_TREND = 6
HOUR_MS = 3_600_000
LONGEST_MS = 6 * HOUR_MS
FINISH_WITHIN_MS = 2 * HOUR_MS

# What an export does not hold: it is compared by its kind alone.
WORDS = "any words"
LIST_OF_WORDS = "any list of words"
WORDS_OR_NOTHING = "any words, or null"
ANYTHING = "text, true, false or null"
FREE = (WORDS, LIST_OF_WORDS, WORDS_OR_NOTHING, ANYTHING)

PARTNER = {"partner": "with a partner", "alone": "alone"}


# Moments and days


def day_of(moment):
    """The local date, as it was written where it happened."""
    return datetime.date.fromisoformat(moment[:10])


def ms_of(moment):
    """The instant in milliseconds: RFC 9557, of which the part in brackets is not needed."""
    instant = datetime.datetime.fromisoformat(moment.split("[")[0])
    return round(instant.timestamp() * 1000)


def week_of(day):
    return "%04d-W%02d" % day.isocalendar()[:2]


def days_from(first, last):
    return [first + datetime.timedelta(n) for n in range((last - first).days + 1)]


# Statistics


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


def share(count, of):
    if of < FEWEST_FOR_SHARE:
        return None
    low, high = exact_interval(count, of)
    return {"count": count, "of": of, "share": count / of, "low": low, "high": high}


def trend(values):
    """Theil's median slope, and Sen's interval from the variance of Kendall's statistic, ties counted (Sen 1968)."""
    n = len(values)
    if n < FEWEST_FOR_TREND:
        return None
    slopes = sorted((values[b] - values[a]) / (b - a) for a in range(n) for b in range(a + 1, n))
    ties = sum(k * (k - 1) * (2 * k + 5) for k in collections.Counter(values).values())
    sigma = math.sqrt(max(0, n * (n - 1) * (2 * n + 5) - ties) / 18)
    half = statistics.NormalDist().inv_cdf(0.975) * sigma
    # Ranks from 1; a rank of the median's two neighbors is rounded to the even one.
    low = max(round((len(slopes) - half) / 2) - 1, 0)
    high = min(round((len(slopes) + half) / 2), len(slopes) - 1)
    return {"slope": statistics.median(slopes), "low": slopes[low], "high": slopes[high], "of": n}


def line(values):
    return {
        "values": values,
        "median": float(statistics.median(values)) if values else None,
        "trend": trend(values),
    }


# The prescription: what it asks for


class Kept(dict):
    """What was kept: a field that is not there says nothing."""

    def __missing__(self, name):
        return None


class Prescription:
    def __init__(self, path):
        with open(path, "rb") as file:
            raw = tomllib.load(file)
        self.title = raw["title"]
        self.issued_by = raw.get("issued_by", "")
        self.precautions = raw.get("precautions", [])
        self.issued_on = raw["issued_on"]
        self.days_a_week = raw.get("days_a_week", 3)
        self.weeks = raw.get("weeks", 12)
        self.due_after = raw.get("review_after_sessions", 12)
        self.accepted = raw.get("accepted_because")
        self.accepts = raw.get("accepts", [])
        drills = raw["drills"]
        if drills[0]["drill"] != "counter-shift" or drills[0].get("step", 1) != 1:
            sys.exit("Error: this check reads prescriptions whose first drill is the warm-up.")
        self.sets = sum(drill["sets"] for drill in drills)

    def asked(self, began, since, until):
        """The days on which it asks for practice."""
        start = self.issued_on if self.issued_by else began
        if start is None:
            return []
        offsets = {math.floor(nth * 7 / self.days_a_week) for nth in range(self.days_a_week)}
        days = []
        for day in days_from(max(since, start), until):
            begun = began is not None and began <= day
            into = (day - (began if begun else start)).days
            if begun and into // 7 >= self.weeks:
                continue
            if into % 7 in offsets:
                days.append(day)
        return days


# The journal: sessions as they are right


def corrected(export):
    """The sessions after their corrections, the last of each holding."""
    sessions = copy.deepcopy(export["sessions"])
    by_id = {session["id"]: session for session in sessions}
    for session in sessions:
        session["corrected"] = []
        session["aside"] = False
        session["marked"] = marks(session)
        session["had"] = falls_and_grabs(session)
    for row in export.get("corrections", []):
        session = by_id[row["session"]]
        session["corrected"].append(row)
        if row["what"] in ("set aside", "counts again"):
            session["aside"] = row["what"] == "set aside"
        elif row["what"] == "answer":
            for answer in session["answers"]:
                if (answer["set"], answer["question"]) == (row["set"], row["question"]):
                    answer["answer"] = None if row["right"] is None else int(row["right"])
        elif row["what"] == "response":
            for one in session["sets"]:
                for response in one["responses"]:
                    if (one["start"]["number"], response["cue"]) == (row["set"], row["cue"]):
                        response["response"] = row["right"]
        # A correction lifts no lock and shortens no hold: what stood before it stands.
        for stood, now in zip(session["marked"], marks(session)):
            stood += [mark for mark in now if mark not in stood]
        # Nor does it take a fall or a grab away.
        session["had"] = tuple(map(max, session["had"], falls_and_grabs(session)))
    return sessions


def said(session, question, number="any"):
    """The first answer that was given, of a set or of the session."""
    for answer in session["answers"]:
        if answer["question"] == question and number in ("any", answer["set"]) and answer["answer"] is not None:
            return answer["answer"]
    return None


def begun_at(session):
    return ms_of(session["start"]["begun"])


def ended_at(session):
    """The last moment that is known of it."""
    moments = [session["start"]["begun"]]
    for one in session["sets"]:
        moments += [one["start"]["begun"]] + ([one["end"]["at"]] if one["end"] else [])
    if session["end"]:
        moments.append(session["end"]["at"])
    return max(ms_of(moment) for moment in moments)


def known_at(session):
    before = (session["decided"] or {}).get("seen_before_ms")
    return max(ended_at(session), before if before is not None else ended_at(session))


def why(session):
    return session["end"]["why"] if session["end"] else None


def set_why(one):
    return one["end"]["why"] if one["end"] else None


def by_hand(session):
    return session["start"]["drawn"] is None


def drawn(session):
    """How it was drawn; of what was typed in, nothing."""
    return session["start"]["drawn"] or Kept()


def length_of(session):
    length = ended_at(session) - begun_at(session)
    slept = any(set_why(one) == "computer slept" for one in session["sets"])
    known = session["end"] and not by_hand(session) and not slept and 0 <= length <= LONGEST_MS
    return length if known else None


def planned_cue(one, number):
    cues = one["plans"][-1]["cues"] if one["plans"] else []
    return next((cue for cue in cues if cue["cue"] == number), None)


def calls_of(one):
    blank = {cue["cue"] for cue in one["plans"][-1]["cues"] if cue["blank"]} if one["plans"] else set()
    return sum(row["cue"] not in blank for row in one["delivered"])


def pushes_of(one):
    """Direction and response of each push that was asked for."""
    found = []
    for row in one["responses"]:
        cue = planned_cue(one, row["cue"])
        found.append((cue["direction"] if cue else None, row["response"]))
    kept = {row["cue"] for row in one["responses"]}
    for row in one["delivered"]:
        cue = planned_cue(one, row["cue"])
        if cue and cue["action"] in ("push", "nudge", "tug") and row["cue"] not in kept:
            found.append((cue["direction"], None))
    return found


def sittings_of(sessions):
    """Practices: an interrupted session and what finished it within two hours are one."""
    together = []
    for session in sessions:
        if not session["sets"] or session["tryout"] or session["aside"]:
            continue
        numbers = [one["start"]["number"] for one in session["sets"]]
        if together:
            last = together[-1]
            done = max(one["start"]["number"] for s in last for one in s["sets"])
            may = not by_hand(last[-1]) and why(last[-1]) in ("program closed", "interrupted", "stopped for another reason")
            gap = begun_at(session) - known_at(last[-1])
            if (
                session["start"]["digest"] == last[0]["start"]["digest"]
                and may
                and 0 <= gap <= FINISH_WITHIN_MS
                and done < last[0]["start"]["sets_planned"]
                and all(number > done for number in numbers)
            ):
                last.append(session)
                continue
        together.append([session])
    return together


def is_whole(sitting):
    first = sitting[0]
    whole = (first["decided"] or {}).get("sets_whole", first["start"]["sets_planned"])
    return sum(set_why(one) == "completed" for s in sitting for one in s["sets"]) >= whole


# Locks and holds (docs/progression.md)


def marks(session):
    """What one session locks and holds."""
    ready = {row["item"]: row["is_true"] for row in session["ready"]}
    locks, holds = [], []

    def untrue(item):
        return ready.get(item) is False

    for item, lock in [
        ("no chest pain", "chest pain or pressure"),
        ("breathing as usual", "bad shortness of breath"),
        ("no new weakness or numbness", "new weakness, numbness, or trouble speaking or seeing"),
        ("not fainted", "fainting"),
        ("no knock to the head", "a knock to the head"),
    ]:
        if untrue(item):
            locks.append(lock)
    if untrue("not fallen") and ready.get("the fall did no harm") is not True:
        locks.append("a fall that may have hurt")
    if untrue("not dizzy") and ready.get("dizziness passed in five minutes") is not True:
        locks.append("dizziness that did not pass in five minutes")
    if untrue("feeling unwell passed"):
        locks.append("feeling unwell, and nobody said that it passed")
    if untrue("not fallen") and ready.get("the fall was over two days ago") is not True:
        holds.append("a fall without injury")
    if untrue("not dizzy"):
        holds.append("dizziness that passed")
    if why(session) == "fell" or any(fell(session, one) for one in session["sets"]):
        if said(session, "hurt or a knock to the head") == 0:
            holds.append("a fall without injury")
        else:
            locks.append("a fall that may have hurt")
    symptom = {1: "chest pain or pressure", 2: "bad shortness of breath", 4: "fainting"}
    symptom[3] = "new weakness, numbness, or trouble speaking or seeing"
    lock = symptom.get(said(session, "what felt wrong"))
    locks += [lock] if lock else []
    alone = [one for one in session["sets"] if one["start"]["form"] == "alone"]
    grabbed = any(answer_of(session, one, "grabbed hold or nearly fell") == 1 for one in alone)
    if grabbed or (why(session) == "grabbed hold or nearly fell" and len(alone) == len(session["sets"])):
        holds.append("grabbing hold or nearly falling, alone")
    if is_unwell(session):
        holds.append("feeling unwell in a practice")
    return locks, holds


def answer_of(session, one, question):
    return said(session, question, one["start"]["number"])


def mishaps_of(session, one):
    return [row["what"] for row in session["mishaps"] if row["set"] == one["start"]["number"]]


def fell(session, one):
    responses = [row["response"] for row in one["responses"]]
    return "fell" in mishaps_of(session, one) or "fell" in responses or set_why(one) == "fell"


def grabbed(session, one):
    responses = [row["response"] for row in one["responses"]]
    return (
        answer_of(session, one, "grabbed hold or nearly fell") == 1
        or "grabbed or steadied" in mishaps_of(session, one)
        or "grabbed or steadied" in responses
        or set_why(one) == "grabbed or steadied"
    )


def is_unwell(session):
    return (
        why(session) == "felt unwell"
        or said(session, "why stopped") == 1
        or any(answer_of(session, one, "unwell") == 1 for one in session["sets"])
    )


# Events

SYMPTOMS = {
    None: "not said",
    1: "chest pain or pressure",
    2: "badly short of breath",
    3: "weak, numb, or trouble speaking or seeing",
    4: "fainted, or nearly",
    5: "dizzy",
    6: "something else",
}
OF_THE_PERSON = {
    "no chest pain", "breathing as usual", "no new weakness or numbness", "not dizzy", "dizziness passed in five minutes",
    "not fainted", "not fallen", "the fall did no harm", "no knock to the head", "no new pain", "not sore", "not ill",
    "slept well", "no alcohol", "no new medicine", "the new medicine is no trouble", "new medicine agreed", "feeling unwell passed",
}  # fmt: skip
# The answers to which these belong say it: they are no reasons of their own.
BESIDES = {
    "dizziness passed in five minutes", "the fall did no harm", "the fall was over two days ago",
    "the new medicine is no trouble", "new medicine agreed",
}  # fmt: skip
STOPS = {
    "stopped for another reason", "stopped, felt unsteady", "not answered", "program closed", "interrupted",
}  # fmt: skip


def place_of(one):
    start = one["start"]
    return f"set {start['number']}, {start['drill']}, step {start['step']}"


def where_it_ended(session):
    if not session["sets"]:
        return "before the first set"
    last = session["sets"][-1]
    return f"after set {last['start']['number']}" if set_why(last) == "completed" else place_of(last)


def grab_words(one):
    """With a partner every near fall counts as a grab."""
    return "grabbed or steadied" if one["start"]["form"] == "partner" else "grabbed hold or nearly fell"


def events_of(session):
    """Kind and words of what happened in a session, in order."""
    events = [("correction", WORDS) for _ in session["corrected"]]
    if session["aside"]:
        return events
    if session["tryout"]:
        events.append(("try-out", "supervised try-out, not counted as practice"))
    untrue = [row["item"] for row in session["ready"] if not row["is_true"]]
    events += [("told", WORDS) for item in untrue if item in OF_THE_PERSON]
    decided = session["decided"]
    planned = session["start"]["sets_planned"]
    if decided and decided["sets_whole"] > planned:
        events.append(("left out", f"{planned} of {decided['sets_whole']} sets were chosen at the start"))
    stop = why(session) in STOPS
    for one in session["sets"]:
        place = place_of(one)
        if fell(session, one):
            events.append(("fall", f"fell ({place})"))
        if grabbed(session, one):
            events.append(("grab", f"{grab_words(one)} ({place})"))
        if answer_of(session, one, "steadiness") == 5:
            events.append(("lost balance", f"lost balance ({place})"))
        if any(row["set"] == one["start"]["number"] for row in session["advised"]):
            events.append(("advice", f"one step lower was advised ({place})"))
        end = set_why(one)
        with_session = stop and one is session["sets"][-1] and end in ("stopped", "program closed", "interrupted")
        if end not in (None, "completed", "fell", "grabbed or steadied") and not with_session:
            events.append(("stop", f"{end} ({place})"))
    begun = {one["start"]["number"] for one in session["sets"]}
    before = [row for row in session["mishaps"] if row["set"] not in begun]
    for row in before:
        kind, words = ("fall", "fell") if row["what"] == "fell" else ("grab", "grabbed or steadied")
        events.append((kind, f"{words} (before set {row['set']})"))
    left = {"refused": "declined", "grabbed or steadied": "after a grab", "sound not heard": "the sound was not heard"}
    events += [("left out", f"set {row['set']} left out: {left[row['why']]}") for row in session["left_out"]]
    if is_unwell(session):
        events.append(("unwell", f"felt unwell: {SYMPTOMS[said(session, 'what felt wrong')]}"))
    end = why(session)
    if end in STOPS:
        events.append(("stop", f"{end} ({where_it_ended(session)})"))
    elif end == "not today":
        reasons = [item for item in untrue if item not in BESIDES]
        events.append(("not today", f"not today ({len(reasons)} reason{'s' * (len(reasons) != 1)})"))
    elif end == "fell" and not any(kind == "fall" for kind, _ in events):
        events.append(("fall", f"fell ({where_it_ended(session)})"))
    elif end == "grabbed hold or nearly fell" and not any(kind == "grab" for kind, _ in events):
        events.append(("grab", f"grabbed hold or nearly fell ({where_it_ended(session)})"))
    return events


def reports_new_fall(session):
    """Whether a fall was told before practice that is not said to be one that was known already."""
    told = any(row["item"] == "not fallen" and not row["is_true"] for row in session["ready"])
    return told and said(session, "the same fall", None) != 1


def falls_and_grabs(session):
    """Whether there was a fall, in practice or in daily life, and how many grabs or near falls in practice."""
    begun = {one["start"]["number"] for one in session["sets"]}
    before = [row["what"] for row in session["mishaps"] if row["set"] not in begun]
    has_fallen = why(session) == "fell" or "fell" in before or any(fell(session, one) for one in session["sets"])
    grabs = before.count("grabbed or steadied")
    for one in session["sets"]:
        noted = sum(row["response"] == "grabbed or steadied" for row in one["responses"])
        number = one["start"]["number"]
        by_key = sum(
            row["set"] == number and row["what"] == "grabbed or steadied" and row["cue"] is None
            for row in session["mishaps"]
        )
        grabs += max(noted + by_key, int(grabbed(session, one)))
    grabs = max(grabs, int(why(session) == "grabbed hold or nearly fell"))
    return has_fallen or reports_new_fall(session), grabs


def restrictions_of(session, sessions, set_aside):
    """What leaves a part of the program out until it is cleared."""

    def day(one):
        return day_of(one["start"]["begun"])

    has_fallen, grabs = session["had"]
    found = ["limits after a fall"] if has_fallen else []
    others = [one for one in sessions if one["id"] != session["id"] and one["had"][1]]
    near = [
        one
        for one in others
        if abs((day(one) - day(session)).days) <= 28 or one["id"] in set_aside or session["id"] in set_aside
    ]
    if grabs > 1 or (grabs == 1 and near):
        found.append("limits after two grabs or near falls in 28 days")
    return found


# What was reported before practice and is a symptom, in the order of the report.
SYMPTOM_ITEMS = {
    "no chest pain": "chest pain or pressure",
    "breathing as usual": "bad shortness of breath",
    "no new weakness or numbness": "new weakness, numbness, or trouble speaking or seeing",
    "not dizzy": "dizzy",
    "not fainted": "fainted",
    "no knock to the head": "a knock to the head",
    "no new pain": "new pain",
    "feeling unwell passed": "feeling unwell in the last practice, which did not pass",
}
TIMES = {1: "once", 2: "twice", 3: "3 times or more"}


def incidents_of(session, sessions, set_aside, lifted, clearances):
    """Falls, grabs, near falls and symptoms of one session, with what followed."""
    if session["aside"]:
        return []
    untrue = [row["item"] for row in session["ready"] if not row["is_true"]]
    told = "fell" if reports_new_fall(session) else "the same fall, told again"
    found = [("fall", "daily life", told)] if "not fallen" in untrue else []
    near = said(session, "nearly fell in daily life", None)
    if near:
        found.append(("grab", "daily life", f"nearly fell in the last week: {TIMES[near]}"))
    told = [words for item, words in SYMPTOM_ITEMS.items() if item in untrue]
    found += [("unwell", "daily life", f"reported before practice: {words}") for words in told]
    events = []
    for one in session["sets"]:
        if fell(session, one):
            events.append(("fall", place_of(one), "fell"))
        if grabbed(session, one):
            events.append(("grab", place_of(one), grab_words(one)))
    begun = {one["start"]["number"] for one in session["sets"]}
    for row in session["mishaps"]:
        if row["set"] not in begun:
            kind, words = ("fall", "fell") if row["what"] == "fell" else ("grab", "grabbed or steadied")
            events.append((kind, f"before set {row['set']}", words))
    for end, kind in (("fell", "fall"), ("grabbed hold or nearly fell", "grab")):
        if why(session) == end and all(event[0] != kind for event in events):
            events.append((kind, where_it_ended(session), end))
    found += events
    if is_unwell(session):
        unwell = [one for one in session["sets"] if answer_of(session, one, "unwell") == 1] + session["sets"][-1:]
        place = place_of(unwell[0]) if unwell else "before the first set"
        found.append(("unwell", place, f"felt unwell: {SYMPTOMS[said(session, 'what felt wrong')]}"))

    def cleared(kind, words, name):
        is_lifted = (session["id"], name) in lifted
        who = [row for row in clearances for one in row["lifted"] if (one["locked_by"], one["what"]) == (session["id"], name)]
        return kind, {
            "what": words,
            "standing": "cleared" if is_lifted else "not cleared",
            "by": who[-1]["who"] if is_lifted else None,
            "on": str(day_of(who[-1]["at"])) if is_lifted else None,
        }

    def by_itself(kind, words):
        return kind, {"what": words, "standing": "ends by itself", "by": None, "on": None}

    locks, holds = (now + [mark for mark in before if mark not in now] for now, before in zip(marks(session), session["marked"]))
    followed = []
    for lock in locks:
        kind = "fall" if lock == "a fall that may have hurt" else "unwell"
        followed.append(cleared(kind, f"locked: {lock}", lock))
    of_hold = {"a fall without injury": "fall", "grabbing hold or nearly falling, alone": "grab"}
    followed += [by_itself(of_hold.get(hold, "unwell"), f"held for 48 hours: {hold}") for hold in holds]
    for name in restrictions_of(session, sessions, set_aside):
        followed.append(cleared("fall" if name == "limits after a fall" else "grab", name, name))
    if not session["tryout"]:
        practice = [kind for kind, place, _ in found if place != "daily life"]
        lowers = {
            "fall": any(kind == "fall" for kind, *_ in found),
            "grab": "grab" in practice,
            "unwell": "unwell" in practice or "not dizzy" in untrue,
        }
        followed += [by_itself(kind, "one step lower") for kind in ("fall", "grab", "unwell") if lowers[kind]]
    told = []
    for kind, place, words in found:
        # A near fall in daily life has no consequences, and new pain none beyond that day.
        none = place == "daily life" and (kind == "grab" or words.endswith("new pain"))
        told.append(
            {
                "day": str(day_of(session["start"]["begun"])),
                "kind": kind,
                "place": place,
                "what": words,
                "followed": [] if none else [copy.deepcopy(one) for of, one in followed if of == kind],
            }
        )
    return told


def unanswered_in(session):
    """The sets of which it is not known whether something went wrong."""
    if session["aside"]:
        return []

    def told(one, question):
        number = one["start"]["number"]
        answers = [a["answer"] for a in session["answers"] if a["question"] == question and a["set"] == number]
        known = [answer for answer in answers if answer is not None]
        if known:
            return "yes" if known[0] else "no"
        return "not said" if answers else "not asked"

    found = []
    for one in session["sets"]:
        grab = told(one, "grabbed hold or nearly fell")
        responses = [row["response"] for row in one["responses"]]
        if grabbed(session, one):
            grab = "yes"
        elif grab != "no" and responses:
            grab = "not said" if None in responses else "no"
        unwell = told(one, "unwell")
        if not {grab, unwell} <= {"yes", "no"}:
            day = str(day_of(session["start"]["begun"]))
            found.append({"day": day, "place": place_of(one), "grab": grab, "unwell": unwell})
    return found


def is_open(followed):
    return any(one["standing"] == "not cleared" for one in followed)


def all_incidents(export, sessions, set_aside, lifted, since, until):
    """Those of the period, and earlier ones of which something is not cleared."""
    found = []
    for session in sessions:
        day = day_of(session["start"]["begun"])
        if day <= until:
            of = incidents_of(session, sessions, set_aside, lifted, export.get("clearances", []))
            found += [one for one in of if since <= day or is_open(one["followed"])]
    return sorted(found, key=lambda one: one["day"])


# Answers that were not good (docs/report.md)

ALONE, STEP_3, STEP_1 = "Only what you practice alone.", "Up to step 3 of each kind of practice.", "Up to step 1 of each kind of practice."
ONE_HAND = "One hand always rests on the counter."
CLINICIAN = "a clinician first"
CAUTIOUS = f"limits: {ALONE} {STEP_3} {ONE_HAND}"
FIRST_STEP = f"limits: {ALONE} {STEP_1} {ONE_HAND}"
NO_PARTNER = f"limits: {ALONE}"
NO_TURNS = "limits: No turns of the head."
# As it was asked once: what it leads to, and what is left when its lock is lifted; then the topics that are asked now.
SUITABILITY = {
    "heart or blood pressure": (CLINICIAN, None, ["heart trouble", "blood pressure"]),
    "chest pain": (CLINICIAN, CAUTIOUS, ["chest pain"]),
    "blackouts or dizziness": (CLINICIAN, CAUTIOUS, ["blackouts", "dizziness"]),
    "faint on rising": (CLINICIAN, f"{CAUTIOUS} No getting up from a chair.", ["faint on rising"]),
    "recent fall with pain": (CLINICIAN, CAUTIOUS, ["fall that still hurts", "fall that makes it hard to walk"]),
    "recent fracture or operation": (CLINICIAN, None, ["recent fracture", "recent operation"]),
    "weak bones": (CLINICIAN, NO_PARTNER, ["thin or weak bones", "bone broken in a small fall"]),
    "stroke, Parkinson's or multiple sclerosis": (
        CLINICIAN, CAUTIOUS, ["stroke", "Parkinson's, multiple sclerosis or similar"],
    ),
    "inner ear or numb feet": (CLINICIAN, CAUTIOUS, ["inner ear", "numb feet"]),
    "blood thinners": (CLINICIAN, NO_PARTNER, ["blood thinners"]),
    "medicine that makes drowsy": (CLINICIAN, CAUTIOUS, ["pills that make sleepy", "strong pain pills"]),
    "low sugar": ("advice: Eat first, and keep something sweet in reach.", None, ["low sugar"]),
    "sight": (CLINICIAN, FIRST_STEP, ["sight"]),
    "joint replacement": (CLINICIAN, "advice: Keep to what you were told for the new joint.", ["joint replacement"]),
    "neck": (NO_TURNS, None, ["pain on turning the head", "dizzy on turning the head"]),
    "pain": (CLINICIAN, None, ["pain"]),
    "memory": (CLINICIAN, FIRST_STEP, ["following what is said", "remembering what is said"]),
    "getting up from the floor": (FIRST_STEP, None, ["getting up from the floor"]),
    "walking aid indoors": (FIRST_STEP, None, ["walking aid indoors"]),
    "alone in the house": (CAUTIOUS, None, ["alone in the house"]),
    "fall in 12 months": (CAUTIOUS, None, ["fall in 12 months"]),
    "severe or repeated falls": (
        CLINICIAN, CAUTIOUS, ["two falls in a year", "fall that needed a doctor", "an hour on the floor"],
    ),
    "unsteady": (CAUTIOUS, None, ["unsteady"]),
    "worried about falling": ("advice: A balance test shows where you stand: counterpoise assess", None, ["worried about falling"]),
}  # fmt: skip
WITH_PARTNER = {
    "partner's strength": (NO_PARTNER, None, ["partner's strength"]),
    "partner's balance": (NO_PARTNER, None, ["partner's balance"]),
    "partner's back": (NO_PARTNER, None, ["partner's bad back", "partner's bad shoulder"]),
    "practiced with the therapist": (NO_PARTNER, None, ["taught by a therapist", "watched by a therapist"]),
    "consent": (NO_PARTNER, None, ["wants to practice with the partner", "can say stop"]),
}
GOOD_IF_YES = {"partner's strength", "partner's balance", "practiced with the therapist", "consent"}
ONLY_CLEARED = {"chest pain", "blackouts or dizziness", "recent fall with pain"}
WHOLE = {part: whole for whole, (_, _, parts) in (SUITABILITY | WITH_PARTNER).items() for part in parts}
WHOLE |= {whole: whole for whole in SUITABILITY | WITH_PARTNER}


def finding_of(row, topic, answer, lifted, prescription, until, later):
    """What an answer comes to: "fine", "not answered", "not good", or how its lock was lifted."""
    whole = WHOLE[topic]
    first, _, parts = (SUITABILITY | WITH_PARTNER)[whole]
    said = answer["answer"]
    was_sentence = said in ("true", "not true", "not true, clinician agreed")
    is_asked = topic in parts
    if was_sentence != (not is_asked) and not (was_sentence and topic == whole):
        return "not answered"
    if said == "true" or said == ("yes" if whole in GOOD_IF_YES else "no"):
        return "fine"
    if first != CLINICIAN:
        return "not good"
    names = [f"a clinician first: {topic}", CLINICIAN]
    if any((row["id"], name) in lifted for name in names):
        return "cleared"
    # What only a clearance lifts is lifted by one of later answers too.
    every = [f"a clinician first: {part}" for part in parts if topic in (part, whole)]
    for one in later if whole in ONLY_CLEARED else []:
        if any((one, name) in lifted for name in names) or all((one, name) in lifted for name in every):
            return "cleared"
    worse = answer["new_or_worse"]
    by_word = said == "not true, clinician agreed" or answer["clinician_agreed"] == "yes"
    if whole not in ONLY_CLEARED and by_word and not (worse and worse["answer"] != "no"):
        return "agreed"
    day = day_of(row["at"])

    def covers(part):
        since = next((one["when"] for one in prescription.accepts if one["topic"] == part), None)
        if since is None or since > until or whole in ONLY_CLEARED:
            return False
        if day < since:
            return True
        if worse is None:
            return day == since
        return datetime.date.fromisoformat(worse["since"]) <= since and worse["answer"] == "no"

    if all(covers(part) for part in parts if topic in (part, whole)):
        return "accepted"
    if prescription.accepted and day < prescription.issued_on <= until and whole not in ONLY_CLEARED:
        return "accepted before"
    return "not good"


def suitability_of(export, lifted, prescription, since, until):
    """The answers about suitability that were not good, each with the moment of its answers."""
    rows = [row for row in export.get("suitability") or [] if day_of(row["at"]) <= until]

    def replaced_by(row):
        days = [day_of(other["at"]) for other in rows if row["id"] in (other["replaces"] or [])]
        return min(days, default=None)

    now = [row for row in rows if replaced_by(row) is None]
    groups = [[row] for row in rows if replaced_by(row) is not None] + ([now] if now else [])
    found = []
    for group in groups:
        answers = []
        for row in group:
            later = [other["id"] for other in rows if row["id"] in (other["replaces"] or [])]
            for one in row["answers"]:
                found_of = finding_of(row, one["topic"], one, lifted, prescription, until, later)
                answers.append((row, one["topic"], one, found_of))
        known = {topic for _, topic, *_ in answers}
        questions = [part for _, _, parts in SUITABILITY.values() for part in parts]
        if any(row["partner"] for row in group):
            questions += [part for _, _, parts in WITH_PARTNER.values() for part in parts]
        # Where only the partner was asked about, nothing else is open.
        others = [row for row in group if any(WHOLE[one["topic"]] in SUITABILITY for one in row["answers"]) or not row["answers"]]
        for part in questions if others else []:
            if part not in known and WHOLE[part] not in known:
                last = others[-1]
                locks = (SUITABILITY | WITH_PARTNER)[WHOLE[part]][0] == CLINICIAN
                everything = all((row["id"], CLINICIAN) in lifted for row in group)
                is_cleared = locks and (everything or (last["id"], f"a clinician first: {part}") in lifted)
                answers.append((last, part, None, "cleared" if is_cleared else "not answered"))
        found += [one for one in answers if one[3] != "fine"]

    told = []
    for row, topic, answer, finding in found:
        day, replaced = day_of(row["at"]), replaced_by(row)
        said = "not answered" if answer is None else answer["answer"]
        if answer is not None:
            said += ", which is no answer to this question" if finding == "not answered" else ""
            said += f"; a clinician agreed: {answer['clinician_agreed']}" if answer["clinician_agreed"] else ""
            worse = answer["new_or_worse"]
            said += f"; new or worse since {worse['since']}: {worse['answer']}" if worse else ""
        first, left, parts = (SUITABILITY | WITH_PARTNER)[WHOLE[topic]]

        def holds(what):
            standing = "as long as the answer holds" if replaced is None else "replaced by later answers"
            return {"what": what, "standing": standing, "by": None, "on": replaced and str(replaced)}

        if first != CLINICIAN:
            led_to = [holds(first)]
        else:
            # Another answer is no clearance.
            waits = replaced is None or (WHOLE[topic] in ONLY_CLEARED and finding != "not answered")
            standing, by, on = ("not cleared", None, None) if waits else ("replaced by later answers", None, replaced)
            if finding == "cleared":
                names = [CLINICIAN] + [f"a clinician first: {part}" for part in [topic] + [p for p in parts if topic in (p, WHOLE[topic])]]
                ids = [row["id"]] + [other["id"] for other in export["suitability"] if row["id"] in (other["replaces"] or [])]
                who = [c for c in export["clearances"] for one in c["lifted"] if one["locked_by"] in ids and one["what"] in names]
                standing, by, on = ("cleared", who[-1]["who"], day_of(who[-1]["at"])) if who else ("cleared", None, None)
            elif finding == "agreed":
                standing, by, on = "lifted: the person says a clinician agreed", None, day
            elif finding == "accepted":
                one = next(one for one in prescription.accepts if one["topic"] in parts and topic in (one["topic"], WHOLE[topic]))
                standing, by, on = "accepted", one["who"], one["when"]
            elif finding == "accepted before":
                standing, by, on = "accepted", prescription.issued_by or None, prescription.issued_on
            led_to = [{"what": CLINICIAN, "standing": standing, "by": by, "on": on and str(on)}]
            if finding not in ("not good", "not answered") and left:
                led_to.append(holds(left))
        if day < since and replaced is not None and not is_open(led_to):
            continue
        told.append((row["at"], {"day": str(day), "asked": "suitability", "about": topic, "answer": said, "led_to": led_to}))
    return told


# The answers before practice that lead to less than "not today" at once, and those that only go with another answer.
GENTLER = {"not sore", "slept well", "somebody in the house"}
HOLDS = {"not fallen": "a fall without injury", "not dizzy": "dizziness that passed"}
LOCKS = {
    "no chest pain": "chest pain or pressure",
    "breathing as usual": "bad shortness of breath",
    "no new weakness or numbness": "new weakness, numbness, or trouble speaking or seeing",
    "not fainted": "fainting",
    "no knock to the head": "a knock to the head",
    "feeling unwell passed": "feeling unwell, and nobody said that it passed",
}


def before_practice(session, lifted, clearances):
    """The answers before a practice that were not good."""
    if session["aside"]:
        return []
    day = str(day_of(session["start"]["begun"]))

    def by_itself(what):
        return {"what": what, "standing": "ends by itself", "by": None, "on": None}

    def lock(name):
        is_lifted = (session["id"], name) in lifted
        who = [row for row in clearances for one in row["lifted"] if (one["locked_by"], one["what"]) == (session["id"], name)]
        return {
            "what": f"locked: {name}",
            "standing": "cleared" if is_lifted else "not cleared",
            "by": who[-1]["who"] if is_lifted else None,
            "on": str(day_of(who[-1]["at"])) if is_lifted else None,
        }

    found = []
    for row in session["answers"]:
        if row["question"] == "a reason to see a clinician first" and row["answer"] != 0:
            said = {None: "not said", 1: "yes", 2: "not sure"}[row["answer"]]
            found.append((row["question"], said, [by_itself("not today")]))
    is_true = {row["item"]: row["is_true"] for row in session["ready"]}
    for row in session["ready"]:
        item = row["item"]
        if row["is_true"]:
            continue
        led_to = []
        if item == "not fallen":
            unhurt, past = is_true.get("the fall did no harm") is True, is_true.get("the fall was over two days ago") is True
            led_to.append(by_itself("gentler today" if unhurt and past else "not today"))
            led_to += [] if unhurt else [lock("a fall that may have hurt")]
            led_to += [] if past else [by_itself(f"held for 48 hours: {HOLDS[item]}")]
        elif item == "not dizzy":
            led_to.append(by_itself("not today"))
            passed = is_true.get("dizziness passed in five minutes") is True
            led_to += [] if passed else [lock("dizziness that did not pass in five minutes")]
            led_to.append(by_itself(f"held for 48 hours: {HOLDS[item]}"))
        elif item == "no new medicine":
            fine = is_true.get("new medicine agreed") is True and is_true.get("the new medicine is no trouble") is not False
            led_to.append(by_itself("gentler today" if fine else "not today"))
        elif item not in BESIDES:
            led_to.append(by_itself("gentler today" if item in GENTLER else "not today"))
            led_to += [lock(LOCKS[item])] if item in LOCKS else []
        found.append((row["asked"], row["said"], led_to))
    return [{"day": day, "asked": "before practice", "about": about, "answer": said, "led_to": led_to} for about, said, led_to in found]


def all_not_good(export, sessions, lifted, prescription, since, until):
    found = [one for _, one in suitability_of(export, lifted, prescription, since, until)]
    for session in sessions:
        day = day_of(session["start"]["begun"])
        if day <= until:
            of = before_practice(session, lifted, export.get("clearances", []))
            found += [one for one in of if since <= day or is_open(one["led_to"])]
    return sorted(found, key=lambda one: one["day"])


def in_cell(not_good):
    def words(one):
        by = f" by {one['by']}" if one["by"] else ""
        on = f" on {one['on']}" if one["on"] else ""
        return f"{one['what']} ({one['standing']}{by}{on})"

    cells = []
    for one in not_good:
        led_to = "; ".join(words(led) for led in one["led_to"]) or "nothing by itself"
        cells.append(f"{one['about']}: {one['answer']} [{led_to}]")
    return in_a_cell("; ".join(cells))


def program_changes(export, since, until, in_use):
    """Which program came into use in the place of which; what its text says no export of sessions holds."""
    free = {"title": WORDS_OR_NOTHING, "issued_by": ANYTHING, "is_sealed": ANYTHING, "before_title": WORDS_OR_NOTHING}
    free |= {"is_compared": ANYTHING, "harder": WORDS_OR_NOTHING, "easier": WORDS_OR_NOTHING}
    found, before = [], None
    for row in export["changes"]:
        if row["what"] == "prescription in use":
            if row["digest"] != before:
                found.append({"day": str(day_of(row["at"])), "source": row["source"], "digest": row["digest"], "before": before} | free)
            before = row["digest"]
    earlier = [one for one in found if one["day"] < str(since)]
    found = earlier[-1:] + [one for one in found if str(since) <= one["day"] <= str(until)]
    if before is not None and before != in_use:
        found.append({"day": None, "source": WORDS, "digest": in_use, "before": before} | free)
    return found


def all_events(export, sessions, set_aside, inside):
    dated = []
    for session in sessions:
        if session["id"] not in set_aside:
            dated += [(day_of(session["start"]["begun"]), *event) for event in events_of(session)]
    for session in sessions:
        day = day_of(session["start"]["begun"])
        locks, holds = (now + [mark for mark in before if mark not in now] for now, before in zip(marks(session), session["marked"]))
        dated += [(day, "lock", f"locked: {lock}") for lock in locks]
        dated += [(day, "hold", f"held for 48 hours: {hold}") for hold in holds if not locks]
    for row in export.get("clearances", []):
        dated.append((day_of(row["at"]), "clearance", f"cleared by {row['who']}: {row['reason']}"))
    dated += [(day_of(row["at"]), "change", f'{row["what"]}: {row["source"]}') for row in export["changes"]]
    dated = [event for event in dated if inside(event[0])]
    dated.sort(key=lambda event: event[0])
    return [{"day": str(day), "kind": kind, "what": what} for day, kind, what in dated]


# The balance tests (docs/assessment.md)


def tests_of(export, until):
    chair = {  # CDC, STEADI: below average if fewer than (men, women), from the age on
        60: (14, 12), 65: (12, 11), 70: (12, 10), 75: (11, 10), 80: (10, 9), 85: (8, 8), 90: (7, 4),
    }  # fmt: skip

    def is_below(row):
        test, value = row["test"], row["value"]
        if test == "chair-stand":
            age, sex = row["age"], row["sex"]
            if age is None or sex is None or not 60 <= age <= 94:
                return "no published norm"
            cut = chair[age // 5 * 5][sex == "female"]
            return "below" if value is None or value < cut else "not below"
        if value is None:
            return "below"
        worse = {
            "four-stage": value < 100,  # heel to toe for less than 10 s
            "one-leg": value < 50,  # less than 5 s
            "timed-up-and-go": value >= 120,  # 12 s or more
            "five-rises": value > 150,  # more than 15 s
        }[test]
        return "below" if worse else "not below"

    def shown(row):
        if row["value"] is None:
            return "unable"
        if row["test"] == "chair-stand":
            return f"{row['value']} rise{'s' * (row['value'] != 1)}"
        return f"{row['value'] // 10}.{row['value'] % 10} s"

    rows = [row for row in export.get("tests", []) if day_of(row["at"]) <= until]
    lines = []
    for test in ["four-stage", "one-leg", "chair-stand", "timed-up-and-go", "five-rises"]:
        of = sorted((row for row in rows if row["test"] == test), key=lambda row: day_of(row["at"]))
        if of:
            results = [[str(day_of(row["at"])), shown(row)] for row in of]
            lines.append(
                {"test": test, "results": results, "verdict": is_below(of[-1]), "finding": WORDS, "change": LIST_OF_WORDS}
            )
    return lines


# The report


def dose_of(inside, practices, prescription, began, since, until):
    weeks = {}
    for day in days_from(since, until):
        week = weeks.setdefault(week_of(day), collections.Counter(days_in_period=0))
        week.setdefault("from", str(day))
        week["days_in_period"] += 1
    for day in prescription.asked(began, since, until):
        weeks[week_of(day)]["days_prescribed"] += 1
        weeks[week_of(day)]["sets_prescribed"] += prescription.sets
    days = set()
    for sitting in practices:
        day = day_of(sitting[0]["start"]["begun"])
        week = weeks[week_of(day)]
        week["days"] += day not in days
        days.add(day)
        week["sessions"] += 1
        week["sessions_whole"] += is_whole(sitting)
        for session in sitting:
            week["session_ms"] += length_of(session) or 0
            for one in session["sets"]:
                week["sets"] += set_why(one) == "completed"
                week["active_ms"] += one["end"]["worked_ms"] if one["end"] else 0
                week["cues"] += calls_of(one)
    summed = ["days", "days_prescribed", "sessions", "sessions_whole", "sets", "sets_prescribed", "active_ms", "session_ms", "cues"]
    practiced = [session for sitting in practices for session in sitting]
    dose = {field: sum(week[field] for week in weeks.values()) for field in summed}
    begun = sum(len(session["sets"]) for session in practiced)
    dose |= {
        "sets_broken_off": begun - dose["sets"],
        "sets_left_out": sum(len(session["left_out"]) for session in practiced),
        "length_unknown": sum(length_of(session) is None for session in practiced),
        "interrupted": sum(why(session) in ("program closed", "interrupted") for session in practiced),
        "seed_given": sum(bool(drawn(session)["seed_given"]) for session in practiced),
        "corrected": sum(bool(session["corrected"]) for session in inside),
        "set_aside": sum(session["aside"] for session in inside),
        "tried_out": sum(bool(session["tryout"]) and not session["aside"] for session in inside),
        "by_hand": sum(by_hand(session) for session in practiced),
        "silent": sum(drawn(session)["device"] is None and not by_hand(session) for session in practiced),
        "sound_disturbed": sum(len(one["disturbed"]) for session in practiced for one in session["sets"]),
        "weeks": [
            {"week": name, "from": week["from"], "days_in_period": week["days_in_period"]}
            | {field: week[field] for field in summed}
            for name, week in weeks.items()
        ],
    }
    return dose


def responses_of(practices):
    words = {
        "in_place": "feet in place", "one_step": "one step", "more_steps": "two or more steps",
        "touched": "touched support", "grabbed": "grabbed or steadied", "fell": "fell",
    }  # fmt: skip
    noted, not_noted, shares = [], 0, []
    for sitting in practices:
        here = []
        for session in sitting:
            for one in session["sets"]:
                start = one["start"]
                for direction, response in pushes_of(one):
                    keys = {("all", "all pushes"), ("drill", f"{start['drill']}, {PARTNER[start['form']]}")}
                    keys |= {("direction", direction)} if direction else set()
                    keys |= {("side", f"{start['side']} foot ahead")} if start["side"] else set()
                    if response is None:
                        not_noted += 1
                    else:
                        here.append((keys, response))
        if here:
            shares.append(sum(r in ("feet in place", "one step") for _, r in here) / len(here))
        noted += here
    kinds = ["all", "drill", "direction", "side"]
    names = sorted({key for keys, _ in noted for key in keys}, key=lambda key: (kinds.index(key[0]), key[1]))
    groups = []
    for key in names:
        of = [response for keys, response in noted if key in keys]
        count = {field: of.count(word) for field, word in words.items()}
        groups.append(
            {"by": key[0], "name": key[1]}
            | count
            | {
                "one_step_or_better": share(count["in_place"] + count["one_step"], len(of)),
                "two_or_more": share(count["more_steps"], len(of)),
                "support": share(count["touched"] + count["grabbed"] + count["fell"], len(of)),
            }
        )
    return {"noted": len(noted), "not_noted": not_noted, "groups": groups, "trend": trend(shares)}


def ratings_of(inside, practices):
    told = [session for session in inside if not session["aside"]]

    def worst(question, together):
        values = []
        for sitting in practices:
            answers = [answer_of(session, one, question) for session in sitting for one in session["sets"]]
            answers = [answer for answer in answers if answer is not None]
            values += [together(answers)] if answers else []
        return line(values)

    def weekly(question):
        return line([answer for answer in (said(session, question) for session in told) if answer is not None])

    return {
        "effort": worst("effort", max),
        "steadiness": worst("steadiness", max),
        "held_on": worst("held on", sum),
        "near_falls": weekly("nearly fell in daily life"),
        "confidence": weekly("confidence"),
        "soreness": weekly("soreness"),
        "falls_told": sum(reports_new_fall(session) for session in told),
        "not_said": sum(answer["answer"] is None for session in told for answer in session["answers"]),
    }


def ladder_of(practices):
    last, changes = {}, []
    for session in (session for sitting in practices for session in sitting):
        decided = session["decided"] or {"given": [], "reasons": []}
        for given in decided["given"]:
            drill = f"{given['drill']}, {PARTNER[given['form']]}"
            before = last.get(drill)
            if before != given["step"]:
                last[drill] = given["step"]
                changes.append(
                    {
                        "day": str(day_of(session["start"]["begun"])),
                        "drill": drill,
                        "from": before,
                        "to": given["step"],
                        "why": decided["reasons"] if before is not None else [],
                    }
                )
    return changes


def kept_counts(export, prescription, since, until, digest):
    """What would be counted if nothing had been corrected."""
    kept = counted(export | {"corrections": []}, prescription, since, until, digest)
    groups = kept["responses"]["groups"]
    everything = groups[0] if groups else dict.fromkeys(("in_place", "one_step", "more_steps", "touched", "grabbed", "fell"), 0)
    fields = ("days", "sessions", "sessions_whole", "sets", "cues")
    return {field: kept["dose"][field] for field in fields} | {
        "noted": kept["responses"]["noted"],
        "one_step_or_better": everything["in_place"] + everything["one_step"],
        "two_or_more": everything["more_steps"],
        "support": everything["touched"] + everything["grabbed"] + everything["fell"],
        "effort": kept["ratings"]["effort"]["median"],
        "steadiness": kept["ratings"]["steadiness"]["median"],
        "held_on": kept["ratings"]["held_on"]["median"],
    }


def counted(export, prescription, since, until, digest):
    """The whole report, from the export."""

    def has(day):
        return since <= day <= until

    sessions = corrected(export)
    lifted = {(row["locked_by"], row["what"]) for clearance in export.get("clearances", []) for row in clearance["lifted"]}
    set_aside = {session["id"] for session in sessions if (session["id"], "a date that lies ahead") in lifted}
    inside = [s for s in sessions if has(day_of(s["start"]["begun"])) and s["id"] not in set_aside]
    sittings = sittings_of(sessions)
    practices = [s for s in sittings if has(day_of(s[0]["start"]["begun"])) and s[0]["id"] not in set_aside]
    ours = [s for s in sittings if s[0]["start"]["digest"] == digest]
    first = min((day_of(s[0]["start"]["begun"]) for s in ours), default=None)
    began = next((day_of(s[0]["start"]["begun"]) for s in ours if s[-1]["id"] not in set_aside), None)
    issued = prescription.issued_on if prescription.issued_by else first or until
    under = sum(day_of(s[0]["start"]["begun"]) <= until for s in ours)
    used = {}
    for sitting in practices:
        start = sitting[0]["start"]
        one = used.setdefault(
            start["digest"],
            {"from": str(day_of(start["begun"])), "title": start["title"], "digest": start["digest"], "sessions": 0},
        )
        one["sessions"] += 1
    tests = tests_of(export, until)
    return {
        "schema": "counterpoise.report/1",
        "since": str(since),
        "until": str(until),
        "incidents": all_incidents(export, sessions, set_aside, lifted, since, until),
        "unanswered": [one for s in sessions if has(day_of(s["start"]["begun"])) for one in unanswered_in(s)],
        "program_changes": program_changes(export, since, until, digest),
        "not_good": all_not_good(export, sessions, lifted, prescription, since, until),
        "state": WORDS_OR_NOTHING,
        "prescription": {
            "title": prescription.title,
            "issued_by": prescription.issued_by,
            "issued_on": str(prescription.issued_on),
            "ends_on": str(began + datetime.timedelta(7 * prescription.weeks - 1)) if began else None,
            "digest": digest,
            "precautions": prescription.precautions,
        },
        "prescriptions": list(used.values()),
        "dose": dose_of(inside, practices, prescription, began, since, until),
        "responses": responses_of(practices),
        "ratings": ratings_of(inside, practices),
        "as_kept": kept_counts(export, prescription, since, until, digest) if export.get("corrections") else None,
        "events": all_events(export, sessions, set_aside, has),
        "barred": LIST_OF_WORDS,
        "review": {
            "days": max((until - issued).days, 0),
            "sessions": under,
            "due_after": prescription.due_after,
            "is_due": under >= prescription.due_after,
        },
        "ladder": ladder_of(practices),
        "tests": tests,
        "foreseen": WORDS,
        "accepted_because": prescription.accepted,
        "remarks": LIST_OF_WORDS,
        "cautions": LIST_OF_WORDS,
    }


def in_a_cell(text):
    """A text as a cell of it: with an apostrophe where a spreadsheet would run it, or take it for a number."""

    def is_number():
        try:
            float(text)
        except ValueError:
            return not any(sign.isalpha() for sign in text)
        return True

    runs = text[:1] in ("=", "+", "-", "@", "\t", "\r", "\n")
    counts = (text[:1].isdigit() or text[:1] == ".") and is_number()
    return "'" + text if text and (runs or counts) else text


COLUMNS = (
    "day", "incidents", "what_followed", "not_asked", "not_said", "program_changed", "not_good", "week", "session",
    "prescription", "digest", "counts_as", "typed_in", "ended", "sets_planned", "sets_done", "active_ms", "session_ms", "calls",
    "steps", "effort", "steadiness", "held_on", "grabbed", "unwell", "what_felt_wrong", "sound_disturbed",
)  # fmt: skip


def rows_of(export, prescription, since, until, digest):
    """The rows of the spreadsheet: changes of the program, answers about suitability that were not good, and a session each,
    also those that do not count. All cells are texts."""
    lifted = {(row["locked_by"], row["what"]) for clearance in export.get("clearances", []) for row in clearance["lifted"]}
    rows = []
    for change in program_changes(export, since, until, digest):
        rows.append({"day": change["day"] or "", "counts_as": "program changed", "program_changed": WORDS})
    together = {}
    for at, one in suitability_of(export, lifted, prescription, since, until):
        together.setdefault(at, []).append(one)
    for answers in together.values():
        rows.append({"day": answers[0]["day"], "counts_as": "suitability answered", "not_good": in_cell(answers)})
    sessions = corrected(export)
    set_aside = {session["id"] for session in sessions if (session["id"], "a date that lies ahead") in lifted}
    for session in sessions:
        start, sets = session["start"], session["sets"]
        day = day_of(start["begun"])
        if not since <= day <= until:
            continue
        if (session["id"], "a date that lies ahead") in lifted:
            counts_as = "date set aside"
        elif session["aside"]:
            counts_as = "set aside"
        elif not sets:
            counts_as = "no set begun"
        else:
            counts_as = "supervised try-out" if session["tryout"] else "practice"

        def worst(question, together=max):
            answers = [answer_of(session, one, question) for one in sets]
            answers = [answer for answer in answers if answer is not None]
            return together(answers) if answers else ""

        steps = []
        for one in sets:
            step = f"{one['start']['drill']} {one['start']['form']} {one['start']['step']}"
            steps += [step] if step not in steps else []
        symptom = said(session, "what felt wrong")
        length = length_of(session)
        happened = incidents_of(session, sessions, set_aside, lifted, export.get("clearances", []))
        incidents = [f"{one['kind']}: {one['what']} ({one['place']})" for one in happened]
        followed = [
            f"{one['what']} ({one['standing']}" + (f" by {one['by']} on {one['on']})" if one["by"] else ")")
            for incident in happened
            for one in incident["followed"]
        ]

        def without(told):
            cells = []
            for one in unanswered_in(session):
                what = [name for name, key in (("grab or near fall", "grab"), ("felt unwell", "unwell")) if one[key] == told]
                cells += [f"{one['place']}: {' and '.join(what)}"] if what else []
            return "; ".join(cells)

        rows.append(
            {
                "day": day,
                "incidents": in_a_cell("; ".join(incidents)),
                "what_followed": in_a_cell("; ".join(dict.fromkeys(followed))),
                "not_asked": in_a_cell(without("not asked")),
                "not_said": in_a_cell(without("not said")),
                "program_changed": "",
                "not_good": in_cell(before_practice(session, lifted, export.get("clearances", []))),
                "week": week_of(day),
                "session": in_a_cell(session["id"]),
                "prescription": in_a_cell(start["title"]),
                "digest": start["digest"],
                "counts_as": counts_as,
                "typed_in": int(by_hand(session)),
                "ended": why(session) or "",
                "sets_planned": start["sets_planned"],
                "sets_done": sum(set_why(one) == "completed" for one in sets),
                "active_ms": sum(one["end"]["worked_ms"] for one in sets if one["end"]),
                "session_ms": "" if length is None else length,
                "calls": "" if by_hand(session) else sum(calls_of(one) for one in sets),
                "steps": in_a_cell("; ".join(steps)),
                "effort": worst("effort"),
                "steadiness": worst("steadiness"),
                "held_on": worst("held on", sum),
                "grabbed": worst("grabbed hold or nearly fell"),
                "unwell": worst("unwell"),
                "what_felt_wrong": "" if symptom is None else SYMPTOMS[symptom],
                "sound_disturbed": sum(len(one["disturbed"]) for one in sets),
            }
        )
    assert all(set(row) <= set(COLUMNS) for row in rows)
    filled = [{column: row.get(column, "") for column in COLUMNS} for row in rows]
    return [{column: str(cell) for column, cell in row.items()} for row in filled]


# Comparing


def difference(expected, found, path=""):
    """The first difference, in words, or None."""
    if expected is WORDS:
        return None if isinstance(found, str) and found else f"{path} has no words"
    if expected is WORDS_OR_NOTHING:
        return None if found is None or (isinstance(found, str) and found) else f"{path} is neither words nor null"
    if expected is LIST_OF_WORDS:
        is_list = isinstance(found, list) and all(isinstance(words, str) and words for words in found)
        return None if is_list else f"{path} is no list of words"
    if expected is ANYTHING:
        return None if found is None or isinstance(found, (str, bool)) else f"{path} is neither text, true, false nor null"
    if isinstance(expected, dict) and isinstance(found, dict):
        if set(expected) != set(found):
            return f"{path} has the fields {sorted(set(found) ^ set(expected))} on one side only"
        return next(filter(None, (difference(expected[k], found[k], f"{path}.{k}") for k in expected)), None)
    if isinstance(expected, list) and isinstance(found, list):
        if len(expected) != len(found):
            return f"{path} has {len(found)} entries in the report, and {len(expected)} counted from the export"
        pairs = enumerate(zip(expected, found))
        return next(filter(None, (difference(a, b, f"{path}[{n}]") for n, (a, b) in pairs)), None)
    number = (int, float)
    if isinstance(expected, number) and isinstance(found, number) and bool not in (type(expected), type(found)):
        same = abs(expected - found) < 1e-9
    else:
        same = type(expected) is type(found) and expected == found
    return None if same else f"{path} is {found!r} in the report, and {expected!r} counted from the export"


def leaves(value, path=()):
    if isinstance(value, dict) and value:
        for key in value:
            yield from leaves(value[key], path + (key,))
    elif isinstance(value, list) and value:
        for index, one in enumerate(value):
            yield from leaves(one, path + (index,))
    else:
        yield path, value


def at(value, path):
    for key in path:
        if any(value is free for free in FREE):
            return value
        value = value[key]
    return value


def altered(value):
    """The same kind of thing, and another one."""
    if isinstance(value, bool):
        return not value
    if isinstance(value, int):
        return value + 1
    if isinstance(value, float):
        return value + 1e-6
    if value is None:
        return 0
    return value + "x" if isinstance(value, str) else value + ["x"] if isinstance(value, list) else {"x": 0}


def notices_everything(expected, report):
    """Alters one figure after the other; how many were altered, and how many hold words that no export has."""
    tried = words = 0
    for path, value in list(leaves(report)):
        here = at(expected, path)
        if any(here is free for free in FREE):
            words += 1
            continue
        parent = at(report, path[:-1])
        parent[path[-1]] = altered(value)
        if difference(expected, report) is None:
            sys.exit(f"Error: this check does not notice that {'.'.join(map(str, path))} was altered.")
        parent[path[-1]] = value
        tried += 1
    # Something that is left out or put in beside must be noticed too.
    for path in {path[:depth] for path, _ in leaves(report) for depth in range(len(path))}:
        here, parent = at(expected, path), at(report, path)
        if any(here is free for free in FREE) or not parent:
            continue
        kept = copy.copy(parent)
        key = next(iter(parent)) if isinstance(parent, dict) else len(parent) - 1
        del parent[key]
        if difference(expected, report) is None:
            sys.exit(f"Error: this check does not notice that {'.'.join(map(str, path))} lost {key}.")
        if isinstance(parent, dict):
            parent.clear()
            parent.update(kept)
        else:
            parent[:] = kept
        tried += 1
    return tried, words


# The questions before practice to which "no" is the good answer, each as the sentence that is then true.
TRUE_WHEN_NO = {
    "chest pain": "no chest pain", "badly short of breath": "breathing as usual",
    "sign of a stroke": "no new weakness or numbness", "dizzy": "not dizzy", "fainted": "not fainted", "fell": "not fallen",
    "hurt by the fall": "the fall did no harm", "fall in the last two days": "the fall was over two days ago",
    "head knock": "no knock to the head", "new pain": "no new pain", "sore": "not sore", "ill": "not ill",
    "slept badly": "slept well", "alcohol today": "no alcohol", "new medicine": "no new medicine",
    "sleepy or dizzy from the new medicine": "the new medicine is no trouble",
}  # fmt: skip
TRUE_WHEN_YES = {"what was felt last time has passed": "feeling unwell passed"}


def as_sentence(row):
    """An answer before practice as a sentence that is true or is not; "not sure" is the careful answer."""
    item, answer = row["item"], row["answer"]
    if item in TRUE_WHEN_NO:
        return Kept(item=TRUE_WHEN_NO[item], is_true=answer == "no", asked=item, said=answer)
    return Kept(item=TRUE_WHEN_YES.get(item, item), is_true=answer == "yes", asked=item, said=answer)


def main():
    if len(sys.argv) != 5:
        sys.exit("Error: report_check.py EXPORT.json REPORT.json REPORT.csv PRESCRIPTION.toml")
    with open(sys.argv[1], encoding="utf-8") as file:
        export = json.load(file, object_hook=Kept)
    for session in export["sessions"]:
        session["ready"] = [as_sentence(row) for row in session["ready"] or []]
    with open(sys.argv[2], encoding="utf-8") as file:
        report = json.load(file)
    with open(sys.argv[3], encoding="utf-8", newline="") as file:
        report = {"report": report, "rows": list(csv.DictReader(file, strict=True))}
    since, until = (datetime.date.fromisoformat(report["report"][field]) for field in ("since", "until"))
    expected = {
        "report": counted(export, Prescription(sys.argv[4]), since, until, digest_of(sys.argv[4])),
        "rows": rows_of(export, Prescription(sys.argv[4]), since, until, digest_of(sys.argv[4])),
    }
    found = difference(expected, report)
    if found:
        sys.exit(f"Error: {found}.")
    tried, words = notices_everything(expected, copy.deepcopy(report))
    print(
        f"All figures of the report and its rows are those counted from the export; {tried} alterations were noticed one by one; "
        f"{words} values are words that no export holds, and only their kind was looked at."
    )


def digest_of(path):
    with open(path, "rb") as file:
        return "sha256:" + hashlib.sha256(file.read()).hexdigest()


main()
