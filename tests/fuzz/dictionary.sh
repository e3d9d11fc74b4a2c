#!/bin/sh
# The words of the grammar as a dictionary for the fuzzer: elements, attributes
# and choices, from the lists of include/pattern.h.
set -eu
cd "$(dirname "$0")/../.."
awk '
    function word(text) {
        gsub(/\\/, "\\\\", text)
        gsub(/"/, "\\\"", text)
        if (!(text in told))
            print "\"" text "\""
        told[text] = 1
    }
    /X\(ELEMENT_/ && match($0, /"[^"]*"/) {
        name = substr($0, RSTART + 1, RLENGTH - 2)
        word("<" name)
        word("</" name ">")
    }
    /X\(ATTR_/ && match($0, /"[^"]*"/)    {
        word(" " substr($0, RSTART + 1, RLENGTH - 2) "=\"")
        choices = 1
        $0 = substr($0, RSTART + RLENGTH)
    }
    choices {
        while (match($0, /"[^"]*"/)) {
            count = split(substr($0, RSTART + 1, RLENGTH - 2), list, " ")
            for (i = 1; i <= count; i++)
                word(list[i])
            $0 = substr($0, RSTART + RLENGTH)
        }
        if (/\)/)
            choices = 0
    }
    END {
        # The sign of the root, as the fuzzer reads bytes.
        print "\"\\xE2\\x88\\x9A\""
        print "\"\\xE2\\x88\\x9A3\""
        word("/>")
        word("\"")
        word("<pattern xmlns=\"urn:seamwright:pattern:1\"")
        word("<order xmlns=\"urn:seamwright:pattern:1\"")
        count = split("1/2 1-1/2 3r2 r6 +r2 -r3 x in cm # width height leftover first-cut", list, " ")
        for (i = 1; i <= count; i++)
            word(list[i])
    }' include/pattern.h
