#!/usr/bin/python3
"""table.py BENCH [SCORER] [--each] < ANSWERS: a row for every sound font and condition.

BENCH holds wav/, truth/; ANSWERS are lines of JSON from Rollwright.Takes; SCORER is the folder of the bench's score.py
(default ../shared/listening-bench). 'Followed whole': as many stretches as were played, and nothing else left out. Timing is that of notes right in both. With --each, each piece's errors are listed."""
import json, statistics, sys

ASKED = [a for a in sys.argv[1:] if a != '--each']
BENCH, SCORER = ASKED[0], ASKED[1] if len(ASKED) > 1 else '../shared/listening-bench'
sys.path.insert(0, SCORER)
import score


def main():
    rows = {}
    for line in sys.stdin:
        one = json.loads(line)
        font, condition, piece = one['file'][:-4].split('/')[-3:]
        truth = json.load(open(f'{BENCH}/truth/{piece}_take.json'))
        # What the take goes past is no error where the player went past it; everywhere else it counts as called missing.
        past = set(truth.get('leftout', []))
        passed = {x['id'] for x in one['ref'] if x['label'] == 'leftout'}
        one['ref'] = [dict(x, label='missing' if x['id'] in passed else x['label']) for x in one['ref'] if x['id'] not in past]
        out, dt = score.score_take(truth, one)
        good = sum(n['label'] == 'ok' for n in truth['notes'])
        said = {x['id']: x['label'] for x in one['ref']}
        false = sum(said[n['ref']] != 'ok' for n in truth['notes'] if n['label'] == 'ok')
        row = rows.setdefault((font, condition + {'d': ' drifts', 'r': ' restarts'}.get(piece[0], '')), [])
        row.append({
            'any': score.prf(*out['any'])[2], 'extra': score.prf(*out['extra'])[2] if out['extra'][1] else 1, 'untrue': out['extra'][2] - out['extra'][0],
            'label': sum(out[k][0] for k in ('wrong', 'missing')) / max(1, sum(out[k][1] for k in ('wrong', 'missing'))),
            'false': 100 * false / good, 'ms': 1000 * statistics.median(dt), 'mean': 1000 * sum(dt) / len(dt),
            'speed': one['length'] / one['seconds'], 'whole': one['stretches'] == truth.get('stretches', 1) and one['follows'] and passed == past})
        if '--each' in sys.argv:
            print(one['file'], {k: round(v, 3) for k, v in row[-1].items()})
            true = {n['ref']: n['label'] for n in truth['notes'] if n['ref'] is not None} | {i: 'missing' for i in truth['missing']}
            print('   ', [(i, true[i], said[i]) for i in sorted(true) if true[i] != said[i]])
            ex = [n for n in truth['notes'] if n['label'] == 'extra']
            m = score.match(sorted((n['onset'], n['pitch']) for n in ex), sorted((n['onset'], n['pitch']) for n in one['extra']), lambda a, b: a[1] == b[1])
            print('    added in truth', sorted((n['onset'], n['pitch']) for n in ex), 'said', sorted((round(n['onset'], 3), n['pitch']) for n in one['extra']))
    print('| font, condition | pieces | errors found, F: median, worst | label right | added, F; untrue ones a piece, mean | false flags per 100 good notes: median, mean, most | onset, ms: median, mean | followed whole | times real time |')
    print('|' + ' --- |' * 9)
    for key, row in sorted(rows.items()):
        get = lambda k: [x[k] for x in row]
        med = lambda k: statistics.median(get(k))
        print(f'| {", ".join(key)} | {len(row)} | {med("any"):.3f}, {min(get("any")):.3f} | {med("label"):.3f} | {med("extra"):.3f}; {statistics.mean(get("untrue")):.2f} | '
              f'{med("false"):.2f}, {statistics.mean(get("false")):.2f}, {max(get("false")):.2f} | {med("ms"):.1f}, {med("mean"):.1f} | '
              f'{sum(get("whole"))} of {len(row)} | {med("speed"):.0f} |')


if __name__ == '__main__':
    main()
