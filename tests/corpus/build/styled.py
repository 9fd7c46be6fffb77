"""Pieces in the styles of an accompaniment generator whose instruments come and go, with exact truth. usage: styled.py FOLDER

The notes are those of accompaniments.py's styles; which instruments play in which section is drawn, the same way every
time. The drums come and go in three parts. The truth is read off the notes that are left, by the rules of structure.py.
"""
import json
import os
import random
import re
import sys

import mido

from accompaniments import BASSES, CHORDS, CHORD_VOICES, RHYTHMS, Style, files_of, sound, styles, written
from structure import Score

SECONDS = (100, 150)
SECTION_BARS = (4, 8, 8, 8, 8, 16, 16)
DRUMS = 9
KICKS = {35, 36}
BACKBEATS = {37, 38, 39, 40}
# What a section is like: how likely each of its instruments plays.
KINDS = {
    'sparse': {'kick': .25, 'snare': .15, 'hats': .4, 'bass': .3, 'other': .5},
    'without drums': {'kick': 0, 'snare': 0, 'hats': .15, 'bass': .5, 'other': .8},
    'rhythm': {'kick': .9, 'snare': .7, 'hats': .85, 'bass': .6, 'other': .2},
    'growing': {'kick': .7, 'snare': .5, 'hats': .8, 'bass': .5, 'other': .6},
    'full': {'kick': 1, 'snare': .97, 'hats': .97, 'bass': 1, 'other': .9},
}
FIRST = ('sparse', 'rhythm', 'full', 'without drums')
AFTER = {
    'sparse': ('growing', 'full', 'full', 'rhythm'),
    'without drums': ('full', 'full', 'growing', 'rhythm'),
    'rhythm': ('growing', 'full', 'full', 'without drums'),
    'growing': ('full', 'full', 'full', 'without drums'),
    'full': ('full', 'full', 'without drums', 'sparse', 'rhythm', 'growing'),
}


def part_of(message, track):
    """Which instrument a note belongs to, by names that structure.role understands."""
    if message.channel == DRUMS:
        return 'kick' if message.note in KICKS else 'snare' if message.note in BACKBEATS else 'hats'
    kind = track.name.split('-')[0].lower()
    if kind in ('bass', 'walk'):
        return f'bass {track.name}'
    return f'{"arpeggio" if kind in ("arpeggio", "scale") else "pad"} {track.name}'


def habit(part):
    return part if part in ('kick', 'snare', 'hats') else 'bass' if part.startswith('bass') else 'other'


def score(style, library, name, draw, low, high, lengths_at=None):
    """Source text of a piece and the first bars of its sections, with the end; `lengths_at` a tempo may say how long they are."""
    bpm = draw.randint(int(low), int(high))
    lines = [f'Tempo {bpm}', f'Transpose {draw.randint(-5, 6)}']

    def use(groove):
        lines.append(f'Groove {library}/{name}.mma:{groove}')
        if style.drums_alone:
            lines.extend((f'Bass Sequence {bass}', 'Bass Voice FingeredBass', 'Bass Octave 3'))
            lines.extend((f'Chord Sequence {rhythm}', f'Chord Voice {voice}'))

    bass, rhythm = draw.choice(BASSES), draw.choice(RHYTHMS)
    voice = draw.choice(CHORD_VOICES)
    if style.beats != 4:
        bass, rhythm = '{1 4 1 90}', '{1 1 85}'
    grooves = [draw.choice(style.mains) for _ in range(2)]
    progressions = draw.sample(CHORDS, 2)
    starts, bars = [], 0
    lengths = lengths_at and iter(lengths_at(bpm))
    until = draw.uniform(*SECONDS) * bpm / 60 / style.beats
    while bars < until or lengths:
        count = next(lengths, None) if lengths else draw.choice(SECTION_BARS)
        if count is None:
            break
        chords = draw.choice(progressions)
        starts.append(bars)
        use(draw.choice(grooves))
        for bar in range(count):
            if bar == count - 1 and style.fills and draw.random() < 0.5:
                use(draw.choice(style.fills))
            lines.append(chords[bar % 4])
        bars += count
    return '\n'.join(lines) + '\n', starts + [bars]


