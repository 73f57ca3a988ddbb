#!/usr/bin/python3
"""table.py BENCH [SCORER] < ANSWERS: medians over the pieces, a row for every sound font and condition.

BENCH holds wav/, truth/; ANSWERS are lines of JSON from Rollwright.Hearing; SCORER is the folder of the bench's score.py
(default ../shared/listening-bench). With --aubio, aubioonset and aubionotes are run beside (Debian's aubio-tools)."""
import json, os, statistics, subprocess, sys

ASKED = [a for a in sys.argv[1:] if a != '--aubio']
BENCH, SCORER = ASKED[0], ASKED[1] if len(ASKED) > 1 else '../shared/listening-bench'
sys.path.insert(0, SCORER)
import score

CONDITIONS = ['clean', 'reverb', 'noise20', 'detune20', 'lp8k', 'guitar', 'fast', 'hard', 'take', 'take_reverb']
TUNED_UP = {'detune20': 20, 'hard': 20}


def truth_of(file):
    font, condition, piece = file[:-4].split('/')[-3:]
    ending = {'fast': '_fast', 'hard': '_fast', 'take': '_take', 'take_reverb': '_take'}.get(condition, '')
    told = json.load(open(f'{BENCH}/truth/{piece}{ending}.json'))
    return font, condition, told['notes'], told['bpm']


def f(hit, n, m):
    return score.prf(hit, n, m)[2]


def hands(truth, heard):
    """Right strings and fingers among the notes that are right; notes whose finger the truth leaves open are not asked."""
    order = sorted(truth, key=lambda n: (n['onset'], n['pitch'], n.get('tech')))
    said = sorted(heard, key=lambda n: (n['onset'], n['pitch']))
    pairs = score.match([(n['onset'], n['pitch']) for n in order], [(n['onset'], n['pitch']) for n in said], lambda a, b: a[1] == b[1])
    both = [(order[r], said[e]) for e, r in pairs.items()]
    strings = [t['string'] == h['string'] for t, h in both]
    fingers = [t['finger'] == h['finger'] for t, h in both if t['finger'] in ('T', 'I', 'M')]
    slurs = [h['finger'] is None for t, h in both if t['tech'] in ('h', 'p', 's')]
    return [sum(x) / len(x) if x else 1 for x in (strings, fingers, slurs)]


def pinched(truth, heard):
    picks = [n for n in truth if n['tech'] == 'pick']
    inside = [n for n in picks if any(m is not n and abs(m['onset'] - n['onset']) < .02 for m in picks)]
    return score.counts(inside, heard)[3], len(inside)


def rhythm(bpm, truth, said):
    """Tempo within 2 %; bar lines within 30 ms, a share of the truth's; truth begins with a bar, four beats long."""
    whole = 240 / bpm
    tempo = said.get('secondsPerWhole') and abs(said['secondsPerWhole'] / whole - 1) <= .02
    first, last = truth[0]['onset'], truth[-1]['onset']
    lines = [first + k * whole for k in range(int((last - first) / whole) + 1)]
    hit = [any(abs(line - t) <= .03 for t in said.get('barTimes') or []) for line in lines]
    return float(bool(tempo)), sum(hit) / len(hit)


def aubio(file):
    """Onset F of aubioonset (hfc 0.1), note F of aubionotes, both as they come."""
    _, _, truth, _ = truth_of(file)
    out = subprocess.run(['aubioonset', '-O', 'hfc', '-t', '0.1', '-i', file], capture_output=True, text=True).stdout
    first = score.counts(truth, [{'onset': float(x), 'pitch': 0} for x in out.split()])
    out = subprocess.run(['aubionotes', '-i', file], capture_output=True, text=True).stdout
    rows = [x.split() for x in out.splitlines() if len(x.split()) == 3]
    second = score.counts(truth, [{'onset': float(b), 'pitch': float(a)} for a, b, _ in rows])
    return f(*first[:3]), f(*second[3:6])


def main():
    rows = {}
    for line in sys.stdin:
        one = json.loads(line)
        font, condition, truth, bpm = truth_of(one['file'])
        c = score.counts(truth, one['notes'])
        row = rows.setdefault((font, condition), {'piece': [], 'rhythm': [], 'pinch': [0, 0], 'tech': {}, 'speed': [], 'aubio': []})
        p, r, _ = score.prf(*c[3:6])
        row['piece'].append([f(*c[:3]), f(*c[3:6]), p, r, *hands(truth, one['notes']), abs(one['cents'] - TUNED_UP.get(condition, 0))])
        row['rhythm'].append(rhythm(bpm, sorted(truth, key=lambda n: n['onset']), one))
        row['pinch'] = [a + b for a, b in zip(row['pinch'], pinched(truth, one['notes']))]
        for tech, (hit, n) in c[6].items():
            old = row['tech'].setdefault(tech, [0, 0])
            old[0] += hit
            old[1] += n
        row['speed'].append(one['length'] / one['seconds'])
        if '--aubio' in sys.argv:
            row['aubio'].append(aubio(one['file']))
    print('| font, condition | onset F | note F | precision | recall | string | finger | slur known | tempo | bar lines | cents off, worst | pinched | pick | h | p | s | times real time |' + (' aubio onset F, note F |' if '--aubio' in sys.argv else ''))
    print('|' + ' --- |' * (17 + ('--aubio' in sys.argv)))
    for key in sorted(rows, key=lambda k: (k[0], CONDITIONS.index(k[1]))):
        row = rows[key]
        columns = list(zip(*row['piece']))
        tempo, lines = zip(*row['rhythm'])
        cells = [f'{statistics.median(x):.3f}' for x in columns[:-1]]
        cells += [f'{sum(tempo)} of {len(tempo)}', f'{sum(x >= .95 for x in lines)} of {len(lines)}', f'{max(columns[-1]):.1f}']
        share = lambda x: f'{x[0] / x[1]:.2f}' if x and x[1] else '-'
        cells += [share(row['pinch'])] + [share(row['tech'].get(t)) for t in ('pick', 'h', 'p', 's')]
        cells += [f'{statistics.median(row["speed"]):.0f}']
        if row['aubio']:
            cells += [', '.join(f'{statistics.median(x):.2f}' for x in zip(*row['aubio']))]
        print('|', ', '.join(key), '|', ' | '.join(cells), '|')


if __name__ == '__main__':
    main()
