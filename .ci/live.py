"""Plays one practice, answers its pages as a person would, and looks for every call in the captured sound.

live.py PROGRAM PRESCRIPTION FOLDER SERVER_LOG: exit code 0 if every call was found, every interval is within one frame
of the plan after the drift between the two clocks is taken out, and the journal says the same. 75 if that failed and the
sound server reported an underrun during the set: then it may be the machine, and the check is worth one repeat.

live.py --self-test PROGRAM PRESCRIPTION: looks for the calls in made-up captures of which one is right and the others
are wrong in known ways. Exit code 0 if it can tell them apart."""
import fcntl
import json
import os
import pty
import select
import signal
import struct
import subprocess
import sys
import termios
import time

import numpy as np
import pyte

RATE = 48_000
PER_MS = RATE // 1_000
SEED = "c0ffee" + "5a" * 29
UNDERRUN = 75
# The least number of intervals, and what a call must fit its clip by (1 is the clip itself).
LEAST_INTERVALS, LEAST_FIT = 20, 0.9
# What must stand on the screen, and the key that answers it. Words are adjusted here and nowhere else.
STAND, AFTER_WORK = "How to stand", "nearly fall"
PAGES = [
    ("minutes", "\r"), ("While you practice, page 1", "\r"), ("While you practice, page 2", "\r"),
    ("health, page 1", "n"), ("health, page 2", "n"),
    *[(f"Ready today, {nth} of 8", "n") for nth in range(1, 8)], ("Ready today, 8 of 8", "y"),
    ("Which word", "g"), ("Warm-up", " "), ("Leave out the warm-up", "y"),
    (STAND, " "),
    (AFTER_WORK, "n"), ("hold on", "0"), ("How hard", "2"), ("How steady", "1"), ("feel unwell", "n"),
    ("Cool-down", " "), ("Leave out the cool-down", "y"), ("Well done", " "),
]
# How long a page is waited for: the set lasts 120 s.
PATIENCE_S = 200


