#!/bin/sh
# The inputs kept in tests/fuzz/kept, once each through their target: what the
# fuzzer found to be worth trying, and what once broke one.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
failed=0
for source in tests/fuzz/fuzz_*.c; do
    name=$(basename "$source" .c)
    set -- tests/fuzz/kept/"${name#fuzz_}"/*
    if "$BUILD/tests/fuzz/$name" "$@" >"$BUILD/tests/fuzz.log" 2>&1; then
        echo "ok fuzz: ${name#fuzz_}: $# inputs"
    else
        tail -n 3 "$BUILD/tests/fuzz.log"
        echo "not ok fuzz: ${name#fuzz_}"
        failed=1
    fi
done
# The smallest repository that does the work.
size=$(cat tests/fuzz/kept/*/* | wc -c)
if [ "$size" -lt 200000 ]; then
    echo "ok fuzz: kept inputs are small"
else
    echo "not ok fuzz: $size bytes are kept"
    failed=1
fi
# The fuzzer reads no dictionary with other bytes in it, and then runs nothing.
if tests/fuzz/dictionary.sh >"$BUILD/tests/fuzz.log" &&
    ! LC_ALL=C grep -n '[^ -~]' "$BUILD/tests/fuzz.log"; then
    echo "ok fuzz: the dictionary can be read"
else
    echo "not ok fuzz: the dictionary cannot be read"
    failed=1
fi
exit $failed
