# Cuts cloth by the words of a booklet's cutting pages alone, as a person does
# with strips of paper: reads what `pdftotext -raw` finds there, and says what
# cannot be done as it is told. What comes of it is compared with the rows of
# cutting.csv, given as `label width height count` in the file `pieces`.
# Widths of cloth are read from the words below the materials.

function fail(text) {
    printf "%s, line %s: %s\n", letter, line, text
    failed = 1
}

function take_gives() {
    if (!take("[0-9]+ [A-Z]+[0-9]+(/[A-Z]+[0-9]+)*(, [0-9]+ [A-Z]+[0-9]+(/[A-Z]+[0-9]+)*)*"))
        return
    gives = taken
    letter = gives
    sub(/^[0-9]+ /, "", letter)
    sub(/[0-9].*/, "", letter)
    width = widths[letter]
    if (width == "")
        fail("its cloth has no width")
}

# Takes `pattern` off the front of the text, into `taken`.
function take(pattern) {
    if (!match(text, "^" pattern))
        return 0
    taken = substr(text, 1, RLENGTH)
    text = substr(text, RLENGTH + 1)
    sub(/^ +/, "", text)
    return 1
}

# Each number of what was taken, in numbers[1...].
function read_numbers(from,    rest, n) {
    n = 0
    rest = from
    while (match(rest, /[0-9]*\.?[0-9]+/)) {
        numbers[++n] = substr(rest, RSTART, RLENGTH) + 0
        rest = substr(rest, RSTART + RLENGTH)
    }
    return n
}

# The cuts of a strip become pieces, `strips` times.
function cut_up(strips,    i) {
    leave_fold()
    for (i = 1; i <= cuts; i++) {
        got[cut_label[i]] += cut_count[i] * strips
        if (cut_across[i] > height + 1e-9)
            fail("a piece of " cut_across[i] " from a strip of " height)
        check_size(cut_label[i], cut_along[i], cut_across[i] / cut_stack[i])
        lines_cut += 1
    }
    cuts = 0
}

function check_size(label, a, b) {
    if (!(label in wanted))
        fail("nothing is called " label)
    else if (!((a == wide[label] && b == high[label]) ||
               (b == wide[label] && a == high[label])))
        fail(label " is cut " a " x " b ", not " wide[label] " x " high[label])
}

# Two pieces whose cut lies in the fold hang together until that is slit.
function leave_fold() {
    if (folded == 2 && cuts > 0 && at == reach / 2 && !slit)
        fail("the fold at " at " is not slit")
    slit = 0
}

function slit_fold() {
    read_numbers(taken)
    slit = 1
    if (folded != 2 || numbers[1] != at || at != reach / 2)
        fail("no cut lies in a fold at " numbers[1])
}

# What was begun is done before something else begins.
function finish() {
    if (shaped > 0)
        shape_strips()
    else if (strips > 0)
        cut_up(strips * sheets)
    strips = shaped = 0
}

# Strips that a ruler cuts aslant are as high as what they give, and each of
# them is told.
function shape_strips(    n, i, part, label) {
    if (shaped != strips)
        fail("what " shaped " strips give is told of " strips)
    n = split(gives, part, ", ")
    for (i = 1; i <= n; i++) {
        label = part[i]
        sub(/^[0-9]+ /, "", label)
        if (!(label in wanted))
            fail("nothing is called " label)
        else if (high[label] != height)
            fail("the strip of " label " is " height " high, not " high[label])
    }
}

# What a ruler cuts aslant from so many of the strips; where it lies was drawn.
function shapes(    n, i, part, label, count) {
    count = taken + 0
    sub(/^[^:]*: /, "", taken)
    sub(/\.$/, "", taken)
    n = split(taken, part, ", ")
    for (i = 1; i <= n; i++) {
        label = part[i]
        sub(/^[0-9]+ /, "", label)
        got[label] += count * part[i]
    }
    shaped += count
    lines_cut++
}

