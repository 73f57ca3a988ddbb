#!/usr/bin/python3
"""banjo.py SCORER: wav/FONT/banjo.wav in the bench's folder, what a player gives to have a banjo learnt: a slow open roll, then
open string, frets 1, 2, 1, twice over, on each long string, a note every 0.4 s; in tune, clean, by the bench's own renderer."""
import sys

sys.path.insert(0, sys.argv[1] if len(sys.argv) > 1 else '../shared/listening-bench')
import make_pieces, render

ROLL = [3, 2, 5, 1, 4, 2, 5, 1] * 4
FRETS = [(s, f) for s in (4, 3, 2, 1) for f in (0, 1, 2, 1, 0, 1, 2, 1, 0)]
played = [(s, 0) for s in ROLL] + FRETS
notes = [dict(onset=.5 + .4 * i, pitch=make_pieces.OPEN[s] + f, string=s, fret=f, tech='pick', vel=88) for i, (s, f) in enumerate(played)]
make_pieces.banjo_midi('midi/banjo.mid', make_pieces.finish(notes))
for name, package in render.PACKAGES.items():
    render.synth(render.font(*package), 'midi/banjo.mid', f'wav/{name}/banjo.wav')
