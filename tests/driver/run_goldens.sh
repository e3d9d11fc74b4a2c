#!/bin/sh
# What the program makes of every sample, and of the patterns in pages/, which have
# kinds of pages that no sample has, byte for byte as it is kept in golden/: the
# data, the tables, what `check` and `list` say, and the display list of each
# booklet (dump_book.c). Of each quilt the first colorway's booklet is kept
# in full, of the others a checksum. Of the quilting, which is points by the
# thousand, the data are kept with the first lines, areas and steps of each list,
# and a checksum of all. Of an order of kits (.kits) its tables and the
# next shelf. UPDATE=1 writes golden/ anew; the
# difference is the review. Words choose samples by their names.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
UPDATE=${UPDATE:-}
SHOWN=20
golden=tests/driver/golden
work=$BUILD/tests/goldens
failed=0
rm -rf -- "$work"
mkdir -p "$work" || exit 2

result() {
    if [ -z "$2" ]; then
        echo "ok $1"
    else
        echo "not ok $1: $2"
        failed=1
    fi
}

# Beside it each list is as long as it is told to be (test_paths.c and others).
EXCERPT='(.quilts[].quilting | select(. != null)) |= (.lines |= .[:3] |
    .areas |= .[:3] | .routes |= map(.steps |= .[:3]))'

# make_files SOURCE FOLDER: what golden/ keeps of a sample. What is more than
# that lies beside it in FOLDER.all, to be read where a checksum differs.
make_files() {
    "$SEAMWRIGHT" build "$1" -o "$2.all" >"$2.log" 2>&1 &&
        "$BUILD/tests/driver/dump_book" "$1" "$2.all" >"$2.books" 2>>"$2.log" ||
        return 1
    mkdir "$2" && cp "$2.all"/*.csv "$2" &&
        jq "$EXCERPT" "$2.all/pattern.json" >"$2/pattern.json" &&
        (cd "$2.all" && cksum pattern.json) >"$2/checksums" &&
        "$SEAMWRIGHT" check "$1" >"$2/check.txt" 2>&1 &&
        "$SEAMWRIGHT" list "$1" >"$2/list.txt" 2>>"$2.log" &&
        "$SEAMWRIGHT" list --cutting "$1" >"$2/cutting.txt" 2>>"$2.log" ||
        return 1
    awk '!there[$1]++ { print $2 }' "$2.books" >"$2.full"
    while read -r _ book; do
        if grep -qxF "$book" "$2.full"; then
            cp "$book" "$2"
        else
            (cd "$2.all" && cksum "${book##*/}") >>"$2/checksums"
        fi
    done <"$2.books"
}

# make_tables ORDER FOLDER: the same of an order, with the display list of each of
# its papers. What is kept for the next run is
# not for people.
make_tables() {
    "$SEAMWRIGHT" kit "$1" -o "$2.all" >"$2.log" 2>&1 && mkdir "$2" &&
        cp "$2.all"/*.csv "$2.all"/*.xml "$2" &&
        "$SEAMWRIGHT" check "$1" >"$2/check.txt" 2>&1 &&
        "$BUILD/tests/driver/dump_book" "$1" "$2" >>"$2.log" 2>&1
}

for source in samples/*.xml tests/driver/pages/*.xml samples/*.kits; do
    name=$(basename "${source%.*}")
    case " ${*:-$name} " in *" $name "*) ;; *) continue ;; esac
    make=make_files
    case $source in *.kits) make=make_tables ;; esac
    if ! $make "$source" "$work/$name"; then
        tail -5 "$work/$name.log"
        result "golden: $name" "cannot be built"
        continue
    fi
    [ -z "$UPDATE" ] || { rm -rf "${golden:?}/$name" &&
        mkdir -p "$golden" && cp -r "$work/$name" "$golden/$name"; }
    # Both folders, so that a file too many or too few is told as well.
    kept=$( (ls "$golden/$name" && ls "$work/$name") 2>/dev/null | sort -u)
    for file in $kept; do
        diff "$golden/$name/$file" "$work/$name/$file" >"$work/diff" 2>&1 &&
            differs= || differs="read $work/$name.all"
        [ -z "$differs" ] || cut -c 1-200 "$work/diff" | head -n "$SHOWN"
        result "golden: $name/$file" "$differs"
    done
done
[ ! -d "$golden" ] || for folder in "$golden"/*; do
    [ -e "samples/${folder##*/}.xml" ] || [ -e "samples/${folder##*/}.kits" ] ||
        [ -e "tests/driver/pages/${folder##*/}.xml" ] ||
        result "golden: $folder" "no sample"
done
exit $failed
