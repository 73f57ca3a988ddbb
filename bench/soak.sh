#!/usr/bin/env bash
# A class at work on one server with PostgreSQL: PEOPLE change their breaks for MINUTES, and, where a FOLDER of ABC files is named, one
# imports it meanwhile. Nothing that was said to be kept may be lost; says how long changes take and what memory is held.
# Usage: bench/soak.sh [PEOPLE] [MINUTES] [FOLDER]
set -eu
cd "$(dirname "$0")/.."
dotnet build tests/Rollwright.EndToEnd -c Release --nologo -v quiet
export ROLLWRIGHT_SOAK_PEOPLE="${1:-30}" ROLLWRIGHT_SOAK_MINUTES="${2:-60}" ROLLWRIGHT_SOAK_IMPORT="${3:+$(realpath "$3")}"
exec tests/Rollwright.EndToEnd/bin/Release/net10.0/Rollwright.EndToEnd -explicit only -class '*ClassSoakTests' -showLiveOutput