def plan(parts, starts, draw):
    """For each section the parts that play; something always does, and next to nothing changes everything."""
    kind, plays, sections = draw.choice(FIRST), set(), []
    for _ in starts[:-1]:
        wanted = {p for p in parts if draw.random() < KINDS[kind][habit(p)]}
        kept = {p for p in parts if draw.random() < 0.15}
        plays = {p for p in parts if (p in (plays if sections and p in kept else wanted))} or {draw.choice(parts)}
        sections.append(plays)
        kind = draw.choice(AFTER[kind])
    return sections


def come_and_go(midi, starts, beats, draw):
    """Takes out of the file what does not play; returns which part is struck or held in which bar."""
    file = mido.MidiFile(midi)
    bar_ticks = file.ticks_per_beat * beats
    parts = sorted({part_of(m, t) for t in file.tracks for m in t if m.type == 'note_on' and m.velocity > 0})
    sections = plan(parts, starts, draw)
    section_at = lambda bar: max(i for i, s in enumerate(starts[:-1]) if s <= bar)
    score = Score([bar * 1.0 for bar in range(starts[-1])], starts[-1])
    for track in file.tracks:
        kept, now, before, sounding = mido.MidiTrack(), 0, 0, {}
        kept.name = track.name
        for message in track:
            now += message.time
            stays = True
            if message.type in ('note_on', 'note_off'):
                key, strikes = (message.channel, message.note), message.type == 'note_on' and message.velocity > 0
                # Strokes are humanised: one just before the bar line belongs to the bar after it.
                bar = min(starts[-1] - 1, int((now + file.ticks_per_beat // 8) // bar_ticks))
                if strikes:
                    stays = part_of(message, track) in sections[section_at(bar)]
                    sounding[key] = (bar, stays)
                else:
                    first, stays = sounding.pop(key, (bar, False))
                    held = bar if message.channel != DRUMS and now > bar * bar_ticks + file.ticks_per_beat // 2 else first
                    if stays:
                        score.play(part_of(message, track), first, max(first, held))
            if stays:
                kept.append(message.copy(time=now - before))
                before = now
        file.tracks[file.tracks.index(track)] = kept
    file.save(midi)
    return score


def piece(folder, path, letter, low, high):
    library, name = path.split('/')[-2], os.path.basename(path)[:-4]
    identity = f'styled-{letter}{re.sub("[^a-z0-9]", "", name.lower())}'
    wav = f'{folder}/audio/{identity}.wav'
    if os.path.exists(f'{folder}/truth/{identity}.json'):
        return True
    style = Style(path)
    if not style.mains or style.compound:
        return False
    draw = random.Random(identity)
    text, starts = score(style, library, name, draw, low, high)
    base = f'{folder}/scores/{identity}'
    bpm = written(text, base)
    if bpm is None:
        return False
    played = come_and_go(f'{base}.mid', starts, style.beats, draw)
    played.starts = [bar * style.beats * 60 / bpm for bar in range(starts[-1])]
    played.end = starts[-1] * style.beats * 60 / bpm
    sound(base, wav, draw)
    save(folder, identity, name, style, bpm, played)
    return True


def save(folder, identity, name, style, bpm, score, **more):
    """Writes the truth of a piece in one tempo: beats, what is read off its score, and what else is known of it."""
    beats = [round(i * 60 / bpm, 6) for i in range(len(score.starts) * style.beats)]
    truth = {
        'id': identity, 'group': 'styled', 'style': re.sub(r'\d+$', '', name.lower()), 'confidence': 'exact', 'bpm': bpm,
        'meter': f'{style.beats}/4', 'duration_s': round(score.end, 4), 'beats': beats, 'downbeats': beats[::style.beats], **{**score.describe(), **more},
    }
    with open(f'{folder}/truth/{identity}.json', 'w') as file:
        json.dump(truth, file)


def folders(folder):
    for part in ('audio', 'truth', 'scores'):
        os.makedirs(f'{folder}/{part}', exist_ok=True)


def style_files(seed):
    """Every style's files: path, letter, slowest and fastest tempo; in a drawn order, so that any first part is a fair sample."""
    table = styles()
    random.Random(seed).shuffle(table)
    for name, low, high, _ in table:
        for path, letter in files_of(name):
            yield path, letter, float(low), float(high)


def main(folder):
    folders(folder)
    print(f'{sum(piece(folder, *file) for file in style_files("styles"))} pieces')


if __name__ == '__main__':
    main(os.path.abspath(sys.argv[1]))
