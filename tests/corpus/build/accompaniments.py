"""Pieces in the styles of an accompaniment generator, with exact truth. usage: accompaniments.py FOLDER

Bars, fills, intros and chord rhythms are those of the libraries' authors; tempo, chords, order of the sections and, where a
library has drums alone, bass and chords are drawn, the same way every time.
"""
import glob
import json
import os
import random
import re
import subprocess
import sys

LIBRARIES = '/usr/share/mma/lib'
FONTS = ('/usr/share/sounds/sf2/FluidR3_GM.sf2', '/usr/share/sounds/sf2/TimGM6mb.sf2')
STYLES = os.path.join(os.path.dirname(os.path.abspath(__file__)), 'accompaniments.txt')
SECONDS = (50, 80)
SECTION_BARS = (8, 8, 16, 8, 4)
CHORDS = [bars.split() for bars in (
    'C Am F G', 'Am F C G', 'Dm G C C', 'C F C G', 'Am G F E7', 'Cm Ab Eb Bb', 'Em C G D', 'C C F F', 'Am Am Dm E7',
    'G D Em C', 'Fm Db Ab Eb', 'C7 F7 C7 G7', 'Dm Dm Am Am', 'E E A B7')]
BASSES = (
    '{1 4 1 90; 3 4 1 90}', '{1 8 1 95; 2.5 8 1 80; 3 8 1 90; 4 8 5 80}', '{1 2 1 90; 3 2 5 85}',
    '{1 16 1 95; 1.75 16 1 70; 2.5 16 1 85; 3 16 1 90; 4.5 16 5 75}', '{1 1 1 90}',
    '{1 8 1 90; 1.5 8 1 70; 2 8 1 80; 2.5 8 1 70; 3 8 1 85; 3.5 8 1 70; 4 8 1 80; 4.5 8 1 70}',
    '{1.5 8 1 90; 2.5 8 1 90; 3.5 8 1 90; 4.5 8 1 90}')
RHYTHMS = (
    '{1 1 90}', '{1 4 80; 2 4 80; 3 4 80; 4 4 80}', '{1.5 8 80; 2.5 8 80; 3.5 8 80; 4.5 8 80}', '{1 2 85; 3 2 85}',
    '{1 8 85; 2.5 8 80; 4 8 75}')
BASS_VOICES = ('SynthBass1', 'FingeredBass', 'SlapBass1', 'SynthBass2')
CHORD_VOICES = ('Piano1', 'SynthStrings1', 'Strings')


class Style:
    """A file of a library: its grooves by use, its beats a bar, and whether it has drums alone."""

    def __init__(self, path):
        with open(path, encoding='latin1') as file:
            text = file.read()
        grooves = re.findall(r'(?im)^[ \t]*defgroove[ \t]+(\S+)', text)
        self.intros = [g for g in grooves if re.search(r'(?i)intro|count', g)]
        self.fills = [g for g in grooves if re.search(r'(?i)fill|F[ABCD]$|break', g)]
        apart = re.compile(r'(?i)intro|count|fill|F[ABCD]$|break|end')
        self.mains = [g for g in grooves if not apart.search(g)]
        beats = re.search(r'(?im)^[ \t]*time[ \t]+(\d+)(?:/(\d+))?', text)
        self.beats = int(beats.group(1)) if beats else 4
        self.compound = bool(re.search(r'(?im)^[ \t]*time(?:sig)?[ \t]+\d+[ \t]*[/ ][ \t]*8', text))
        self.drums_alone = not re.search(r'(?im)^[ \t]*(?:begin[ \t]+)?(?:bass|chord|walk|arpeggio|scale|plectrum)', text)


def score(style, library, name, draw, low, high):
    """Source text of a piece, how many bars it has, and where its sections start."""
    bpm = draw.randint(int(low), int(high))
    lines = [f'Tempo {bpm}', f'Transpose {draw.randint(-5, 6)}']
    drawn = draw.random() > 0.25 and style.drums_alone
    bass, voice = draw.choice(BASSES), draw.choice(BASS_VOICES)
    rhythm, chord_voice = draw.choice(RHYTHMS), draw.choice(CHORD_VOICES)
    chords_too = draw.random() > 0.3
    if style.beats != 4:
        bass, rhythm = '{1 4 1 90}', '{1 1 85}'

    def use(groove):
        lines.append(f'Groove {library}/{name}.mma:{groove}')
        if drawn:
            lines.extend((f'Bass Sequence {bass}', f'Bass Voice {voice}', 'Bass Octave 3'))
        if drawn and chords_too:
            lines.extend((f'Chord Sequence {rhythm}', f'Chord Voice {chord_voice}'))

    bars, sections = 0, []
    parts = [(draw.choice(style.mains), chords) for chords in draw.sample(CHORDS, 3)]
    if style.intros and draw.random() < 0.6:
        use(draw.choice(style.intros))
        sections.append((0, 'intro'))
        lines.extend(parts[0][1])
        bars = 4
    until = draw.uniform(*SECONDS) * bpm / 60 / style.beats
    while bars < until:
        groove, chords = draw.choice(parts)
        count = draw.choice(SECTION_BARS)
        sections.append((bars, groove))
        use(groove)
        for bar in range(count):
            if bar == count - 1 and style.fills and draw.random() < 0.7:
                use(draw.choice(style.fills))
            lines.append(chords[bar % 4])
        bars += count
    return '\n'.join(lines) + '\n', bars, sections


