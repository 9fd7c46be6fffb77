"""The truth file of a song, its id and its licence."""
import fnmatch
import gzip
import json
import os
import re
import sound


def slug(text):
    return re.sub('[^a-z0-9]+', '-', text.lower()).strip('-')


def save(folder, truth, samples, note_times):
    """Writes the audio (unless it is there) and the truth, with a line for the log."""
    sound.write(folder, truth['id'], samples)
    length = len(samples) / sound.RATE
    truth['duration_s'] = round(length, 3)
    truth['alignment'] = sound.alignment(samples, note_times)
    for name in ('beats', 'downbeats'):
        truth[name] = [round(float(t), 4) for t in truth[name] if t < truth['duration_s']]
    with open(os.path.join(folder, 'truth', truth['id'] + '.json'), 'w') as file:
        json.dump(truth, file, indent=1)
    check = truth['alignment']
    print('%s: %s, %.3f BPM, %s, %.1f s, %d sections; onsets %s ms late (z %s)' % (
        truth['id'], truth['group'], truth['bpm'], truth['meter'], length, len(truth.get('sections', [])),
        check['lag_ms'], check['z']), flush=True)


def licence(package, path='', unpacked=None):
    """What the copyright file of a Debian package says of one of its files."""
    text = copyright_text(package, unpacked)
    if text is None:
        return 'unknown'
    found = None
    for stanza in re.split(r'\n[ \t]*\n(?=Files:)', text):
        files = re.match(r'Files:((?:.*\n)(?:[ \t]+.*\n)*)', stanza)
        terms = re.search(r'^License:[ \t]*(\S.*)$', stanza, re.MULTILINE)
        if files and terms and any(covers(glob, path) for glob in files.group(1).split()):
            found = terms.group(1).strip()
    if found:
        return found
    if 'Permission is hereby granted, free of charge' in text:
        return 'Expat'
    if re.search(r'Attribution\s+Share-?\s?Alike', text):
        return 'CC-BY-SA-3'
    if re.search(r'General\s+Public\s+License', text):
        return 'GPL'
    return 'see the copyright file of ' + package


def covers(glob, path):
    """The last stanza that fits wins; globs name files of the source package, which are installed elsewhere."""
    if glob == '*':
        return True
    return not glob.startswith('debian') and fnmatch.fnmatch(path, '*' + glob.split('data/', 1)[-1])


def copyright_text(package, unpacked):
    for root in ['/'] + ([os.path.join(unpacked, package)] if unpacked else []):
        for suffix, opener in (('', open), ('.gz', gzip.open)):
            path = os.path.join(root, 'usr/share/doc', package, 'copyright' + suffix)
            if os.path.exists(path):
                with opener(path, 'rb') as file:
                    return file.read().decode('utf-8', 'replace')
    return None
