"""Pieces like those of styled.py in other dress, with pick-ups, held chords and half-time planted. usage: varied.py FOLDER [TAKES]

The notes are those of accompaniments.py's styles, other draws of them. Instruments, kits and levels are drawn apart from
the style, and so are tone, width and compression of the mix, so that what is learned is not one player's dress. Some parts
come in a few beats early; some sections hold chords without drums and bass; in some the drums play half as fast.
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
from styled import DRUMS, folders, habit, part_of, plan, save, score, style_files

PLAIN_DRESS = 0.3        # how often a part keeps the instrument of its style
INSTRUMENTS = {          # General MIDI programs, from 0
    'bass': list(range(32, 40)) + [43, 58, 87],
    'other': list(range(0, 8)) + list(range(11, 14)) + list(range(16, 32)) + list(range(44, 55)) + list(range(61, 64)) + list(range(80, 96)),
}
HELD = list(range(16, 21)) + [44, 48, 49, 50, 51, 52, 53, 54] + list(range(88, 96))
KITS = (0, 0, 8, 16, 24, 25, 32, 40)
SOFTEST_DB, LOUDEST_DB = -14, 3
PICK_UP, HOLDS, HALF_TIME = 0.6, 0.25, 0.4
# The second piece of a style holds fewer chords and strikes more of them alone, half of the time with an echo.
HOLDS_AGAIN, BARE_AGAIN, ECHO_AGAIN = 0.1, 0.3, 0.5


def notes_of(file):
    """Every note as [track, part, first tick, last tick, its two messages], and everything else with its tick."""
    notes, rest = [], []
    for index, track in enumerate(file.tracks):
        now, sounding = 0, {}
        for message in track:
            now += message.time
            if message.type == 'note_on' and message.velocity > 0:
                sounding[message.channel, message.note] = [index, part_of(message, track), now, now, message, None]
                notes.append(sounding[message.channel, message.note])
            elif message.type in ('note_on', 'note_off'):
                note = sounding.pop((message.channel, message.note), None)
                if note:
                    note[3], note[5] = now, message
            else:
                rest.append((index, now, message))
    return [n for n in notes if n[5] is not None], rest


def held_chords(notes, bar_of, start, end, bar_ticks, draw):
    """The chords of the bars from `start` to `end` as whole notes, one or two bars long."""
    long = draw.choice((1, 1, 2))
    out = []
    for bar in range(start, end, long):
        struck = [n for n in notes if habit(n[1]) == 'other' and bar_of(n[2]) == bar]
        pitches = sorted({n[4].note for n in struck})[:5]
        until = min(bar + long, end) * bar_ticks - bar_ticks // 64
        for pitch in pitches:
            on = mido.Message('note_on', channel=15, note=pitch, velocity=80)
            off = mido.Message('note_off', channel=15, note=pitch)
            out.append([0, 'pad Held', bar * bar_ticks, until, on, off])
    return out


class Planting:
    """What a piece does off its plan, drawn for its sections."""

    def __init__(self, notes, starts, beats, ticks, draw, again):
        self.notes, self.starts, self.beats, self.ticks, self.draw = notes, starts, beats, ticks, draw
        self.parts = sorted({n[1] for n in notes})
        self.sections = plan(self.parts, starts, draw)
        inner = range(1, len(self.sections))
        chords = [p for p in self.parts if habit(p) == 'other']
        self.held = {i for i in inner if chords and draw.random() < (HOLDS_AGAIN if again else HOLDS)}
        for i in self.held:
            self.sections[i] = {'pad Held'}
        if again and chords:
            for i in inner:
                if i not in self.held and draw.random() < BARE_AGAIN:
                    self.sections[i] = set(draw.sample(chords, min(len(chords), draw.choice((1, 1, 2)))))
        drummed = [i for i in inner if {'kick', 'snare'} <= self.sections[i] and starts[i + 1] - starts[i] >= 8]
        whole = sum(starts[i + 1] - starts[i] for i in range(len(self.sections)) if {'kick', 'snare'} <= self.sections[i])
        self.half = set()
        if beats == 4 and drummed and draw.random() < HALF_TIME:
            slow = draw.choice(drummed)
            if whole >= 2 * (starts[slow + 1] - starts[slow]):
                self.half = {slow}
        self.pick_ups = []

    def bar_of(self, tick):
        # Strokes are humanised: one just before the bar line belongs to the bar after it.
        return min(self.starts[-1] - 1, int((tick + self.ticks // 8) // (self.ticks * self.beats)))

    def section_of(self, bar):
        return max(i for i, s in enumerate(self.starts[:-1]) if s <= bar)

    def kept(self):
        """The notes that play, changed where something is planted."""
        out, bar_ticks = [], self.ticks * self.beats
        for note in self.notes:
            bar = self.bar_of(note[2])
            at = self.section_of(bar)
            if note[1] not in self.sections[at]:
                continue
            if at in self.half and habit(note[1]) in ('kick', 'snare', 'hats') and not (habit(note[1]) == 'hats' and self.draw.random() < 0.5):
                # Two bars play what the first of them plays, at half the speed.
                if (bar - self.starts[at]) % 2:
                    continue
                moved = bar * bar_ticks + 2 * (note[2] - bar * bar_ticks)
                if self.bar_of(moved) >= self.starts[at + 1]:
                    continue
                note = [*note[:2], moved, moved + note[3] - note[2], *note[4:]]
            out.append(note)
        for at in sorted(self.held):
            out.extend(held_chords(self.notes, self.bar_of, self.starts[at], self.starts[at + 1], self.ticks * self.beats, self.draw))
        for at in range(1, len(self.sections)):
            out.extend(self.early(at, out))
        return out

    def early(self, at, playing):
        """Lets one part that enters with a section begin a few beats before it."""
        start = self.starts[at] * self.ticks * self.beats
        layer = lambda p: p if p == 'kick' else habit(p)
        before = {layer(p) for p in self.sections[at - 1]}
        enters = [p for p in sorted(self.sections[at]) if layer(p) in ('kick', 'bass', 'other') and layer(p) not in before]
        if not enters or self.draw.random() >= PICK_UP:
            return []
        part, beats = self.draw.choice(enters), self.draw.randint(1, self.beats - 1)
        slack = self.ticks // 8
        from_, to = start - beats * self.ticks - slack, start - slack
        # What it would have played in the bar before; a part that holds its first notes longer begins with them.
        found = [n for n in self.notes if n[1] == part and from_ <= n[2] < to and self.draw.random() < 0.9] if self.draw.random() < 0.6 else []
        if not any(n[2] < from_ + self.ticks for n in found):
            first = [n for n in playing if n[1] == part and start - slack <= n[2] < start + self.ticks // 2]
            found = [[*n[:2], n[2] - beats * self.ticks, n[2] - self.ticks // 16, *n[4:]] for n in first]
        if not found:
            return []
        self.pick_ups.append({'bar': self.starts[at] + 1, 'beats': beats, 'layer': layer(part)})
        return found


def dress(file, notes, rest, draw):
    """Writes the notes back with other instruments, kits and levels."""
    gains = {part: 10 ** (draw.uniform(SOFTEST_DB, LOUDEST_DB) / 40) for part in sorted({n[1] for n in notes})}
    channels = {n[4].channel: n[1] for n in notes if n[4].channel != DRUMS}
    programs = {c: draw.choice(INSTRUMENTS[habit(p)]) for c, p in sorted(channels.items()) if draw.random() > PLAIN_DRESS}
    programs[15] = draw.choice(HELD)
    programs[DRUMS] = draw.choice(KITS)
    events = [[] for _ in file.tracks]
    for index, tick, message in rest:
        if message.type != 'end_of_track' and not (message.type == 'program_change' and message.channel in programs):
            events[index].append((tick, 1, message))
    for channel, program in programs.items():
        events[0].append((0, 0, mido.Message('program_change', channel=channel, program=program)))
    for index, part, first, last, on, off in notes:
        velocity = max(1, min(127, round(on.velocity * gains[part])))
        events[index].append((first, 3, on.copy(velocity=velocity)))
        events[index].append((max(last, first + 1), 2, off))
    for track, some in zip(file.tracks, events):
        name, now = track.name, 0
        track.clear()
        for tick, _, message in sorted(some, key=lambda e: (e[0], e[1])):
            track.append(message.copy(time=max(0, tick - now)))
            now = max(now, tick)
        if name:
            track.name = name


def mixed(wav, draw, echo):
    """Gives a file another tone, width and loudness, and an echo of so many seconds, if any."""
    rate, samples = wavfile.read(wav)
    sound_ = samples.astype(float) / 32768
    tilt, width, drive = draw.uniform(-0.5, 0.5), draw.uniform(0.2, 1.4), draw.choice((0.5, 1, 2, 4))
    sound_ = lfilter([1 + max(tilt, 0), -abs(tilt) * 0.7 if tilt > 0 else 0], [1, -0.9 * abs(tilt) if tilt < 0 else 0], sound_, axis=0)
    if echo:
        behind = int(echo * rate)
        for share in (0.5, 0.25, 0.12):
            delayed = np.zeros_like(sound_)
            delayed[behind:] = sound_[:-behind, ::-1]
            sound_, behind = sound_ + share * delayed, 2 * behind
    middle, side = sound_.mean(axis=1), (sound_[:, 0] - sound_[:, 1]) / 2 * width
    sound_ = np.stack((middle + side, middle - side), axis=1)
    sound_ = np.tanh(sound_ / np.abs(sound_).max() * drive)
    wavfile.write(wav, rate, np.round(sound_ / np.abs(sound_).max() * 0.9 * 32767).astype('<i2'))


def piece(folder, path, letter, take, low, high):
    library, name = path.split('/')[-2], os.path.basename(path)[:-4]
    identity = f'varied-{letter}{re.sub("[^a-z0-9]", "", name.lower())}-{take}'
    if os.path.exists(f'{folder}/truth/{identity}.json'):
        return True
    style = Style(path)
    if not style.mains or style.compound:
        return False
    draw = random.Random(identity)
    text, starts = score(style, library, name, draw, low, high)
    base, wav = f'{folder}/scores/{identity}', f'{folder}/audio/{identity}.wav'
    bpm = written(text, base)
    if bpm is None:
        return False
    file = mido.MidiFile(f'{base}.mid')
    notes, rest = notes_of(file)
    planting = Planting(notes, starts, style.beats, file.ticks_per_beat, draw, take > 0)
    played = planting.kept()
    dress(file, played, rest, draw)
    file.save(f'{base}.mid')
    truth_score = Score([bar * style.beats * 60 / bpm for bar in range(starts[-1])], starts[-1] * style.beats * 60 / bpm)
    firsts = {(p['bar'] - 1) for p in planting.pick_ups}
    for _, part, first, last, on, _ in played:
        bar = planting.bar_of(first)
        end = bar if on.channel == DRUMS else min(starts[-1] - 1, (last - file.ticks_per_beat // 2) // (file.ticks_per_beat * style.beats))
        early = bar + 1 in firsts and part not in planting.sections[planting.section_of(bar)]
        truth_score.play(part, bar + early, max(bar + early, end))
    sound(base, wav, draw)
    echo = 60 / bpm * draw.choice((0.5, 0.75, 1)) if take > 0 and draw.random() < ECHO_AGAIN else None
    mixed(wav, draw, echo)
    save(
        folder, identity, name, style, bpm, truth_score,
        drawn=[s + 1 for s in starts[:-1]], pick_ups=planting.pick_ups,
        half_time=[[starts[i] + 1, starts[i + 1] - starts[i]] for i in sorted(planting.half)],
        held=[[starts[i] + 1, starts[i + 1] - starts[i]] for i in sorted(planting.held)],
    )
    return True


def main(folder, takes):
    folders(folder)
    made = 0
    for take in range(takes):
        for path, letter, low, high in style_files('varied'):
            made += piece(folder, path, letter, take, low, high)
    print(f'{made} pieces')


if __name__ == '__main__':
    main(os.path.abspath(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 1)
