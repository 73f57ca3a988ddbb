#!/usr/bin/env bash
# Every reader on mutations of good files: as in ./test, but TIMES as many cases (20,000 each time), from another SEED.
# Usage: bench/fuzz.sh [TIMES] [SEED]; a case that fails is kept, and its place is said.
set -eu
cd "$(dirname "$0")/.."
dotnet build tests/Rollwright.Formats.Tests -c Release --nologo -v quiet
export ROLLWRIGHT_FUZZ_TIMES="${1:-50}" ROLLWRIGHT_FUZZ_SEED="${2:-$RANDOM}"
echo "$((20000 * ROLLWRIGHT_FUZZ_TIMES)) cases, seed $ROLLWRIGHT_FUZZ_SEED"
exec tests/Rollwright.Formats.Tests/bin/Release/net10.0/Rollwright.Formats.Tests -class "*FuzzTests"
