"""From which track plays in which bar to entries, exits and sections; from notes to a key."""
import re
import numpy as np

HOLD_BARS = 4            # a track silent for at most so many bars is still playing
CHANGE_SHARE = 0.3       # of the playing tracks must change at the start of a section
SHORTEST_SECTION = 4     # bars
SAME_TRACKS = 0.8        # overlap at which two sections get one letter

# Krumhansl & Kessler 1982, probe-tone profiles
PROFILES = {
    'major': [6.35, 2.23, 3.48, 2.33, 4.38, 4.09, 2.52, 5.19, 2.39, 3.66, 2.29, 2.88],
    'minor': [6.33, 2.68, 3.52, 5.38, 2.60, 3.53, 2.54, 4.75, 3.98, 2.69, 3.34, 3.17],
}
PITCH_CLASSES = ['C', 'C#', 'D', 'D#', 'E', 'F', 'F#', 'G', 'G#', 'A', 'A#', 'B']

ROLES = (
    ('kick', 'kick|bassdrum|bass drum|\\bbd\\b|_bd'),
    ('snare', 'snare|clap|rim'),
    ('hats', 'hat|\\bhh\\b|ride|crash|cymb|shak'),
    ('drums', 'drum|perc|tom\\b|toms|break|loop|beat|conga|bongo|cowbell|tamb|tick|kit'),
    ('bass', 'bass|sub\\b|808|303'),
    ('vocals', 'voc|voice|choir'),
    ('lead', 'lead|melod|solo'),
    ('pad', 'pad|string|amb|atmos'),
    ('keys', 'piano|organ|keys|rhodes'),
    ('guitar', 'guit|gtr'),
    ('pluck', 'pluck|arp|bell'),
    ('fx', 'fx|sweep|rise|noise|impact|boom|explo'),
)


def role(track):
    """What a track is likely to be, read off its name."""
    for name, pattern in ROLES:
        if re.search(pattern, track, re.IGNORECASE):
            return name
    return 'other'


class Score:
    """Which track is struck or held in which bar."""

    def __init__(self, bar_starts, end):
        self.starts = list(map(float, bar_starts))
        self.end = float(end)
        self.rows = {}

    def play(self, track, first, last=None):
        """The track sounds from bar `first` to bar `last` (from 0, inclusive)."""
        row = self.rows.setdefault(track, np.zeros(len(self.starts), bool))
        row[first:(first if last is None else last) + 1] = True

    def time(self, bar):
        return round(self.starts[bar] if bar < len(self.starts) else self.end, 4)

    def stretches(self, track):
        """First and last bars of the stretches the track plays, short silences bridged."""
        bars = np.flatnonzero(self.rows[track])
        if len(bars) == 0:
            return []
        breaks = np.flatnonzero(np.diff(bars) > HOLD_BARS) + 1
        return [(int(part[0]), int(part[-1])) for part in np.split(bars, breaks)]

    def describe(self):
        """The fields of the truth that follow from it."""
        playing = [set() for _ in self.starts]
        entries = []
        for track in self.rows:
            for first, last in self.stretches(track):
                for kind, bar in (('enter', first), ('exit', last + 1)):
                    entries.append({'time': self.time(bar), 'bar': bar + 1, 'track': track, 'role': role(track), 'kind': kind})
                for bar in range(first, last + 1):
                    playing[bar].add(track)
        entries.sort(key=lambda e: (e['bar'], e['kind'], e['track']))
        return {
            'bars': len(self.starts),
            'entries': entries,
            'sections': self.sections(playing),
            'instrumentation': [
                {'track': t, 'role': role(t), 'bars': ''.join('1' if on else '.' for on in row)} for t, row in self.rows.items()
            ],
        }

    def sections(self, playing):
        count = len(playing)
        changes = []
        for bar in range(1, count):
            either = playing[bar] | playing[bar - 1]
            share = len(playing[bar] ^ playing[bar - 1]) / len(either) if either else 0.0
            if share >= CHANGE_SHARE:
                changes.append((-share, bar))
        starts = [0]
        for _, bar in sorted(changes):
            if count - bar >= 2 and min(abs(bar - s) for s in starts) >= SHORTEST_SECTION:
                starts.append(bar)
        starts.sort()
        known, result = [], []
        for first, after in zip(starts, starts[1:] + [count]):
            tracks = {t for t in self.rows if sum(t in p for p in playing[first:after]) >= 0.5 * (after - first)}
            letter = next((i for i, k in enumerate(known) if len(tracks & k) >= SAME_TRACKS * len(tracks | k)), len(known))
            if letter == len(known):
                known.append(tracks)
            result.append({
                'start': self.time(first), 'end': self.time(after), 'bar': first + 1, 'bars': after - first,
                'label': chr(ord('A') + letter) if letter < 26 else 'S%d' % (letter + 1), 'tracks': sorted(tracks),
            })
        return result


def key_of(durations):
    """The key whose profile correlates best with the time each pitch class sounds, or None without notes."""
    if np.sum(durations) <= 0 or np.ptp(durations) == 0:
        return None
    fits = sorted(
        ((float(np.corrcoef(np.roll(profile, tonic), durations)[0, 1]), PITCH_CLASSES[tonic], mode)
         for mode, profile in PROFILES.items() for tonic in range(12)), reverse=True)
    return {'tonic': fits[0][1], 'mode': fits[0][2], 'margin': round(fits[0][0] - fits[1][0], 3)}
