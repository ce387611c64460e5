#!/usr/bin/env bash
# Runs the self test of a release as other machines would: Arm64 under user-mode emulation, Windows under a compatibility layer.
# Needs a release (tools/release.sh linux-arm64) and Debian's packages:
#
#   dpkg --add-architecture arm64 && apt-get update
#   apt-get install qemu-user-static libssl3:arm64 libstdc++6:arm64 libgcc-s1:arm64 wine64
#
# Each line tells the system and what the self test said. Emulation is slow: minutes instead of seconds.
set -uo pipefail
cd "$(dirname "$0")/.."
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
failed=0

tell() { echo "$1: $2"; }

try() {
  local system=$1
  shift
  if "$@" >"$work/$system.log" 2>&1; then
    tell "$system" "$(tail -n 1 "$work/$system.log" | tr -d '\r')"
  else
    tell "$system" "failed: $(tail -n 3 "$work/$system.log" | tr -d '\r' | tr '\n' ' ')"
    failed=1
  fi
}

arm=$(ls artifacts/release/drumprint-*-linux-arm64.tar.gz 2>/dev/null | head -n 1)
if [ -n "$arm" ] && command -v qemu-aarch64-static >/dev/null && [ -e /lib/ld-linux-aarch64.so.1 ]; then
  tar -C "$work" -xzf "$arm"
  # The emulator has no notion of memory mapped twice, and shows a machine without vectors wider than 128 bits.
  try linux-arm64 env DOTNET_EnableWriteXorExecute=0 qemu-aarch64-static "$work"/drumprint-*-linux-arm64/drumprint selftest
else
  tell linux-arm64 "not tried: an archive, the emulator or the Arm64 libraries are missing"
fi

layer=$(command -v wine64 || command -v wine || ls /usr/lib/wine/wine64 2>/dev/null)
if [ -n "$layer" ]; then
  # The layer cannot map what lies within one file, so the same program is made in many.
  dotnet publish src/DrumPrint.Cli -c Release -r win-x64 -v quiet -p:ForSystem=true -p:PublishSingleFile=false -p:PublishTrimmed=false \
    -p:PublishReadyToRun=false "-p:ArtifactsPath=$PWD/artifacts/release-build/win-x64-files/" -o "$work/windows" >"$work/publish.log" 2>&1 || cat "$work/publish.log"
  export WINEPREFIX=$work/prefix WINEDEBUG=-all
  "$layer" wineboot -i >/dev/null 2>&1
  try win-x64 "$layer" "$work/windows/drumprint.exe" selftest
else
  tell win-x64 "not tried: the compatibility layer is missing"
fi
exit $failed
