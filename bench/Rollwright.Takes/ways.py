#!/usr/bin/python3
"""ways.py SCORER SEED: in the working folder, truth/ and wav/FONT/take/ of 12 pieces, each twice:
'dNN' drifts by 8 per cent and more up and down; 'rNN' is a break AABB of which the player breaks off in a random bar and begins
again at that phrase or bar, leaves a repeat out, and drifts as well. Some mistakes as in the bench's own takes.

SCORER is the folder of the bench's make_pieces.py and render.py (needs fluidsynth, sox, both sound fonts, numpy, scipy)."""
import math, os, random, sys

SCORER, SEED = sys.argv[1], int(sys.argv[2])
sys.path.insert(0, SCORER)
import make_pieces as m, render

DRIFT, PERIOD = .08, 12.


def moved(notes, length, i):
    return [dict(n, onset=n['onset'] + length * i) for n in notes]


def drift(t, ph):
    return t - DRIFT * PERIOD / (2 * math.pi) * (math.cos(2 * math.pi * t / PERIOD + ph) - math.cos(ph))


def played(name, ref, stretches, bpm, r, parts=(0,)):
    """Stretches of the break (seconds, from and to) one after another, a pause before each, with mistakes.
    Parts are the bars with which parts begin, each time through."""
    speed, ph, clock, notes = r.choice([.8, .92, 1.08]), r.random() * 6.3, 0., []
    slurred = {n['id'] for n in ref if any(k['id'] == n['id'] + 1 and k['tech'] != 'pick' for k in ref)}
    free = [n['id'] for n in ref if n['tech'] == 'pick' and n['id'] not in slurred]
    r.shuffle(free)
    k = round(.05 * len(ref))
    wrong, missing = set(free[:k]), set(free[k:2 * k])
    for i, (a, b) in enumerate(stretches):
        clock += r.uniform(.5, 2)
        last = (None, 0)
        for n in [n for n in ref if a - 1e-3 <= n['onset'] < b - 1e-3]:
            last = last if last[0] == n['onset'] else (n['onset'], r.gauss(0, .015))
            x = dict(n, onset=clock + (drift(n['onset'], ph) - drift(a, ph)) / speed + last[1], ref=n['id'], label='ok', pass_=i)
            if n['id'] in missing: continue
            if n['id'] in wrong:
                x['fret'] = n['fret'] + r.choice([d for d in (-2, -1, 1, 2) if n['fret'] + d >= 0])
                x['pitch'], x['label'] = m.OPEN[n['string']] + x['fret'], 'wrong'
            notes.append(x)
        clock += (drift(b, ph) - drift(a, ph)) / speed
    for n in notes: n.pop('id')
    got = m.finish(notes)
    kept = {}
    for n in got: kept[n['ref']] = n                             # the last time through counts
    reached = {n['id'] for n in ref if any(a - 1e-3 <= n['onset'] < b - 1e-3 for a, b in stretches)}
    m.save(f'truth/{name}_break.json', piece=name, bpm=bpm, parts=list(parts), notes=ref)
    m.save(f'truth/{name}_take.json', piece=name, bpm=bpm, notes=sorted(kept.values(), key=lambda n: n['onset']),
           missing=sorted(missing & reached), leftout=sorted(n['id'] for n in ref if n['id'] not in reached), stretches=len(stretches))
    m.banjo_midi(f'midi/{name}_take.mid', got)


def main():
    for d in ('midi', 'truth'): os.makedirs(d, exist_ok=True)
    for i in range(12):
        r = random.Random(SEED + i)
        bpm = round(70 + i * 70 / 11)
        ref = m.perform(m.compose(r), bpm, r, jit=0, lead=0)
        bar = 240 / bpm
        played(f'd{i + 1:02d}', ref, [(0, 99 * bar)], bpm, r)
        a, b = [n for n in ref if n['onset'] < 6 * bar - 1e-3], moved([n for n in ref if n['onset'] >= 6 * bar - 1e-3], bar, 0)
        twice = a + moved(a, 6 * bar, 1) + moved(b, 6 * bar, 1) + moved(b, 6 * bar, 2)
        twice = [dict(n, id=k) for k, n in enumerate(sorted(twice, key=lambda n: n['onset']))]
        stop = r.randrange(8, 16)                                # breaks off within this bar, past the second's beginning
        back = stop - r.choice([0, 1, 1, 2]) if stop % 2 else stop - r.choice([1, 2])
        off = stop + r.choice([.5, .75])
        played(f'r{i + 1:02d}', twice, [(0, off * bar), (back * bar, 18 * bar)], bpm, r, (0, 6, 12, 18))
    for name, package in render.PACKAGES.items():
        os.makedirs(f'wav/{name}/take', exist_ok=True)
        for f in sorted(os.listdir('midi')):
            render.synth(render.font(*package), f'midi/{f}', f'wav/{name}/take/{f[:3]}.wav')


if __name__ == '__main__': main()
