#!/usr/bin/env bash
# Kills prints at random moments (SIGKILL), or lets them meet a full disk, and holds what lies there against the two whole sets.
# Usage: kill-rounds.sh ROUNDS SECONDS COMMAND...   COMMAND runs drumprint; it ends after either bound.
# A full disk is tried where this user may mount a tmpfs.
set -uo pipefail
rounds=$1 seconds=$2
shift 2
work=$(mktemp -d)
full=
cleanup() { cd / && [ -n "$full" ] && umount "$work/session"; rm -rf "$work"; }
trap cleanup EXIT
mkdir "$work/session"
mount -t tmpfs -o size=24m tmpfs "$work/session" 2>/dev/null && full=yes
export DRUMPRINT_SETTINGS="$work/settings"
cd "$work/session" || exit 2

# Two seconds of 16-bit noise, after a header written by hand (RIFF, 48 kHz, mono).
{ printf 'RIFF\x24\xee\x02\x00WAVEfmt \x10\0\0\0\x01\0\x01\0\x80\xbb\0\0\0\x77\x01\0\x02\0\x10\0data\0\xee\x02\0'; head -c 192000 /dev/urandom; } >a.wav
for set in A B; do
  gain=-12 && [ "$set" = B ] && gain=-15
  cat >"$set.chain.json" <<J
{ "chain": 1, "song": { "title": "Test", "code": "Test", "rate_hz": 48000 }, "tracks": { "a": "a.wav" },
  "buses": { "k": { "from": { "a": $gain } }, "l": { "from": { "a": $((gain - 3)) } } },
  "prints": [ { "number": 1, "name": "K", "bus": "k" }, { "number": 2, "name": "L", "bus": "l" } ] }
J
done
sums() { (cd prints 2>/dev/null && sha256sum -- *.wav *.ticket.json 2>/dev/null | sha256sum); }
for set in A B; do
  "$@" print "$set.chain.json" --quiet --no-store >/dev/null 2>&1
  declare "whole_$set=$(sums)"
done
[ "$whole_A" != "$whole_B" ] || { echo "The two sets are not told apart."; exit 2; }

killed=0 no_room=0 ended=0 mixed=0 told_badly=0 unmended=0 done_rounds=0
while [ "$done_rounds" -lt "$rounds" ] && [ "$SECONDS" -lt "$seconds" ]; do
  done_rounds=$((done_rounds + 1))
  set=A && [ $((RANDOM % 2)) = 0 ] && set=B
  if [ -n "$full" ] && [ $((done_rounds % 2)) = 0 ]; then
    free=$(df --output=avail -k . | tail -1)
    head -c $(((free - RANDOM % 900) * 1024)) /dev/zero >fill 2>/dev/null
    "$@" print "$set.chain.json" --quiet --no-store >/dev/null 2>../said
    code=$?
    rm -f fill
    case $code in 0) ended=$((ended + 1)) ;; 3) no_room=$((no_room + 1)) ;; *) told_badly=$((told_badly + 1)); echo "round $done_rounds: exit $code"; cat ../said ;; esac
    grep -qE 'reason -?[0-9]|fault of DrumPrint' ../said && { told_badly=$((told_badly + 1)); cat ../said; }
  else
    "$@" print "$set.chain.json" --quiet --no-store >/dev/null 2>&1 &
    job=$!
    sleep "0.$(printf %03d $((150 + RANDOM % 750)))"
    if kill -KILL "$job" 2>/dev/null; then killed=$((killed + 1)); else ended=$((ended + 1)); fi
    wait "$job" 2>/dev/null
  fi
  now=$(sums)
  # Between a kill and the next print the folder may say so itself, by its journal; otherwise it is one whole set.
  [ -e prints/.drumprint.journal ] || [ "$now" = "$whole_A" ] || [ "$now" = "$whole_B" ] || { mixed=$((mixed + 1)); echo "round $done_rounds: a mixed set that says nothing"; }
  "$@" print "$set.chain.json" --quiet --no-store >/dev/null 2>../said
  code=$?
  wanted="whole_$set"
  [ "$code" = 0 ] && [ "$(sums)" = "${!wanted}" ] || { unmended=$((unmended + 1)); echo "round $done_rounds: the next print ended with $code"; cat ../said; }
done
echo "$done_rounds rounds in $SECONDS s: $killed killed, $no_room without room, $ended ended before; $mixed mixed sets, $told_badly told badly, $unmended not whole after the next print"
[ $((mixed + told_badly + unmended)) = 0 ]
