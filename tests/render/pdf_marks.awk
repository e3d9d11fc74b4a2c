# The operators of a PDF's pages (qpdf --qdf --normalize-content=y): what is
# painted belongs to an element or is an artifact, and neither lies in the
# other (ISO 14289-1, 7.1). Prints a line for each breach. A paper of an order
# (PAPER in the environment) may have few marks, and labels no foot.

/^%% Contents for page/ { page = $5; waiting = 1 }
waiting && /^stream$/   { waiting = 0; inside = 1; depth = 0; pages++; next }
inside && /^endstream$/ {
    inside = 0
    if (depth != 0)
        print "H2 page " page ": " depth " sequences stay open"
}
inside {
    line = $0
    # Words of the page are no operators.
    gsub(/\\./, "", line)
    while (gsub(/\([^()]*\)/, " ", line)) {}
    gsub(/<[0-9A-Fa-f]*>/, " ", line)
    count = split(line, word, /[ \t]+/)
    for (i = 1; i <= count; i++)
        follow(word[i])
}

function follow(token) {
    if (token == "/MCID")
        identified = 1
    if (token == "/Artifact")
        artifact = 1
    if (token == "BDC" || token == "BMC") {
        kind[++depth] = identified ? "element" : artifact ? "artifact" : "span"
        for (d = 1; d < depth && kind[depth] != "span"; d++)
            if (kind[d] != "span")
                print "H2 page " page ": " kind[depth] " inside " kind[d]
        seen[kind[depth]]++
        identified = artifact = 0
    } else if (token == "EMC") {
        if (--depth < 0)
            print "H2 page " page ": a sequence ends that did not begin"
    } else if (token ~ /^(Tj|TJ|'|"|f|F|f\*|S|s|B|B\*|b|b\*|Do|sh)$/) {
        for (d = 1; d <= depth; d++)
            if (kind[d] != "span")
                return
        print "H2 page " page ": " token " outside all"
    }
}

END {
    paper = ENVIRON["PAPER"] != ""
    if (pages == 0 || seen["element"] < (paper ? 12 : 50) ||
        (!paper && seen["artifact"] < pages))
        print "H2 " pages + 0 " pages, " seen["element"] + 0 " elements, " \
              seen["artifact"] + 0 " artifacts"
}
