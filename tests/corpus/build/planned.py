"""Pieces that do what records for mixing do, in the styles of an accompaniment generator. usage: planned.py FOLDER [PIECES]

The notes are those of accompaniments.py's styles, in the dress of varied.py; what the sections do (intro, build-up, drop,
main, breakdown, outro) is drawn, and which instruments play in each of their phrases follows from it, with habits that
differ from piece to piece (common practice, no source). The truth is the plan itself.
"""
import os
import random
import re
import sys

import mido
import numpy as np
from scipy.io import wavfile
from scipy.signal import lfilter

from accompaniments import Style, sound, written
from structure import Score
from styled import DRUMS, folders, habit, save, score, style_files
from varied import dress, held_chords, mixed, notes_of

SECONDS = (110, 230)
DRUM_PARTS = ('kick', 'snare', 'hats')
SNARES, CRASH = (38, 40), 49
# How likely each instrument plays in a section, before the habits of a piece have their say.
PLAYS = {
    'main': {'kick': 1, 'snare': .92, 'hats': .95, 'bass': .97, 'other': .75},
    'drop': {'kick': 1, 'snare': .95, 'hats': .97, 'bass': 1, 'other': .9},
    'breakdown': {'kick': .05, 'snare': .1, 'hats': .3, 'bass': .3, 'other': .8},
    'build-up': {'kick': .4, 'snare': .45, 'hats': .6, 'bass': .3, 'other': .7},
}
LOUDNESS = {'intro': (.8, 1), 'main': (.85, 1), 'drop': (.95, 1.1), 'breakdown': (.65, .95), 'build-up': (.7, 1), 'outro': (.75, 1)}


class Habits:
    """What a maker does again and again within one piece."""

    def __init__(self, draw):
        self.usual = draw.choice((8, 8, 8, 16, 16, 4))
        self.first = draw.choice(('kick', 'hats', 'drums', 'bass', 'other', 'other', 'beat'))
        self.kick_builds = draw.random() < .45
        self.bass_in_breaks = draw.random() < .4
        self.rolls, self.noise = draw.random() < .6, draw.random() < .45
        self.swells, self.gaps, self.crashes = draw.random() < .6, draw.random() < .35, draw.random() < .6
        self.holds = draw.random() < .3
        self.moves = draw.choice((.2, .5, .8))


def order(draw, rounds):
    """What the sections do, one after the other."""
    out = ['intro'] if draw.random() < .92 else []
    for i in range(rounds):
        if i == 0 and draw.random() < .7 or not out:
            out.append('main')
        broken = draw.random() < .85
        if broken:
            out.append('breakdown')
        rising = draw.random() < (.75 if broken else .9)
        if rising:
            out.append('build-up')
        out.append('drop' if rising or (broken and draw.random() < .6) else 'main')
        if out[-2:] == ['main', 'main']:
            out.pop()
        if out[-1] == 'drop' and draw.random() < .35:
            out.append('main')
    return out + (['outro'] if draw.random() < .9 else [])


def lengths_of(functions, habits, draw):
    """Bars of the phrases of each section."""
    out = []
    for name in functions:
        if name == 'build-up':
            long = draw.choice((habits.usual, habits.usual, 8, 4))
            out.append([long])
        else:
            most = {4: 6, 8: 4, 16: 2}[habits.usual]
            out.append([habits.usual] * draw.randint(2 if habits.usual == 4 else 1, most if name in ('main', 'drop') else max(1, most - 1)))
    return out


def drawn(parts, likely, draw):
    plays = {p for p in parts if draw.random() < likely[habit(p)]}
    pitched = [p for p in parts if habit(p) not in DRUM_PARTS]
    return plays or ({draw.choice(pitched)} if pitched else {draw.choice(sorted(parts))})


def opening(parts, habits):
    wanted = {'drums': DRUM_PARTS, 'beat': ('kick', 'hats'), 'other': ('other',), 'bass': ('bass', 'hats')}.get(habits.first, (habits.first,))
    return {p for p in parts if habit(p) in wanted}


def growing(parts, habits, full, count, draw):
    """Sets of parts for an intro: each phrase adds to the one before, and something is left for what follows."""
    plays = opening(parts, habits) or {draw.choice(sorted(parts))}
    out = []
    for _ in range(count):
        out.append(set(plays))
        left = sorted(full - plays, key=lambda p: (habit(p) == 'bass', draw.random()))
        plays = plays | set(left[:draw.randint(0 if len(out) > 1 else 1, 2)] if len(left) > 1 else [])
    return out


