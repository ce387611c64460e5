#!/usr/bin/env bash
# Makes everything a release consists of, in artifacts/release: an archive for each system, the packages, and their sums.
# The same commit makes the same archives. Nothing but the package registry is needed.
#
#   tools/release.sh                all systems
#   tools/release.sh linux-x64 ...  these only
set -euo pipefail
cd "$(dirname "$0")/.."
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1 LC_ALL=C TZ=UTC
umask 022

version=$(sed -n 's:.*<Version>\(.*\)</Version>.*:\1:p' Directory.Build.props)
systems=("$@")
[ ${#systems[@]} -gt 0 ] || systems=(linux-x64 linux-arm64 win-x64 osx-x64 osx-arm64)
here=$(dotnet --info | awk '/ RID:/ { print $2; exit }')
source=$(git rev-parse --short=12 HEAD)
[ -z "$(git status --porcelain --untracked-files=no)" ] || source="$source-edited"
epoch=$(git log -1 --format=%ct)
out=$PWD/artifacts/release
rm -rf "$out"
mkdir -p "$out"

# What goes into every archive is written by the program itself.
dotnet build src/DrumPrint.Cli -c Release -v quiet
common=$(mktemp -d)
trap 'rm -rf "$common"' EXIT
program() { dotnet artifacts/bin/DrumPrint.Cli/release/drumprint.dll "$@"; }
mkdir -p "$common/completions" "$common/schemas"
for shell in bash zsh fish powershell; do program completions "$shell" >"$common/completions/drumprint.$shell"; done
program schema >"$common/schemas/chain.schema.json"
program schema --ticket >"$common/schemas/ticket.schema.json"
cp README.md LICENSE THIRD-PARTY.md CHANGELOG.md SECURITY.md "$common/"

for system in "${systems[@]}"; do
  name=drumprint-$version-$system
  folder=$out/$name
  # Native where this machine has the linker for it; else one file with the runtime inside.
  native=()
  form="with its runtime"
  if [ "$system" = "$here" ] && { command -v clang || command -v cc; } >/dev/null; then
    native=(-p:PublishAot=true -p:StripSymbols=true)
    form="native"
  fi
  dotnet publish src/DrumPrint.Cli -c Release -r "$system" -v quiet -p:ForSystem=true "${native[@]}" "-p:SourceName=$source" \
    "-p:ArtifactsPath=$PWD/artifacts/release-build/$system/" -o "$common/bin-$system"
  mkdir "$folder"
  cp -r "$common"/{README.md,LICENSE,THIRD-PARTY.md,CHANGELOG.md,SECURITY.md,completions,schemas} "$folder/"
  cp "$common/bin-$system"/drumprint* "$folder/"
  find "$folder" -name '*.dbg' -delete -o -name '*.pdb' -delete -o -name '*.xml' -delete
  find "$folder" -type f -exec chmod 644 {} +
  chmod 755 "$folder"/drumprint*
  find "$folder" -exec touch -d "@$epoch" {} +
  case $system in
    win-*) archive=$name.zip; (cd "$out" && find "$name" | sort | zip -qX -@ "$archive") ;;
    *) archive=$name.tar.gz; tar -C "$out" --sort=name --owner=0 --group=0 --numeric-owner --mtime="@$epoch" --format=ustar -cf - "$name" | gzip -9n >"$out/$archive" ;;
  esac
  size=$(stat -c %s "$out/$archive")
  start="not run here"
  if [ "$system" = "$here" ]; then
    begin=$(date +%s%N)
    for _ in 1 2 3 4 5 6 7 8 9 10; do "$folder/drumprint" --version >/dev/null; done
    start="starts in $((($(date +%s%N) - begin) / 10000000)) ms"
  fi
  echo "$archive: $(awk "BEGIN { printf \"%.1f\", $size / 1e6 }") MB, $form, $start"
  rm -rf "$folder"
done

for project in DrumPrint.Dsp DrumPrint DrumPrint.Cli; do
  dotnet pack "src/$project" -c Release -v quiet "-p:SourceName=$source" -o "$out"
done
(cd "$out" && sha256sum -- * >"$common/SHA256SUMS" && mv "$common/SHA256SUMS" .)
echo "In artifacts/release:"
(cd "$out" && ls -1)