class Terminal:
    """A program in a terminal of 80x24."""

    def __init__(self, command):
        self.child, self.file = pty.fork()
        if self.child == 0:
            os.environ.update(TERM="xterm-256color", COLUMNS="80", LINES="24")
            try:
                os.execv(command[0], command)
            except OSError as error:
                print(f"Error: {command[0]}: {error}")
                os._exit(127)
        fcntl.ioctl(self.file, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
        self.shown = pyte.Screen(80, 24)
        self.stream = pyte.ByteStream(self.shown)
        self.status = None

    def screen(self, seconds):
        """What stands on the screen, after waiting this long at most for something new."""
        ready, _, _ = select.select([self.file], [], [], seconds)
        if ready:
            try:
                self.stream.feed(os.read(self.file, 65_536))
            except OSError:  # the other side is closed
                time.sleep(seconds)
        return "\n".join(self.shown.display)

    def ended(self):
        if self.status is None:
            ended, code = os.waitpid(self.child, os.WNOHANG)
            self.status = code if ended else None
        return self.status is not None

    def wait_for(self, wanted, seconds):
        until = time.monotonic() + seconds
        while wanted not in self.screen(0.2):
            if self.ended():
                sys.exit(f'Error: the practice ended before "{wanted}" came. The screen is:\n{self.screen(0.2)}')
            if time.monotonic() > until:
                sys.exit(f'Error: "{wanted}" did not come in {seconds} s. The screen is:\n{self.screen(0)}')

    def press(self, key):
        os.write(self.file, key.encode())

    def close(self):
        if not self.ended():
            os.kill(self.child, signal.SIGKILL)
            os.waitpid(self.child, 0)
        os.close(self.file)


def record(path):
    """Captures what the sink plays, from the moment at which sound really flows."""
    recorder = subprocess.Popen(
        ["parec", "--raw", "-d", "room.monitor", f"--rate={RATE}", "--channels=2", "--format=s16le",
         "--latency-msec=20"], stdout=open(path, "wb"))
    until, grown, last = time.monotonic() + 20, 0, 0
    while grown < 3:  # an idle null sink takes seconds to flow, and its first block may be the only one for a while
        time.sleep(0.1)
        size = os.path.getsize(path)
        grown, last = (grown + 1 if size > last else grown), size
        if recorder.poll() is not None or time.monotonic() > until:
            recorder.kill()
            sys.exit(f"Error: the capture does not flow: {size} bytes.")
    return recorder


def practice(program, prescription, folder, log):
    """Runs the practice. Gives the captured samples, and the lines in which the server reported underruns in the set."""
    capture = os.path.join(folder, "capture.raw")
    recorder = record(capture)
    terminal = Terminal([program, "--data-dir", os.path.join(folder, "data"), "practice", prescription, "--seed", SEED])
    try:
        logged = {}
        for wanted, key in PAGES:
            terminal.wait_for(wanted, PATIENCE_S)
            logged[wanted] = os.path.getsize(log)
            time.sleep(0.9)  # the same key sooner would be a held one
            terminal.press(key)
        until = time.monotonic() + 20
        while not terminal.ended() and time.monotonic() < until:
            terminal.screen(0.1)
        if terminal.status != 0:
            sys.exit(f"Error: the practice ended with {terminal.status}. The screen is:\n{terminal.screen(0)}")
        time.sleep(1)
    finally:
        terminal.close()
        recorder.send_signal(signal.SIGINT)
        recorder.wait()
    with open(log, "rb") as lines:
        lines.seek(logged[STAND])
        during = lines.read(logged[AFTER_WORK] - logged[STAND]).decode(errors="replace").splitlines()
    underruns = [line for line in during if "underrun of" in line.lower()]
    samples = np.fromfile(capture, dtype="<i2")
    return samples[: len(samples) // 2 * 2].reshape(-1, 2)[:, 0].astype(np.float64), underruns


def clip(phrase):
    """The samples of a clip and its onset (the first above -60 dBFS), by another decoder than the program's."""
    raw = subprocess.run(
        ["flac", "-d", "-c", "-s", "--force-raw-format", "--endian=little", "--sign=signed", f"sounds/lower/{phrase}.flac"],
        check=True, capture_output=True).stdout
    samples = np.frombuffer(raw, dtype="<i2").astype(np.float64)
    return samples, int(np.argmax(np.abs(samples) > 32.768))


def fits(sound, templates):
    """How well each template fits at each frame: normalized cross-correlation."""
    size = 1 << (len(sound) + max(map(len, templates.values()))).bit_length()
    spectrum = np.fft.rfft(sound, size)
    power = np.concatenate([[0.0], np.cumsum(sound**2)])
    fit = {}
    for phrase, template in templates.items():
        product = np.fft.irfft(spectrum * np.conj(np.fft.rfft(template, size)), size)[: len(sound)]
        ends = np.minimum(np.arange(len(sound)) + len(template), len(sound))
        fit[phrase] = product / np.sqrt(np.maximum(power[ends] - power[: len(sound)], 1.0) * (template**2).sum())
    return fit


def find(sound, cues, clips):
    """The frame of each call's onset in the sound, and how well it fits there."""
    fit = fits(sound, {phrase: template for phrase, (template, _) in clips.items()})
    # Where the set begins in the capture: the place at which all the calls together fit best.
    total = np.zeros(len(sound))
    for cue in cues:
        offset = max(0, PER_MS * cue["at_ms"] - clips[cue["phrase"]][1])
        total[: max(0, len(sound) - offset)] += np.maximum(fit[cue["phrase"]][offset:], 0)
    start = int(np.argmax(total))
    found, well = [], []
    for cue in cues:
        onset = clips[cue["phrase"]][1]
        around = max(0, start + PER_MS * cue["at_ms"] - onset)
        begin = max(0, around - 50 * PER_MS)
        window = fit[cue["phrase"]][begin: around + 50 * PER_MS]
        best = int(np.argmax(window)) if len(window) else 0
        found.append(begin + best + onset)
        well.append(float(window[best]) if len(window) else 0.0)
    return np.array(found, dtype=np.float64), well


def worst(heard, wanted):
    """By how many frames the worst interval is off once the drift is taken out, and the drift."""
    drift = np.polyfit(wanted, heard - wanted, 1)
    return float(np.abs(np.diff(heard - wanted - np.polyval(drift, wanted))).max()), drift[0] * 1e6


def judge(sound, cues, clips):
    """What is wrong with the captured sound, in words, and the frames found with the figures."""
    wanted = np.array([PER_MS * cue["at_ms"] for cue in cues], dtype=np.float64)
    heard, well = find(sound, cues, clips)
    off, drift = worst(heard, wanted)
    faults = []
    if len(cues) - 1 < LEAST_INTERVALS:
        faults.append(f"{len(cues) - 1} intervals; at least {LEAST_INTERVALS} are wanted.")
    if off > 1:
        faults.append(f"an interval is {off:.3f} frames off the plan.")
    for cue, fit in zip(cues, well):
        if fit < LEAST_FIT:
            faults.append(f"{cue['phrase']} at {cue['at_ms']} ms was not recognized (fit {fit:.3f}).")
    return faults, heard, off, drift


def compare(delivered, cues, heard):
    """What is wrong with the journal's account, against the plan and against what was captured."""
    faults = [f"cue {row['cue']} began at frame {row['began_frame']}, wanted at {row['wanted_frame']}."
              for row in delivered if row["wanted_frame"] != row["began_frame"]]
    if len(delivered) != len(cues):
        return faults + [f"the journal has {len(delivered)} calls as heard; {len(cues)} were planned."]
    began = np.array([row["began_frame"] for row in delivered], dtype=np.int64)
    planned = np.array([PER_MS * cue["at_ms"] for cue in cues], dtype=np.int64)
    if (np.diff(began) != np.diff(planned)).any():
        faults.append("the intervals that the journal has are not those of the plan.")
    off, _ = worst(heard, began.astype(np.float64))
    if off > 1:
        faults.append(f"the journal and the capture disagree by {off:.3f} frames.")
    return faults


def planned(program, prescription):
    plan = json.loads(subprocess.run([program, "preview", prescription, "--seed", SEED, "--format", "json"],
                                     check=True, capture_output=True).stdout)
    cues = [cue for cue in plan["sets"][0]["cues"] if not cue["blank"]]
    return cues, {phrase: clip(phrase) for phrase in {cue["phrase"] for cue in cues}}


def self_test(program, prescription):
    cues, clips = planned(program, prescription)

    def capture(moved=None, drift_ppm=0.0, silent=None, swapped=None):
        sound = np.zeros(RATE * 130)
        for place, cue in enumerate(cues):
            template, onset = clips[swapped[1] if swapped and place == swapped[0] else cue["phrase"]]
            frame = 7_777 + round(PER_MS * cue["at_ms"] * (1 + drift_ppm / 1e6)) + (moved or {}).get(place, 0) - onset
            if place != silent:
                sound[frame: frame + len(template)] += template
        return sound

    other = next(cue["phrase"] for cue in cues if cue["phrase"] != cues[5]["phrase"])
    cases = [
        ("as planned", capture(), True), ("a clock 40 ppm fast", capture(drift_ppm=40.0), True),
        ("one call 2 frames late", capture(moved={9: 2}), False),
        ("one call 480 frames early", capture(moved={3: -480}), False),
        ("the last call 2 frames early", capture(moved={len(cues) - 1: -2}), False),
        ("one call missing", capture(silent=12), False), ("another word at one place", capture(swapped=(5, other)), False),
    ]
    wrong = [name for name, sound, right in cases if (judge(sound, cues, clips)[0] == []) != right]
    rows = [{"cue": place, "wanted_frame": 500 + PER_MS * cue["at_ms"], "began_frame": 500 + PER_MS * cue["at_ms"]}
            for place, cue in enumerate(cues)]
    heard = find(cases[0][1], cues, clips)[0]
    late = [dict(row, began_frame=row["began_frame"] + 3 * (row["cue"] == 4)) for row in rows]
    copied = [dict(row, wanted_frame=row["began_frame"] + 3, began_frame=row["began_frame"] + 3) if row["cue"] == 4 else row
              for row in rows]
    for name, journal, right in [("a true journal", rows, True), ("a late call", late, False),
                                 ("a call kept at another frame", copied, False), ("a call too few", rows[1:], False)]:
        if (compare(journal, cues, heard) == []) != right:
            wrong.append(name)
    if wrong:
        print("Error: the live check judges wrongly:", "; ".join(wrong), file=sys.stderr)
        return 1
    print(f"The live check tells {len(cases) + 4} made-up cases apart.")
    return 0


def main():
    if sys.argv[1] == "--self-test":
        return self_test(*sys.argv[2:])
    program, prescription, folder, log = sys.argv[1:]
    cues, clips = planned(program, prescription)
    sound, underruns = practice(program, prescription, folder, log)
    faults, heard, off, drift = judge(sound, cues, clips)
    journal = json.loads(subprocess.run(
        [program, "--data-dir", os.path.join(folder, "data"), "journal", "export", "--format", "sessions"],
        check=True, capture_output=True).stdout)
    delivered = journal["sessions"][0]["sets"][0]["delivered"]
    faults += compare(delivered, cues, heard)
    print(f"{len(cues)} calls, {len(cues) - 1} intervals: the worst is {off:.3f} frames off the plan after a drift of "
          f"{drift:.2f} ppm; the journal has {len(delivered)} heard; {len(underruns)} underruns in the set.")
    for fault in faults:
        print(f"Error: {fault}", file=sys.stderr)
    for line in underruns if faults else []:
        print(f"The sound server: {line}", file=sys.stderr)
    return 0 if not faults else UNDERRUN if underruns else 1


if __name__ == "__main__":
    sys.exit(main())
