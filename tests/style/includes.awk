# The include rule: a file in src/X, or a header of include/ owned by X, takes
# in headers of include/ whose owner's rank is at most that of X, and headers
# that lie in src/X. Nothing else but system headers.
# Run from the root as: awk -f includes.awk FILE... ; prints breaches.

BEGIN {
    count = split("base diag plan read resolve solve sew quilting cut tolerance kit mend compare tell proof book render driver",
                  names, " ")
    for (i = 1; i <= count; i++)
        rank[names[i]] = i
}

# The stage that a header's first line names.
function owner(path, line) {
    if (path in owners)
        return owners[path]
    line = ""
    getline line < path
    close(path)
    if (line !~ /^\/\* owner: [a-z]+( \*\/)?$/)
        return owners[path] = ""
    split(line, words, " ")
    return owners[path] = words[3]
}

function exists(path, line, found) {
    found = (getline line < path) >= 0
    close(path)
    return found
}

function breach(text) {
    print FILENAME ":" FNR ": " text
}

FNR == 1 {
    split(FILENAME, parts, "/")
    stage = parts[1] == "include" ? owner(FILENAME) : parts[2]
    if (!(stage in rank))
        breach(parts[1] == "include" ? "the first line names no owner" \
                                     : "src/" stage " is no stage")
}

/^[ \t]*#[ \t]*include/ {
    name = $0
    sub(/^[^"<]*["<]/, "", name)
    sub(/[">].*$/, "", name)
    system_like = $0 ~ /</
    public = "include/" name
    if (name ~ /\.\./ || (!system_like && name ~ /\//))
        breach("\"" name "\" leads out of the folder")
    else if (exists(public) && system_like)
        breach("<" name "> is our own: use quotes")
    else if (exists(public)) {
        if (owner(public) in rank && rank[owner(public)] > rank[stage])
            breach(name " belongs to " owner(public) ", which is above " stage)
    } else if (!system_like && (parts[1] == "include" ||
                                !exists("src/" stage "/" name)))
        breach(name " lies neither in include/ nor in src/" stage)
}
