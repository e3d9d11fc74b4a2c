#!/bin/sh
# published.sh: the published lists on which the plans once fell behind, at the
# usual work, against the best numbers that were reached here by any search, and
# the reference: a line a row, `worse` where a plan now is longer, has more
# sheets or more steps than the best. Ends with how many are worse. Reads the
# folder that SEAMWRIGHT_CUTTING names; told and passed over where it is absent.
set -u
cd "$(dirname "$0")/../.." || exit 2
SEAMWRIGHT=${SEAMWRIGHT:-${BUILD:-build}/seamwright}
lists=${SEAMWRIGHT_CUTTING:-}
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
: >"$work/rows"

# tell NAME FOUND BEST PUBLISHED
tell() {
    awk -v name="$1" -v found="${2:--}" -v best="$3" -v published="$4" 'BEGIN {
        print name ": " found ", best known " best ", reference " published \
            (found == "-" || found + 0 > best + 0 ? ": worse" : "") }' |
        tee -a "$work/rows"
}

# The last number behind a word that begins a line.
last() {
    awk -v word="$1" '$1 == word { gsub(/[,:].*/, "", $2); n = $2 }
        END { print n }' "$work/plan"
}

# Lengths of trimmed plans. The reference is the length in strips.csv.
rows() {
    while read -r set name options best published; do
        [ -r "$lists/$set/$name.txt" ] || continue
        sed '/^height/d' "$lists/$set/$name.txt" >"$work/list"
        [ "$options" = grain ] && options=--keep-grain || options=
        # shellcheck disable=SC2086 # an option or none
        "$SEAMWRIGHT" plan --trimmed $options "$work/list" >"$work/plan"
        tell "$set/$name, trimmed, ${options:-turned}" "$(last length)" \
            "$best" "$published"
    done <<'EOF'
silva2010 A4 grain 297 297
silva2010 A5 grain 417 417
silva2010 CHL1 grain 546 547
silva2010 CHL6 grain 668 669
silva2010 CHL6 turned 634 635
silva2010 CHL7 grain 702 704
silva2010 CHL7 turned 667 670
silva2010 CW1 turned 916 919
silva2010 CW2 turned 1854 1859
silva2010 Hchl2 turned 680 681
silva2010 Hchl6s grain 1091 1118
silva2010 Hchl7s grain 1617 1624
silva2010 Hchl7s turned 1542 1545
gcut gcut4 turned 3019 3023
gcut gcut8 turned 5829 5859
gcut gcut13 turned 4937 4950
EOF
}

# Sheets, three stages (sheets.csv): either first cut, as which side of a sheet
# is upright is open.
sheets() {
    while read -r name cut best; do
        [ -r "$lists/silva2010/$name.txt" ] || continue
        { cat "$lists/silva2010/$name.txt" && echo "first-cut $cut"; } \
            >"$work/list"
        "$SEAMWRIGHT" plan --keep-grain "$work/list" >"$work/plan"
        tell "silva2010/$name, sheets, first cut $cut" "$(last sheets)" \
            "$best" "$best"
    done <<'EOF'
CW1 down 9
CW1 across 9
CW2 down 12
CW2 across 12
EOF
}

# Steps of a sheet list of the project, with its fewest sheets.
"$SEAMWRIGHT" plan tests/plan/lists/decks.txt >"$work/plan"
tell "decks, steps of its sheets" "$(last effort)" 27 no
if [ -z "$lists" ] || [ ! -r "$lists/strips.csv" ]; then
    echo "published: set SEAMWRIGHT_CUTTING to the folder of the published lists"
else
    rows
    sheets
fi
awk '/: worse$/ { n++ } END { printf "%d rows, %d worse\n", NR, n }' "$work/rows"
