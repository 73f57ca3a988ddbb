#!/usr/bin/env bash
# How many seconds of sound a second of one core makes: "rollwright render" alone and with the band, and fluidsynth
# (Debian: fluidsynth, timgm6mb-soundfont) on the MIDI of the same break, as whole processes in one run. The demo reel ten times
# through (about nine minutes), so that the start of a process counts little; one warm-up, then the median of five.
set -eu
export LC_ALL=C DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1
root=$(cd "$(dirname "$0")/.." && pwd)
font=/usr/share/sounds/sf2/TimGM6mb.sf2
times=10
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

dotnet publish "$root/src/Rollwright.Cli" -c Release -o "$work/program" --nologo -v quiet --use-current-runtime \
  --self-contained false -p:PublishReadyToRun=true -p:NuGetLockFilePath=obj/sound-speed.lock.json
rollwright=$work/program/rollwright
"$rollwright" arrange "$root/data/demo/wren-on-the-gatepost.abc" --out-dir "$work" --to json,mid 2>/dev/null
tune=$work/wren-on-the-gatepost
copies=()
for _ in $(seq $times); do copies+=("$tune.mid"); done

alone() { taskset -c 0 "$rollwright" render "$tune.json" -o "$work/x.wav" --mono --times $times 2>/dev/null; }
stereo() { taskset -c 0 "$rollwright" render "$tune.json" -o "$work/x.wav" --times $times 2>/dev/null; }
band() { taskset -c 0 "$rollwright" render "$tune.json" -o "$work/x.wav" --band all --times $times 2>/dev/null; }
opus() { taskset -c 0 "$rollwright" render "$tune.json" -o "$work/x.opus" --band all --times $times 2>/dev/null; }
other() {
  taskset -c 0 fluidsynth -ni -r 44100 -T wav -O s16 -o synth.reverb.active=0 -o synth.chorus.active=0 \
    -F "$work/x.wav" "$font" "${copies[@]}" >/dev/null 2>&1
}

# The length of a stereo or mono file of 16 bits at 44,100 frames a second, by its size.
seconds_of() { stat -c %s "$work/x.wav" | awk -v wide="$1" '{ printf "%.1f", ($1 - 44) / (2 * wide * 44100) }'; }

measure() {
  local what=$1 kind=$2 length=$3
  "$kind"
  [ "$length" = mono ] && length=$(seconds_of 1)
  [ "$length" = stereo ] && length=$(seconds_of 2)
  last=$length
  for _ in 1 2 3 4 5; do
    before=${EPOCHREALTIME/./}
    "$kind"
    after=${EPOCHREALTIME/./}
    echo $((after - before))
  done | sort -n | awk -v what="$what" -v sound="$length" '
    { took[NR] = $1 / 1e6 }
    END { printf "%-44s %6.1f s of sound, median %.2f s (%.2f to %.2f): %.0f times real time\n",
      what, sound, took[3], took[1], took[NR], sound / took[3] }'
}
measure "banjo, one channel, to wav" alone mono
measure "banjo, two channels, to wav" stereo stereo
measure "banjo and band, two channels, to wav" band stereo
measure "banjo and band, two channels, to opus" opus "$last"
if command -v fluidsynth >/dev/null && [ -e "$font" ]; then
  measure "fluidsynth, the banjo's MIDI, two channels" other stereo
else
  echo "fluidsynth or its sound font is not installed; nothing is compared."
fi