function begin(count, tall, length_of, layers) {
    finish()
    strips = count
    height = tall
    reach = length_of
    folded = layers
    at = 0
}

# ---- sentences ----

function strip_line(    n) {
    finish()
    n = read_numbers(taken)
    if (in_sheet) {
        begin(numbers[1], numbers[2], sheet_reach(n), 1)
        used += numbers[1] * numbers[2]
        if (used > sheet_room(n) + 1e-9)
            fail("the strips are wider than their sheet")
        return
    }
    take_gives()
    begin(numbers[1], numbers[2], width, 2)
}

# "Trim A2, A5 and A6 to 2.5.": all cuts of this strip that bear these labels,
# each of which is there.
function trim_several(    i, k, n, high_now, label, labels, found) {
    high_now = taken
    sub(/.* to /, "", high_now)
    sub(/^Trim /, "", taken)
    sub(/ to .*/, "", taken)
    sub(/ and /, ", ", taken)
    n = split(taken, labels, ", ")
    for (k = 1; k <= n; k++) {
        found = 0
        label = labels[k]
        for (i = 1; i <= cuts; i++)
            if (cut_label[i] == label) {
                cut_across[i] = high_now + 0
                found++
            }
        if (found != 1)
            fail(label " is to be trimmed, and was cut " found " times")
    }
}

# Do the strips lie along the height of the sheet? A rest says where they come
# off, a sheet how long they are.
function lies_down(n) {
    if (n < 3)
        return taken ~ /side/
    if (numbers[3] != sheet_wide && numbers[3] != sheet_high)
        fail("no side of the sheet is " numbers[3])
    return numbers[3] != sheet_wide
}

function sheet_reach(n) {
    return lies_down(n) ? sheet_high : sheet_wide
}

function sheet_room(n) {
    return lies_down(n) ? sheet_wide : sheet_high
}

# Left whole: they are joined, so only their number and height can be checked.
function whole(    label) {
    label = gives
    sub(/^[0-9]+ /, "", label)
    gsub("/", ", ", label)
    got[label] += strips
    if (!(label in wanted))
        fail("nothing is called " label)
    else if (high[label] != height)
        fail(label " is " height " wide, not " high[label])
    strips = 0
}

function one_cut(    n, label) {
    label = taken
    sub(/:.*/, "", label)
    sub(/^[^:]*: /, "", taken)
    n = read_numbers(taken)
    at += numbers[1] * numbers[2]
    if (n == 3 && numbers[3] != at)
        fail("the ruler stands at " at ", not at " numbers[3])
    if (at > reach / folded + 1e-9)
        fail("cut at " at " of " reach / folded)
    cuts++
    cut_label[cuts] = label
    cut_along[cuts] = numbers[2]
    cut_across[cuts] = height
    cut_count[cuts] = numbers[1] * folded
    cut_stack[cuts] = 1
}

# What borders keep of a strip until the top is measured: at least as long as
# they should become, and all that is left there.
function border_rest(    n, i, part, label, count, room, need) {
    room = taken
    sub(/.*leave the rest, /, "", room)
    room += 0
    sub(/: leave.*/, "", taken)
    gsub(" and ", ", ", taken)
    if (folded != 1)
        fail("a border is left folded")
    if (room != reach - at)
        fail("the rest is " reach - at ", not " room)
    n = split(taken, part, ", ")
    for (i = 1; i <= n; i++) {
        label = part[i]
        count = label ~ /^[0-9]+ / ? label + 0 : 1
        sub(/^[0-9]+ /, "", label)
        cuts++
        cut_label[cuts] = label
        cut_along[cuts] = wide[label] > high[label] ? wide[label] : high[label]
        cut_across[cuts] = height
        cut_count[cuts] = count
        cut_stack[cuts] = 1
        need += count * cut_along[cuts]
    }
    if (need > room + 1e-9)
        fail("the borders need " need " of " room)
    at = reach
}

