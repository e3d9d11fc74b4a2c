# Measures C files: prints lines of the kind "function LINES FILE:LINE NAME",
# "file LINES FILE", and at the end "comments PERCENT LINES" (share of lines
# with a comment among those that are not blank).
#
# A function begins with its signature, at the left margin, and ends with the
# brace there; both are counted. Strings are cut out before comments are
# looked for.

function finish_file() {
    if (file != "")
        print "file", lines, file
}

FNR == 1 {
    finish_file()
    file = FILENAME
    in_comment = 0
    start = 0
    body = 0
}

{
    lines = FNR
    text = $0
    sub(/\r$/, "", text)
    if (text ~ /^[ \t]*$/) {
        if (!body)
            start = 0
        next
    }
    total++
    gsub(/\\./, "", text)
    if (!in_comment)
        gsub(/"[^"]*"/, "", text)
    commented = in_comment
    code = ""
    while (text != "") {
        if (in_comment) {
            at = index(text, "*/")
            if (at == 0)
                break
            text = substr(text, at + 2)
            in_comment = 0
        } else {
            at = match(text, /\/\*|\/\//)
            if (at == 0) {
                code = code text
                break
            }
            commented = 1
            code = code substr(text, 1, at - 1)
            if (substr(text, at, 2) == "//")
                break
            text = substr(text, at + 2)
            in_comment = 1
        }
    }
    comments += commented
}

# What may be a signature: an identifier at the margin of a line of code.
!body && start == 0 && code ~ /^[A-Za-z_]/ {
    start = FNR
    name = code
    sub(/\(.*$/, "", name)
    sub(/^.*[ *]/, "", name)
}

!body && code ~ /[;=]|^}/ && code !~ /^\{/ { start = 0 }
!body && code ~ /^\{/ && start > 0 { body = 1 }

body && code ~ /^\}/ {
    print "function", FNR - start + 1, FILENAME ":" start, name
    body = 0
    start = 0
}

END {
    finish_file()
    if (total > 0)
        printf "comments %.1f %d\n", 100 * comments / total, total
}
