#!/usr/bin/env bash
# Unpacks the Linux archives of artifacts/release into empty roots, as bare as a container can be, and does there what a new user does: the
# commands of the archive's own README, from top to bottom. Tells which libraries of the system each program needs.
#
#   tools/empty-folder.sh                    linux-x64, and linux-arm64 under user-mode emulation
#   tools/empty-folder.sh linux-x64 ...      these only
#
# A root holds the archive, the C library and what else the program loads, /tmp, /proc and four devices. There is no shell, no SDK, no network,
# no HOME. Needs the right to make a root (run it as root), a release, and for Arm64 Debian's packages (see tools/other-machines.sh).
set -euo pipefail
cd "$(dirname "$0")/.."

# Loaded when the first hash is taken, so no header names it.
late="libssl.so.3 libcrypto.so.3"

needed() { readelf -d "$1" 2>/dev/null | sed -n 's/.*(NEEDED).*\[\(.*\)\]/\1/p'; }
loader() { readelf -l "$1" 2>/dev/null | sed -n 's/.*program interpreter: \(.*\)\]/\1/p'; }

# The newest version of the C library that a program asks for.
c_library() { readelf -V "$1" | grep -oE 'GLIBC_2\.[0-9]+' | sort -t. -k2n | tail -n 1; }

find_library() {
  local folder
  for folder in "/lib/$2" "/usr/lib/$2"; do
    [ ! -e "$folder/$1" ] || { echo "$folder/$1"; return; }
  done
  echo "$1 is not on this machine." >&2
  return 1
}

copy_libraries() {
  local root=$1 triplet=$2 program=$3 name path waiting seen=" "
  waiting="$(needed "$program") $late"
  while [ -n "${waiting// /}" ]; do
    set -- $waiting
    name=$1
    shift
    waiting="$*"
    case $seen in *" $name "*) continue ;; esac
    seen="$seen$name "
    path=$(find_library "$name" "$triplet")
    mkdir -p "$root/lib/$triplet"
    cp -L "$path" "$root/lib/$triplet/$name"
    waiting="$waiting $(needed "$path" | tr '\n' ' ')"
  done
  path=$(loader "$program")
  mkdir -p "$root$(dirname "$path")"
  cp -L "$path" "$root$path"
}

try() {
  local system=$1 triplet emulator=() EMULATED="" archive root folder program line
  case $system in
    linux-x64) triplet=x86_64-linux-gnu ;;
    linux-arm64) triplet=aarch64-linux-gnu ;;
  esac
  archive=$(ls "artifacts/release/drumprint-"*"-$system.tar.gz" 2>/dev/null | tail -n 1)
  [ -n "$archive" ] || { echo "$system: not tried: there is no archive; run tools/release.sh $system"; return; }
  root=$(mktemp -d)
  roots+=("$root")
  mkdir -p "$root"/{tmp,proc,dev,home}
  tar -C "$root/home" --strip-components=1 -xzf "$archive"
  program=$root/home/drumprint
  (cd "$root/home" && sha256sum --quiet -c SHA256SUMS)
  copy_libraries "$root" "$triplet" "$program"
  for device in null zero random urandom; do
    touch "$root/dev/$device"
  done
  if [ "$system" = linux-arm64 ] && [ "$(uname -m)" != aarch64 ]; then
    cp "$(command -v qemu-aarch64-static)" "$root/emulator"
    emulator=(/emulator)
    # The emulator cannot map memory twice.
    EMULATED=DOTNET_EnableWriteXorExecute=0
  fi
  echo "$system: $(du -sm "$root/home" | cut -f1) MB unpacked; needs $(c_library "$program") or newer; libraries: $(cd "$root" && find lib* -type f | sed 's:.*/::' | sort -u | tr '\n' ' ')"
  while IFS= read -r line; do
    # The README has the reader copy the demo's takes.
    case $line in *" begin takes") cp -r "$root/home/SlowFerry/raw" "$root/home/takes" ;; esac
    must 0 "$root" "${emulator[@]}" $line
  done < <(sed -n 's/^\$ //p' "$root/home/README.md")
  (cd "$root/home" && sha256sum SlowFerry/prints/*.wav takes/prints/*.wav) >"$sums/$system"
  echo "  $(wc -l <"$sums/$system") prints"

  # Without OpenSSL it says so, and ends as the guide has it.
  rm "$root/lib/$triplet/libssl.so.3"
  must 3 "$root" "${emulator[@]}" ./drumprint print takes
}

# Runs a command in the root, without network and with nothing set. Tells what it said when it ended as it must, or else stops with all of it.
must() {
  local expected=$1 root=$2 start rc=0
  shift 2
  start=$(date +%s%N)
  EMULATED=$EMULATED unshare --mount --pid --net --fork bash -c '
    root=$1
    shift
    for device in null zero random urandom; do mount --bind "/dev/$device" "$root/dev/$device"; done
    mount -t proc proc "$root/proc"
    exec env -i "${EMULATED:-NONE=1}" unshare --root="$root" --wd=/home "$@"' - "$root" "$@" >"$sums/log" 2>&1 </dev/null || rc=$?
  [ "$rc" -eq "$expected" ] && grep -qE "$proof" "$sums/log" || { cat "$sums/log"; echo "$* ended with $rc, not $expected, or said something else." >&2; exit 1; }
  echo "  \$ $* [$((($(date +%s%N) - start + 500000000) / 1000000000)) s] $(grep -E "$proof" "$sums/log" | tail -n 1)"
}

# What a command says when it went well: the line that tells it.
proof='Prints add up|hold the same samples|Written:|OpenSSL is not installed'

roots=()
sums=$(mktemp -d)
trap 'rm -rf "${roots[@]}" "$sums"' EXIT

systems=("$@")
[ ${#systems[@]} -gt 0 ] || systems=(linux-x64 linux-arm64)
for system in "${systems[@]}"; do try "$system"; done
first=""
for system in "${systems[@]}"; do
  [ -e "$sums/$system" ] || continue
  if [ -z "$first" ]; then
    first=$system
  elif cmp -s "$sums/$first" "$sums/$system"; then
    echo "Every print is the same on $first and $system."
  else
    echo "Prints differ between $first and $system:" >&2
    diff "$sums/$first" "$sums/$system" >&2 || true
    exit 1
  fi
done
