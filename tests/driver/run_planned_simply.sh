#!/bin/bash
# A list that is too long to be planned at length says so, in the table of the
# cutting and on the page, with as many sizes as the list of pieces has rows of
# that cloth. One that is planned at length says nothing of it.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
failed=0

# expect NAME COMMAND...
expect() {
    name=$1
    shift
    if "$@"; then
        echo "ok planned simply: $name"
    else
        echo "not ok planned simply: $name"
        failed=1
    fi
}

awk -v kind=unlike -v n=600 -f tests/pathological/generate.awk >"$work/long.xml"
"$SEAMWRIGHT" build "$work/long.xml" -o "$work/built" >/dev/null || exit 2
"$SEAMWRIGHT" list --cutting "$work/long.xml" >"$work/table" || exit 2
pdftotext "$work"/built/*.pdf - | tr '\n' ' ' >"$work/text"

for fabric in Kelp Sand; do
    sizes=$(awk -F, -v fabric="$fabric" '$4 == fabric' \
        "$work/built/cutting.csv" | wc -l)
    expect "$fabric has many sizes" [ "$sizes" -gt 200 ]
    expect "$fabric: the table says so" \
        grep -q "^ *planned simply: $sizes sizes\$" "$work/table"
    expect "$fabric: the page says so" grep -q \
        "Planned simply, as the list is long: $sizes sizes\\." "$work/text"
done

"$SEAMWRIGHT" build samples/gull-rock.xml -o "$work/short" >/dev/null 2>&1
pdftotext "$work"/short/*.pdf "$work/short.txt" || exit 2
expect "a short list is planned at length" \
    sh -c '! grep -q "Planned simply" "$1"' - "$work/short.txt"

exit $failed
