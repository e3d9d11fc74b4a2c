/* Assemblies: the order of the steps, and whether they make what is needed. Two
 * walks over what an assembly is `of`: one builds heaps in the order of its
 * steps, the other counts what is needed and compares. May assume that names
 * are bound, or NULL and reported. Read next: needs.c. */
#include <string.h>

#include "needs.h"

/* ---- following ---- */

/* Builds what the step makes wherever it stands below `piece`. Every use below
 * counts, also those inside other units: a step makes all of them. */
static void build_named(struct sewer *sewer, const struct piece *piece,
                        const struct assembly_step *step,
                        struct rational factor, bool mirror)
{
    if (piece->first == step->piece)
        build_heap(sewer, piece, factor, mirror);
    for (size_t i = 0; i < piece->cells.count; i++) {
        const struct cell *cell = &piece->cells.items[i];
        build_named(sewer, cell->piece, step, factor,
                    mirror != cell->orientation.mirror);
    }
    if (piece->target == NULL)
        return;
    const bool inner_mirror = mirror != piece->orientation.mirror;
    const struct rational inner = use_scale(sewer->sized, piece, factor);
    if (piece->target == step->make) {
        build_heap(sewer, piece, factor, mirror);
        return;
    }
    const struct cast *around = enter_use(sewer, piece);
    build_named(sewer, piece->target->root, step, inner, inner_mirror);
    sewer->cast = around;
}

/* The heaps themselves are not linked to steps here: being built is enough to
 * give them their place in the list. The step that makes the whole is left to
 * the caller. */
void follow_assembly(struct sewer *sewer, const struct definition *definition,
                     struct rational factor, bool mirror)
{
    const struct assembly *assembly = definition->assembly;
    if (assembly == NULL)
        return;
    for (size_t i = 0; i < assembly->steps.count; i++) {
        const struct assembly_step *step = &assembly->steps.items[i];
        if (step->make != definition)
            build_named(sewer, definition->whole, step, factor, mirror);
    }
}

/* ---- checking ---- */

/* All needs that the step makes: its name, and its mirror where mirrored ones
 * are not the same as plain ones. */
static bool step_makes(const struct assembly_step *step,
                       const struct need *need)
{
    if (need->make != step->make || need->piece != step->piece)
        return false;
    return need->chiral ? need->mirror == step->mirror : !step->mirror;
}

/* reports: a count that takes mirrored and plain ones together, which are two
 * heaps of pieces and would be cut wrong. */
static void report_mirrored(struct needs *needs,
                            const struct assembly_step *step, long plain,
                            long mirrored, const struct need *need)
{
    struct run *run = needs->sewer->run;
    struct diagnostic *d = diag_report(
        run, DIAG_MIRRORED_HEAP, value_span(step->element, ATTR_COUNT),
        "of these %ld, %ld are mirrored and are made apart", plain + mirrored,
        mirrored);
    diag_note(run, d, need->first_use->element->name,
              "`%s` is used mirrored here", step->name);
    const struct span count = value_span(step->element, ATTR_COUNT);
    const struct span all = element_span(run->source, step->element);
    diag_mend(run, d, (struct span){count.start, all.end},
              arena_printf(run->arena,
                           "%ld%.*s <step make=\"%s\" mirror=\"yes\" "
                           "count=\"%ld\"/>",
                           plain, (int)(all.end - count.end),
                           run->source->bytes + count.end, step->name,
                           mirrored),
              "write count=\"%ld\" here and a second step with mirror=\"yes\" "
              "count=\"%ld\"",
              plain, mirrored);
}

/* Writes the mirror of a step, or takes it away. */
static void mend_mirror(struct run *run, struct diagnostic *d,
                        const struct assembly_step *step)
{
    const struct span name = step->element->name;
    const struct span value = value_span(step->element, ATTR_MIRROR);
    if (value.start != name.start)
        diag_mend(run, d, value, step->mirror ? "no" : "yes",
                  step->mirror ? "leave out mirror=\"yes\""
                               : "write mirror=\"yes\" on the step");
    else
        diag_mend(run, d, (struct span){name.end, name.end}, " mirror=\"yes\"",
                  "write mirror=\"yes\" on the step");
}