def tempo_of(midi):
    """The tempo as the file has it, in BPM; None where it has several."""
    with open(midi, 'rb') as file:
        told = {m.group(1) for m in re.finditer(rb'\xff\x51\x03(...)', file.read(), re.S)}
    return 60e6 / int.from_bytes(told.pop(), 'big') if len(told) == 1 else None


def written(text, base):
    """Lets the generator write BASE.mid from its source; the tempo in BPM, None where it refuses."""
    with open(f'{base}.mma', 'w') as file:
        file.write(text)
    made = subprocess.run(['mma', '-f', f'{base}.mid', f'{base}.mma'], capture_output=True, text=True)
    bpm = tempo_of(f'{base}.mid') if made.returncode == 0 else None
    if bpm is None:
        print(os.path.basename(base), made.stdout[-200:], flush=True)
    return bpm


def sound(base, wav, draw):
    """Plays BASE.mid into a file, in a drawn room with drawn instruments."""
    reverb, font = draw.choice('01'), draw.choice(FONTS)
    subprocess.run(['nice', 'fluidsynth', '-ni', '-g', '0.6', '-R', reverb, '-F', wav, '-r', '44100', font, f'{base}.mid'],
                   check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def piece(folder, path, letter, take, low, high):
    """Makes one piece; False where the generator refuses the style."""
    library, name = path.split('/')[-2], os.path.basename(path)[:-4]
    identity = f'played-{letter}{re.sub("[^a-z0-9]", "", name.lower())}-{take}'
    wav = f'{folder}/audio/{identity}.wav'
    if os.path.exists(wav) and os.path.exists(f'{folder}/truth/{identity}.json'):
        return True
    style = Style(path)
    if not style.mains or style.compound:
        return False
    draw = random.Random(identity)
    text, bars, sections = score(style, library, name, draw, low, high)
    base = f'{folder}/scores/{identity}'
    bpm = written(text, base)
    if bpm is None:
        return False
    sound(base, wav, draw)
    beats = [round(i * 60 / bpm, 6) for i in range(bars * style.beats)]
    truth = {
        'id': identity, 'group': 'played', 'style': re.sub(r'\d+$', '', name.lower()), 'confidence': 'exact', 'bpm': bpm,
        'meter': f'{style.beats}/4', 'beats': beats, 'downbeats': beats[::style.beats],
        'sections': [{'start': beats[bar * style.beats], 'label': label} for bar, label in sections],
    }
    with open(f'{folder}/truth/{identity}.json', 'w') as file:
        json.dump(truth, file)
    return True


def styles():
    """The styles of accompaniments.txt: name, slowest and fastest tempo, pieces."""
    with open(STYLES) as file:
        return [line.split() for line in file if not line.startswith('#')]


def files_of(style):
    """The files of the libraries that have a style, each with a letter for its library."""
    libraries = sorted(d for d in os.listdir(LIBRARIES) if os.path.isdir(f'{LIBRARIES}/{d}'))
    for path in sorted(glob.glob(f'{LIBRARIES}/*/*.mma')):
        if os.path.basename(path)[:-4].lower() == style:
            yield path, 'abcdefghij'[libraries.index(path.split('/')[-2])]


def main(folder):
    for part in ('audio', 'truth', 'scores'):
        os.makedirs(f'{folder}/{part}', exist_ok=True)
    table = styles()
    made = refused = 0
    for name, low, high, pieces in table:
        for path, letter in files_of(name):
            for take in range(int(pieces)):
                if piece(folder, path, letter, take, float(low), float(high)):
                    made += 1
                else:
                    refused += 1
    print(f'{made} pieces, {refused} refused')


if __name__ == '__main__':
    main(os.path.abspath(sys.argv[1]))
