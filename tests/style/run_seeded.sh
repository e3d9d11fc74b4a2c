#!/bin/sh
# The style checks themselves: each must find a fault that is planted in a
# small tree, and must pass the same tree without it.
set -u
here=$(cd "$(dirname "$0")" && pwd)
tree=$(mktemp -d) || exit 2
trap 'rm -rf "$tree"' EXIT
unset SANITIZED
export BUILD=build
CC=${CC:-gcc}
bad=0

# plant FILE TEXT
plant() {
    mkdir -p "$tree/$(dirname "$1")"
    printf '%b' "$2" >"$tree/$1"
}

# A tree without a fault, with a fifth of its lines comments.
clean_tree() {
    rm -rf "${tree:?}"/*
    plant include/low.h '/* owner: base */\n#include <stddef.h>\nint low(int);\nint lower(int);\nint lowest(int);\n'
    plant include/high.h '/* owner: sew */\n#include "low.h"\nint high(int);\nint higher(int);\nint highest(int);\n'
    plant src/base/low.c '#include "low.h"\n#include "own.h"\n/* One. */\nint low(int a)\n{\n    return a;\n}\n'
    plant src/base/own.h '/* Two. */\nint own(int);\nint owner(int);\nint ow(int);\n'
    compile src/base/low.c
}

compile() {
    mkdir -p "$tree/build/$(dirname "$1")"
    (cd "$tree" && $CC -fPIE -Iinclude -c "$1" -o "build/${1%.c}.o")
}

# expect NAME RULE: the rule named, and no other, must be broken.
expect() {
    "$here/check.sh" "$tree" >"$tree/said" 2>&1
    broken=$(sed -n 's/^not ok style: //p' "$tree/said")
    if [ "$broken" = "$2" ]; then
        echo "ok style finds: $1"
    else
        cat "$tree/said"
        echo "not ok style finds: $1"
        bad=1
    fi
}

# lines COUNT TEXT: the text so many times. The shell drops the last line
# end, so that each use is followed by one.
lines() {
    awk -v n="$1" -v text="$2" 'BEGIN { while (n-- > 0) printf "%s", text }'
}

clean_tree
expect "nothing in a clean tree" ""

clean_tree
plant src/sew/ring.c '/* One. */\nint ring(int);\nint rung(int);\nint ring(int a)\n{\n    return rung(a);\n}\n'
plant src/sew/rung.c '/* Two. */\nint ring(int);\nint rung(int);\nint rung(int a)\n{\n    return ring(a);\n}\n'
compile src/sew/ring.c
compile src/sew/rung.c
expect "two files that call each other" "no circle of files in src/sew"

clean_tree
plant src/base/up.c '#include "high.h"\n'
expect "a header of a higher stage" "include rule"

clean_tree
plant src/plan/quilt.c '#include "high.h"\n'
expect "a planner that knows the quilt" "include rule"

clean_tree
plant src/sew/peer.c '#include "own.h"\n'
expect "a header of another stage" "include rule"

clean_tree
plant src/base/out.c '#include "../sew/x.h"\n'
expect "a path out of the folder" "include rule"

clean_tree
plant src/base/angle.c '#include <low.h>\n'
expect "a header of ours in angle brackets" "include rule"

clean_tree
plant include/nobody.h '/* A header. */\nint a;\nint b;\nint c;\n'
expect "a header without an owner" "include rule"

clean_tree
plant include/needy.h '/* owner: base */\nsize_t a(void);\nint b;\nint c;\n'
expect "a header that does not compile alone" "headers compile alone"

clean_tree
plant src/base/long.c "int f(void)\n{\n$(lines 45 '    ;\n')\n$(lines 14 '    /* */\n')\n}\n"
expect "a function of 62 lines" "no function over 60 lines
functions 20 lines on average"

clean_tree
plant src/base/mean.c "int f(void)\n{\n$(lines 36 '    ;\n')\n$(lines 10 '    /* */\n')\n}\n"
expect "functions that are long on average" "functions 20 lines on average"

clean_tree
plant src/base/file.c "$(lines 481 'int a;\n')\n$(lines 120 '/* */\n')\n"
expect "a file of 601 lines" "no file over 600 lines"

clean_tree
plant src/base/bare.c "$(lines 20 'int a;\n')\n"
expect "too few comments" "comments 15 to 25 %"

clean_tree
plant src/base/wordy.c "$(lines 20 '/* */\n')\n"
expect "too many comments" "comments 15 to 25 %"

for data in 'int a = 1;' 'static int b; int *c(void) { return &b; }' \
    'int *d(void) { static int e = 2; return &e; }' \
    'const char *f[] = {"x"};' '_Thread_local int g;'; do
    clean_tree
    plant src/base/data.c "$data\nextern int x;\nextern int y;\n/* */\n"
    compile src/base/data.c
    expect "a mutable global: $data" "no mutable globals"
done

clean_tree
plant src/base/data.c 'const char *const a[] = {"x"};\n/* */\n'
compile src/base/data.c
expect "no fault in constant data" ""

for text in 'value_of(e, ATTR_ID)' 'text_of (e, ATTR_ID, "")' \
    'written_value(e, ATTR_ID)' 'e->values[ATTR_ID]' 'e->values'; do
    clean_tree
    plant src/sew/raw.c "int a = $text;\n/* */\nint b;\n"
    expect "a value that is read late: $text" \
        "values of attributes are read up to resolve"
done

clean_tree
plant src/resolve/raw.c 'int a = value_of(e, ATTR_ID);\n/* */\nint b;\n'
plant src/sew/raw.c 'int a = true_value_of(e, s->values_there);\n/* */\nint b;\n'
expect "no fault in a value that is read where it may be" ""

word="no word of unfinished work or one machine"
for text in "T""ODO" "FIX""ME" "XX""X" "/wo""rk/x" "/ho""me/x" "/t""mp/x"; do
    clean_tree
    plant tests/x.sh "# $text\n"
    expect "the words $text" "$word"
done
exit $bad