def phrases_of(functions, lengths, parts, habits, draw):
    """For each section the sets of parts of its phrases."""
    full = drawn(parts, PLAYS['main'], draw) | {p for p in parts if habit(p) in ('kick', 'bass')}
    likely = {name: dict(shares) for name, shares in PLAYS.items()}
    likely['build-up']['kick'] = .85 if habits.kick_builds else .05
    likely['breakdown']['bass'] = .7 if habits.bass_in_breaks else .08
    out = []
    for name, bars in zip(functions, lengths):
        if name == 'intro':
            out.append(growing(parts, habits, full, len(bars), draw))
            continue
        if name == 'outro':
            leaving = growing(parts, habits, full, len(bars), draw)[::-1]
            out.append([{p for p in s if habit(p) != 'other'} or s for s in leaving] if draw.random() < .6 else leaving)
            continue
        plays = set(full) if name == 'main' and draw.random() < .6 else drawn(parts, likely[name], draw)
        if name == 'drop':
            plays = plays | full
        sets = [set(plays)]
        for _ in bars[1:]:
            if draw.random() < habits.moves:
                movable = sorted(p for p in parts if habit(p) in ('other', 'snare', 'hats') or name not in ('main', 'drop') and habit(p) == 'bass')
                if movable:
                    moved = plays ^ {draw.choice(movable)}
                    plays = moved or plays
            sets.append(set(plays))
        out.append(sets)
    return out


