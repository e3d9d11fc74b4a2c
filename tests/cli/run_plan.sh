#!/bin/sh
# seamwright plan: lists of pieces from the command line. Prints ok NAME or
# not ok NAME. The lists are invented.
set -u
cd "$(dirname "$0")/../.." || exit 2
program=${SEAMWRIGHT:-build/seamwright}
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT

result() { # NAME COMMAND...
    name=$1
    shift
    if "$@"; then echo "ok plan: $name"; else echo "not ok plan: $name"; fi
}

cat >"$work/mat.txt" <<'LIST'
# harbor mat, one cloth
width 42
2.5 2.5 180 squares
2-1/2 12.5 49 sashes
12.5 12.5 10
LIST

planned() {
    "$program" plan "$work/mat.txt" >"$work/out" || return 1
    grep -q '^The simplest plan within the cloth as sold:' "$work/out" &&
        grep -q '^The shortest plan:' "$work/out" &&
        grep -q 'x squares' "$work/out" && grep -q '(12 1/2 by 12 1/2)' "$work/out"
}
# The shortest plan is no longer than the simplest, and not below its bound.
lengths() {
    "$program" plan "$work/mat.txt" | awk '
        function number(text,    part, n, value, i, f) {
            n = split(text, part, " ")
            for (i = 1; i <= n; i++)
                if (split(part[i], f, "/") == 2) value += f[1] / f[2]
                else value += part[i]
            return value
        }
        /^length/ { sub(/^length /, ""); split($0, half, /, bound |:/)
                    length_of[++plans] = number(half[1]); bound = number(half[2]) }
        END { exit !(plans == 2 && length_of[2] <= length_of[1] &&
                     bound <= length_of[2]) }'
}
same_twice() {
    "$program" plan "$work/mat.txt" >"$work/one" &&
        "$program" plan "$work/mat.txt" >"$work/two" && cmp -s "$work/one" "$work/two"
}
mistake() {
    printf 'width 42\n2.5 x 180\n' >"$work/bad.txt"
    "$program" plan "$work/bad.txt" >"$work/out" 2>"$work/err"
    [ $? -eq 1 ] && [ ! -s "$work/out" ] && grep -q 'bad.txt: line 2: ' "$work/err"
}
too_wide() {
    printf 'width 10\n12 12 1\n' >"$work/bad.txt"
    "$program" plan "$work/bad.txt" >"$work/out" 2>"$work/err"
    [ $? -eq 1 ] && grep -q 'wider than the cloth' "$work/err"
}
# A piece that fits only when turned is refused where it may not be.
grain() {
    printf 'width 10\n12 8 1\n' >"$work/turn.txt"
    "$program" plan "$work/turn.txt" >/dev/null 2>&1 &&
        ! "$program" plan --keep-grain "$work/turn.txt" >/dev/null 2>&1
}
# Fat quarters: blocks of sheets that add up to their number, and the bound.
cat >"$work/quarters.txt" <<'LIST'
# lantern mat, fat quarters
width 21
height 18
2.5 2.5 180 squares
4.5 4.5 40 centers
2.5 4.5 60 sashes
LIST
sheets() {
    "$program" plan "$work/quarters.txt" >"$work/out" &&
        awk '/like this, strips (across|down):$/ { sum += $1 }
             /^sheets 8, bound 8: proven least$/ { told = $2 + 0 }
             /^effort/ { effort = 1 }
             END { exit !(sum == 8 && told == 8 && effort) }' "$work/out"
}
# Every piece is printed: strips x segments x slices, times the sheets.
sheet_pieces() {
    "$program" plan "$work/quarters.txt" | awk '
        / like this/ { times = $1 }
        / x strip / {
            strips = $1
            sub(/; .*$/, "")
            sub(/^.* x strip +[0-9]+( [0-9]+\/[0-9]+)? +/, "")
            n = split($0, cut, /, /)
            for (i = 1; i <= n; i++) {
                slices = 1
                if (match(cut[i], /\([0-9]+ x /))
                    slices = substr(cut[i], RSTART + 1) + 0
                pieces += times * strips * cut[i] * slices
            }
        }
        END { exit pieces != 280 }'
}
first_cut() {
    for way in across down; do
        { cat "$work/quarters.txt" && echo "first-cut $way"; } >"$work/way.txt"
        "$program" plan "$work/way.txt" >"$work/out" || return 1
        grep -q "strips $way:" "$work/out" || return 1
        [ "$(grep -c 'like this, strips' "$work/out")" -eq \
            "$(grep -c "strips $way:" "$work/out")" ] || return 1
    done
}
sheet_too_small() {
    printf 'width 21\nheight 18\n19 19 1\n' >"$work/bad.txt"
    "$program" plan "$work/bad.txt" >"$work/out" 2>"$work/err"
    [ $? -eq 1 ] && [ ! -s "$work/out" ] && grep -q 'larger than the sheet' "$work/err"
}
# Leftovers are told before the roll, which needs less than without them.
leftovers() {
    { cat "$work/mat.txt" && echo "leftover 21 18 2"; } >"$work/left.txt"
    "$program" plan "$work/left.txt" >"$work/out" || return 1
    head -1 "$work/out" | grep -q '^[12] leftovers* 21 by 18 like this' || return 1
    without=$("$program" plan "$work/mat.txt" | awk '/^length/ { last = $2 + 0 } END { print last }')
    with=$(awk '/^length/ { last = $2 + 0 } END { print last }' "$work/out")
    [ "$with" -lt "$without" ]
}
# The rest behind it would be lost without a word.
zero_byte() {
    printf 'width 42\n2.5 2.5 96 squares\n2 \0 2 4\n' >"$work/zero.txt"
    "$program" plan "$work/zero.txt" >"$work/out" 2>"$work/err"
    [ $? -eq 1 ] && [ ! -s "$work/out" ] &&
        grep -q 'zero.txt: line 3: byte 3 is 00' "$work/err"
}
# What a terminal would act on is seen as U+XXXX.
hidden_names() {
    printf 'width 42\n2.5 2.5 96 a\033[2Jb\342\200\256c\n' >"$work/esc.txt"
    "$program" plan "$work/esc.txt" >"$work/out" || return 1
    grep -qF 'aU+001B[2JbU+202Ec' "$work/out"
}
# To the end of the cloth as written, though the pieces' common step is 3 1/2.
rests() {
    printf 'width 42\n12.5 12.5 9\n' >"$work/rest.txt"
    "$program" plan "$work/rest.txt" | grep -q '3 x (12 1/2 by 12 1/2); 4 1/2 left$'
}
# A long height keeps a blank behind it.
long_heights() {
    printf 'width 42\n12 11/16 12 11/16 3\n' >"$work/long.txt"
    "$program" plan "$work/long.txt" | grep -q 'strip 12 11/16 3 x '
}
centimetres() {
    printf 'width 106cm\n6.5 6.5 4\n' >"$work/cm.txt"
    "$program" plan "$work/cm.txt" | grep -q 'strip 6.5 .*; 80 left$'
}
# The search with more work never gives a longer plan.
thorough() {
    "$program" plan --thorough "$work/mat.txt" >"$work/long" &&
        "$program" plan "$work/mat.txt" >"$work/quick" || return 1
    [ "$(grep -c . "$work/long")" -gt 3 ] &&
        [ "$(sed -n 's/^length \([^,]*\),.*/\1/p' "$work/long" | tail -1)" = \
            "$(sed -n 's/^length \([^,]*\),.*/\1/p' "$work/quick" | tail -1)" ]
}
absent() {
    "$program" plan "$work/none.txt" >/dev/null 2>"$work/err"
    [ $? -eq 4 ] && grep -q 'cannot read' "$work/err"
}

result "rests to the end of the cloth" rests
result "long heights" long_heights
result "centimetres" centimetres
result "more work is never worse" thorough
result "two plans" planned
result "lengths and bound" lengths
result "the same twice" same_twice
result "a mistake is told by line" mistake
result "a piece too wide" too_wide
result "the grain is kept" grain
result "a NUL byte" zero_byte
result "names that a terminal would act on" hidden_names
result "no file" absent
result "fat quarters" sheets
result "all pieces of the sheets" sheet_pieces
result "the first cut" first_cut
result "a piece larger than the sheet" sheet_too_small
result "leftovers before the roll" leftovers
