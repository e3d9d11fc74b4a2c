/* Changes that several booklets share: of quilts that have a block in common, of
 * the colorways of one quilt. Who reads must not compare two sentences to find
 * that they are one. Read next: changes.c. */
#include <string.h>

#include "buffer.h"
#include "changes.h"
#include "name_table.h"

/* Of a step, what a figure would show: with its name, its parts and its faces
 * the same, it is the same step in another size at most. */
static const char *step_key(const struct change_wording *w,
                            const struct change *change)
{
    struct buffer out = buffer_in(w->arena);
    for (int side = 0; side < 2; side++) {
        if (change->quilt[side] == NOWHERE || change->step[side] == NOWHERE)
            continue;
        const struct revision_step *step =
            &w->comparison->revisions[side]
                 ->quilts.items[change->quilt[side]]
                 .steps.items[change->step[side]];
        buffer_printf(&out, "%zu %s %d %zu %zu;", step->number, step->id,
                      (int)step->mirrored, step->parts.count,
                      step->cloth == NULL ? 0 : step->cloth->faces.count);
    }
    return buffer_string(&out);
}

/* Of a unit or block that is cast in several fabrics: one step makes all of
 * them, so they are one change, too. */
static const struct revision_step *cast_step(const struct change_wording *w,
                                             const struct change *change)
{
    if (change->kind != CHANGE_STEP || change->step[0] == NOWHERE)
        return NULL;
    const struct revision_step *step =
        &w->comparison->revisions[0]
             ->quilts.items[change->quilt[0]]
             .steps.items[change->step[0]];
    return step->id[0] == '\0' || step->cast[0] == '\0' ||
                   step->name[0] == '\0'
               ? NULL
               : step;
}

/* All that is told of a change; "" where its title says too little to be sure
 * that another one is the same. */
static const char *told_key(const struct change_wording *w,
                            const struct change *change)
{
    const struct told_change told = tell_change(w, change);
    if (told.was[0] == '\0' && told.is[0] == '\0')
        return "";
    return arena_printf(w->arena, "%d %d %d %s\n%s\n%s\n%s",
                        (int)change->kind, (int)change->harm,
                        (int)change->follows, step_key(w, change),
                        cast_step(w, change) == NULL ? told.title : "",
                        told.was, told.is);
}

/* Two that are told alike in one booklet are two things: only the first of one
 * is the first of another, the second the second. */
const size_t *changes_alike(const struct change_wording *w)
{
    const struct comparison *of = w->comparison;
    size_t *first = ARENA_ARRAY(w->arena, size_t, of->changes.count + 1);
    struct name_table there = {0}, own = {0};
    for (size_t i = 0; i < of->changes.count; i++) {
        const struct change *change = &of->changes.items[i];
        const char *key = told_key(w, change);
        size_t before = 0;
        first[i] = i;
        if (key[0] == '\0' || change->quilt[1] == NOWHERE)
            continue;
        while (cast_step(w, change) == NULL &&
               !name_table_add(w->arena, &own,
                              arena_printf(w->arena, "%d %d %zu %s",
                                           change->quilt[1],
                                           change->colorway[1], before, key),
                              i))
            before++;
        key = arena_printf(w->arena, "%zu %s", before, key);
        if (!name_table_add(w->arena, &there, key, i))
            name_table_find(&there, key, &first[i]);
    }
    return first;
}

/* The title of the first is that of one cast alone. */
const char *tell_title(const struct change_wording *w, const size_t *alike,
                       size_t index)
{
    const struct comparison *of = w->comparison;
    const struct change *first = &of->changes.items[index];
    for (size_t i = index + 1; i < of->changes.count; i++)
        if (alike[i] == index && of->changes.items[i].quilt[1] ==
                                     first->quilt[1] &&
            cast_step(w, first) != NULL)
            return change_step_title(w, first, true);
    return tell_change(w, first).title;
}

/* "Throw"; "Throw, Dusk, Noon" where not all of its colorways share it. */
static const char *quilt_with(const struct change_wording *w,
                              const size_t *alike, size_t index, int quilt)
{
    const struct comparison *of = w->comparison;
    const struct revision_quilt *now = &of->revisions[1]->quilts.items[quilt];
    struct buffer names = buffer_in(w->arena);
    size_t count = 0;
    for (size_t i = 0; i < of->changes.count; i++) {
        const struct change *change = &of->changes.items[i];
        if (alike[i] != alike[index] || change->quilt[1] != quilt ||
            change->colorway[1] == NOWHERE)
            continue;
        buffer_printf(&names, "%s%s", count++ == 0 ? "" : ", ",
                      now->colorways.items[change->colorway[1]].name);
    }
    return count == 0 || count == now->colorways.count
               ? now->name
               : arena_printf(w->arena, "%s, %s", now->name,
                              buffer_string(&names));
}

/* Each quilt once, with the page of its old booklet. */
const char *tell_places(const struct change_wording *w, const size_t *alike,
                        size_t index)
{
    const struct comparison *of = w->comparison;
    struct buffer out = buffer_in(w->arena);
    int last = NOWHERE;
    if (of->changes.items[index].quilt[1] == NOWHERE)
        return tell_change(w, &of->changes.items[index]).where;
    for (size_t i = index; i < of->changes.count; i++) {
        const struct change *change = &of->changes.items[i];
        if (alike[i] != alike[index] || change->quilt[1] == last)
            continue;
        last = change->quilt[1];
        const char *where = tell_change(w, change).where;
        buffer_printf(&out, "%s%s%s%s", out.length == 0 ? "" : "; ",
                      quilt_with(w, alike, index, last),
                      where[0] == '\0' ? "" : ", ", where);
    }
    return buffer_string(&out);
}
