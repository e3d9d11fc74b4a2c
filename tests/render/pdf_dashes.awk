# The dashed lines of a PDF's pages (qpdf --qdf --normalize-content=y): each
# begins and ends with a whole dash, or is one (ISO 128-20). Dots that fill an
# area, dashes of no length, are cut at its edge. Prints a line for each breach.

/^%% Contents for page/ { page = $5; waiting = 1 }
waiting && /^stream$/   { waiting = 0; inside = 1; forget(); next }
inside && /^endstream$/ { inside = 0 }
inside {
    line = $0
    # Words of the page are no operators.
    gsub(/\\./, "", line)
    while (gsub(/\([^()]*\)/, " ", line)) {}
    gsub(/<[0-9A-Fa-f]*>/, " ", line)
    gsub(/\[/, " [ ", line)
    gsub(/\]/, " ] ", line)
    count = split(line, word, /[ \t]+/)
    for (i = 1; i <= count; i++)
        if (word[i] != "")
            follow(word[i])
}

function forget() {
    dashes = total = phase = depth = operands = lines = 0
}

function reach(x, y) {
    long[lines] += sqrt((x - at_x) ^ 2 + (y - at_y) ^ 2)
    at_x = x
    at_y = y
}

function begin(x, y) {
    long[++lines] = 0
    at_x = from_x = x
    at_y = from_y = y
}

function set_dash(    k) {
    dashes = total = 0
    phase = operand[operands]
    for (k = 1; k < operands; k++)
        if (operand[k] != "[" && operand[k] != "]") {
            dash[++dashes] = operand[k]
            total += operand[k]
        }
    # An odd list is used twice.
    if (dashes % 2 == 1)
        total *= 2
}

function save() {
    depth++
    kept_dashes[depth] = dashes
    kept_first[depth] = dash[1]
    kept_total[depth] = total
    kept_phase[depth] = phase
}

function restore() {
    dashes = kept_dashes[depth]
    dash[1] = kept_first[depth]
    total = kept_total[depth]
    phase = kept_phase[depth]
    depth--
}

# Behind the first dash come whole periods, each of which ends with a dash.
function stroke(    k, rest) {
    for (k = 1; k <= lines && dashes > 0 && dash[1] > 0; k++) {
        seen++
        rest = (long[k] - dash[1]) / total
        rest = (rest - int(rest + 0.5)) * total
        if (phase != 0 || (long[k] > dash[1] + 0.05 && \
                           (rest > 0.05 || rest < -0.05)))
            printf "C6 page %d: a line of %.2f pt in dashes of %.2f every " \
                   "%.2f pt\n", page, long[k], dash[1], total
    }
}

function follow(token,    a, b) {
    if (token ~ /^[-+.0-9]/ || token == "[" || token == "]") {
        operand[++operands] = token
        return
    }
    a = operand[operands - 1]
    b = operand[operands]
    if (token == "d")
        set_dash()
    else if (token == "q")
        save()
    else if (token == "Q")
        restore()
    else if (token == "m")
        begin(a, b)
    else if (token == "l" || token == "c" || token == "v" || token == "y")
        reach(a, b)
    else if (token == "h")
        reach(from_x, from_y)
    else if (token == "re") {
        begin(operand[operands - 3], operand[operands - 2])
        long[lines] = 2 * (a + b)
    } else if (token ~ /^([Ss]|[Bb]\*?)$/)
        stroke()
    if (token ~ /^([SsnfF]|f\*|[Bb]\*?)$/)
        lines = 0
    operands = 0
}

END {
    if (seen < 20)
        print "C6 " seen + 0 " dashed lines"
}
