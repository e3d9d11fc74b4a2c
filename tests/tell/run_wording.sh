#!/bin/bash
# Every sentence of templates/wording/en.txt is said by some source, and every
# key that a source says is there. Prints `ok NAME` or `not ok NAME`.
set -u
cd "$(dirname "$0")/../.." || exit 2
scratch=$(mktemp -d) || exit 2
trap 'rm -rf "$scratch"' EXIT

# keys_of FILE: the keys of a wording, sorted.
keys_of() {
    sed -n 's/^\([a-z][a-z0-9.-]*\):.*/\1/p' "$1" | LC_ALL=C sort
}

# Words in quotes that look like a key; pages and tables name no file. Elsewhere
# only what `say` is given.
keys_said() {
    { grep -hoE '"[a-z-]+\.[a-z][a-z0-9-]*"' src/tell/*.[ch] include/telling.h src/proof/*.[ch] \
          src/book/*.[ch] src/render/*.[ch]
      grep -hA3 'say(' src/driver/*.c | grep -oE '"[a-z-]+\.[a-z][a-z0-9-]*"'
      grep -hoE '"plural"' src/tell/phrase.c; } |
        tr -d '"' | grep -v '\.h$' | LC_ALL=C sort -u
}

# breaches FILE: what is only in the file, or only in the sources.
breaches() {
    keys_of "$1" | uniq -d | sed 's/$/: stands twice/'
    keys_of "$1" | uniq | LC_ALL=C comm -23 - "$scratch/said" |
        sed 's/$/: is never said/'
    keys_of "$1" | uniq | LC_ALL=C comm -13 - "$scratch/said" |
        sed 's/$/: is said, but not there/'
}

# verdict NAME FILE: the rule holds where the file of breaches is empty.
verdict() {
    if [ -s "$2" ]; then
        cat "$2"
        echo "not ok $1"
    else
        echo "ok $1"
    fi
}

english=templates/wording/en.txt
keys_said >"$scratch/said"
for wording in templates/wording/*.txt; do
    breaches "$wording" >"$scratch/breaches"
    [ -s "$scratch/said" ] || echo 'no source says anything' \
        >"$scratch/breaches"
    verdict "wording: keys of $(basename "$wording" .txt)" "$scratch/breaches"
done

# The rule finds what it looks for: a key too many, one too few, one twice.
{ grep -v '^cutting.title:' "$english"
  echo 'cutting.headline: Cutting'
  echo 'page.number: page'; } >"$scratch/seeded.txt"
breaches "$scratch/seeded.txt" >"$scratch/found"
: >"$scratch/missed"
for told in 'cutting.headline: is never said' \
    'cutting.title: is said, but not there' 'page.number: stands twice'; do
    grep -qxF "$told" "$scratch/found" || echo "not told: $told"
done >"$scratch/missed"
verdict "wording: seeded breaches are told" "$scratch/missed"

# Pages have no words of their own: no text of two words in quotes is left in
# the sources of the booklet, but messages on faults of ours and of the system.
grep -nE '"[^"]*[A-Za-z]{2,} [a-z]{2,}[^"]*"' src/tell/*.c src/proof/*.c src/book/*.c |
    grep -vE '^src/proof/gather[_a-z]*\.c:|^[^:]*:[0-9]+: *(/?\*|.*internal_error|.*refused\(|.*fprintf\(stderr)' >"$scratch/words"
verdict "wording: no sentence in the sources" "$scratch/words"
