#!/usr/bin/env bash
# Runs the self test of a release as other machines would: Arm64 under user-mode emulation, Windows under a compatibility layer.
# Needs a release (tools/release.sh linux-arm64 win-x64) and Debian's packages:
#
#   apt-get install qemu-user-static libc6-arm64-cross libstdc++6-arm64-cross libgcc-s1-arm64-cross wine64 unzip
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
if [ -n "$arm" ] && command -v qemu-aarch64-static >/dev/null && [ -d /usr/aarch64-linux-gnu ]; then
  tar -C "$work" -xzf "$arm"
  # The emulator has no notion of memory mapped twice, and shows a machine without vectors wider than 128 bits.
  try linux-arm64 env DOTNET_EnableWriteXorExecute=0 qemu-aarch64-static -L /usr/aarch64-linux-gnu "$work"/drumprint-*-linux-arm64/drumprint selftest
else
  tell linux-arm64 "not tried: an archive, the emulator or the Arm64 libraries are missing"
fi

windows=$(ls artifacts/release/drumprint-*-win-x64.zip 2>/dev/null | head -n 1)
layer=$(command -v wine64 || command -v wine || ls /usr/lib/wine/wine64 2>/dev/null)
if [ -n "$windows" ] && [ -n "$layer" ]; then
  unzip -q "$windows" -d "$work"
  export WINEPREFIX=$work/prefix WINEDEBUG=-all
  "$layer" wineboot -i >/dev/null 2>&1
  try win-x64 "$layer" "$work"/drumprint-*-win-x64/drumprint.exe selftest
else
  tell win-x64 "not tried: an archive or the compatibility layer is missing"
fi
exit $failed
