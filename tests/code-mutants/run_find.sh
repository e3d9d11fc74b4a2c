#!/bin/sh
# The changes that mutate finds in a small source, against a list made by hand;
# each but those of arguments compiles. Prints `ok NAME` or `not ok NAME`.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
CC=${CC:-cc}
mutate=$BUILD/tests/code-mutants/mutate
scratch=$(mktemp -d) || exit 2
trap 'rm -rf "$scratch"' EXIT
failed=0

result() {
    if [ -s "$2" ]; then
        cat "$2"
        echo "not ok $1"
        failed=1
    else
        echo "ok $1"
    fi
}

cat >"$scratch/small.c" <<'END'
#include "small.h"
#define LIMIT(a) \
    ((a) < 9 && (a) > 1)
/* a < b && c + 1, over
 * two lines */
static const double HIGH = 1.5;
static const int table[3] = {4, [2] = 0};
struct pair { int both[3]; };
int f(int a, int b)
{
    char room[7][8];
    const char *text = "a < b, 3 + 4", c = '<'; // c > 1
    if (a < b && a->left !=
                     b[3])
        return b - 10u;
    for (int i = 0; i >= -a; i++)
        b += f(a, g(b, text), rational_add(a, b));
    if (room == 0)
        internal_error("not %d",
                       5 + a);
    return a ? true : b ? -1 : f(f(a), 0x10, 1e-6);
}
END
# Line, kind, what stands there after.
cat >"$scratch/wanted" <<'END'
6 constant 0.5
6 constant 2.5
7 constant 1
7 constant 3
7 constant 5
13 branch (!(a < b && a->left != b[3]))
13 comparison ==
13 comparison <=
13 logic ||
14 constant 2
14 constant 4
15 constant 11u
15 constant 9u
15 sum +
16 comparison >
16 constant 1
16 sum --
17 argument g(b, text), a
17 argument rational_add(a, b), g(b, text)
17 argument text, b
17 sum -=
18 branch (!(room == 0))
18 comparison !=
18 constant 1
21 argument 0x10, f(a)
21 argument 1e-6, 0x10
21 branch ? b ? -1 : f(f(a), 0x10, 1e-6) : true
21 branch ? f(f(a), 0x10, 1e-6) : -1
21 constant 0
21 constant 2
21 constant false
END
$mutate all "$scratch/small.c" | awk -F '\t' '{ print $3, $7, $6 }' |
    LC_ALL=C sort >"$scratch/found"
LC_ALL=C sort "$scratch/wanted" | diff - "$scratch/found" >"$scratch/differs"
result "code-mutants: what is found" "$scratch/differs"

# A sample has each line once, the same ones with the same seed, wherever the
# lines stand.
sample() { $mutate sample "$@" | cut -f 1,7,8,9; }
sample 7 5 "$scratch/small.c" >"$scratch/first"
sed -i '4i/* one more line */' "$scratch/small.c"
sample 7 5 "$scratch/small.c" | diff "$scratch/first" - >"$scratch/differs"
[ "$(wc -l <"$scratch/first")" -eq 5 ] || echo "not 5" >>"$scratch/differs"
sample 8 5 "$scratch/small.c" | cmp -s "$scratch/first" - &&
    echo "another seed takes the same" >>"$scratch/differs"
sample 7 99 "$scratch/small.c" | cut -f 3 | uniq -d >>"$scratch/differs"
result "code-mutants: samples" "$scratch/differs"

# Each change is made where it was found, and nothing else: what does not
# exchange arguments is still C.
: >"$scratch/broken"
$mutate all src/solve/*.c | grep -v '	argument	' | awk 'NR % 9 == 0' >"$scratch/changes"
[ "$(wc -l <"$scratch/changes")" -gt 30 ] || echo "few" >"$scratch/broken"
while IFS='	' read -r _ source line offset length text _ before after; do
    $mutate apply "$source" "$offset" "$length" "$text" >"$scratch/new.c"
    $CC -std=c11 -D_POSIX_C_SOURCE=200809L -fsyntax-only -Iinclude \
        -Isrc/solve "$scratch/new.c" 2>"$scratch/said" ||
        echo "$source:$line: $text does not compile" >>"$scratch/broken"
    changed=$(diff "$source" "$scratch/new.c" | sed -n 's/^> *//p' | tr '\n' ' ')
    case "$after " in *"$changed"*) ;; *)
        echo "$source:$line: $before becomes $changed" >>"$scratch/broken" ;;
    esac
done <"$scratch/changes"
result "code-mutants: each is one change" "$scratch/broken"
exit $failed
