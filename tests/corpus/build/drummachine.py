"""Demo songs of a drum machine (drums only). usage: drummachine.py FOLDER"""
import glob
import os
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as xml
from concurrent.futures import ThreadPoolExecutor
import numpy as np
import songs
import sound
import structure

SONGS = '/usr/share/hydrogen/data/demo_songs/*.h2song'
TICKS_PER_BEAT = 48
TICKS_PER_BAR = 192


def song_id(path):
    return 'hydrogen-' + songs.slug(os.path.basename(path)[:-len('.h2song')])


def render(path, folder):
    """Exports a song once through; with looping on, the export would not end."""
    stem = os.path.join(folder, os.path.basename(path))
    with open(path, encoding='utf-8') as file:
        text = file.read()
    with open(stem, 'w', encoding='utf-8') as file:
        file.write(text.replace('<loopEnabled>true', '<loopEnabled>false'))
    command = ['nice', 'timeout', '300', 'h2cli', '-s', stem, '-o', stem + '.wav', '-r', str(sound.RATE), '-b', '16', '-d', 'auto']
    subprocess.run(command, env=dict(os.environ, QT_QPA_PLATFORM='offscreen', HOME=folder),
                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    return sound.decode(stem + '.wav') if os.path.exists(stem + '.wav') else None


def notes_of(root):
    """(instrument, tick) of every stroke that sounds, the ticks at which bars start, and the tick after the last."""
    audible = {i.findtext('id'): i.findtext('name') for i in root.find('instrumentList') if i.findtext('isMuted') != 'true'}
    patterns = {p.findtext('name'): p for p in root.find('patternList')}
    strokes, bars, now = [], [], 0
    for column in root.find('patternSequence'):
        played = [patterns[p.text] for p in column if p.text in patterns]
        for pattern in played:
            for note in pattern.find('noteList'):
                heard = note.findtext('instrument') in audible and float(note.findtext('velocity')) > 0
                if heard and note.findtext('note_off') != 'true':
                    strokes.append((audible[note.findtext('instrument')], now + int(note.findtext('position'))))
        bars.append(now)
        now += max([int(p.findtext('size')) for p in played], default=TICKS_PER_BAR)
    return strokes, bars, now


def main(out):
    paths = sorted(glob.glob(SONGS))
    with tempfile.TemporaryDirectory() as folder, ThreadPoolExecutor(4) as pool:  # the export mostly waits
        audio = list(pool.map(lambda p: (lambda old: render(p, folder) if old is None else old)(sound.kept(out, song_id(p))), paths))
    for path, samples in zip(paths, audio):
        root = xml.parse(path).getroot()
        if samples is None or root.find('BPMTimeLine').findall('newBPM'):
            print('left out', song_id(path))
            continue
        strokes, bars, end = notes_of(root)
        assert all(b % TICKS_PER_BAR == 0 for b in bars), path
        bpm = float(root.findtext('bpm'))
        tick = 60 / bpm / TICKS_PER_BEAT
        score = structure.Score(np.array(bars) * tick, end * tick)
        for instrument, at in strokes:
            score.play(instrument, at // TICKS_PER_BAR)
        songs.save(out, {
            'id': song_id(path),
            'source_package': 'hydrogen-data',
            'source_file': path,
            'license': '%s / package: %s' % (root.findtext('license') or '', songs.licence('hydrogen-data')),
            'bpm': bpm,
            'meter': '4/4',
            'beats': np.arange(0, end, TICKS_PER_BEAT) * tick,
            'downbeats': np.array(bars) * tick,
            'group': 'other',
            'confidence': 'exact',
            **score.describe(),
            'notes': 'Drums only; strokes are humanised by %s and swung by %s around the exact grid.' % (
                root.findtext('humanize_time'), root.findtext('swing_factor')),
        }, samples, [at * tick for _, at in strokes])


main(sys.argv[1])