/* reports: a mirror on the step that makes the whole, which has one hand. */
static bool report_mirrored_whole(struct needs *needs,
                                  const struct assembly_step *step)
{
    if (step->make != needs->assembly->of || !step->mirror)
        return false;
    struct run *run = needs->sewer->run;
    struct diagnostic *d = diag_report(
        run, DIAG_MIRRORED_HEAP, value_span(step->element, ATTR_MIRROR),
        "the step that makes `%s` itself is not mirrored", step->name);
    diag_note(run, d, value_span(needs->assembly->element, ATTR_OF),
              "this assembly makes it as it is drawn; where it is used "
              "mirrored, all is sewn the other way about");
    mend_mirror(run, d, step);
    return true;
}

/* reports: a count of more than one of what the assembly is of. */
static void check_whole_count(struct needs *needs,
                              const struct assembly_step *step)
{
    if (step->count <= 1)
        return;
    const struct span span = value_span(step->element, ATTR_COUNT);
    struct diagnostic *d =
        diag_report(needs->sewer->run, DIAG_STEP_COUNT, span,
                    "this assembly is for one `%s`, but the step makes %ld",
                    step->name, step->count);
    diag_mend(needs->sewer->run, d, span, "1",
              "count=\"1\" is right: the booklet multiplies");
}

/* All that is taken of it is mirrored, or none is. */
static bool report_other_hand(struct needs *needs,
                              const struct assembly_step *step)
{
    for (size_t i = 0; i < needs->items.count; i++) {
        const struct need *need = &needs->items.items[i];
        if (need->make != step->make || need->piece != step->piece ||
            !need->chiral)
            continue;
        struct run *run = needs->sewer->run;
        struct diagnostic *d = diag_report(
            run, DIAG_MIRRORED_HEAP, value_span(step->element, ATTR_MAKE),
            need->mirror ? "each `%s` that `%s` takes is mirrored"
                         : "no `%s` that `%s` takes is mirrored",
            step->name, needs->assembly->of->id);
        diag_note(run, d, need->first_use->element->name,
                  "it is used here, %ld in all", need->count);
        mend_mirror(run, d, step);
        return true;
    }
    return false;
}

/* What this step leaves unmade was told with it. */
static void mark_told(struct needs *needs, const struct assembly_step *step)
{
    for (size_t i = 0; i < needs->items.count; i++) {
        struct need *need = &needs->items.items[i];
        need->told |= need->make == step->make && need->piece == step->piece;
    }
}

/* How many of what it makes are not mirrored. */
static long plain_of(const struct needs *needs,
                     const struct assembly_step *step)
{
    long count = 0;
    for (size_t i = 0; i < needs->items.count; i++) {
        const struct need *need = &needs->items.items[i];
        if (need->make == step->make && need->piece == step->piece &&
            !need->mirror)
            count += need->count;
    }
    return count;
}

static void check_step_count(struct needs *needs,
                             const struct assembly_step *step)
{
    struct run *run = needs->sewer->run;
    long made = 0, mirrored = 0;
    const struct need *mirrored_need = NULL, *some = NULL;
    for (size_t i = 0; i < needs->items.count; i++) {
        const struct need *need = &needs->items.items[i];
        if (step_makes(step, need)) {
            made += need->count;
            some = need;
        } else if (need->make == step->make && need->piece == step->piece) {
            mirrored += need->count;
            mirrored_need = need;
        }
    }
    if (step->make == needs->assembly->of) {
        check_whole_count(needs, step);
        return;
    }
    if (step->count == 0 || step->count == made || some == NULL)
        return;
    /* Whether mirrored ones are made apart, nobody knows. */
    if (needs->by_name && !some->chiral && step->count == plain_of(needs, step))
        return;
    if (mirrored_need != NULL && !step->mirror &&
        step->count == made + mirrored) {
        report_mirrored(needs, step, made, mirrored, mirrored_need);
        mark_told(needs, step);
        return;
    }
    const struct span span = value_span(step->element, ATTR_COUNT);
    struct diagnostic *d =
        diag_report(run, DIAG_STEP_COUNT, span,
                    "one `%s` takes %ld %s`%s`, but the step makes %ld",
                    needs->assembly->of->id, made,
                    step->mirror ? "mirrored " : "", step->name, step->count);
    diag_note(run, d, some->first_use->element->name,
              "the first of them is used here; in all %s",
              count_sum(needs, some));
    diag_mend(run, d, span, arena_printf(run->arena, "%ld", made),
              "count=\"%ld\" is right", made);
}

