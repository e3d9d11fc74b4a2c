#!/bin/sh
# A share of the hostile files that `make hostile` judges: a few of each kind,
# with the program as it is built here; and the proof that the judge finds what is
# wrong: a program that dies, one that says nothing, one that leaves half a set.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
hostile=$BUILD/tests/hostile/hostile
work=$BUILD/tests/hostile/work
failed=0
mkdir -p "$work"

"$hostile" --each "${HOSTILE_EACH:-4}" --keep "$BUILD/tests/hostile/kept" \
    "$SEAMWRIGHT" "$work" samples/*.xml || failed=1

# finds NAME WORDS LINES: a program of these lines breaks the judge's rules.
finds() {
    printf '#!/bin/sh\n%b\n' "$3" >"$work.sh"
    chmod +x "$work.sh"
    "$hostile" --each 1 --only cut-off --keep "$work.kept" "$work.sh" "$work" \
        samples/lantern-walk.xml >"$work.said"
    if [ $? -eq 1 ] && grep -q "^# cut-off-0: .*$2" "$work.said"; then
        echo "ok hostile: finds $1"
    else
        cat "$work.said"
        echo "not ok hostile: finds $1"
        failed=1
    fi
}
finds "a crash" "signal 11" 'kill -SEGV $$'
finds "an internal error" "status 5" 'echo x >&2; exit 5'
finds "a failure without words" "without a word" 'exit 1'
finds "a report of a sanitizer" "sanitizer" 'echo "x.c:1: runtime error: y" >&2; exit 1'
finds "a set that was left" "failed, and wrote" \
    '[ "$1" = check ] || mkdir built; echo x >&2; exit 1'
finds "half a set" "is not there" \
    '[ "$1" = check ] || { mkdir built; echo a.pdf >built/.seamwright-files; }'
finds "half a booklet" "is not whole" \
    '[ "$1" = check ] || { mkdir built; echo a.pdf >built/.seamwright-files; echo %PDF-1.5 and no end >built/a.pdf; }'
finds "something left beside" "left beside" \
    '[ "$1" = check ] || mkdir .seamwright-new-1-0; echo x >&2; exit 1'
finds "a check that says otherwise than build" "check ended with 0" \
    '[ "$1" = check ] || { echo x >&2; exit 1; }'
exit $failed
