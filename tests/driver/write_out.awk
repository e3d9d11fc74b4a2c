# Writes out each `times`: the element, with all that stands in it, so often.
# Of a source whose text has no > in attributes and no comments. A row of a map or
# a picture is no element and stays.

function take(at,    depth, from, tag, end) {
    # The element that begins at `at`: ends behind its end tag.
    depth = 0
    end = at
    do {
        from = end + index(substr(text, end), "<") - 1
        end = from + index(substr(text, from), ">")
        tag = substr(text, from, end - from)
        if (tag ~ /^<\//)
            depth--
        else if (tag !~ /\/>$/)
            depth++
    } while (depth > 0)
    return substr(text, at, end - at)
}

{ text = text $0 "\n" }

END {
    # The last first: what it stands in is then written out with it.
    while (match(text, /.* times="[0-9]+"/)) {
        rest = substr(text, 1, RLENGTH)
        match(rest, /.*</)
        at = RLENGTH
        whole = take(at)
        match(whole, / times="[0-9]+"/)
        count = substr(whole, RSTART + 8, RLENGTH - 9)
        one = substr(whole, 1, RSTART - 1) substr(whole, RSTART + RLENGTH)
        many = ""
        for (i = 0; i < count; i++)
            many = many one
        text = substr(text, 1, at - 1) many substr(text, at + length(whole))
    }
    printf "%s", text
}
