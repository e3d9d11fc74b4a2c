# transcript.awk EXPECTED ACTUAL: does the output hold what is expected? A line
# `...` stands for any lines. Prints the first line that is not there, or
# nothing. Blanks at the ends of lines do not count.
function fail(line) {
    print "lacks: " line
    failed = 1
    exit
}
# Where the lines first..last of what is expected lie, from `at` on; 0 if they
# do not.
function find(first, last, at, floating,    i) {
    for (; at <= lines - (last - first); at++) {
        for (i = first; i <= last && want[i] == got[at + i - first]; i++)
            ;
        if (i > last)
            return at
        if (i > deepest)
            deepest = i
        if (!floating)
            break
    }
    return 0
}
{ sub(/[ \t\r]+$/, "") }
FNR == NR { want[++wanted] = $0; next }
{ got[++lines] = $0 }
END {
    if (failed)
        exit
    at = 1
    floating = 0
    for (first = 1; first <= wanted; first = last + 1) {
        if (want[first] == "...") {
            floating = 1
            last = first
            continue
        }
        for (last = first; last < wanted && want[last + 1] != "..."; last++)
            ;
        # What stands at the end stands at the end of the output.
        if (floating && last == wanted && lines - (last - first) > at)
            at = lines - (last - first)
        deepest = first
        found = find(first, last, at, floating)
        if (found == 0)
            fail(want[deepest])
        at = found + last - first + 1
        floating = 0
    }
    if (!floating && at <= lines)
        print "has more: " got[at]
}
