/* A quilt on its way through the pass, as far as a test needs it: lines and
 * areas, before they are checked. */
#ifndef SEAMWRIGHT_TESTS_QUILTING_PLANNED_H
#define SEAMWRIGHT_TESTS_QUILTING_PLANNED_H

#include <glob.h>

#include "../../src/quilting/quilter.h"
#include "../resolve/small.h"

/* Whole files, for the samples. */
static inline char *planned_read(struct arena *arena, const char *path)
{
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    assert_int_equal(fseek(file, 0, SEEK_END), 0);
    const size_t size = (size_t)ftell(file);
    rewind(file);
    char *text = arena_alloc(arena, size + 1);
    assert_int_equal(fread(text, 1, size, file), size);
    fclose(file);
    return text;
}

/* The steps of `plan_one` (src/quilting/quilting.c) up to how lines are found.
 * The definition is a copy, so that a test may tell another max-gap. */
static inline struct quilter *planned_quilter(struct small *small, size_t which,
                                              struct definition *definition)
{
    struct arena *arena = small->run->arena;
    const struct sewn_quilt *sewn = &small->sewn->quilts.items[which];
    struct sewn_quilt *quilt = ARENA_NEW(arena, struct sewn_quilt);
    struct quilting_plan *plan = ARENA_NEW(arena, struct quilting_plan);
    struct quilter *quilter = ARENA_NEW(arena, struct quilter);
    struct fault fault = {0};
    *definition = *sewn->definition;
    *quilt = *sewn;
    quilt->definition = definition;
    *plan = (struct quilting_plan){.quilt = quilt,
                                   .told = sewn->definition->quilting};
    *quilter = (struct quilter){.run = small->run,
                                .arena = arena,
                                .sized = small->sized,
                                .told = plan->told,
                                .plan = plan};
    quilter->ground = ground_of(arena, quilt->cloth);
    quilter->seams = join_seams(arena, quilter->ground);
    quilter->top_symmetries = top_symmetries(arena, quilter->ground, &fault);
    find_places(quilter);
    for (size_t i = 0; i < plan->told->items.count; i++) {
        const struct told_item *item = &plan->told->items.items[i];
        if (item->area != NO_ITEM)
            continue;
        if (item->kind == TOLD_DITCH)
            draw_ditch(quilter, item);
        else if (item->kind == TOLD_EXTEND)
            draw_extended(quilter, item);
        else if (item->kind == TOLD_ECHO)
            draw_echoes(quilter, item, QUILTING_NONE);
        else if (item->kind == TOLD_CONNECT)
            draw_connected(quilter, item);
    }
    fill_areas(quilter);
    find_ways(quilter);
    assert_false(quilter->failed);
    return quilter;
}

/* Looks at one quilt of a sewn sample. */
typedef void quilt_visitor(struct small *small, size_t quilt, void *context);

/* All quilts of all samples and of the patterns of tests/quilting/plans (other
 * angles), each in an arena of its own that goes behind it. */
static inline void planned_each(quilt_visitor *visit, void *context)
{
    glob_t found;
    assert_int_equal(glob("samples/*.xml", 0, NULL, &found), 0);
    assert_int_equal(
        glob("tests/quilting/plans/*.xml", GLOB_APPEND, NULL, &found), 0);
    for (size_t i = 0; i < found.gl_pathc; i++) {
        struct arena *arena = arena_create();
        struct small small =
            small_whole(arena, planned_read(arena, found.gl_pathv[i]));
        small_finish(&small);
        for (size_t q = 0; q < small.sewn->quilts.count; q++)
            visit(&small, q, context);
        arena_destroy(arena);
    }
    globfree(&found);
}

#endif
