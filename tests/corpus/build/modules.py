"""Tracker modules of games. usage: modules.py FOLDER"""
import glob
import os
import subprocess
import sys
import tempfile
import numpy as np
import songs
import sound
import structure

# package: {file: (group, rows a beat, beats a bar, meter)}, read off where kick and snare fall in the rows
FOUR = lambda group, rows: (group, rows, 4, '4/4')
MODULES = {
    'heroes-sound-tracks': {**{'heroes%02d.xm' % i: FOUR('dance', 8) for i in range(1, 11)}, 'menu.xm': FOUR('dance', 8)},
    'tomatoes-data': {'IHaveNoTomatoes.it': FOUR('dance', 4)},
    'fb-music-high': {'frozen-mainzik-2p.xm': FOUR('other', 16)},
    'tecnoballz-data': {
        **{name: FOUR('other', 4) for name in ('area1-game.mod', 'area2-game.mod', 'area3-game.mod', 'gardien-go.mod', 'over-theme.mod')},
        'in-game-music-1_reg.mod': FOUR('odd', 4),
    },
    'pekka-kana-2-data': {
        **{name: FOUR('other', 4) for name in ('bigboss.xm', 'song12.xm', 'song10.xm', 'song02.xm')},
        'song03.xm': ('odd', 3, 4, '12/8'),
        'song07.xm': ('odd', 4, 3, '3/4'),
    },
}
STEADY = 0.01            # scatter of the beats, as a share of them, up to which one tempo is meant
FIRST_NOTE, LAST_NOTE = 1, 120


class Played:
    """A module as it was played: rows (seconds, order), strokes (row, instrument), names, end and samples."""

    def __init__(self, player, path):
        with tempfile.TemporaryDirectory() as folder:
            pcm, log = os.path.join(folder, 'pcm'), os.path.join(folder, 'log')
            subprocess.run(['nice', player, path, pcm, log], check=True)
            self.samples = np.fromfile(pcm, '<i2').reshape(-1, 2) / 32768
            with open(log, encoding='utf-8', errors='replace') as file:
                self.read(file.read().splitlines())

    def read(self, lines):
        self.title, self.rows, self.names, strokes, recent = '', [], {}, [], {}
        for line in lines:
            word, _, rest = line.partition(' ')
            if word == 'title':
                self.title = rest
            elif word == 'instrument':
                number, _, name = rest.partition(' ')
                self.names[int(number)] = ' '.join(name.split())
            elif word == 'row':
                seconds, order = rest.split()
                self.rows.append((float(seconds), int(order)))
            elif word == 'note':
                channel, note, instrument = map(int, rest.split())
                recent[channel] = instrument or recent.get(channel, 0)   # none given: the channel's last one again
                if FIRST_NOTE <= note <= LAST_NOTE and recent[channel]:
                    strokes.append((len(self.rows) - 1, recent[channel]))
            elif word == 'end':
                self.end = float(rest)
        if len(self.rows) > 1 and self.rows[-1][1] != self.rows[-2][1]:
            self.end = self.rows.pop()[0]                                # the row at which the song starts again
        self.strokes = [s for s in strokes if s[0] < len(self.rows)]
        self.samples = self.samples[:int(self.end * sound.RATE)]

    def grid(self, rows_per_beat, rows_per_bar):
        """Beats, bars and the bar of each row; every entry of the order list starts a bar."""
        beats, bars, bar_of_row, since, order = [], [], [], 0, None
        for seconds, here in self.rows:
            since = since + 1 if here == order else 0
            order = here
            if since % rows_per_beat == 0:
                beats.append(seconds)
            if since % rows_per_bar == 0:
                bars.append(seconds)
            bar_of_row.append(len(bars) - 1)
        return beats, bars, bar_of_row


def truth_of(identity, played, package, path, unpacked, judged):
    group, per_beat, beats_per_bar, meter = judged
    beats, bars, bar_of_row = played.grid(per_beat, per_beat * beats_per_bar)
    score = structure.Score(bars, played.end)
    for row, instrument in played.strokes:
        score.play(('%02d %s' % (instrument, played.names.get(instrument, ''))).strip(), bar_of_row[row])
    gaps = np.diff(beats)
    steady = bool(gaps.std() < STEADY * gaps.mean())
    truth = {
        'id': identity,
        'source_package': package,
        'source_file': path[len(os.path.join(unpacked, package)):],
        'title': played.title,
        'license': songs.licence(package, unpacked=unpacked),
        'bpm': round(60 / float(gaps.mean() if steady else np.median(gaps)), 3),
        'meter': meter,
        'beats': beats,
        'downbeats': bars,
        **score.describe(),
        'group': group,
        'confidence': 'exact' if steady and group == 'dance' else 'likely',
        'notes': 'Row times are exact, rows a beat and a bar a judgement. An instrument plays where it is struck, so a held note may outlast its exit.',
    }
    if not steady:
        truth['notes'] += ' Tempo or swing varies.'
        truth['tempo'] = [[round(t, 4), round(60 / g, 3)] for t, g in zip(beats, gaps)]
    return truth


def main(out):
    unpacked = os.path.join(out, 'unpacked')
    for package, files in MODULES.items():
        for name, judged in files.items():
            path = glob.glob(os.path.join(unpacked, package, '**', name), recursive=True)[0]
            identity = 'mod-%s-%s' % (package.split('-')[0], songs.slug(name.rsplit('.', 1)[0]))
            keep(out, identity, path, package, unpacked, judged)


def keep(out, identity, path, package, unpacked, judged):
    """Plays a module and writes its sound and its truth."""
    played = Played(os.path.join(unpacked, 'rows'), path)
    truth = truth_of(identity, played, package, path, unpacked, judged)
    songs.save(out, truth, played.samples, [played.rows[r][0] for r, _ in played.strokes])


if __name__ == '__main__':
    main(sys.argv[1])
