# fences.awk -v folder=FOLDER PAGE...: writes the examples of pages, that is the
# blocks between ``` and ```, to FOLDER/NUMBER, and prints a line for each:
# NUMBER PAGE:LINE MARK. A block that does not end is printed as NUMBER
# PAGE:LINE open.
function begin(mark) {
    inside = 1
    number++
    place = FILENAME ":" FNR
    file = folder "/" number
    printf "" >file
    print number, place, mark
}
FNR == 1 && inside { print ++number, place, "open"; inside = 0 }
/^ *```/ {
    if (inside) {
        inside = 0
        close(file)
    } else {
        mark = $0
        sub(/^ *```/, "", mark)
        begin(mark == "" ? "none" : mark)
    }
    next
}
inside { print >file }
END { if (inside) print ++number, place, "open" }
