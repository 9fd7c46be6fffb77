"""More tracker modules of games, to learn from only. usage: more_modules.py FOLDER

Nobody has listened through these as was done for those of modules.py: rows a beat and beats a bar are the ones with which
the order list and the rows agree best with a beat grid that was found in the sound, so the songs are no measure of grids.
Files in which nothing agrees are left out. What they are good for is where sections start on bars that are known.
"""
import glob
import os
import re
import sys

from modules import keep

LEAST_BYTES = 3000       # shorter files are none
# package: {file, by its place among the package's modules in the order of their names: (rows a beat, beats a bar)}
MODULES = {
    'ballz-data': {0: (8, 4)},
    'bb': {0: (8, 4), 1: (4, 4), 2: (8, 4)},
    'biniax2-data': {0: (4, 4), 1: (4, 4), 2: (4, 4), 3: (8, 4), 4: (4, 4), 5: (4, 4), 6: (4, 4), 7: (4, 4)},
    'bomberclone-data': {0: (4, 4), 1: (4, 4), 2: (4, 4), 4: (4, 4), 5: (4, 4)},
    'ceferino-data': {0: (16, 4)},
    'circuslinux-data': {0: (4, 4), 2: (4, 4), 3: (4, 4)},
    'criticalmass-data': {0: (8, 4)},
    'dodgindiamond2': {0: (4, 4), 1: (4, 4)},
    'flobopuyo': {0: (4, 4), 1: (4, 4), 4: (4, 4)},
    'freedroid-data': {0: (4, 4), 1: (8, 4), 2: (4, 4), 3: (8, 4), 6: (4, 4), 7: (4, 4)},
    'gemdropx': {0: (8, 4), 1: (4, 4), 3: (4, 4)},
    'gl-117-data': {0: (8, 4), 1: (4, 4), 2: (8, 4), 4: (8, 4), 5: (4, 4), 6: (4, 4)},
    'gweled': {0: (8, 4)},
    'madbomber-data': {0: (8, 4), 3: (8, 4), 4: (8, 4)},
    'monsterz-data': {0: (4, 4)},
    'njam-data': {0: (4, 4), 1: (4, 4), 2: (4, 4)},
    'open-invaders-data': {0: (4, 4), 1: (4, 4), 2: (4, 4), 3: (4, 4)},
    'pachi-data': {2: (8, 4), 3: (4, 4), 5: (8, 4)},
    'pathogen': {0: (2, 4)},
    'penguin-command': {0: (8, 4), 1: (8, 4), 2: (8, 4)},
    'pingus-data': {
        1: (8, 4), 3: (8, 4), 4: (8, 4), 5: (8, 4), 8: (6, 4), 9: (8, 3), 11: (8, 4), 12: (6, 4), 13: (6, 4), 14: (4, 4),
        15: (8, 4), 16: (4, 4), 19: (6, 4),
    },
    'rafkill-data': {0: (8, 4), 1: (8, 4), 2: (4, 4), 3: (16, 4), 4: (8, 4), 5: (8, 4)},
    'ri-li-data': {0: (8, 4), 1: (16, 4), 2: (8, 4)},
    'rockdodger': {1: (8, 4), 2: (8, 4), 3: (4, 4), 4: (4, 4)},
    'solarwolf': {0: (8, 4), 1: (8, 4)},
    'tuxmath-data': {0: (8, 4), 1: (8, 4)},
    'vectoroids': {0: (4, 4)},
    'vodovod': {0: (4, 4), 1: (4, 4)},
    'vor': {0: (2, 4)},
}


def modules_of(folder):
    found = [f for f in glob.glob(os.path.join(folder, '**'), recursive=True) if re.search(r'\.(mod|xm|s3m|it|stm)$', f)]
    return sorted(f for f in found if os.path.getsize(f) > LEAST_BYTES and '/doc/' not in f)


def main(out):
    unpacked = os.path.join(out, 'unpacked')
    for package, files in MODULES.items():
        paths = modules_of(os.path.join(unpacked, package))
        for place, (rows, beats) in sorted(files.items()):
            identity = 'more-%s-%d' % (package.removesuffix('-data').replace('-', ''), place)
            if not os.path.exists(os.path.join(out, 'truth', identity + '.json')):
                keep(out, identity, paths[place], package, unpacked, ('other', rows, beats, '%d/4' % beats))


if __name__ == '__main__':
    if sys.argv[1:] == ['--packages']:
        print(' '.join(MODULES))
    else:
        main(sys.argv[1])
