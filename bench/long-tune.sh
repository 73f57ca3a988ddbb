#!/usr/bin/env bash
# A reel of as many bars as asked, in ABC on standard output: four invented strains of eight bars one after another, each time with
# one bar taken from another strain, so that few phrases are the same. Usage: bench/long-tune.sh 160 > long.abc
set -eu
awk -v bars="${1:?how many bars}" 'BEGIN {
  strains[0] = "\"G\"G2GA B2d2|\"C\"e2dB \"G\"A2GE|\"G\"D2EG A2GA|\"D\"B2A2 A2D2|\"G\"G2GA B2d2|\"C\"e2dB \"G\"A2GE|\"G\"D2G2 \"D\"B2A2|\"G\"G6 D2"
  strains[1] = "\"G\"g2gf \"C\"e2dB|\"G\"d2BG \"D\"A2Bd|\"G\"g2gf \"C\"e2dB|\"D\"d2e2 d2Bd|\"G\"g2gf \"C\"e2dB|\"G\"d2BG \"D\"A2GE|\"G\"D2G2 \"D\"B2A2|\"G\"G6 Bd"
  strains[2] = "\"Em\"E2GB e2dB|\"D\"A2FD F2AF|\"Em\"E2GB e2f2|\"G\"g2fe \"D\"d2BA|\"C\"c2EG c2BA|\"G\"B2GB d2cB|\"Am\"A2Bc \"D\"d2fd|\"G\"g2dB G4"
  strains[3] = "\"C\"c2ec g2ec|\"G\"B2dB g2dB|\"D\"A2dA f2dA|\"G\"B2AB G2DG|\"C\"e2ce g2fe|\"G\"d2Bd g2dB|\"D\"c2BA F2GA|\"G\"B2G2 G4"
  for (s = 0; s < 4; s++) split(strains[s], bar, "|") && keep(s)
  print "X:1\nT:A long reel\nC:Composed for this program\nR:reel\nM:2/2\nL:1/8\nQ:1/2=76\nK:G"
  for (i = 0; i < bars; i += 8) {
    round = int(i / 32); strain = int(i / 8) % 4
    line = ""
    for (b = 1; b <= 8; b++) {
      other = (b == 1 + (round * 3 + strain) % 7) ? (strain + 1 + round % 3) % 4 : strain
      line = line bars_of[other, b] (i + b >= bars ? "|]" : b == 8 ? "||" : "|")
      if (i + b >= bars) break
    }
    print line
  }
}
function keep(s,  b) { for (b = 1; b <= 8; b++) bars_of[s, b] = bar[b] }'