class Plan:
    """A piece bar by bar: which parts play, how loud, and what is put on top."""

    def __init__(self, notes, functions, lengths, beats, ticks, habits, draw):
        self.notes, self.functions, self.lengths, self.beats, self.ticks, self.habits, self.draw = notes, functions, lengths, beats, ticks, habits, draw
        self.bar_ticks = beats * ticks
        parts = sorted({n[1] for n in notes})
        self.sets = phrases_of(functions, lengths, parts, habits, draw)
        self.phrases, self.starts, self.rolled = [], [], []
        bar = 0
        for name, bars, sets in zip(functions, lengths, self.sets):
            self.starts.append(bar)
            for count, plays in zip(bars, sets):
                self.phrases.append((bar, count, plays, name))
                bar += count
        self.bars = bar
        self.loud = [draw.uniform(*LOUDNESS[name]) for name in functions]
        self.held = [name == 'breakdown' and habits.holds and draw.random() < .6 for name in functions]

    def bar_of(self, tick):
        # Strokes are humanised: one just before the bar line belongs to the bar after it.
        return min(self.bars - 1, int((tick + self.ticks // 8) // self.bar_ticks))

    def kept(self):
        plays = [p for start, count, p, _ in self.phrases for _ in range(count)]
        section = [i for i, bars in enumerate(self.lengths) for _ in range(sum(bars))]
        out = []
        for note in self.notes:
            bar = self.bar_of(note[2])
            at = section[bar]
            if note[1] not in plays[bar] or self.held[at] and habit(note[1]) == 'other':
                continue
            loud = self.loud[at]
            if self.functions[at] == 'build-up' and self.habits.swells:
                done = (bar - self.starts[at]) / sum(self.lengths[at])
                loud *= .6 + .5 * done
            velocity = max(1, min(127, round(note[4].velocity * loud)))
            out.append([*note[:4], note[4].copy(velocity=velocity), note[5]])
        for at, held in enumerate(self.held):
            if held:
                out.extend(held_chords(self.notes, self.bar_of, self.starts[at], self.starts[at] + sum(self.lengths[at]), self.bar_ticks, self.draw))
        for at, name in enumerate(self.functions):
            if name == 'build-up' and self.habits.rolls and self.draw.random() < .85:
                out.extend(self.roll(at))
        if self.habits.gaps:
            out = self.with_gaps(out)
        return out

    def roll(self, at):
        """A snare that grows and gets denser until the section ends."""
        end = self.starts[at] + sum(self.lengths[at])
        count = min(sum(self.lengths[at]), self.draw.choice((1, 2, 4, 8)))
        first, last = (end - count) * self.bar_ticks, end * self.bar_ticks
        key, out, tick = self.draw.choice(SNARES), [], (end - count) * self.bar_ticks
        self.rolled.append((end - count, end))
        while tick < last:
            done = (tick - first) / (last - first)
            step = self.ticks // (4 if done > .5 or count <= 2 else 2)
            on = mido.Message('note_on', channel=DRUMS, note=key, velocity=int(35 + 80 * done))
            out.append([0, 'snare', tick, tick + step // 2, on, mido.Message('note_off', channel=DRUMS, note=key)])
            tick += step
        return out

    def with_gaps(self, notes):
        """The last beats before a drop are silent."""
        beats = self.draw.choice((1, 1, 2, self.beats))
        for at, name in enumerate(self.functions):
            if name == 'drop' and at > 0:
                end = self.starts[at] * self.bar_ticks - self.ticks // 8
                start = end - beats * self.ticks
                notes = [[*n[:3], min(n[3], start), *n[4:]] if n[2] < start < n[3] <= end + self.ticks else n for n in notes if not start <= n[2] < end]
        return notes

    def crashes(self):
        out = []
        for at, name in enumerate(self.functions):
            if at > 0 and self.habits.crashes and self.draw.random() < (.8 if name in ('drop', 'main') else .3):
                tick = self.starts[at] * self.bar_ticks
                on = mido.Message('note_on', channel=DRUMS, note=CRASH, velocity=self.draw.randint(80, 120))
                out.append([0, 'hats', tick, tick + 2 * self.ticks, on, mido.Message('note_off', channel=DRUMS, note=CRASH)])
        return out


def risers(wav, spans, draw):
    """Noise that grows and brightens over each span (first and last second)."""
    rate, samples = wavfile.read(wav)
    sound_ = samples.astype(float) / 32768
    for first, last in spans:
        a, z = int(first * rate), min(int(last * rate), len(sound_))
        if z <= a:
            continue
        grown = np.linspace(0, 1, z - a) ** 2
        noise = np.random.default_rng(draw.randrange(1 << 30)).standard_normal((z - a, 2))
        bright = lfilter([1, -1], [1], noise, axis=0) * .5
        sound_[a:z] += draw.uniform(.03, .12) * grown[:, None] * (noise * (1 - grown[:, None]) + bright * grown[:, None])
    sound_ /= max(1, np.abs(sound_).max())
    wavfile.write(wav, rate, np.round(sound_ * 32767).astype('<i2'))


def piece(folder, path, letter, low, high):
    library, name = path.split('/')[-2], os.path.basename(path)[:-4]
    identity = f'planned-{letter}{re.sub("[^a-z0-9]", "", name.lower())}'
    if os.path.exists(f'{folder}/truth/{identity}.json'):
        return True
    style = Style(path)
    if not style.mains or style.compound:
        return False
    draw = random.Random(identity)
    habits, chosen = Habits(draw), []

    def lengths_at(bpm):
        """Draws until the piece is neither too short nor too long."""
        for attempt in range(60):
            functions = order(draw, draw.randint(1, 3))
            lengths = lengths_of(functions, habits, draw)
            seconds = sum(map(sum, lengths)) * style.beats * 60 / bpm
            if SECONDS[0] <= seconds <= SECONDS[1] or attempt == 59:
                break
        chosen.extend((functions, lengths))
        return [sum(bars) for bars in lengths]

    text, _ = score(style, library, name, draw, low, high, lengths_at)
    functions, lengths = chosen
    base, wav = f'{folder}/scores/{identity}', f'{folder}/audio/{identity}.wav'
    bpm = written(text, base)
    if bpm is None:
        return False
    file = mido.MidiFile(f'{base}.mid')
    notes, rest = notes_of(file)
    plan = Plan(notes, functions, lengths, style.beats, file.ticks_per_beat, habits, draw)
    played = plan.kept()
    dress(file, played + plan.crashes(), rest, draw)
    file.save(f'{base}.mid')
    bar_seconds = style.beats * 60 / bpm
    told = Score([bar * bar_seconds for bar in range(plan.bars)], plan.bars * bar_seconds)
    for _, part, first, last, on, _ in played:
        bar = plan.bar_of(first)
        told.play(part, bar, bar if on.channel == DRUMS else max(bar, min(plan.bars - 1, (last - plan.ticks // 2) // plan.bar_ticks)))
    sound(base, wav, draw)
    mixed(wav, draw, None)
    if habits.noise:
        spans = [(plan.starts[i] * bar_seconds, (plan.starts[i] + sum(lengths[i])) * bar_seconds) for i, f in enumerate(functions) if f == 'build-up']
        risers(wav, spans, draw)
    save(
        folder, identity, name, style, bpm, told,
        sections=[{'bar': s + 1, 'bars': sum(bars), 'function': f} for s, bars, f in zip(plan.starts, lengths, functions)],
        phrases=[start + 1 for start, _, _, _ in plan.phrases],
    )
    return True


def main(folder, pieces):
    folders(folder)
    made = 0
    for file in style_files('planned'):
        if made < pieces:
            made += piece(folder, *file)
    print(f'{made} pieces')


if __name__ == '__main__':
    main(os.path.abspath(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 1000)