/* Does what the step makes hold the need? Of a unit or block its own pieces
 * tell, of a piece with an id what lies inside its tags. */
static bool needs_part(const struct assembly_step *step,
                       const struct need *need)
{
    for (size_t i = 0; i < need->uses.count; i++) {
        const struct piece *use = need->uses.items[i].use;
        if (step->make != NULL && use->owner == step->make)
            return true;
        const struct element *element = use->element->parent;
        while (step->piece != NULL && element != NULL) {
            if (element == step->piece->element)
                return true;
            element = element->parent;
        }
    }
    return false;
}

/* What is made by a step of the assembly: the last that does, counted from 1.
 */
static void find_last_steps(struct needs *needs)
{
    const struct assembly *assembly = needs->assembly;
    for (size_t i = 0; i < needs->items.count; i++) {
        struct need *need = &needs->items.items[i];
        size_t step = assembly->steps.count;
        while (step > 0 &&
               (assembly->steps.items[step - 1].make != need->make ||
                assembly->steps.items[step - 1].piece != need->piece))
            step--;
        need->last_step = step;
    }
}

/* The last step behind this one that makes a part of what it makes, or NULL.
 * What makes the whole needs all others. */
static const struct assembly_step *last_needed(const struct needs *needs,
                                               size_t index)
{
    const struct assembly *assembly = needs->assembly;
    const struct assembly_step *step = &assembly->steps.items[index];
    size_t last = index + 1;
    for (size_t i = 0; i < needs->items.count; i++) {
        const struct need *need = &needs->items.items[i];
        if (need->last_step > last && need->make != step->make &&
            needs_part(step, need))
            last = need->last_step;
    }
    return last == index + 1 ? NULL : &assembly->steps.items[last - 1];
}

/* reports: a step that comes before one of those that it is made from. The
 * mend moves it behind the last of them. */
static void check_step_order(struct needs *needs, size_t index)
{
    struct run *run = needs->sewer->run;
    const struct assembly_step *step = &needs->assembly->steps.items[index];
    const struct assembly_step *other = last_needed(needs, index);
    if (other == NULL)
        return;
    struct diagnostic *d =
        diag_report(run, DIAG_STEP_ORDER, value_span(step->element, ATTR_MAKE),
                    "`%s` needs `%s`, which is made in a later step",
                    step->name, other->name);
    diag_note(run, d, value_span(other->element, ATTR_MAKE), "made here");
    const char *bytes = run->source->bytes;
    const struct span own = element_span(run->source, step->element);
    const struct span behind = element_span(run->source, other->element);
    diag_mend(run, d, (struct span){own.start, behind.end},
              arena_printf(run->arena, "%.*s %.*s", (int)(behind.end - own.end),
                           bytes + own.end, (int)(own.end - own.start),
                           bytes + own.start),
              "move this step behind the one that makes `%s`", other->name);
}

/* Plain and mirrored ones are made in two steps. */
static bool same_making(const struct assembly_step *a,
                        const struct assembly_step *b)
{
    return a->make == b->make && a->piece == b->piece && a->mirror == b->mirror;
}

/* reports: a second step for the same thing, a step for what is not needed, a
 * count or a place that is wrong; one of them at most but count and place. */
