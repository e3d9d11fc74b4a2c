#!/bin/sh
# check.sh [ROOT]: the style of the sources, as figures and as tests. Prints
# `ok NAME` or `not ok NAME` for each rule, with what breaks it above.
# Budgets: functions <= 20 lines on average and <= 60 each, files <= 600
# lines, comments 15 to 25 %, no mutable globals.
set -u
here=$(cd "$(dirname "$0")" && pwd)
cd "${1:-$here/../..}" || exit 2
BUILD=${BUILD:-build}
CC=${CC:-gcc}
HEADER_FLAGS=${HEADER_FLAGS:--std=c11 -D_POSIX_C_SOURCE=200809L -Wall -Wextra}
scratch=$(mktemp -d) || exit 2
trap 'rm -rf "$scratch"' EXIT
bad=0

# found_in FOLDER...: the C files below, of those folders that are there.
found_in() {
    for folder; do
        [ ! -d "$folder" ] || find "$folder" -name '*.[ch]' -type f
    done | LC_ALL=C sort
}

# verdict NAME FILE: the rule holds where the file of breaches is empty.
verdict() {
    if [ -s "$2" ]; then
        cat "$2"
        echo "not ok $1"
        bad=1
    else
        echo "ok $1"
    fi
}

check_includes() {
    # shellcheck disable=SC2046 # names without blanks
    set -- $(found_in include src)
    [ $# -eq 0 ] || awk -f "$here/includes.awk" "$@" >"$scratch/includes"
    verdict "style: include rule" "$scratch/includes"
}

check_headers() {
    : >"$scratch/headers"
    for header in $(found_in include src | grep '\.h$'); do
        folder=$(dirname "$header")
        printf '#include "%s"\ntypedef int nothing_else;\n' \
            "$(basename "$header")" >"$scratch/alone.c"
        # shellcheck disable=SC2086 # flags are words
        if ! $CC $HEADER_FLAGS -Werror -fsyntax-only -I"$folder" -Iinclude \
            "$scratch/alone.c" 2>"$scratch/said"; then
            echo "$header does not compile alone:"
            head -5 "$scratch/said"
        fi >>"$scratch/headers"
    done
    verdict "style: headers compile alone" "$scratch/headers"
}

measure() {
    # shellcheck disable=SC2046
    set -- $(found_in "$@")
    [ $# -eq 0 ] || awk -f "$here/measure.awk" "$@"
}

check_lengths() {
    measure src include >"$scratch/ours"
    measure tests >"$scratch/tests"
    awk '$1 == "function" { n++; sum += $2; if ($2 > most) most = $2 }
         $1 == "file"     { files++; if ($2 > longest) longest = $2 }
         $1 == "comments" { share = $2; lines = $3 }
         END { printf "# files %d, lines that are not blank %d\n", files, lines
               printf "# functions %d, mean length %.1f, longest %d\n",
                      n, n ? sum / n : 0, most
               printf "# longest file %d, comment share %.1f %%\n",
                      longest, share }' "$scratch/ours"
    awk '$1 == "function" && $2 > 60 { print $3 ": " $4 " has " $2 " lines" }
        ' "$scratch/ours" "$scratch/tests" >"$scratch/long"
    verdict "style: no function over 60 lines" "$scratch/long"
    awk '$1 == "function" { n++; sum += $2 }
         END { if (n && sum / n > 20) print "the mean is " sum / n }
        ' "$scratch/ours" >"$scratch/mean"
    verdict "style: functions 20 lines on average" "$scratch/mean"
    awk '$1 == "file" && $2 > 600 { print $3 " has " $2 " lines" }
        ' "$scratch/ours" "$scratch/tests" >"$scratch/files"
    verdict "style: no file over 600 lines" "$scratch/files"
    awk '$1 == "comments" && ($2 < 15 || $2 > 25) { print "it is " $2 " %" }
        ' "$scratch/ours" >"$scratch/share"
    verdict "style: comments 15 to 25 %" "$scratch/share"
}

# Writable data of the objects, constant pointers (.data.rel.ro) apart; the one
# store of exact numbers, which are made where no owner is at hand; and what the
# allocator, which is asked by name alone, knows of the work. The sanitizers add data of their own, so that their objects tell nothing.
check_globals() {
    [ -z "${SANITIZED:-}" ] || return 0
    : >"$scratch/globals"
    for source in $(found_in src | grep '\.c$'); do
        object=$BUILD/${source%.c}.o
        [ -e "$object" ] || continue
        nm --format=sysv "$object" | awk -F '|' -v file="$source" '
            { gsub(/ /, "", $1); gsub(/ /, "", $4); gsub(/ /, "", $7) }
            $4 == "SECTION" || $4 == "FILE" { next }
            $7 ~ /^\.data\.rel\.ro/ { next }
            file == "src/base/roots_store.c" && $1 == "store" { next }
            file == "src/base/shortage.c" && $1 == "work" { next }
            $7 ~ /^(\.data|\.bss|\.tdata|\.tbss|\*COM\*)/ {
                print file ": " $1 " can be written"
            }' >>"$scratch/globals"
    done
    echo "# mutable globals $(wc -l <"$scratch/globals")"
    verdict "style: no mutable globals" "$scratch/globals"
}

# Files of the sewing stage call each other one way: who needs whom, by the
# names that objects define and lack, has an order.
check_circles() {
    for object in "$BUILD"/src/sew/*.o; do
        [ ! -e "$object" ] || nm -g "$object" |
            awk -v file="$(basename "$object" .o)" '
                $(NF - 1) ~ /^[TDRB]$/ { print "has", $NF, file }
                $(NF - 1) == "U"       { print "lacks", $NF, file }'
    done | LC_ALL=C sort | awk '
        $1 == "has" { home[$2] = $3; next }
        ($2 in home) && home[$2] != $3 { print $3, home[$2] }' |
        sort -u >"$scratch/calls"
    tsort "$scratch/calls" 2>"$scratch/circles" >/dev/null
    verdict "style: no circle of files in src/sew" "$scratch/circles"
}

# What an attribute says becomes a fact of the design once, where names are
# bound; stages behind that ask the design and no element. Mending changes what
# is written, so it looks at that.
check_values() {
    found_in src | grep -vE '^src/(base|diag|read|resolve|mend)/' |
        while read -r file; do
            grep -nHE -e '(^|[^A-Za-z0-9_])(value_of|text_of|written_value) *\(' \
                -e '->values($|[^A-Za-z0-9_])' "$file"
        done >"$scratch/values"
    verdict "style: values of attributes are read up to resolve" \
        "$scratch/values"
}

# Unfinished work, and paths of one machine. The brackets keep this file from
# finding itself.
check_words() {
    set --
    for place in include src tests templates samples .ci Makefile README.md \
        DEVELOPERS.md; do
        [ ! -e "$place" ] || set -- "$@" "$place"
    done
    grep -rnwI -e 'T[O]DO' -e 'FI[X]ME' -e 'XX[X]' "$@" >"$scratch/words"
    grep -rnIE -e '(^|[^A-Za-z0-9_.])/(wo[r]k|ho[m]e|t[m]p|ro[o]t|Us[e]rs)/' \
        "$@" >>"$scratch/words"
    verdict "style: no word of unfinished work or one machine" \
        "$scratch/words"
}

check_includes
check_headers
check_lengths
check_globals
check_circles
check_values
check_words
exit $bad
