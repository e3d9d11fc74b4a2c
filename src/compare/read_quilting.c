/* Lines of quilting and areas, as a figure draws and sets them against those of
 * the other revision. All that quilting says is compared as one text besides
 * (read_quilt); this says where it differs. */
#include <string.h>

#include "reader.h"

/* "-12.345678": more places than a length may have. Up to nine of each part, as
 * no top is wider; else what a length is. */
static double coordinate(struct reader *reader, const char *text)
{
    enum { DIGITS = 9 };
    const bool below = text[0] == '-';
    const char *at = text + below;
    const size_t whole = strspn(at, "0123456789");
    const size_t parts =
        at[whole] == '.' ? strspn(at + whole + 1, "0123456789") : 0;
    int64_t value = 0, one = 1;
    if (whole == 0 || parts == 0 || whole > DIGITS || parts > DIGITS ||
        at[whole + 1 + parts] != '\0')
        return rational_double(length_told(reader, "points", text));
    for (size_t i = 0; i < whole + 1 + parts; i++) {
        if (i == whole)
            continue;
        value = value * 10 + (at[i] - '0');
        one *= i > whole ? 10 : 1;
    }
    return (double)(below ? -value : value) / (double)one;
}

/* [["1 1/2", "3"], ["1.500000", "4.250000"]] */
static struct revision_line read_points(struct reader *reader,
                                        const json_t *points)
{
    LIST(struct spot) spots = {0};
    for (size_t i = 0;
         i < json_array_size(points) && reader->problem == NULL; i++) {
        const json_t *from = json_array_get(points, i);
        const char *x = json_string_value(json_array_get(from, 0));
        const char *y = json_string_value(json_array_get(from, 1));
        if (x == NULL || y == NULL || x[0] == '\0' || y[0] == '\0') {
            note_flaw(reader, "`quilting` holds what is no point");
            break;
        }
        *LIST_ADD(reader->arena, &spots) =
            (struct spot){coordinate(reader, x), coordinate(reader, y)};
    }
    return (struct revision_line){
        .points = spots.items, .count = spots.count, .fill = ""};
}

/* In their order, which says nothing. A line of one point is none. */
static void read_lines(struct reader *reader, const json_t *lines,
                       struct revision_quilt *quilt)
{
    for (size_t i = 0; i < json_array_size(lines) && reader->problem == NULL;
         i++) {
        const json_t *from = json_array_get(lines, i);
        struct revision_line line =
            read_points(reader, data_list(reader, from, "points"));
        line.closed = json_is_true(json_object_get(from, "closed"));
        if (line.count > 1)
            *LIST_ADD(reader->arena, &quilt->quilting_lines) = line;
    }
}

/* The rings of areas; what covers one is told with its kind, by its letter. A
 * thread has nothing to do with where it lies. */
static void read_areas(struct reader *reader, const json_t *quilting,
                       struct revision_quilt *quilt)
{
    static const char *const words[] = {"letter", "id",       "areas", "size",
                                        "fabric", "stitched", "thread", NULL};
    const json_t *areas = data_list(reader, quilting, "areas");
    const json_t *kinds = data_list(reader, quilting, "kinds");
    struct name_table letters = {0};
    LIST(const char *) fills = {0};
    for (size_t i = 0; i < json_array_size(kinds); i++) {
        const json_t *kind = json_array_get(kinds, i);
        name_table_add(reader->arena, &letters,
                       data_text(reader, kind, "letter"), i);
        *LIST_ADD(reader->arena, &fills) = data_all(reader, kind, words);
    }
    for (size_t i = 0; i < json_array_size(areas) && reader->problem == NULL;
         i++) {
        const json_t *from = json_array_get(areas, i);
        const json_t *rings = data_list(reader, from, "rings");
        size_t kind;
        const bool known = name_table_find(
            &letters, data_text(reader, from, "kind"), &kind);
        for (size_t k = 0; k < json_array_size(rings); k++) {
            struct revision_line ring =
                read_points(reader, json_array_get(rings, k));
            ring.closed = true;
            ring.fill = known ? fills.items[kind] : "";
            if (ring.count > 2)
                *LIST_ADD(reader->arena, &quilt->quilting_areas) = ring;
        }
    }
}

/* A quilt without quilting has no such key, and then nothing is read. */
void read_quilting(struct reader *reader, const json_t *quilting,
                   struct revision_quilt *quilt)
{
    read_lines(reader, data_list(reader, quilting, "lines"), quilt);
    read_areas(reader, quilting, quilt);
}