static void check_step(struct needs *needs, size_t index)
{
    struct run *run = needs->sewer->run;
    const struct assembly_step *step = &needs->assembly->steps.items[index];
    if (step->make == NULL && step->piece == NULL)
        return;
    for (size_t i = 0; i < index; i++) {
        const struct assembly_step *other = &needs->assembly->steps.items[i];
        if (!same_making(step, other))
            continue;
        struct diagnostic *d = diag_report(
            run, DIAG_STEP_TWICE, value_span(step->element, ATTR_MAKE),
            "a second step makes `%s`", step->name);
        diag_note(run, d, value_span(other->element, ATTR_MAKE),
                  "the first one");
        return;
    }
    if (report_mirrored_whole(needs, step))
        return;
    bool used = step->make == needs->assembly->of;
    for (size_t i = 0; i < needs->items.count; i++)
        used |= step_makes(step, &needs->items.items[i]);
    if (!used && report_other_hand(needs, step)) {
        mark_told(needs, step);
        return;
    }
    if (!used) {
        struct diagnostic *d = diag_report(
            run, DIAG_STEP_UNUSED, value_span(step->element, ATTR_MAKE),
            "`%s` takes no %s`%s`", needs->assembly->of->id,
            step->mirror ? "mirrored " : "", step->name);
        if (step->mirror)
            mend_mirror(run, d, step);
        else
            diag_mend(run, d, element_span(run->source, step->element), "",
                      "leave the step out");
        return;
    }
    check_step_count(needs, step);
    check_step_order(needs, index);
}

/* The name of a step that was misspelt may be the one that is missed. */
static bool all_bound(const struct assembly *assembly)
{
    for (size_t i = 0; i < assembly->steps.count; i++)
        if (assembly->steps.items[i].make == NULL &&
            assembly->steps.items[i].piece == NULL)
            return false;
    return !assembly->element->unsound;
}

/* Steps mostly come in the order in which what they make is defined, the
 * mirrored one next to the plain one. */
static bool comes_behind(const struct assembly *assembly, size_t index,
                         const struct need *need)
{
    const struct assembly_step *step = &assembly->steps.items[index];
    if (index > 0 && need->mirror && step[-1].make == need->make)
        return true;
    if (step->make == NULL)
        return false;
    if (step->make == need->make)
        return !need->mirror;
    return step->make->index > need->make->index;
}

/* Does a step from the one at `from` on make a part of what is needed? */
static bool part_is_made_from(const struct needs *needs,
                              const struct need *need, size_t from)
{
    const struct assembly_step whole = {.make = need->make};
    for (size_t i = 0; i < needs->items.count; i++)
        if (needs->items.items[i].last_step > from &&
            needs->items.items[i].make != need->make &&
            needs_part(&whole, &needs->items.items[i]))
            return true;
    return false;
}

/* The step before which one for the need is missing: the first that makes what
 * is defined behind it, takes it, or makes the whole. One that takes it where
 * its parts are made only behind the other. NULL where there is none. */
static const struct assembly_step *step_behind(const struct needs *needs,
                                               const struct need *need)
{
    for (size_t i = 0; i < needs->assembly->steps.count; i++) {
        const struct assembly_step *step = &needs->assembly->steps.items[i];
        if (step->make == needs->assembly->of || needs_part(step, need) ||
            (comes_behind(needs->assembly, i, need) &&
             !part_is_made_from(needs, need, i)))
            return step;
    }
    return NULL;
}

/* One step would make all that are told apart only by size or pressing.
 * ensures: how many it makes; they are told. */
static long tell_together(struct needs *needs, const struct need *need,
                          bool mirror)
{
    const struct assembly_step lacking = {.make = need->make, .mirror = mirror};
    long count = 0;
    for (size_t i = 0; i < needs->items.count; i++)
        if (step_makes(&lacking, &needs->items.items[i])) {
            count += needs->items.items[i].count;
            needs->items.items[i].told = true;
        }
    return count;
}

