"""WAV files: soundfile, which is libsndfile, reads what `line --wav` writes, and the pitch of every
note is measured by the peak of its spectrum (numpy), which is not how the tests of the program do it.
"""

import sys

import numpy
import soundfile

# Between them these have every note from C1 to C7. At 30 an eighth lasts a second.
TUNINGS = ["C1 F1 Bb1 Eb2", "guitar-standard", "guitar-12-string", "C4 F4 Bb4 Eb5"]
ROOTS = ["C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"]
RANGE = range(24, 97)
TEMPO, EIGHTH_S = 30, 1.0

# A damped note is heard for so long; a window begins when the note before is silent.
DAMPED_S, WINDOW_S = 0.11, 0.8
RATE = 48_000
TRANSFORM = 1 << 18


def measured(samples, hertz):
    """The partial nearest to `hertz`: a parabola through the highest three logarithms."""
    window = samples * numpy.hanning(len(samples))
    spectrum = numpy.abs(numpy.fft.rfft(window, TRANSFORM))
    near = round(hertz * TRANSFORM / RATE)
    # No farther than a half tone.
    around = max(2, round(near * 0.06))
    peak = near - around + int(numpy.argmax(spectrum[near - around:near + around + 1]))
    low, middle, high = numpy.log(spectrum[peak - 1:peak + 2])
    return (peak + (low - high) / (2 * (low - 2 * middle + high))) * RATE / TRANSFORM


def compare(ask, folder):
    """How many values were measured."""
    found, worst, notes = set(), 0.0, 0
    file = folder / "line.wav"
    for tuning in TUNINGS:
        for root in ROOTS:
            answer = ask(
                "line", f"{root}maj7", "--exercise", "--bars", "8", "--tempo", str(TEMPO),
                "--tuning", tuning, "--a4", "440", "--overwrite", "--wav", str(file),
            )
            samples, rate = soundfile.read(file)
            frames = round((8 * 8 * EIGHTH_S + DAMPED_S) * RATE)
            if (rate, samples.shape) != (RATE, (frames,)):
                sys.exit(f"sounds: {tuning} {root}: {rate}, {samples.shape}, expected {frames}")
            peak = numpy.abs(samples).max()
            if not 0.02 < peak < 1:
                sys.exit(f"sounds: {tuning} {root}: the peak is {peak}")
            for note in answer["notes"]:
                # A beat is a quarter.
                from_s = note["onset"] * 60 / TEMPO + DAMPED_S + 0.02
                first = round(from_s * RATE)
                hertz = 440 * 2 ** ((note["midi"] - 69) / 12)
                heard = measured(samples[first:first + round(WINDOW_S * RATE)], hertz)
                cents = abs(1200 * numpy.log2(heard / hertz))
                if cents > 1:
                    sys.exit(f"sounds: {tuning}: {note['midi']} is {cents:.3f} cents off")
                worst = max(worst, cents)
                found.add(note["midi"])
                notes += 1
    missing = sorted(set(RANGE) - found)
    if missing:
        sys.exit(f"sounds: never heard: {missing}")
    print(f"sounds: {notes} notes of {len(found)} pitches, at worst {worst:.3f} cents off")
    return notes + 3 * len(TUNINGS) * len(ROOTS)
