#!/usr/bin/env bash
# Makes everything a release consists of, in artifacts/release: an archive for each system, the packages, and their sums.
# The same commit, SDK and linker make the same bytes, wherever the clone lies (tools/twice.sh shows it). Only the package registry is asked.
#
#   tools/release.sh                all systems, and the packages
#   tools/release.sh linux-x64 ...  these only; what is there of others stays
#   tools/release.sh packages       the packages only
set -euo pipefail
cd "$(dirname "$0")/.."
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1 LC_ALL=C TZ=UTC
umask 022

for tool in dotnet git zip unzip tar gzip sha256sum; do
  command -v "$tool" >/dev/null || { echo "$tool is needed." >&2; exit 1; }
done

version=$(sed -n 's:.*<Version>\(.*\)</Version>.*:\1:p' Directory.Build.props)
parts=("$@")
[ ${#parts[@]} -gt 0 ] || parts=(linux-x64 linux-arm64 win-x64 osx-x64 osx-arm64 packages)
here=$(dotnet --info | awk '/ RID:/ { print $2; exit }')
source=$(git rev-parse --short=12 HEAD)
[ -z "$(git status --porcelain)" ] || source="$source-edited"
epoch=$(git log -1 --format=%ct)
out=$PWD/artifacts/release
[ $# -gt 0 ] || rm -rf "$out"
mkdir -p "$out"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# Analyzers have judged the source in .ci/run.
options=(-c Release -v quiet -p:RunAnalyzers=false -p:EnforceCodeStyleInBuild=false "-p:SourceName=$source")

quietly() { "$@" >"$work/log" 2>&1 || { cat "$work/log" >&2; exit 1; }; }

# What every archive holds beside its program. The program itself writes some of it.
make_common() {
  local common=$work/common shell
  quietly dotnet build src/DrumPrint.Cli "${options[@]}" "-p:ArtifactsPath=$PWD/artifacts/release-build/common/"
  program() { dotnet artifacts/release-build/common/bin/DrumPrint.Cli/release/drumprint.dll "$@"; }
  mkdir -p "$common/completions" "$common/schemas" "$common/licences"
  for shell in bash zsh fish powershell; do program completions "$shell" >"$common/completions/drumprint.$shell"; done
  program schema >"$common/schemas/chain.schema.json"
  program schema --ticket >"$common/schemas/ticket.schema.json"
  program schema --delivery >"$common/schemas/delivery.schema.json"
  cp src/DrumPrint/Chains/tempo.schema.json src/DrumPrint/Tickets/part.schema.json "$common/schemas/"
  cp LICENSE THIRD-PARTY.md CHANGELOG.md SECURITY.md "$common/"
  cp licences/* "$common/licences/"
  git ls-files docs | tar -cf - -T - | tar -C "$common" -xf -
  # What leads to the source leads nowhere here.
  find "$common" -name '*.md' -exec sed -i -E 's#\[([^]]*)\]\((\.\./)*(src/[^)]*|DEVELOPERS\.md|benchmarks/[^)]*)\)#\1#g' {} +
}

# The licence and the notices of the runtime that is inside.
runtime_licences() {
  local system=$1 folder=$2 native=$3 packages pack
  packages=$(dotnet nuget locals global-packages --list | sed 's/^[^:]*: *//')
  pack=$packages/microsoft.netcore.app.runtime.$native$system/$(dotnet msbuild src/DrumPrint.Cli -getProperty:BundledNETCoreAppPackageVersion)
  cp "$pack/LICENSE.TXT" "$folder/licences/dotnet-runtime.txt"
  cp "$pack/THIRD-PARTY-NOTICES.TXT" "$folder/licences/dotnet-runtime-notices.txt"

  # The web server of the bench.
  pack=$packages/microsoft.aspnetcore.app.runtime.$system/${pack##*/}
  cp "$pack/LICENSE.txt" "$folder/licences/aspnetcore-runtime.txt"
  cp "$pack/THIRD-PARTY-NOTICES.TXT" "$folder/licences/aspnetcore-runtime-notices.txt"
}

# Every link of every page in an archive leads to a file in it.
check_links() {
  local folder=$1 page link target lost=0
  while IFS= read -r page; do
    while IFS= read -r link; do
      target=${link%%#*}
      case $target in '' | *://*) continue ;; esac
      [ -e "$(dirname "$page")/$target" ] || { echo "${page#"$folder/"}: $target is not in the archive." >&2; lost=1; }
    done < <(grep -oE '\]\([^) ]+\)' "$page" | sed 's/^](//; s/)$//')
  done < <(find "$folder" -name '*.md')
  return $lost
}

make_archive() {
  local system=$1 name=drumprint-$version-$1 native=() form="with its runtime" kind="" call=./drumprint archive size start begin
  local folder=$work/$name
  # Native where this machine has the linker for it; else one file with the runtime inside.
  if [ "$system" = "$here" ] && { command -v clang || command -v cc; } >/dev/null; then
    native=(-p:PublishAot=true -p:StripSymbols=true)
    form=native
    kind=nativeaot.
  fi
  quietly dotnet publish src/DrumPrint.Cli "${options[@]}" -r "$system" -p:ForSystem=true "${native[@]}" \
    "-p:ArtifactsPath=$PWD/artifacts/release-build/$system/" -o "$work/bin-$system"
  cp -r "$work/common" "$folder"
  runtime_licences "$system" "$folder" "$kind"
  case $system in win-*) call='.\\drumprint' ;; esac
  sed "s#^\\\$ drumprint#\$ $call#" tools/archive/README.md >"$folder/README.md"
  case $system in win-*) sed -i 's#^\$ \.#> .#' "$folder/README.md" ;; esac
  cp "$work/bin-$system"/drumprint* "$folder/"
  find "$folder" -maxdepth 1 \( -name '*.dbg' -o -name '*.pdb' -o -name '*.xml' -o -name '*.dwarf' \) -delete
  check_links "$folder"
  find "$folder" -type f -exec chmod 644 {} +
  chmod 755 "$folder"/drumprint*
  (cd "$folder" && find . -type f ! -name SHA256SUMS | sed 's:^\./::' | sort | xargs -d '\n' sha256sum >SHA256SUMS)
  find "$folder" -exec touch -d "@$epoch" {} +
  case $system in
    win-*) archive=$name.zip; rm -f "$out/$archive"; (cd "$work" && find "$name" | sort | zip -9qX -@ "$out/$archive") ;;
    *) archive=$name.tar.gz; tar -C "$work" --sort=name --owner=0 --group=0 --numeric-owner --mtime="@$epoch" --format=ustar -cf - "$name" | gzip -9n >"$out/$archive" ;;
  esac
  size=$(stat -c %s "$out/$archive")
  start="not run here"
  if [ "$system" = "$here" ]; then
    begin=$(date +%s%N)
    for _ in 1 2 3 4 5 6 7 8 9 10; do "$folder/drumprint" --version >/dev/null; done
    start="starts in $((($(date +%s%N) - begin) / 10000000)) ms"
  fi
  echo "$archive: $(awk "BEGIN { printf \"%.1f\", $size / 1e6 }") MB, $form, $start"
  rm -rf "$folder" "$work/bin-$system"
}

# A package is made with the time of day in it; this gives it that of the commit.
without_clock() {
  local package=$1 folder=$work/package
  rm -rf "$folder"
  mkdir "$folder"
  unzip -Z1 "$package" >"$work/names"
  (
    cd "$folder"
    unzip -q "$package"
    find . -type f -exec chmod 644 {} +
    find . -exec touch -d "@$epoch" {} +
    rm "$package"
    zip -9qXD -@ "$package" <"$work/names"
  )
}

make_packages() {
  local project package
  for project in DrumPrint.Dsp DrumPrint DrumPrint.Cli; do
    quietly dotnet pack "src/$project" "${options[@]}" "-p:ArtifactsPath=$PWD/artifacts/release-build/packages/" -o "$out"
  done
  for package in "$out"/*.nupkg "$out"/*.snupkg; do without_clock "$package"; done
}

for part in "${parts[@]}"; do
  case $part in
    packages) make_packages ;;
    *)
      [ -d "$work/common" ] || make_common
      make_archive "$part"
      ;;
  esac
done
rm -f "$out/SHA256SUMS"
(cd "$out" && sha256sum -- * >"$work/SHA256SUMS" && mv "$work/SHA256SUMS" .)
echo "In artifacts/release:"
(cd "$out" && ls -1)