/* reports: that no step makes what is needed, where one lacks. */
static void report_missing_step(struct needs *needs, const struct need *need)
{
    struct run *run = needs->sewer->run;
    const struct assembly *assembly = needs->assembly;
    const struct assembly_step *behind = step_behind(needs, need);
    const bool mirror = need->chiral && need->mirror;
    const long count = tell_together(needs, need, mirror);
    const uint32_t at = behind == NULL ? assembly->element->content.end
                                       : behind->element->tag.start;
    struct diagnostic *d = diag_report(
        run, DIAG_STEP_MISSING,
        behind == NULL ? value_span(assembly->element, ATTR_OF)
                       : value_span(behind->element, ATTR_MAKE),
        "no step makes the %s`%s` that `%s` takes", mirror ? "mirrored " : "",
        need->make->id, assembly->of->id);
    diag_note(run, d, need->first_use->element->name,
              "it is used here, %ld in all", count);
    const char *step =
        arena_printf(run->arena, "<step make=\"%s\"%s count=\"%ld\"/>",
                     need->make->id, mirror ? " mirror=\"yes\"" : "", count);
    diag_mend(run, d, (struct span){at, at},
              arena_printf(run->arena, "%s ", step), "add %s%s", step,
              behind == NULL ? "" : " before this step");
}

/* Every unit and block must have its step; the last one makes the whole.
 * reports: what no step makes. The last check of an assembly, as a step that is
 * misspelt was told before and makes its element faulty. */
static void check_missing(struct needs *needs)
{
    struct run *run = needs->sewer->run;
    const struct assembly *assembly = needs->assembly;
    bool whole = false;
    for (size_t k = 0; k < assembly->steps.count; k++)
        whole |= assembly->steps.items[k].make == assembly->of;
    for (size_t i = 0; i < needs->items.count; i++) {
        const struct need *need = &needs->items.items[i];
        bool made = need->told ||
                    need->make == NULL; /* pieces may be made in passing */
        for (size_t k = 0; k < assembly->steps.count; k++)
            made |= step_makes(&assembly->steps.items[k], need);
        if (made)
            continue;
        report_missing_step(needs, need);
    }
    if (whole || assembly->element->faulty)
        return;
    const struct span end = {assembly->element->content.end,
                             assembly->element->content.end};
    struct span last = value_span(assembly->element, ATTR_OF);
    if (assembly->steps.count > 0)
        last =
            value_span(assembly->steps.items[assembly->steps.count - 1].element,
                       ATTR_MAKE);
    struct diagnostic *d =
        diag_report(run, DIAG_STEP_MISSING, last, "no step makes `%s` itself",
                    assembly->of->id);
    diag_mend(
        run, d, end,
        arena_printf(run->arena, "<step make=\"%s\"/> ", assembly->of->id),
        "add <step make=\"%s\"/> as the last step", assembly->of->id);
}

/* Each is checked at the first scale at which it is sewn: counts are the same
 * at all of them. What no quilt uses, which was said, is not checked. */
static void check_assembly(struct needs needs)
{
    const struct assembly *assembly = needs.assembly;
    const struct definition_scales *scales =
        &needs.sewer->sized->scales[assembly->of->index];
    if (scales->items.count == 0 && !(needs.by_name && scales->open))
        return;
    collect_needs(&needs, scales->items.count == 0
                              ? rational_whole(1)
                              : scales->items.items[0].factor);
    find_last_steps(&needs);
    for (size_t k = 0; k < assembly->steps.count; k++)
        check_step(&needs, k);
    if (!needs.sewer->counting || all_bound(assembly))
        check_missing(&needs);
}

void check_assemblies(struct sewer *sewer)
{
    const struct design *design = sewer->sized->design;
    struct arena *scratch = arena_create();
    const bool *named = named_throughout(scratch, design);
    const bool *sound = sound_throughout(scratch, sewer->sized);
    struct needs all = {.sewer = sewer,
                        .pressed = find_pressed(scratch, design)};
    for (size_t i = 0; i < design->assemblies.count; i++) {
        const struct assembly *assembly = &design->assemblies.items[i];
        const struct definition *of = assembly->of;
        if (of == NULL || of->root == NULL || !named[of->index])
            continue;
        all.assembly = assembly;
        enter_definition(sewer, of);
        all.by_name = !sound[of->index] || sewer->sized->scales[of->index].open;
        all.first = ARENA_ARRAY(scratch, size_t, design->pieces.count + 1);
        all.last =
            ARENA_ARRAY(scratch, struct last_count, design->pieces.count + 1);
        check_assembly(all);
        sewer->cast = NULL;
    }
    arena_destroy(scratch);
}
