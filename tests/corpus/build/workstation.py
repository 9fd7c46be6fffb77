"""Demo projects of an audio workstation, rendered without a screen. usage: workstation.py FOLDER [ID-PART]"""
import glob
import os
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as xml
import numpy as np
import songs
import sound
import structure
from project import Project

PROJECTS = ('/usr/share/lmms/projects/demos/**/*.mmp*', '/usr/share/lmms/projects/shorties/*.mmp*')
TICKS_PER_QUARTER = 48
TAIL = 12                # ticks: less than a sixteenth held over does not fill a bar
QUIET = 0.003            # of the loudest sample: a bar below that is silent
LONGEST_NOTE = 192       # ticks that one note may count for in the key

# Not dance music, or too short to have a structure (by file id)
OTHER = {
    'capdan-reggaetry', 'capdan-reggaetontry', 'strictproduction-dearjondoe', 'crunk-demo', 'greshz-coolsnip', 'skiessi-222',
    'skiessi-c64', 'surrender-main',
}


def workstation(*arguments):
    command = ['nice', 'lmms', '--allowroot', *arguments]
    environment = dict(os.environ, QT_QPA_PLATFORM='offscreen')
    return subprocess.run(command, env=environment, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, timeout=900).stdout


def load(path):
    """Projects are XML, as it is or packed."""
    if path.endswith('.mmp'):
        with open(path, 'rb') as file:
            text = file.read()
    else:
        text = workstation('dump', path)
    return xml.fromstring(re.sub(rb'[\x00-\x08\x0b\x0c\x0e-\x1f]', b'', text))


def render(path):
    with tempfile.TemporaryDirectory() as folder:
        target = os.path.join(folder, 'song.wav')
        workstation('render', path, '-o', target, '-f', 'wav', '-a', '-x', '1')
        return sound.decode(target)


def score_of(notes, bar, bars, tick):
    score = structure.Score(np.arange(bars) * bar * tick, bars * bar * tick)
    for note in notes:
        first = note.start // bar
        score.play(note.track, first, max(first, -(-(note.end - TAIL) // bar) - 1))
    return score


def mostly_silent(samples, score):
    """A plugin that is missing can leave a burst and then nothing."""
    floor = QUIET * np.abs(samples).max()
    starts = [int(t * sound.RATE) for t in score.starts] + [int(score.end * sound.RATE)]
    bars = [samples[a:b] for a, b in zip(starts, starts[1:]) if b < len(samples)]
    return np.mean([np.sqrt((b ** 2).mean()) < floor for b in bars]) > 0.5


def key_of(notes):
    durations = np.zeros(12)
    for note in notes:
        if note.pitch_class is not None:
            durations[note.pitch_class] += min(note.end - note.start, LONGEST_NOTE)
    return structure.key_of(durations)


def remarks(project, root):
    if project.silent:
        yield 'Silent here (plugin or sound missing): %s.' % ', '.join(sorted(project.silent))
    if root.find('song').findall('.//automationpattern/object'):
        yield 'Some settings are automated: a track may fade while its notes go on.'


def make(out, path):
    name = songs.slug(os.path.basename(path).rsplit('.', 1)[0])
    root = load(path)
    head = root.find('head')
    if head.find('bpm') is not None:
        return print('left out', name, ': the tempo is automated')
    top, bottom = int(head.get('timesig_numerator', 4)), int(head.get('timesig_denominator', 4))
    bar = 4 * TICKS_PER_QUARTER * top // bottom
    project = Project(root, bar)
    if not project.notes:
        return print('left out', name, ': no notes')
    bpm = float(head.get('bpm', 140))
    tick = 60 / bpm / TICKS_PER_QUARTER
    bars = -(-max(n.end for n in project.notes) // bar)
    score = score_of(project.notes, bar, bars, tick)
    samples = sound.kept(out, 'lmms-' + name)
    if samples is None:
        samples = render(path)
    if mostly_silent(samples, score):
        return print('left out', name, ': does not sound right here')
    songs.save(out, {
        'id': 'lmms-' + name,
        'source_package': 'lmms-common',
        'source_file': path,
        'license': songs.licence('lmms-common', path),
        'bpm': bpm,
        'meter': '%d/%d' % (top, bottom),
        'beats': np.arange(0, bars * bar, TICKS_PER_QUARTER) * tick,
        'downbeats': np.arange(bars) * bar * tick,
        **score.describe(),
        'key_of_notes': key_of(project.notes),
        'group': 'odd' if (top, bottom) != (4, 4) else 'other' if name in OTHER else 'dance',
        'confidence': 'exact',
        'notes': ' '.join(remarks(project, root)),
    }, samples, [n.start * tick for n in project.notes])


def main(out, part=''):
    for path in sorted(p for pattern in PROJECTS for p in glob.glob(pattern, recursive=True)):
        if part in songs.slug(os.path.basename(path)):
            make(out, path)


main(*sys.argv[1:3])
