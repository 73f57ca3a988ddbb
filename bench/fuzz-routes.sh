#!/usr/bin/env bash
# Every route of the server on odd requests: as in ./test, but TIMES as many (1,800 each time), from another SEED.
# Usage: bench/fuzz-routes.sh [TIMES] [SEED]; the first that is answered with a fault is said.
set -eu
cd "$(dirname "$0")/.."
dotnet build tests/Rollwright.Class.Tests -c Release --nologo -v quiet
export ROLLWRIGHT_FUZZ_TIMES="${1:-50}" ROLLWRIGHT_FUZZ_SEED="${2:-$RANDOM}"
echo "$((1800 * ROLLWRIGHT_FUZZ_TIMES)) requests, seed $ROLLWRIGHT_FUZZ_SEED"
exec tests/Rollwright.Class.Tests/bin/Release/net10.0/Rollwright.Class.Tests -class "*EndpointFuzzTests"
