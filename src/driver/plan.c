/* seamwright plan: the strips for a list of pieces from one cloth. */
#include <stdio.h>
#include <string.h>

#include "buffer.h"
#include "driver.h"
#include "files.h"
#include "length.h"
#include "piece_list.h"

static const char *length_text(struct arena *arena,
                               const struct piece_list *list, int64_t steps)
{
    return length_plain(arena, rational_times(list->step, steps), UNIT_IN);
}

/* "  14 x strip 4 1/2   9 x squares; 1 1/2 left". */
static void print_strip(struct buffer *out, const struct piece_list *list,
                        const struct roll_strip *strip)
{
    int64_t left = list->problem.width;
    buffer_printf(out, "%4zu x strip %-7s", strip->repeat,
                  length_text(out->arena, list, strip->height));
    for (size_t i = 0; i < strip->cuts.count; i++) {
        const struct roll_cut *cut = &strip->cuts.items[i];
        const struct roll_size *size = &list->problem.sizes[cut->size];
        left -= cut->along * (int64_t)cut->count;
        buffer_printf(
            out, "%s%zu x %s", i == 0 ? "" : ", ", cut->count,
            size->name[0] != '\0'
                ? size->name
                : arena_printf(out->arena, "(%s by %s)",
                               length_text(out->arena, list, size->width),
                               length_text(out->arena, list, size->height)));
    }
    buffer_printf(out, "; %s left\n", length_text(out->arena, list, left));
}

/* The strips, then what they come to. */
static void print_plan(struct buffer *out, const struct piece_list *list,
                       const struct roll_plan *plan)
{
    const struct roll_effort effort = roll_effort(&list->problem, plan);
    for (size_t i = 0; i < plan->strips.count; i++)
        print_strip(out, list, &plan->strips.items[i]);
    buffer_printf(
        out, "length %s, bound %s%s\n",
        length_text(out->arena, list, plan->length),
        length_text(out->arena, list, plan->bound),
        plan->length == plan->bound ? ": no plan of this kind is shorter" : "");
    buffer_printf(out, "effort %zu: %zu lines, %zu settings, %zu trims\n",
                  effort.lines + effort.settings + effort.trims, effort.lines,
                  effort.settings, effort.trims);
}

/* Plans shortest first, then looks for the simplest within what is sold. */
int command_plan(struct arena *arena, const struct options *options)
{
    const struct file_content file = file_read(arena, options->files[0]);
    if (file.fault != FILE_OK) {
        fprintf(stderr, "seamwright: %s: cannot read: %s\n", options->files[0],
                file.fault == FILE_UNREADABLE ? file.system_error
                                              : "not a list of pieces");
        return STATUS_FILES;
    }
    struct piece_list list =
        read_piece_list(arena, file.bytes, !options->keep_grain);
    list.problem.trimmed = options->trimmed;
    if (list.problem_text != NULL) {
        fprintf(stderr, "%s: %s\n", options->files[0], list.problem_text);
        return STATUS_MISTAKES;
    }
    const struct roll_plan *plan = plan_roll(arena, &list.problem, ROLL_WORK);
    if (plan == NULL) {
        fprintf(stderr, "%s: a piece is wider than the cloth\n",
                options->files[0]);
        return STATUS_MISTAKES;
    }
    if (!roll_plan_holds(&list.problem, plan))
        internal_error("a plan of strips does not hold its pieces");
    /* Sold by the eighth of a yard: a budget up to the next eighth. */
    const struct rational sold = rational_round_up(
        rational_times(list.step, plan->length), rational_make(9, 2));
    const struct roll_plan *simple =
        simplify_roll(arena, &list.problem, plan,
                      rational_floor(rational_div(sold, list.step)), ROLL_WORK);
    struct buffer out = buffer_in(arena);
    if (list.sheet_height > 0)
        buffer_text(&out, "Planned as a roll: the height of sheets is not "
                          "used.\n");
    if (simple != NULL && roll_plan_holds(&list.problem, simple)) {
        buffer_text(&out, "The simplest plan within the cloth as sold:\n");
        print_plan(&out, &list, simple);
        buffer_text(&out, "\nThe shortest plan:\n");
    }
    print_plan(&out, &list, plan);
    return write_output(buffer_string(&out), out.length);
}
