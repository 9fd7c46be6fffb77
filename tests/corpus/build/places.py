"""In how many sixteenths of each bar of a song something is struck. usage: places.py FOLDER PLAYER

PLAYER is the compiled rows.c. Writes FOLDER/places/ID.json for every song in FOLDER/truth whose notes can be read: a number
a bar, null in bars in which drums play as far as the names of the tracks tell.
"""
import glob
import json
import os
import sys

from bars import notes_of
from structure import role

STEPS = 16
DRUMS = ('kick', 'snare', 'hats', 'drums')


def places(truth, notes):
    bars = truth['downbeats'] or truth['beats'][::4]
    bars = bars + [bars[-1] + bars[-1] - bars[-2]]
    struck = [set() for _ in bars[:-1]]
    drummed = set()
    bar = 0
    for time, track, _ in sorted(notes, key=lambda n: n[0]):
        while bar + 1 < len(struck) and time >= bars[bar + 1] - 0.01:
            bar += 1
        if time < bars[0] - 0.01:
            continue
        if role(track) in DRUMS:
            drummed.add(bar)
        struck[bar].add(round((time - bars[bar]) / (bars[bar + 1] - bars[bar]) * STEPS))
    return [None if b in drummed else len(s) for b, s in enumerate(struck)]


def source_of(folder, truth):
    path = truth['source_file']
    if os.path.exists(path):
        return path
    found = glob.glob(f'{folder}/unpacked/*{path}')
    return found[0] if found else None


def main(folder, player):
    os.makedirs(f'{folder}/places', exist_ok=True)
    for file in sorted(glob.glob(f'{folder}/truth/*.json')):
        with open(file) as open_file:
            truth = json.load(open_file)
        source = source_of(folder, truth) if 'source_file' in truth else None
        # A recording's MIDI file tells what one player does, and the drum machine has nothing else.
        if source is None or os.path.isdir(source) or source.endswith('.h2song'):
            continue
        with open(f'{folder}/places/{truth["id"]}.json', 'w') as out:
            json.dump(places(truth, notes_of(source, player)), out)


if __name__ == '__main__':
    main(os.path.abspath(sys.argv[1]), sys.argv[2])