function open_end() {
    leave_fold()
    read_numbers(taken)
    if (numbers[1] != reach - 2 * at)
        fail("what is opened is " reach - 2 * at ", not " numbers[1])
    reach = numbers[1]
    folded = 1
    at = 0
}

# What was told is of all strips but the last.
function last_strip() {
    cut_up(strips - 1)
    strips = 1
    reach = width
    folded = 2
    at = 0
}

function lengthwise(    n) {
    n = read_numbers(taken)
    take_gives()
    begin(n > 1 ? numbers[2] : 1, numbers[1], width, 2)
}

# What lies beside the long pieces, or at the end of one that was trimmed.
function keep(    n, i, found) {
    n = read_numbers(taken)
    rest_wide[numbers[1]] = numbers[n - 1]
    rest_high[numbers[1]] = numbers[n]
    found = reach - folded * at == numbers[n - 1] && height == numbers[n]
    for (i = 1; i <= cuts; i++)
        found = found || cut_along[i] == numbers[n - 1] &&
            height - cut_across[i] == numbers[n] &&
            (n == 3 ? 1 : numbers[2]) <= cut_count[i] * strips
    if (!found)
        fail("no rest is " numbers[n - 1] " x " numbers[n])
}

function rest(    n) {
    finish()
    n = read_numbers(taken)
    sheets = n > 3 ? numbers[2] : 1
    in_sheet = 1
    used = 0
    sheet_wide = numbers[n - 1]
    sheet_high = numbers[n]
    if (rest_wide[numbers[1]] != sheet_wide ||
        rest_high[numbers[1]] != sheet_high)
        fail("there is no such rest")
}

function sheet(    n) {
    finish()
    n = read_numbers(taken)
    sheets = numbers[1]
    in_sheet = 1
    used = 0
    sheet_wide = numbers[2]
    sheet_high = numbers[3]
}

function whole_width_again() {
    finish()
    in_sheet = 0
    sheets = 1
}

# The page's own sum, and ours, of each label that it names.
function count(    n, i, part, label) {
    finish()
    sub(/^Count: /, "", taken)
    sub(/\.$/, "", taken)
    n = split(taken, part, ", ")
    for (i = 1; i <= n; i++) {
        label = part[i]
        sub(/^[0-9]+ /, "", label)
        gsub("/", ", ", label)
        there = got[label] + 0
        if (there != part[i] + 0)
            fail("the count says " part[i] ", there are " there)
    }
    in_sheet = 0
    sheets = 1
}

# ---- all of them ----

