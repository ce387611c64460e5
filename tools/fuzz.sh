#!/usr/bin/env bash
# Fuzzes every reader of received files, or those that are named, for so many seconds each. Ends 1 when a fault was found.
# Usage: tools/fuzz.sh [SECONDS [TARGET...]]    Faults, inputs and runs.csv are kept under artifacts/fuzz; SEED=2 tries other chances.
set -uo pipefail
cd "$(dirname "$0")/.." || exit 2
seconds=${1:-60}
[ $# -gt 0 ] && shift
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1

dotnet build -c Release -v q tools/DrumPrint.Fuzz || exit 2
bin=artifacts/fuzz/bin
rm -rf "$bin" && mkdir -p "$bin" && cp -r artifacts/bin/DrumPrint.Fuzz/release/. "$bin" || exit 2
# The program that marks the copy must be another than the copy.
dotnet artifacts/bin/DrumPrint.Fuzz/release/DrumPrint.Fuzz.dll instrument "$bin" || exit 2

fuzz() { dotnet "$bin/DrumPrint.Fuzz.dll" "$@"; }
[ $# -gt 0 ] || read -ra all -d '' < <(fuzz list)
found=0
for target in "${@:-${all[@]}}"; do
  # A process that an input ended is begun again, which names the input.
  until=$((SECONDS + seconds))
  while :; do
    fuzz run "$target" $((until - SECONDS)) "${SEED:-1}"
    code=$?
    [ "$code" = 0 ] || found=1
    [ "$code" -gt 1 ] && [ "$SECONDS" -lt "$until" ] || break
  done
done
exit "$found"
