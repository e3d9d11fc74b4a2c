#!/bin/bash
# What the manual says of the program is what the program has: its commands and
# options, the columns of its tables, the names in its data, the sections of its
# booklets, the class words of its figures. Both ways: nothing is missing, and
# nothing is told that is not there.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
failed=0
unset SOURCE_DATE_EPOCH

# same CASE: the lines of wanted and told are the same, in any order.
same() {
    sort -u "$work/wanted" >"$work/a"
    sort -u "$work/told" >"$work/b"
    if [ ! -s "$work/a" ]; then
        echo "not ok program: $1: nothing was found"
        failed=1
    elif cmp -s "$work/a" "$work/b"; then
        echo "ok program: $1"
    else
        echo "not ok program: $1: not told: $(comm -23 "$work/a" "$work/b" | xargs)" \
            "; not there: $(comm -13 "$work/a" "$work/b" | xargs)"
        failed=1
    fi
}

# section PAGE HEADING: its lines.
section() {
    awk -v head="## $2" '/^## / { inside = $0 == head; next } inside' \
        "templates/manual/$1.md"
}
# The names in code in the head of each item: before its first colon.
item_names() {
    grep '^- `' | sed 's/`: .*/`/; s/` (.*/`/' | grep -o '`[^`]*`' | tr -d '`'
}

# ---- commands ----

"$SEAMWRIGHT" --help >"$work/help"
sed -n 's/^  seamwright \([a-z]*\) .*/\1/p' "$work/help" >"$work/wanted"
section commands Commands | item_names >"$work/told"
same "commands"
grep -oE -e '(^| )--?[a-z]+(-[a-z]+)*' "$work/help" | tr -d ' ' |
    grep -vx -e '-' >"$work/wanted"
section commands Options | grep '^- ' | sed 's/`[ :(].*//' |
    grep -oE -e '(`|, )--?[a-z]+(-[a-z]+)*' | sed 's/^.* //; s/`//' >"$work/told"
section commands Options | grep -oE -e '^- `-[a-z]`' | tr -d ' `' | sed 's/^-//' \
    >>"$work/told"
section commands Options | grep -oE -e '^- `-[a-z]`, `--[a-z]+' | sed 's/.*`//' \
    >>"$work/told"
same "options"
sed -n '/^enum exit_status/,/^}/s/.*= \([0-9]\).*/\1/p' src/driver/driver.h \
    >"$work/wanted"
section commands 'Exit status' | item_names >"$work/told"
same "exit statuses"
grep -rhoE 'getenv\("[A-Z_]+"\)' src | grep -oE '[A-Z_]+' >"$work/wanted"
section commands Environment | item_names >"$work/told"
same "variables of the environment"

# ---- tables ----

for sample in samples/lantern-walk.xml samples/turning-lamp.xml \
    samples/reed-lights.xml samples/lone-beacon.xml tests/mutants/casts.xml \
    tests/driver/cutting/jetty.xml tests/driver/pages/salt-pans.xml tests/compare/sand-bar.xml; do
    name=$(basename "$sample" .xml)
    "$SEAMWRIGHT" build "$sample" -o "$work/$name" >"$work/out" 2>"$work/said"
done
for table in materials.csv cutting.csv; do
    head -n 1 "$work/lantern-walk/$table" | tr -d '\r' | tr ',' '\n' >"$work/wanted"
    section csv "$table" | item_names >"$work/told"
    same "columns of $table"
done

# ---- data ----

# Every name, but for those of a message: they are told with messages. What a
# ruler has of a length is told once for all lengths.
cat "$work"/*/pattern.json >"$work/json"
jq -r 'del(.diagnostics[]) | [.. | objects | keys[]] | .[]' "$work/json" |
    sed 's/OnRuler$//' >"$work/wanted"
echo diagnostics >>"$work/wanted"
sed '/^```/,/^```/d' templates/manual/json.md | sed -n '/^## The whole/,$p' |
    grep -o '`[^`]*`' | tr -d '`[]' | sed 's/^.*\.//' |
    grep -vxE 'bought|lengthwise|rest|stitch|travel-ditch|travel-back' >"$work/told"
# Told at the head of the page.
printf 'width\nheight\nbought\n' >>"$work/told"
same "names in pattern.json"
jq -r '.diagnostics[] | keys[]' "$work/json" >"$work/wanted"
for source in tests/codes/*.xml; do
    "$SEAMWRIGHT" check --diagnostics json "$source" 2>&1 | jq -r 'keys[]'
done >>"$work/wanted"
section_text=$(tr '\n' ' ' <templates/manual/messages.md |
    sed 's/.*With `--diagnostics json`//; s/`seamwright explain NAME`.*//')
echo "$section_text" | grep -o '`[^`]*`' | tr -d '`' >"$work/told"
same "names in a message as JSON"

# ---- booklet and figures ----

# The one has quilting, the other is so short that its coloring page stays.
for booklet in reed-lights/reed-lights-lap-before-dawn lone-beacon/lone-beacon-throw-dawn; do
    mutool show "$work/$booklet.pdf" outline |
        sed -n 's/^[|+-][[:blank:]]*"\([^"]*\)".*/\1/p' | sed '1s/.*/cover/'
done | tr ' ' '_' >"$work/wanted"
section booklet Sections | sed -n 's/^- \*\*\([^*]*\)\*\*: .*/\1/p' | tr ' ' '_' \
    >"$work/told"
same "sections of the booklet"
# A figure of each kind has all of them.
for name in quilt step-1 step-2 cutting-A; do
    "$SEAMWRIGHT" figure samples/lantern-walk.xml $name 2>"$work/said"
done | grep -oE 'class="[a-z -]+"' | sed 's/class="//; s/"//' | tr ' ' '\n' \
    >"$work/wanted"
tr '\n' ' ' <templates/manual/figures.md |
    sed 's/.*for style sheets: //; s/\. .*//' | grep -o '`[^`]*`' | tr -d '`' \
    >"$work/told"
same "class words of figures"
exit $failed
