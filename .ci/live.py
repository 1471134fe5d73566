"""Plays one practice, answers its pages as a person would, and looks for every call in the captured sound.

live.py PROGRAM PRESCRIPTION FOLDER: exit code 0 if every call was found and every interval is within one frame of the
plan after the drift between the two clocks is taken out."""
import json
import os
import pty
import select
import signal
import subprocess
import sys
import time

import numpy as np
import pyte

RATE = 48_000
SEED = "c0ffee" + "5a" * 29
# What must stand on the screen, and the key that answers it.
PAGES = [
    ("go on", "\r"), ("all true", "a"), ("All of this is true today", "a"), ("Which word", "g"), ("How to stand", " "),
    ("nearly fall", "n"), ("hold on", "0"), ("How hard", "2"), ("How steady", "1"), ("feel unwell", "n"),
    ("Well done", " "),
]


def practice(program, prescription, folder):
    """Runs the practice in a terminal of 80x24 and captures what the sink plays. Gives the samples."""
    capture = open(os.path.join(folder, "capture.raw"), "wb")
    recorder = subprocess.Popen(
        ["parec", "--raw", "-d", "room.monitor", "--rate=48000", "--channels=2", "--format=s16le", "--latency-msec=20"],
        stdout=capture)
    while os.path.getsize(capture.name) == 0:  # an idle null sink takes its time to flow
        time.sleep(0.05)
    child, terminal = pty.fork()
    if child == 0:
        os.environ.update(TERM="xterm-256color", COLUMNS="80", LINES="24")
        os.execv(program, [program, "--data-dir", os.path.join(folder, "data"), "practice", prescription, "--seed", SEED])
    import fcntl, struct, termios
    fcntl.ioctl(terminal, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
    shown = pyte.Screen(80, 24)
    stream = pyte.ByteStream(shown)

    def screen(seconds):
        ready, _, _ = select.select([terminal], [], [], seconds)
        if ready:
            try:
                stream.feed(os.read(terminal, 65_536))
            except OSError:
                pass
        return "\n".join(shown.display)

    for wanted, key in PAGES:
        until = time.monotonic() + 200
        while wanted not in screen(0.2):
            if time.monotonic() > until:
                os.kill(child, signal.SIGKILL)
                sys.exit(f"Error: \"{wanted}\" never came. The screen is:\n{screen(0)}")
        time.sleep(0.6)
        os.write(terminal, key.encode())
    until = time.monotonic() + 20
    status = None
    while status is None and time.monotonic() < until:
        screen(0.1)
        ended, code = os.waitpid(child, os.WNOHANG)
        status = code if ended else None
    time.sleep(1)
    recorder.send_signal(signal.SIGINT)
    recorder.wait()
    if status != 0:
        sys.exit(f"Error: the practice ended with {status}. The screen is:\n{screen(0)}")
    samples = np.fromfile(capture.name, dtype="<i2")
    return samples[: len(samples) // 2 * 2].reshape(-1, 2)[:, 0].astype(np.float64)


def clip(phrase):
    raw = subprocess.run(
        ["flac", "-d", "-c", "-s", "--force-raw-format", "--endian=little", "--sign=signed", f"sounds/lower/{phrase}.flac"],
        check=True, capture_output=True).stdout
    samples = np.frombuffer(raw, dtype="<i2").astype(np.float64)
    return samples, int(np.argmax(np.abs(samples) > 32.768))


def places(sound, template):
    """How well the template fits at each frame: normalized cross-correlation."""
    size = 1 << (len(sound) + len(template)).bit_length()
    product = np.fft.irfft(np.fft.rfft(sound, size) * np.conj(np.fft.rfft(template, size)), size)[: len(sound)]
    power = np.concatenate([[0.0], np.cumsum(sound**2)])
    ends = np.minimum(np.arange(len(sound)) + len(template), len(sound))
    energy = np.sqrt(np.maximum(power[ends] - power[: len(sound)], 1.0) * (template**2).sum())
    return product / energy


def main():
    program, prescription, folder = sys.argv[1:]
    plan = json.loads(subprocess.run([program, "preview", prescription, "--seed", SEED, "--format", "json"],
                                     check=True, capture_output=True).stdout)
    cues = [cue for cue in plan["sets"][0]["cues"] if not cue["blank"]]
    sound = practice(program, prescription, folder)
    clips = {phrase: clip(phrase) for phrase in {cue["phrase"] for cue in cues}}
    fits = {phrase: places(sound, template) for phrase, (template, _) in clips.items()}
    # Where the set begins in the capture: the place at which all the calls together fit best.
    total = np.zeros(len(sound))
    for cue in cues:
        offset = 48 * cue["at_ms"] - clips[cue["phrase"]][1]
        fit = fits[cue["phrase"]]
        total[: max(0, len(sound) - max(offset, 0))] += np.maximum(fit[max(offset, 0):], 0)[: len(sound)]
    start = int(np.argmax(total))
    found, weak = [], []
    for cue in cues:
        onset = clips[cue["phrase"]][1]
        around = start + 48 * cue["at_ms"] - onset
        window = fits[cue["phrase"]][max(0, around - 2_400): around + 2_400]
        best = int(np.argmax(window))
        found.append(max(0, around - 2_400) + best + onset)
        if window[best] < 0.9:
            weak.append((cue["phrase"], round(float(window[best]), 3)))
    wanted = np.array([48 * cue["at_ms"] for cue in cues], dtype=np.float64)
    heard = np.array(found, dtype=np.float64)
    drift = np.polyfit(wanted, heard - wanted, 1)
    error = np.diff(heard - wanted - np.polyval(drift, wanted))
    worst = float(np.abs(error).max())
    journal = json.loads(subprocess.run(
        [program, "--data-dir", os.path.join(folder, "data"), "journal", "export", "--format", "json"],
        check=True, capture_output=True).stdout)
    delivered = journal["sessions"][0]["sets"][0]["delivered"]
    late = [row for row in delivered if row["wanted_frame"] != row["began_frame"]]
    print(f"{len(cues)} calls, {len(error)} intervals: the worst is {worst:.3f} frames off the plan after a drift of "
          f"{drift[0] * 1e6:.2f} ppm; {len(weak)} not recognized; the journal has {len(delivered)} heard, {len(late)} late.")
    if len(error) < 20 or worst > 1 or weak or late or len(delivered) != len(cues):
        print("Weak:", weak, "Late:", late)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
