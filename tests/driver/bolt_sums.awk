# Reads bolts.csv of an order: each line of a bolt ends where the one before it
# ended and what it cuts begins. Only what squares up a new bolt, 2 in at most,
# lies before the first line.
NR == 1 { next }
{
    bolt = $1 "," $3
    from = bolt == last ? at : 0
    beyond = $10 - from - $6 * $7
    if (beyond < 0 || beyond > (bolt == last ? 0 : 2)) {
        print "# " $0 ": begins " beyond " in behind the line before it"
        wrong = 1
    }
    last = bolt
    at = $10
    lines++
}
END { exit wrong || lines < 10 }
