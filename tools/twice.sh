#!/usr/bin/env bash
# Makes a release twice, from two clones that lie in different folders, and compares what came out byte by byte.
#
#   tools/twice.sh                   all systems and the packages: takes long
#   tools/twice.sh linux-x64 ...     these only
set -euo pipefail
cd "$(dirname "$0")/.."
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

commit=$(git rev-parse HEAD)

# Names of different length: a length is seen where a name is not.
places=("$work/a" "$work/another place/further down")
for place in "${places[@]}"; do
  mkdir -p "$(dirname "$place")"
  git clone -q . "$place"
  git -C "$place" checkout -q "$commit"
  "$place/tools/release.sh" "$@"
  rm -rf "$place/artifacts/release-build"
done

same=0
for file in "${places[0]}"/artifacts/release/*; do
  name=${file##*/}
  if cmp -s "$file" "${places[1]}/artifacts/release/$name"; then
    echo "$name: the same"
  else
    echo "$name: differs" >&2
    same=1
  fi
done
[ "$(ls "${places[0]}/artifacts/release")" = "$(ls "${places[1]}/artifacts/release")" ] || { echo "The two hold different files." >&2; same=1; }
exit $same
