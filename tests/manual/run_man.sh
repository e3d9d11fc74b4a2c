#!/bin/bash
# The man pages: mandoc finds nothing to say, all that the manual has stands in
# them, they are installed and taken away again. An independent reader of roff
# renders them, so that its words can be compared with the Markdown.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
export LC_ALL=C.UTF-8 # signs are characters here, not bytes
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
failed=0

result() { # CASE PROBLEM: no problem is a success.
    if [ -z "$2" ]; then
        echo "ok man: $1"
    else
        echo "not ok man: $1: $2"
        failed=1
    fi
}

# As text, so wide that no word is broken.
rendered() {
    mandoc -T utf8 -O width=1000 "$1" | sed 's/.\x08//g'
}

# The pages that contents.md lists below a head, in their order.
pages_of() {
    awk -v head="## $1" '/^## / { inside = $0 == head }
        inside && /^- \[/ { print substr($0, 4, index($0, "]") - 4) }' \
        templates/manual/contents.md
}

# One a line, in capitals, as heads are set so; without the signs that only
# Markdown has, or only roff.
words() {
    sed 's/[:`*#•]//g' | tr 'a-z' 'A-Z' | tr -s ' \n' '\n\n' | grep .
}

# lacks MAN PAGE: words of the page that do not follow each other in the man page.
# The title of the first page of each is the name of the whole; the call that
# prints the synopsis is not printed.
lacks() {
    sed -E '/^```/d; s/^- //; s/\[([^]]*)\]\([^)]*\)/\1/g; 1s/$/./' "$2" |
        sed -E '1{/^# (commands|language): /d}
            /^## Synopsis/,/^## Desc/{/^\$|^\.\.\.$/d}' |
        words >"$work/wanted"
    rendered "$1" | words >"$work/found"
    awk -v file="$work/found" '
        BEGIN { while ((getline word <file) > 0) found[++n] = word }
        { want[++m] = $0 }
        function agree(i,    k) {
            for (k = 1; k <= m && found[i + k - 1] == want[k]; k++)
                ;
            if (k > best) best = k
            return k > m
        }
        END {
            for (i = 1; i <= n; i++)
                if (found[i] == want[1] && agree(i))
                    exit
            for (k = best - 3; k <= best + 3; k++)
                if (k > 0 && k <= m) printf "%s ", want[k]
            print ""
        }' "$work/wanted"
}

for man in seamwright.1 seamwright-pattern.5; do
    result "$man: lint" "$(mandoc -T lint -W warning "$BUILD/$man" 2>&1 | head -n 5)"
    result "$man: has a name to be found by" "$(rendered "$BUILD/$man" |
        grep -qE "^ +${man%.*} [-–] [a-z]" || echo none)"
done
for page in $(pages_of 'The program'); do
    result "seamwright.1 has $page" \
        "$(lacks "$BUILD/seamwright.1" "templates/manual/$page.md")"
done
for page in $(pages_of 'The language'); do
    result "seamwright-pattern.5 has $page" \
        "$(lacks "$BUILD/seamwright-pattern.5" "templates/manual/$page.md")"
done
problem=
[ "$(pages_of 'The language' | wc -l)" -ge 20 ] &&
    [ "$(pages_of 'The program' | wc -l)" -ge 8 ] || problem="pages are missing"
result "both parts were looked at" "$problem"

# What it cannot turn into roff it refuses.
refuses() { # NAME LINES
    mkdir -p "$work/pages"
    printf '# contents: x\n\n## The program\n\n- [odd](odd.md): odd\n' \
        >"$work/pages/contents.md"
    printf '# odd: odd\n\n%b\n' "$2" >"$work/pages/odd.md"
    problem="it took them"
    awk -v section=1 -v date=2026-01-01 -v version=0 -f src/driver/manual.awk \
        "$work/pages/contents.md" >"$work/out" 2>"$work/said" ||
        problem=$(grep -q 'odd.md' "$work/said" || echo "it does not say where")
    result "refuses $1" "$problem"
}
refuses "a table" '| a | b |'
refuses "a quotation" '> so'
refuses "a head that is too deep" '### Deep'
refuses "a block without an end" '```text file x\nwords'
refuses "a link without an end" 'see [there](there'

# make exports what it was called with; the installation must not follow that.
unset MAKEFLAGS MAKELEVEL MFLAGS MAKEOVERRIDES
installed() {
    (cd "$work/root" && find . -type f | LC_ALL=C sort | xargs)
}
make -s BUILD="$BUILD" DESTDIR="$work/root" PREFIX=/usr install-files \
    >"$work/said" 2>&1 || result "installs" "$(head -n 1 "$work/said")"
wanted="./usr/bin/seamwright ./usr/share/man/man1/seamwright.1"
wanted="$wanted ./usr/share/man/man5/seamwright-pattern.5"
wanted="$wanted ./usr/share/seamwright/order.rng ./usr/share/seamwright/pattern.rng"
problem=
[ "$(installed)" = "$wanted" ] || problem=$(installed)
result "installs program, pages and schema" "$problem"
problem=
make -s BUILD="$BUILD" DESTDIR="$work/root" PREFIX=/usr uninstall \
    >"$work/said" 2>&1 || problem=$(head -n 1 "$work/said")
result "uninstall leaves nothing" "$problem$(installed)"
exit $failed
