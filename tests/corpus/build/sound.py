"""Audio in and out, and how the onsets of a recording lie against the times its notes should have."""
import os
import subprocess
import numpy as np
from scipy.io import wavfile

RATE = 44100
PEAK = 10 ** (-1 / 20)
FLOOR_DB = -60


def decode(path):
    """Any audio file as floats, one row a frame, two columns, at 44.1 kHz."""
    command = ['ffmpeg', '-v', 'error', '-i', path, '-f', 'f32le', '-ac', '2', '-ar', str(RATE), '-']
    raw = subprocess.run(command, stdout=subprocess.PIPE, check=True).stdout
    return np.frombuffer(raw, '<f4').astype(float).reshape(-1, 2)


def audio_file(folder, song):
    return os.path.join(folder, 'audio', song + '.wav')


def write(folder, song, samples):
    """Writes a song at -1 dBFS; a file that is there already stays as it is."""
    path = audio_file(folder, song)
    if not os.path.exists(path):
        loud = samples * (PEAK / max(np.abs(samples).max(), 1e-9))
        wavfile.write(path, RATE, np.round(loud * 32767).astype('<i2'))


def kept(folder, song):
    """The audio of an earlier run, or None."""
    path = audio_file(folder, song)
    return wavfile.read(path)[1] / 32768 if os.path.exists(path) else None


def onset_strength(samples):
    """Rise over 4 ms of the log energy of the differenced mix, a value a millisecond."""
    edges = np.diff(samples.mean(axis=1), prepend=0.0) ** 2
    count = len(edges) * 1000 // RATE
    at = np.round(np.arange(count + 1) * RATE / 1000).astype(int)
    energy = np.diff(np.concatenate(([0.0], np.cumsum(edges)))[at])
    smooth = np.convolve(energy, np.full(3, 1 / 3), mode='same')
    level = np.log(smooth + 1e-9 + 1e-4 * smooth.mean())
    rise = np.zeros(count)
    rise[2:-2] = np.clip(level[4:] - level[:-4], 0, None)
    return rise


def lag_scores(rise, times, reach):
    """Mean onset strength at the times moved by -reach ... reach ms; None when fewer than eight times can be used."""
    index = np.round(np.asarray(times) * 1000).astype(int)
    index = index[(index > reach + 10) & (index < len(rise) - reach - 10)]
    if len(index) < 8:
        return None
    return np.array([np.minimum(rise[index + lag], 3).mean() for lag in range(-reach, reach + 1)])


def alignment(samples, note_times):
    """At which lag (ms) the onsets follow the notes best: overall with its z-score, and for both halves."""
    reach = 80
    rise = onset_strength(samples)
    times = np.unique(np.round(np.asarray(note_times, float), 4))
    middle = np.median(times) if len(times) else 0.0

    def best(some):
        scores = lag_scores(rise, some, reach)
        if scores is None:
            return None, 0.0
        z = (scores.max() - np.median(scores)) / (scores.std() + 1e-9)
        return int(scores.argmax()) - reach, round(float(z), 1)

    lag, z = best(times)
    loud = np.flatnonzero(np.abs(samples).max(axis=1) > np.abs(samples).max() * 10 ** (FLOOR_DB / 20))
    return {
        'lag_ms': lag,
        'z': z,
        'first_half_ms': best(times[times <= middle])[0],
        'second_half_ms': best(times[times > middle])[0],
        'first_onset_s': round(float(times[0]), 4) if len(times) else None,
        'first_sound_s': round(float(loud[0]) / RATE, 4) if len(loud) else None,
    }
