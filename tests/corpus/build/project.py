"""Notes of a workstation project (XML): which track plays what from when to when."""
import os
import re

BEATS_OF_STEPS = 16          # steps of a bar in the beat editor
SILENT_HERE = {'vestige', 'vsti', 'opl2?'}       # plugins that cannot be had
SOUND_FOLDERS = ('/', '/usr/share/lmms/samples', '/usr/share/sounds/sf2')
UNPITCHED = {'kicker', 'audiofileprocessor'}     # a key there is no pitch
UNPITCHED_NAMES = re.compile('drum|kick|snare|hat|clap|perc|crash|noise|tom', re.IGNORECASE)
DRUM_BANK = '128'
CONCERT_KEY = 57             # the key that sounds A4 when it is an instrument's base note
INSTRUMENT, BEAT, SAMPLE = '0', '1', '2'         # types of tracks


class Note:
    def __init__(self, track, start, end, pitch_class):
        self.track, self.start, self.end, self.pitch_class = track, start, end, pitch_class


class Project:
    """Reads a project; times are ticks, 48 to the quarter note."""

    def __init__(self, root, bar):
        self.bar = bar
        self.notes, self.silent, self.names = [], set(), {}
        self.transpose = int(float(root.find('head').get('masterpitch') or 0))
        song = root.find('song')
        self.main = next(c for c in song.findall('trackcontainer') if c.get('type') in ('song', None))
        self.beats = [t for t in self.main if t.tag == 'track' and t.get('type') == BEAT]
        for track in self.main:
            if track.tag == 'track' and track.get('muted') != '1':
                self.read(track)

    def read(self, track):
        if track.get('type') == INSTRUMENT:
            if self.sounds(track):
                for pattern in unmuted(track, 'pattern'):
                    start = int(pattern.get('pos', 0))
                    self.add(track, pattern, lambda at: [start + at])
        elif track.get('type') == SAMPLE and value(track.find('sampletrack'), 'vol', 100) > 0:
            for clip in unmuted(track, 'sampletco'):
                start = int(clip.get('pos'))
                self.notes.append(Note(self.name(track), start, start + int(clip.get('len')), None))
        elif track.get('type') == BEAT:
            self.read_beat(track)

    def read_beat(self, track):
        """A beat track repeats its patterns, all at the length of the longest, as long as each of its clips lasts."""
        index = self.beats.index(track)
        inner = [i for b in self.beats for c in b.iter('trackcontainer') for i in c if i.tag == 'track' and i.get('type') == INSTRUMENT]
        parts = [(i, i.findall('pattern')[index]) for i in inner if len(i.findall('pattern')) > index]
        length = max([self.whole_bars(self.length(p)) for _, p in parts], default=0)
        clips = sorted((int(c.get('pos')), int(c.get('len'))) for c in unmuted(track, 'bbtco'))
        for start, duration in clips:
            for instrument, pattern in parts:
                if pattern.get('muted') == '1' or instrument.get('muted') == '1' or not self.sounds(instrument):
                    continue
                self.add(instrument, pattern, lambda at: range(start + at, start + duration, length))

    def add(self, track, pattern, starts):
        for note in pattern.findall('note'):
            length = int(note.get('len'))
            if length == 0 or float(note.get('vol', 100)) <= 0:
                continue
            for start in starts(int(note.get('pos'))):
                # A negative length is a step: it is struck, not held.
                self.notes.append(Note(self.name(track), start, start + max(length, 1), self.pitch_class(track, note) if length > 0 else None))

    def pitch_class(self, track, note):
        voice = track.find('instrumenttrack')
        instrument = voice.find('instrument')
        font = instrument.find('sf2player')
        if instrument.get('name') in UNPITCHED or UNPITCHED_NAMES.search(track.get('name') or ''):
            return None
        if font is not None and font.get('bank') == DRUM_BANK:
            return None
        shift = CONCERT_KEY - int(value(voice, 'basenote', CONCERT_KEY)) + round(value(voice, 'pitch', 0) / 100)
        if voice.get('usemasterpitch', '1') != '0':
            shift += self.transpose
        return (int(note.get('key')) + shift) % 12

    def sounds(self, track):
        """Whether a track can be heard at all on this machine; it is noted when only the plugin or sound is missing."""
        voice = track.find('instrumenttrack')
        if voice is not None and track.get('muted') != '1' and value(voice, 'vol', 100) > 0:
            if playable(voice.find('instrument')):
                return True
        self.silent.add(self.name(track))
        return False

    def length(self, pattern):
        if pattern.get('type') == '0':
            return max(int(pattern.get('steps', BEATS_OF_STEPS)) * self.bar // BEATS_OF_STEPS, 1)
        ends = [int(n.get('pos')) + max(int(n.get('len')), 1) for n in pattern.findall('note')]
        return max(self.whole_bars(max(ends, default=0)), self.bar)

    def whole_bars(self, ticks):
        return -(-ticks // self.bar) * self.bar

    def name(self, track):
        """The track's name, numbered when another one has it too."""
        if track not in self.names:
            base = (track.get('name') or 'track').strip()
            taken, name, number = set(self.names.values()), base, 2
            while name in taken:
                name, number = '%s %d' % (base, number), number + 1
            self.names[track] = name
        return self.names[track]


def unmuted(track, tag):
    return [c for c in track.findall(tag) if c.get('muted') != '1']


def value(element, key, default):
    """A setting: an attribute, or an element of its own when it is automated."""
    if element.get(key) is not None:
        return float(element.get(key))
    child = element.find(key)
    return float(child.get('value', default)) if child is not None else float(default)


def playable(instrument):
    if instrument is None or instrument.get('name') in SILENT_HERE:
        return False
    if instrument.get('name') != 'sf2player':
        return True
    source = next((c.get('src') for c in instrument if c.get('src')), '')
    return any(os.path.exists(os.path.join(folder, source)) for folder in SOUND_FOLDERS)
