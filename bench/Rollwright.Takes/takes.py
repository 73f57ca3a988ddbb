#!/usr/bin/python3
"""takes.py SCORER SEED: in the working folder, truth/ and wav/FONT/{take,take_reverb}/ of the bench's own flawed takes, of all
twelve pieces of a seed (the bench itself makes four). SCORER and needs as in ways.py."""
import os, random, sys

SCORER, SEED = sys.argv[1], int(sys.argv[2])
sys.path.insert(0, SCORER)
import make_pieces as m, render

for d in ('midi', 'truth'): os.makedirs(d, exist_ok=True)
for i in range(12):
    r = random.Random(SEED + i)
    bpm = round(70 + i * 70 / 11)
    m.take(f'p{i + 1:02d}', m.compose(r), bpm, r)
for name, package in render.PACKAGES.items():
    for c in ('take', 'take_reverb'): os.makedirs(f'wav/{name}/{c}', exist_ok=True)
    for i in range(12):
        n = f'p{i + 1:02d}'
        render.synth(render.font(*package), f'midi/{n}_take.mid', f'wav/{name}/take/{n}.wav')
        render.sox(f'wav/{name}/take/{n}.wav', f'wav/{name}/take_reverb/{n}.wav', 'gain', '-6', 'reverb', '50', '40', '60')
