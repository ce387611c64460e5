#!/bin/sh
# Writes the damaged session and the undamaged one, checks both, and says of each fault whether it is found. Takes minutes and 3 GB below TMPDIR.
# Usage: tools/check-faults.sh [--cut]
set -u
cd "$(dirname "$0")/.." || exit 2
full=--full
[ "${1:-}" = "--cut" ] && full=
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
dotnet build -c Release -v q -nologo -p:RunAnalyzers=false src/DrumPrint.Cli || exit 2
program=artifacts/bin/DrumPrint.Cli/release/drumprint
"$program" demo "$work/clean" $full --no-store --quiet || exit 2
"$program" demo "$work/damaged" $full --with-faults --quiet || exit 2
"$program" check "$work/clean" --json > "$work/clean.json"
clean=$?
"$program" check "$work/damaged" --json > "$work/damaged.json"
bad=0
while read -r id rule track; do
    [ "$track" = "the set" ] && track=
    if tr -d '\n' < "$work/damaged.json" | grep -q "\"rule\": \"$rule\",[^{]*\"track\": \"$track\""; then
        echo "found    $id $rule ${track:-the set}"
    else
        echo "MISSING  $id $rule ${track:-the set}"
        bad=1
    fi
done <<EOF
$(awk '/^[RP][0-9]/ { id = $1 } /rule:/ { sub(/^ *rule: */, ""); n = split($0, signs, ", "); for (i = 1; i <= n; i++) { split(signs[i], s, " of "); print id, s[1], s[2] } }' "$work/damaged/FAULTS.txt")
EOF
[ "$clean" -eq 0 ] && echo "clean    nothing above information is open" || echo "NOT CLEAN: the undamaged session has open faults or warnings"
[ "$bad" -eq 0 ] && [ "$clean" -eq 0 ]
