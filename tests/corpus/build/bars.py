"""What is struck in each bar of a song. usage: bars.py TRUTH.json PLAYER FIRST LAST [SOURCE-FILE]

PLAYER is the compiled rows.c. One line a track and bar: a sixteenth of a bar a character, `x` where something starts.
"""
import json
import struct
import subprocess
import sys
import tempfile
import zlib
import xml.etree.ElementTree as xml
import os
import re

STEPS = 16


def from_workstation(path):
    from project import Project
    with open(path, 'rb') as file:
        data = file.read()
    text = data if path.endswith('.mmp') else zlib.decompress(data[4:])
    root = xml.fromstring(re.sub(rb'[\x00-\x08\x0b\x0c\x0e-\x1f]', b'', text))
    head = root.find('head')
    bar = 192 * int(head.get('timesig_numerator', 4)) // int(head.get('timesig_denominator', 4))
    tick = 60 / float(head.get('bpm', 140)) / 48
    return [(n.start * tick, n.track, getattr(n, 'pitch_class', None)) for n in Project(root, bar).notes]


def from_module(path, player):
    with tempfile.TemporaryDirectory() as folder:
        log = os.path.join(folder, 'log')
        subprocess.run([player, path, os.path.join(folder, 'pcm'), log], check=True)
        notes, names, recent, now = [], {}, {}, 0.0
        with open(log, encoding='utf-8', errors='replace') as file:
            for line in file:
                word, _, rest = line.strip().partition(' ')
                if word == 'instrument':
                    number, _, name = rest.partition(' ')
                    names[int(number)] = name
                elif word == 'row':
                    now = float(rest.split()[0])
                elif word == 'note':
                    channel, note, instrument = map(int, rest.split())
                    recent[channel] = instrument or recent.get(channel, 0)
                    if 1 <= note <= 120 and recent[channel]:
                        notes.append((now, '%02d %s' % (recent[channel], names.get(recent[channel], '')), note % 12))
        return notes


def from_midi(path):
    """Standard MIDI File 1.0, one tempo."""
    data = open(path, 'rb').read()
    per_beat, at, tempo, notes = struct.unpack('>H', data[12:14])[0], 14, 500000, []
    def varlen(i):
        value = 0
        while True:
            value, i = value << 7 | data[i] & 127, i + 1
            if data[i - 1] < 128:
                return value, i
    track = 0
    while at < len(data):
        size = struct.unpack('>I', data[at + 4:at + 8])[0]
        i, end, now, status = at + 8, at + 8 + size, 0, 0
        track += 1
        while i < end:
            delta, i = varlen(i)
            now += delta
            if data[i] & 128:
                status, i = data[i], i + 1
            if status == 255:
                kind = data[i]
                length, i = varlen(i + 1)
                if kind == 0x51:
                    tempo = int.from_bytes(data[i:i + length], 'big')
                if kind == 0x58:
                    print('time signature', data[i], 2 ** data[i + 1], 'at beat', now / per_beat)
                if kind in (1, 3, 5, 6):
                    print('text', data[i:i + length], 'at beat', now / per_beat)
                i += length
            elif status in (240, 247):
                length, i = varlen(i)
                i += length
            else:
                if status >> 4 == 9 and data[i + 1] > 0:
                    notes.append((now / per_beat, 'track %d' % track, data[i] % 12))
                i += 1 if status >> 4 in (12, 13) else 2
        at = end
    return [(beat * tempo / 1e6, name, pitch) for beat, name, pitch in notes]


def notes_of(path, player):
    """Time, track and pitch class of every note of a song's source file."""
    if os.path.isdir(path):
        return from_midi(os.path.join(path, 'notes.mid'))
    return from_module(path, player) if path.rsplit('.')[-1] in ('xm', 'it', 'mod', 's3m') else from_workstation(path)


def main(truth_file, player, first, last, source=None):
    with open(truth_file) as file:
        truth = json.load(file)
    notes = notes_of(source or truth['source_file'], player)
    bars = truth['downbeats'] or truth['beats'][::4]
    bars = bars + [bars[-1] + bars[-1] - bars[-2]]
    first, last = int(first), min(int(last), len(bars) - 1)
    print(truth['id'], truth['bpm'], truth['meter'])
    for track in sorted({n[1] for n in notes}):
        row = []
        for bar in range(first, last + 1):
            a, b = bars[bar - 1], bars[bar]
            cells = ['.'] * STEPS
            for time, name, pitch in notes:
                if name == track and a - 0.01 <= time < b - 0.01:
                    cells[min(STEPS - 1, round((time - a) / (b - a) * STEPS))] = 'x' if pitch is None else 'CcDdEFfGgAaB'[pitch]
            row.append(''.join(cells))
        if any('.' * STEPS != c for c in row):
            print('%-14s' % track[:14], ' '.join(row))
    print(' ' * 14, ' '.join(('%d' % b).ljust(STEPS) for b in range(first, last + 1)))


if __name__ == '__main__':
    main(*sys.argv[1:])
