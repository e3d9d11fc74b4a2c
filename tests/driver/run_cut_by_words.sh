#!/bin/bash
# Each sample is cut by the words of its booklets alone, read back from the PDF:
# every piece comes out, in its size and number (cut_by_words.awk). A booklet
# with one number changed is found out.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
failed=0

result() { # NAME FOUND: ok where nothing was found
    if [ -z "$2" ]; then
        echo "ok cut by words: $1"
    else
        printf '%s\n' "$2" | head -20
        echo "not ok cut by words: $1"
        failed=1
    fi
}

# cut TEXT PIECES: what cannot be done as it is told.
cut_cloth() {
    awk -v pieces="$2" -f tests/driver/cut_by_words.awk "$1"
}

# rows QUILT COLORWAY <cutting.csv: label, width, height, count.
rows() {
    sed -e ':more' -e 's/"\([^"]*\), \([^"]*\)"/"\1;\2"/' -e tmore -e 's/"//g' | awk -F, -v quilt="$1" -v colorway="$2" '
        function number(text,    part, n) {
            n = split(text, part, "[ /]")
            return n == 3 ? part[1] + part[2] / part[3] \
                 : n == 2 ? part[1] / part[2] : part[1]
        }
        $1 == quilt && $2 == colorway {
            gsub(";", ", ", $3)
            printf "%s\t%s\t%s\t%d\n", $3, number($5), number($6), $7
        }'
}

for source in samples/*.xml tests/driver/cutting/*.xml; do
    [ -e "$source" ] || continue
    name=$(basename "$source" .xml)
    "$SEAMWRIGHT" build "$source" -o "$work/$name" >/dev/null 2>&1 || {
        result "$name" "it cannot be built"
        continue
    }
    for book in "$work/$name"/*.pdf; do
        base=$(basename "$book" .pdf)
        pdftotext -raw "$book" "$work/text" || exit 2
        while read -r quilt colorway; do
            case $base in "$name-$quilt-$colorway") ;; *) continue ;; esac
            rows "$quilt" "$colorway" <"$work/$name/cutting.csv" >"$work/pieces"
            result "$base" "$(cut_cloth "$work/text" "$work/pieces")"
        done < <(awk -F, 'NR > 1 { print $1, $2 }' "$work/$name/cutting.csv" | sort -u)
    done
done

# try_changes NAME QUILT COLORWAY <changes: with a number changed, something
# cannot be done, or too much or little comes.
try_changes() {
    pdftotext -raw "$work/$1/$1-$2-$3.pdf" "$work/text" || exit 2
    rows "$2" "$3" <"$work/$1/cutting.csv" >"$work/pieces"
    while IFS='|' read -r from to; do
        sed "s/$from/$to/" "$work/text" >"$work/changed"
        if cmp -s "$work/text" "$work/changed"; then
            result "changed: $from" "the page does not say it"
        elif [ -n "$(cut_cloth "$work/changed" "$work/pieces")" ]; then
            result "changed: $from" ""
        else
            result "changed: $from" "nothing is said"
        fi
    done
}

try_changes turning-lamp throw night-watch <<'CHANGES'
B1: 2 cuts of|B1: 3 cuts of
C1: 2 cuts of 6½|C1: 2 cuts of 6¼
Trim to 52½|Trim to 51
Keep rest 2: 18|Keep rest 2: 17
7 strips, 2½ in|7 strips, 2¼ in
Slice it into 5 of|Slice it into 6 of
Open each strip: one layer|Turn each strip over
3 strips, 1½ in|4 strips, 1½ in
Count: 8 B1|Count: 7 B1
CHANGES
try_changes slipway runner ebb <<'CHANGES'
and A4 to 3|and A4 to 2½
Trim A2, A3 and A4|Trim A2, A3 and A1
Trim A2, A3 and A4|Trim A3 and A4
CHANGES
try_changes gull-rock throw noon <<'CHANGES'
leave the rest, 31,|leave the rest, 30,
leave the rest, 26¼,|leave the rest, 24,
B5: leave the rest|B4: leave the rest
Open the rest at the fold: one layer, 31 in long|Keep it folded
CHANGES
try_changes vane-harbor throw first-light <<'CHANGES'
At 21 is the fold: slit it|At 21 is the fold
At 21 is the fold: slit it|At 20 is the fold: slit it
CHANGES
exit $failed
