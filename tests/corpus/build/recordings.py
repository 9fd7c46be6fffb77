"""Recorded bands whose packages hold a MIDI file with the tempo. usage: recordings.py FOLDER"""
import glob
import os
import sys
import mido
import numpy as np
import songs
import sound

SONGS = '/usr/share/games/fretsonfire/data/songs/*/*/notes.mid'
REACH_MS = 100
LOOSEST = 0.006          # seconds by which the lag may scatter around a line
NOT_FOLLOWED = {'armygeddon'}        # the tempo map is another one than the recording's
BAR_UNKNOWN = {'mutilated_mime'}     # beats fit, which of them is the first of the bar does not show


def read_midi(path):
    """Seconds a beat (None when the tempo changes) and the times of all notes in beats."""
    midi = mido.MidiFile(path)
    tempos, ticks = set(), set()
    for track in midi.tracks:
        now = 0
        for event in track:
            now += event.time
            if event.type == 'set_tempo':
                tempos.add(event.tempo)
            elif event.type == 'note_on' and event.velocity > 0:
                ticks.add(now)
    beat = tempos.pop() / 1e6 if len(tempos) == 1 else None
    return beat, np.array(sorted(ticks)) / midi.ticks_per_beat


def recording_lag(samples, beats):
    """A line through the lag (s) of the recording behind the beats in eight parts of it, and its worst residual."""
    rise = sound.onset_strength(samples)
    inside = beats[beats < len(rise) / 1000 - 0.2]
    places, lags = [], []
    for part in np.array_split(inside, 8):
        index = np.round(part * 1000).astype(int)
        scores = [rise[np.maximum(index + lag, 0)].mean() for lag in range(-REACH_MS, REACH_MS + 1)]
        places.append(part.mean())
        lags.append((int(np.argmax(scores)) - REACH_MS) / 1000)
    line = np.polyfit(places, lags, 1)
    return line, float(np.abs(np.polyval(line, places) - lags).max())


def mixed(folder):
    stems = [sound.decode(os.path.join(folder, name)) for name in ('song.ogg', 'guitar.ogg')]
    mix = np.zeros((max(map(len, stems)), 2))
    for stem in stems:
        mix[:len(stem)] += stem
    return mix


def main(out):
    for path in sorted(glob.glob(SONGS)):
        folder = os.path.dirname(path)
        pack, name = folder.split('/')[-2:]
        beat, notes = read_midi(path)
        if beat is None:
            print('left out', name, ': the tempo changes')
            continue
        samples = mixed(folder)
        count = int(len(samples) / sound.RATE / beat)
        grid = np.arange(count) * beat
        line, scatter = recording_lag(samples, grid)
        if name in NOT_FOLLOWED or scatter > LOOSEST:
            print('left out', name, ': the recording does not follow the tempo')
            continue
        moved = lambda times: times + np.polyval(line, times)
        package = 'fretsonfire-songs-' + pack
        songs.save(out, {
            'id': 'fof-%s-%s' % (pack, songs.slug(name)),
            'source_package': package,
            'source_file': folder,
            'license': songs.licence(package),
            'bpm': round(60 / beat / (1 + line[0]), 3),
            'meter': '4/4',
            'beats': moved(grid),
            'downbeats': [] if name in BAR_UNKNOWN else moved(grid[::4]),
            'group': 'other',
            'confidence': 'likely',
            'notes': 'The recording lags %.1f ms behind the file at the start and %.1f ms at the end, within %.1f ms.' % (
                1000 * line[1], 1000 * np.polyval(line, count * beat), 1000 * scatter),
        }, samples, moved(notes * beat))


main(sys.argv[1])
