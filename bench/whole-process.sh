#!/usr/bin/env bash
# Times "rollwright arrange TUNE -o x.pdf" as a whole process, start to exit: one warm-up, then the median of ten runs.
set -eu
export LC_ALL=C DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1
root=$(cd "$(dirname "$0")/.." && pwd)
tune=$root/data/demo/wren-on-the-gatepost.abc
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# A build for one kind of machine resolves other packages: its lock files stay beside the intermediate files.
publish() {
  dotnet publish "$root/src/Rollwright.Cli" -c Release -o "$work/program" --nologo -v quiet \
    -p:NuGetLockFilePath=obj/whole-process.lock.json "$@"
}
kind="compiled ahead (linux-x64, ReadyToRun)"
if ! publish -r linux-x64 --self-contained false -p:PublishReadyToRun=true >"$work/log" 2>&1; then
  tail -n 5 "$work/log" >&2
  echo "Cannot compile ahead here; measuring the plain build." >&2
  rm -rf "$work/program"
  kind="plain build"
  publish
fi

run() { "$work/program/rollwright" arrange "$tune" -o "$work/x.pdf" >/dev/null 2>&1; }
run
[ -s "$work/x.pdf" ] || { echo "The program wrote no page; nothing was measured." >&2; exit 1; }
for _ in 1 2 3 4 5 6 7 8 9 10; do
  before=${EPOCHREALTIME/./}
  run
  after=${EPOCHREALTIME/./}
  echo $((after - before))
done | sort -n | awk -v kind="$kind" '
  { took[NR] = $1 / 1000 }
  END {
    if (NR != 10) { print "A run failed; nothing is reported." > "/dev/stderr"; exit 1 }
    printf "median %.0f ms, fastest %.0f ms, slowest %.0f ms of %d runs; %s\n", (took[5] + took[6]) / 2, took[1], took[NR], NR, kind
  }'