# One sentence, or one word of a drawing, which says nothing.
function read_on() {
    if (take("[0-9]+ [0-9]+ strips?, [0-9.]+ (in|cm) wide\\.")) {
        line = taken + 0
        sub(/^[0-9]+ /, "", taken)
        keep_taken = taken
        whole_width_again()
        taken = keep_taken
        strip_line()
    } else if (take("[a-z][a-z]? [0-9]+ strips?, [0-9.]+ (in|cm) wide, ([0-9.]+ (in|cm) long|off its (end|side))\\."))
        strip_line()
    else if (take("[0-9]+ strips?: [0-9]+ [A-Z]+[0-9]+(, [0-9]+ [A-Z]+[0-9]+)*\\."))
        shapes()
    else if (take("Leave (it|them) whole: [^.]*\\."))
        whole()
    else if (take("[A-Z]+[0-9]+: [0-9]+ cuts? of [0-9.]*[0-9](, to [0-9.]*[0-9])?\\."))
        one_cut()
    else if (take("([0-9]+ )?[A-Z]+[0-9]+((, | and )([0-9]+ )?[A-Z]+[0-9]+)*: leave the rest, [0-9.]*[0-9], whole until step [0-9]+\\."))
        border_rest()
    else if (take("Trim to [0-9.]*[0-9]\\.")) {
        read_numbers(taken)
        cut_across[cuts] = numbers[1]
    } else if (take("Trim [A-Z]+[0-9]+(/[A-Z]+[0-9]+)*(, [A-Z]+[0-9]+(/[A-Z]+[0-9]+)*)* and [A-Z]+[0-9]+(/[A-Z]+[0-9]+)* to [0-9.]*[0-9]\\.")) {
        trim_several()
    } else if (take("Slice (it|each) into [0-9]+ of [0-9.]*[0-9]\\.")) {
        read_numbers(taken)
        cut_stack[cuts] = numbers[1]
        cut_across[cuts] = numbers[1] * numbers[2]
        cut_count[cuts] *= numbers[1]
    } else if (take("At [0-9.]*[0-9] is the fold: slit it\\."))
        slit_fold()
    else if (take("Open the rest at the fold: one layer, [0-9.]+ (in|cm) long\\."))
        open_end()
    else if (take("Open (the|each) strip: one layer\\."))
        folded = 1
    else if (take("Cut the last one like this(, and leave it folded)?:"))
        last_strip()
    else if (take("[0-9]+ Cut [0-9.]+ (in|cm) off the length(, [0-9]+ times)?\\. Keep (it|them) folded, trim off the selvages, and cut parallel to them\\.")) {
        line = taken + 0
        sub(/^[0-9]+ /, "", taken)
        keep_taken = taken
        whole_width_again()
        taken = keep_taken
        lengthwise()
    } else if (take("Keep rest [0-9]+: ([0-9]+ of )?[0-9.]+ × [0-9.]+ (in|cm)\\."))
        keep()
    else if (take("[0-9]+ Rest [0-9]+, ([0-9]+ of )?[0-9.]+ × [0-9.]+ (in|cm), one layer\\.")) {
        line = taken + 0
        sub(/^[0-9]+ /, "", taken)
        rest()
    } else if (take("[0-9]+ [0-9]+ [a-z -]+, [0-9.]+ × [0-9.]+ (in|cm)(, one layer|: stack them|: stack up to [0-9])\\.")) {
        line = taken + 0
        sub(/^[0-9]+ /, "", taken)
        sheet()
    } else if (take("Count: [^.]*\\."))
        count()
    else if (!take("[^ ]+"))
        text = ""
}

# Below the materials: "A, B and C: 42 in wide", of all cloths of one width.
function read_widths(from,    found, letters, one, n, i) {
    while (match(from, /[A-Z]+(, [A-Z]+)*( and [A-Z]+)?: [0-9.]+ (in|cm) wide/)) {
        found = substr(from, RSTART, RLENGTH)
        from = substr(from, RSTART + RLENGTH)
        letters = substr(found, 1, index(found, ":") - 1)
        sub(/ and /, ", ", letters)
        n = split(letters, one, ", ")
        for (i = 1; i <= n; i++)
            if (!(one[i] in widths))
                widths[one[i]] = substr(found, index(found, ":") + 2) + 0
    }
}

BEGIN {
    while ((getline row < pieces) > 0) {
        split(row, cell, "\t")
        wanted[cell[1]] = cell[4]
        wide[cell[1]] = cell[2] + 0
        high[cell[1]] = cell[3] + 0
    }
    sheets = 1
}

{
    gsub("½", ".5"); gsub("¼", ".25"); gsub("¾", ".75")
    gsub("⅛", ".125"); gsub("⅜", ".375"); gsub("⅝", ".625"); gsub("⅞", ".875")
    gsub("\302\240", " ")
    gsub("\f", " ") # a page may begin with a line of cutting
}

{ text = text (text == "" ? "" : " ") $0 }

END {
    gsub(/  +/, " ", text)
    read_widths(text)
    while (text != "")
        read_on()
    finish()
    for (label in wanted)
        if (got[label] != wanted[label]) {
            printf "%s: %d, not %d\n", label, got[label], wanted[label]
            failed = 1
        }
    if (lines_cut == 0) {
        print "no line was read"
        failed = 1
    }
    exit failed
}
