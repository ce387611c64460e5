#!/usr/bin/env bash
# Runs a release as other machines would: Arm64 under user-mode emulation, Windows under a compatibility layer. Needs Debian's packages:
#
#   dpkg --add-architecture arm64 && apt-get update
#   apt-get install qemu-user-static libssl3:arm64 libstdc++6:arm64 libgcc-s1:arm64 wine64
#
#   tools/other-machines.sh              both; Arm64 needs its archive (tools/release.sh linux-arm64)
#   tools/other-machines.sh win-x64      this only
#
# Each line tells the system and what came of it. Emulation is slow: minutes instead of seconds.
set -uo pipefail
cd "$(dirname "$0")/.."
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
failed=0
systems=("$@")
[ ${#systems[@]} -gt 0 ] || systems=(linux-arm64 win-x64)

tell() { echo "$1: $2"; }

# must SYSTEM WHAT EXIT-CODE WORDS COMMAND...: ends as it must, and says these words.
must() {
  local system=$1 what=$2 expected=$3 words=$4 rc=0
  shift 4
  "$@" </dev/null >"$work/log" 2>&1 || rc=$?
  tr -d '\r' <"$work/log" >"$work/said"
  if [ "$rc" -eq "$expected" ] && grep -qF -- "$words" "$work/said"; then
    tell "$system" "$what: $(grep -F -- "$words" "$work/said" | tail -n 1 | cut -c1-150)"
  else
    tell "$system" "$what: ended with $rc, not $expected, or did not say '$words': $(tail -n 4 "$work/said" | tr '\n' ' ')"
    failed=1
  fi
}

linux_arm64() {
  local archive
  archive=$(ls artifacts/release/drumprint-*-linux-arm64.tar.gz 2>/dev/null | tail -n 1)
  if [ -z "$archive" ] || ! command -v qemu-aarch64-static >/dev/null || [ ! -e /lib/ld-linux-aarch64.so.1 ]; then
    tell linux-arm64 "not tried: an archive, the emulator or the Arm64 libraries are missing"
    return
  fi
  tar -C "$work" -xzf "$archive"
  # The emulator has no notion of memory mapped twice, and shows a machine without vectors wider than 128 bits.
  must linux-arm64 "self test" 0 "hold the same samples" env DOTNET_EnableWriteXorExecute=0 qemu-aarch64-static "$work"/drumprint-*-linux-arm64/drumprint selftest
}

# A chain with one track, whose file is named so.
chain() {
  echo '{ "chain": 1, "song": { "title": "Paths", "code": "Paths", "rate_hz": 48000 }, "tracks": { "kick": "'"$2"'" },
    "buses": { "kit": { "from": { "kick": 0 } } }, "prints": [ { "number": 1, "name": "Kick", "bus": "kit" } ] }' >"$1"
}

windows() {
  local layer deep here
  layer=$(command -v wine64 || command -v wine || ls /usr/lib/wine/wine64 2>/dev/null)
  [ -n "$layer" ] || { tell win-x64 "not tried: the compatibility layer is missing"; return; }
  # The layer cannot load what lies within one file, so the same program is made in many.
  if ! dotnet publish src/DrumPrint.Cli -c Release -r win-x64 -v quiet -p:RunAnalyzers=false -p:EnforceCodeStyleInBuild=false -p:ForSystem=true \
    -p:PublishSingleFile=false "-p:ArtifactsPath=$PWD/artifacts/release-build/win-x64-files/" -o "$work/windows" >"$work/log" 2>&1; then
    cat "$work/log"
    failed=1
    return
  fi
  export WINEPREFIX=$work/prefix WINEDEBUG=-all
  "$layer" wineboot -i >/dev/null 2>&1
  try() { local what=$1 expected=$2 words=$3; shift 3; must win-x64 "$what" "$expected" "$words" "$layer" "$work/windows/drumprint.exe" "$@"; }

  try "self test" 0 "hold the same samples" selftest
  mkdir "$work/session"
  cd "$work/session"
  try "demo" 0 "Prints add up to the rough" demo
  deep=$(printf 'a folder with a long name of forty letters/%.0s' 1 2 3 4 5 6 7 8)
  mkdir -p "$deep/raw" "Größe/raw"
  here=Z:$PWD
  cp SlowFerry/raw/01_*.wav "$deep/raw/kick.wav"
  cp SlowFerry/raw/01_*.wav "Größe/raw/Schläge.wav"
  chain "$deep/deep.chain.json" raw/kick.wav
  chain Größe/Lied.chain.json raw/Schläge.wav
  chain whole.chain.json "$here/Größe/raw/Schläge.wav"
  chain share.chain.json //server/share/kick.wav
  chain device.chain.json //./PhysicalDrive0
  chain drive.chain.json Q:/Takes/kick.wav
  chain back.chain.json 'Größe\\raw\\Schläge.wav'
  try "a path of over 300 characters" 0 "add up" print "${deep//\//\\}deep.chain.json"
  try "accents, a backslash on the command line" 0 "add up" print 'Größe\Lied.chain.json'
  try "a path with its drive" 0 "add up" print whole.chain.json
  try "a share" 3 "lies outside the session" print share.chain.json
  try "a device" 3 "lies outside the session" print device.chain.json
  try "another drive" 3 "lies outside the session" print drive.chain.json
  try "a drive that is not there" 3 "There is no such drive" print drive.chain.json --allow-outside
  try "a backslash in a chain" 2 "write / on every system" print back.chain.json
  (cd SlowFerry && sha256sum raw/*.wav prints/*.wav) >"$work/windows.sums"
  cd - >/dev/null
  local archive
  archive=$(ls artifacts/release/drumprint-*-linux-x64.tar.gz 2>/dev/null | tail -n 1)
  if [ -n "$archive" ]; then
    mkdir "$work/linux"
    tar -C "$work/linux" --strip-components=1 -xzf "$archive"
    (cd "$work/linux" && ./drumprint demo >/dev/null 2>&1; cd SlowFerry && sha256sum raw/*.wav prints/*.wav) >"$work/linux.sums"
    if cmp -s "$work/linux.sums" "$work/windows.sums"; then
      tell win-x64 "the demo's $(wc -l <"$work/linux.sums") sound files are those of linux-x64"
    else
      tell win-x64 "the demo's sound files differ from those of linux-x64"
      failed=1
    fi
  fi
}

for system in "${systems[@]}"; do
  case $system in
    linux-arm64) linux_arm64 ;;
    win-x64) windows ;;
    *) tell "$system" "cannot be run here" ;;
  esac
done
exit $failed
