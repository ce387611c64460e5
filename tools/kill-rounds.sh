#!/usr/bin/env bash
# Ends runs where it hurts, and holds what lies there against what must lie there. Usage: kill-rounds.sh ROUNDS SECONDS COMMAND...
# COMMAND runs drumprint; the rounds end after either bound. In turn:
#   timed   a print is killed (SIGKILL) at a random moment
#   store   a print that writes its store is killed at a random one of its system calls that change the disk
#   full    a print meets a full disk with a random number of bytes left
#   deliver a delivery and its zip file are killed at a random one of such system calls
# `full` wants a user who may mount a tmpfs; `store` and `deliver` are killed at a random moment where strace is not there.
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
  "buses": { "hot": { "from": { "a": $gain }, "through": [ { "saturate": {} } ] }, "k": { "from": { "hot": 0 } }, "l": { "from": { "a": $((gain - 3)) } } },
  "prints": [ { "number": 1, "name": "K", "bus": "k" }, { "number": 2, "name": "L", "bus": "l" } ] }
J
done
sums() { (cd prints 2>/dev/null && sha256sum -- *.wav *.ticket.json 2>/dev/null | sha256sum); }
for set in A B; do
  "$@" print "$set.chain.json" --quiet --no-store >/dev/null 2>&1
  declare "whole_$set=$(sums)"
done
[ "$whole_A" != "$whole_B" ] || { echo "The two sets are not told apart."; exit 2; }
start=$(date +%s%N)
"$@" print A.chain.json --quiet --no-store >/dev/null 2>&1
whole_ms=$((($(date +%s%N) - start) / 1000000))

# Runs a command and kills it, at a random moment or at a random system call. Sets $how.
kill_timed() {
  "$@" >/dev/null 2>&1 &
  local job=$! ms=$((whole_ms / 4 + RANDOM % whole_ms))
  sleep "$((ms / 1000)).$(printf %03d $((ms % 1000)))"
  how=ended && kill -KILL "$job" 2>/dev/null && how=killed
  wait "$job" 2>/dev/null
}
kill_aimed() {
  command -v strace >/dev/null || { kill_timed "$@"; return; }
  local call all=(pwrite64 pwrite64 pwrite64 ftruncate fsync fsync rename rename rename unlink mkdir utimensat)
  call=${all[RANDOM % ${#all[@]}]}
  { strace -f -qq -o /dev/null -e "trace=$call" -e "inject=$call:signal=SIGKILL:when=$((1 + RANDOM % 14))" "$@"; } >/dev/null 2>&1
  local code=$?
  how=ended && [ "$code" = 137 ] && how=killed
}

tried=(0 0 0 0) killed=(0 0 0 0) names=(timed store full deliver)
mixed=0 told_badly=0 unmended=0 done_rounds=0
complain() { echo "round $done_rounds (${names[kind]}): $1"; cat ../said 2>/dev/null; }
while [ "$done_rounds" -lt "$rounds" ] && [ "$SECONDS" -lt "$seconds" ]; do
  kind=$((done_rounds % 4))
  done_rounds=$((done_rounds + 1))
  [ -z "$full" ] && [ "$kind" = 2 ] && continue
  set=A && [ $((RANDOM % 2)) = 0 ] && set=B
  how=ended keep=--no-store
  tried[kind]=$((tried[kind] + 1))
  case $kind in
    0) kill_timed "$@" print "$set.chain.json" --quiet --no-store ;;
    1) keep=
      [ $((RANDOM % 3)) = 0 ] && rm -rf .drumprint
      kill_aimed "$@" print "$set.chain.json" --quiet ;;
    2) free=$(df --output=avail -k . | tail -1)
      head -c $(((free - RANDOM % 1500) * 1024 - RANDOM % 4096)) /dev/zero >fill 2>/dev/null
      "$@" print "$set.chain.json" --quiet --no-store >/dev/null 2>../said
      code=$?
      rm -f fill
      case $code in 0) ;; 3) how=killed ;; *) told_badly=$((told_badly + 1)); complain "exit $code" ;; esac
      grep -qE 'reason -?[0-9]|fault of DrumPrint|   at ' ../said && { told_badly=$((told_badly + 1)); complain "no sentence"; } ;;
    3) "$@" print "$set.chain.json" --quiet --no-store >/dev/null 2>&1
      rm -rf out
      kill_aimed "$@" deliver "$set.chain.json" --to out --zip --quiet
      [ ! -e out/Test_v1 ] || "$@" deliver --check out/Test_v1 --quiet 2>../said || { mixed=$((mixed + 1)); complain "half a delivery"; }
      [ ! -e out/Test_v1.zip ] || python3 -m zipfile -t out/Test_v1.zip >/dev/null 2>&1 || { mixed=$((mixed + 1)); complain "half a zip file"; }
      "$@" deliver "$set.chain.json" --to out --zip --quiet >/dev/null 2>../said && "$@" deliver --check out/Test_v1 --quiet 2>>../said && [ "$(ls -A out | tr '\n' ' ')" = "Test_v1 Test_v1.zip " ] \
        || { unmended=$((unmended + 1)); complain "the next delivery: $(ls -A out | tr '\n' ' ')"; } ;;
  esac
  [ "$how" = killed ] && killed[kind]=$((killed[kind] + 1))
  now=$(sums)
  # Between a kill and the next print the folder may say so itself, by its journal; otherwise it is one whole set.
  [ -e prints/.drumprint.journal ] || [ "$now" = "$whole_A" ] || [ "$now" = "$whole_B" ] || { mixed=$((mixed + 1)); complain "a mixed set that says nothing"; }
  "$@" print "$set.chain.json" --quiet $keep >/dev/null 2>../said
  code=$?
  wanted="whole_$set"
  [ "$code" = 0 ] && [ "$(sums)" = "${!wanted}" ] && [ -z "$(find prints -name '.drumprint*')" ] || { unmended=$((unmended + 1)); complain "the next print ended with $code"; }
done
echo "$done_rounds rounds in $SECONDS s:"
for kind in 0 1 2 3; do echo "  ${names[kind]}: ${tried[kind]} tried, ${killed[kind]} killed or without room"; done
echo "  $mixed mixed sets or half files, $told_badly told badly, $unmended not whole after the next run"
[ $((mixed + told_badly + unmended)) = 0 ]
