/* The solving stage: design to sized. Sizes are finished sizes in the local
 * unit of a definition; only scales.c and statements.c turn them into real
 * lengths. Nothing in this folder rounds but cut_length and the cuts of kinds
 * of piece, which are what hands cut. Read next: sizes.c, then system.c. */
#include "solver.h"

#include <stdarg.h>

/* `finished` is a real length. A square or rectangle is cut two seams larger
 * (K. Combs, Formulas for Quilters, 2002); rounding goes up, as what is too
 * large can be trimmed. */
struct rational cut_length(const struct pattern *pattern,
                           struct rational finished)
{
    return rational_round_up(
        rational_add(finished, rational_times(pattern->seam, 2)),
        pattern->cutting_step);
}

/* A real length, as a quilt's local unit is the pattern's. */
struct rational quilt_width(const struct sized *sized,
                            const struct definition *quilt)
{
    return quilt->whole == NULL ? rational_unknown()
                                : sized->width[quilt->whole->index];
}

struct rational quilt_height(const struct sized *sized,
                             const struct definition *quilt)
{
    return quilt->whole == NULL ? rational_unknown()
                                : sized->height[quilt->whole->index];
}

struct diagnostic *report_in(struct run *run, bool *sound,
                             const struct definition *owner,
                             enum diag_code code, struct span span,
                             const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    const char *text = arena_vprintf(run->arena, format, arguments);
    va_end(arguments);
    if (diag_entry(code)->level == DIAG_ERROR)
        sound[owner->index] = false;
    return diag_report(run, code, span, "%s", text);
}

/* Sizes that are in no open sum and still unknown. reports: a piece whose width
 * or height nothing fixes; silences it, so that its neighbors are not blamed
 * for it too. Called in the order of the pieces: the outermost open one is
 * told. */
static void report_open_piece(struct system *system, const struct piece *piece)
{
    const bool silent_width = system_silent(system, width_of(piece));
    const bool silent_height = system_silent(system, height_of(piece));
    const bool wide =
        rational_known(system_value(system, width_of(piece))) || silent_width;
    const bool high =
        rational_known(system_value(system, height_of(piece))) || silent_height;
    if (wide && high)
        return;
    struct diagnostic *d =
        report_in(system->run, system->sound, piece->owner, DIAG_SIZE_OPEN,
                  piece->element->name, "nothing fixes the %s of `%s`",
                  !wide && !high ? "size"
                  : wide         ? "height"
                                 : "width",
                  element_name(piece->element->kind));
    const bool block = piece->kind == PIECE_USE && piece->target != NULL &&
                       piece->target->gridded;
    diag_help(system->run, d,
              block ? "write finished=\"...\" for the size of the block"
              : high
                  ? "write width=\"...\" on it or on what stands beside it"
                  : "write height=\"...\" on it or on what stands beside it");
    system_silence(system, width_of(piece));
    system_silence(system, height_of(piece));
}

/* reports: a size of nothing or less, which a sum gives, or a stated size less
 * its seams or borders; a written one is more than 0. Silenced as in
 * report_open_piece. */
static void report_negative(struct system *system, const struct piece *piece)
{
    const struct rational sizes[2] = {system_value(system, width_of(piece)),
                                      system_value(system, height_of(piece))};
    for (size_t i = 0; i < 2; i++) {
        if (!rational_known(sizes[i]) || rational_sign(sizes[i]) > 0)
            continue;
        const variable root =
            system_root(system, i == 0 ? width_of(piece) : height_of(piece));
        struct diagnostic *d =
            report_in(system->run, system->sound, piece->owner,
                      DIAG_SIZE_NEGATIVE, piece->element->name,
                      "`%s` would be %s %s", element_name(piece->element->kind),
                      local_length(system, sizes[i]), i == 0 ? "wide" : "high");
        if (system->from_sum[root] != NOT_FROM_SUM)
            diag_note(
                system->run, d,
                system->sums.items[system->from_sum[root]].element->name,
                "its neighbors take more than there is: %s",
                sum_text(
                    system, &system->sums.items[system->from_sum[root]],
                    system_value(
                        system,
                        system->sums.items[system->from_sum[root]].total)));
        system_silence(system, root);
    }
}

/* Negative sizes first: what they silence would else be told as open. What has
 * no size cannot be drawn, wherever the reason was told. */
static void take_values(struct system *system, struct sized *sized)
{
    const struct design *design = sized->design;
    for (size_t i = 0; i < design->pieces.count; i++)
        report_negative(system, design->pieces.items[i]);
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct piece *piece = design->pieces.items[i];
        sized->width[i] = sized->height[i] = rational_unknown();
        if (!system->own->lies[i])
            continue;
        report_open_piece(system, piece);
        sized->width[i] = system_value(system, width_of(piece));
        sized->height[i] = system_value(system, height_of(piece));
    }
    for (size_t i = 0; i < design->definitions.count; i++)
        size_borders(sized, design->definitions.items[i]);
    for (size_t i = 0; i < design->pieces.count; i++)
        if (system->own->lies[i] && (!rational_known(sized->width[i]) ||
                                     !rational_known(sized->height[i])))
            sized->sound[design->pieces.items[i]->owner->index] = false;
}

/* Scales need sizes, statements need scales. What was sound until here stays so
 * where none of them reports anything of it. */
struct sized *solve_design(struct run *run, const struct design *design)
{
    struct arena *arena = run->arena;
    struct sized *sized = ARENA_NEW(arena, struct sized);
    sized->design = design;
    sized->width =
        ARENA_ARRAY(arena, struct rational, design->pieces.count + 1);
    sized->height =
        ARENA_ARRAY(arena, struct rational, design->pieces.count + 1);
    sized->sound = ARENA_ARRAY(arena, bool, design->definitions.count + 1);
    sized->misfit = ARENA_ARRAY(arena, bool, design->pieces.count + 1);
    sized->scales = ARENA_ARRAY(arena, struct definition_scales,
                                design->definitions.count + 1);
    for (size_t i = 0; i < design->definitions.count; i++)
        sized->sound[i] = !design->definitions.items[i]->unsound;
    struct system system;
    system_init(&system, run, design, sized->sound, 2 * design->pieces.count);
    system.own = find_own_sizes(run, design);
    system.misfit = sized->misfit;
    build_system(&system);
    system_solve(&system);
    report_grids(&system);
    take_values(&system, sized);
    find_scales(run, sized);
    check_sizes(run, sized);
    check_written(run, sized);
    return sized;
}
