/* A quilt one line of which has to be marked: for pages in true size. */
#ifndef SEAMWRIGHT_TESTS_MAT_H
#define SEAMWRIGHT_TESTS_MAT_H

#include "arena.h"

/* A mat of so many inches with one echo to mark, around a square of a third of
 * its size. */
static inline const char *mat_of(struct arena *arena, int size)
{
    return arena_printf(
        arena,
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"weir\" title=\"Weir\" "
        "units=\"in\" seam=\"1/4\"><fabrics><fabric id=\"pool\"/>"
        "<fabric id=\"stone\"/></fabrics><colorway id=\"noon\">"
        "<cloth fabric=\"pool\" color=\"#335577\"/>"
        "<cloth fabric=\"stone\" color=\"#bbaa99\"/></colorway>"
        "<block id=\"step\" grid=\"3\"><grid across=\"3\" down=\"3\">"
        "<patch key=\"p\" fabric=\"pool\"/><patch key=\"s\" fabric=\"stone\"/>"
        "<map>\n p p p\n p s p\n p p p\n</map></grid></block>"
        "<quilt id=\"mat\"><use block=\"step\" finished=\"%d\"/>"
        "<batting max-gap=\"8\"/><quilting><thread id=\"t\" match=\"pool\"/>"
        "<ditch of=\"step\" between=\"pool stone\" thread=\"t\"/>"
        "<echo of=\"step\" fabric=\"stone\" side=\"outside\" spacing=\"1\" "
        "corners=\"rounded\" thread=\"t\"/></quilting></quilt></pattern>",
        size);
}

#endif
