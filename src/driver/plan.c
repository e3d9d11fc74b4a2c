/* seamwright plan: the strips for a list of pieces from one cloth, or the
 * sheets for them. */
#include <string.h>

#include "driver.h"
#include "files.h"
#include "plan_print.h"
#include "trade.h"

enum { THOROUGH_TIMES = 3 };

/* A list that cannot be planned. The list is at fault and not the command, so
 * the status is that of a source with mistakes. */
static int refuse(const char *file, const char *problem)
{
    complain("%s: %s\n", file, problem);
    return STATUS_MISTAKES;
}

/* A text ends at a NUL for those who read it, so the rest would be lost. */
static const char *zero_byte(struct arena *arena, const char *bytes,
                             const char *at)
{
    size_t line = 1;
    const char *start = bytes;
    for (const char *c = bytes; c < at; c++)
        if (*c == '\n') {
            line++;
            start = c + 1;
        }
    return arena_printf(arena,
                        "line %zu: byte %zu is 00, which is no part of a text",
                        line, (size_t)(at - start) + 1);
}

/* The simplest plan within the cloth as sold, then the shortest. Each plan is
 * checked against the list before it is told: one that loses a piece would be
 * found out with the cloth cut. */
static void print_both(struct buffer *out, const struct piece_list *list,
                       const struct roll_problem *problem,
                       const struct roll_plan *plan, uint64_t work)
{
    if (!roll_plan_holds(problem, plan))
        internal_error("a plan of strips does not hold its pieces");
    /* What the shop cuts anyway is the budget. */
    const struct rational sold =
        rational_round_up(rational_times(list->step, plan->length),
                          trade_length(TRADE_SOLD_STEP, list->unit));
    const struct roll_plan *simple =
        simplify_roll(out->arena, problem, plan,
                      rational_floor(rational_div(sold, list->step)), work);
    if (simple != NULL && roll_plan_holds(problem, simple)) {
        buffer_text(out, "The simplest plan within the cloth as sold:\n");
        print_roll_plan(out, list, simple);
        buffer_text(out, "\nThe shortest plan:\n");
        /* A search for few lines may come upon a shorter plan, too. */
        if (simple->length < plan->length)
            plan = simple;
    }
    print_roll_plan(out, list, plan);
}

/* No less than the shortest plan was given. */
static uint64_t simple_work(const struct roll_problem *problem, uint64_t work)
{
    const uint64_t usual = roll_simple_work(problem);
    return work > usual ? work : usual;
}

/* With more work than usual the search takes other ways, and may end with a
 * longer plan: the shorter of both is kept, and what either proves.
 * ensures: NULL where a piece is too wide. */
static const struct roll_plan *
plan_both_ways(struct arena *arena, const struct roll_problem *problem,
               uint64_t work)
{
    struct roll_plan *plan = plan_roll_alone(arena, problem, work);
    const uint64_t usual = roll_alone_work(problem);
    if (plan == NULL || work == usual)
        return plan;
    struct roll_plan *other = plan_roll_alone(arena, problem, usual);
    struct roll_plan *best = other->length < plan->length ? other : plan;
    if (plan->bound > other->bound)
        best->bound = plan->bound;
    else
        best->bound = other->bound;
    return best;
}

/* Strips of a roll; false where a piece is too wide. */
static bool plan_as_roll(struct buffer *out, const struct piece_list *list,
                         uint64_t work)
{
    const struct roll_plan *plan =
        plan_both_ways(out->arena, &list->problem, work);
    if (plan != NULL)
        print_both(out, list, &list->problem, plan,
                   simple_work(&list->problem, work));
    return plan != NULL;
}

/* Leftovers first, then the roll for the rest. */
static bool plan_after_leftovers(struct buffer *out,
                                 const struct piece_list *list, uint64_t work)
{
    const struct leftover_plan *plan =
        plan_with_leftovers(out->arena, &list->problem, list->leftovers,
                            list->leftover_count, work, NULL);
    if (plan == NULL)
        return false;
    if (!leftover_plan_holds(&list->problem, list->leftovers,
                             list->leftover_count, plan))
        internal_error("a plan with leftovers does not hold its pieces");
    print_leftovers(out, list, plan);
    buffer_text(out, "\n");
    if (plan->roll->length == 0)
        buffer_text(out, "The leftovers give all pieces.\n");
    else
        print_both(out, list, &plan->rest, plan->roll,
                   simple_work(&plan->rest, work));
    return true;
}

/* Fewest sheets, then the least effort with as many. */
static bool plan_as_sheets(struct buffer *out, const struct piece_list *list)
{
    const struct sheet_problem problem = {.width = list->problem.width,
                                          .height = list->sheet_height,
                                          .sizes = list->problem.sizes,
                                          .count = list->problem.count,
                                          .first = list->first_cut};
    const struct sheet_plan *plan =
        plan_sheets_alone(out->arena, &problem, SHEET_WORK);
    if (plan == NULL)
        return false;
    if (!sheet_plan_holds(&problem, plan))
        internal_error("a plan of sheets does not hold its pieces");
    const struct sheet_plan *simple =
        simplify_sheets(out->arena, &problem, plan, SHEET_SIMPLE_ALONE_WORK);
    if (!sheet_plan_holds(&problem, simple))
        internal_error("a simple plan of sheets does not hold its pieces");
    print_sheet_plan(out, list, simple);
    return true;
}

/* Cloth with a height is sheets, other cloth a roll. The first thing that is
 * wrong ends the run: a list is short, and soon tried again. */
int command_plan(struct arena *arena, const struct options *options)
{
    const char *name = options->files[0];
    const struct file_content file = file_read(arena, name);
    if (file.fault != FILE_OK) {
        complain("seamwright: %s: cannot read: %s\n", name,
                 file.fault == FILE_UNREADABLE ? file.system_error
                 : file.fault == FILE_TOO_LARGE
                     ? "a list of pieces has at most 16 MiB"
                     : "not a list of pieces");
        return file.fault == FILE_TOO_LARGE ? STATUS_LIMIT : STATUS_FILES;
    }
    const char *cut = memchr(file.bytes, '\0', file.length);
    if (cut != NULL)
        return refuse(name, zero_byte(arena, file.bytes, cut));
    struct piece_list list =
        read_piece_list(arena, file.bytes, !options->keep_grain);
    list.problem.trimmed = options->trimmed;
    if (list.problem_text != NULL)
        return refuse(name, list.problem_text);
    struct buffer out = buffer_in(arena);
    /* Hundreds of sizes get ROLL_WORK in any case. */
    const uint64_t thorough =
        (uint64_t)ROLL_WORK *
        (list.problem.count > ROLL_MOST_SIZES ? THOROUGH_TIMES : 1);
    const uint64_t work =
        options->thorough ? thorough : roll_alone_work(&list.problem);
    if (list.sheet_height > 0) {
        if (!plan_as_sheets(&out, &list))
            return refuse(name, "a piece is larger than the sheet");
    } else if (list.leftover_count > 0
                   ? !plan_after_leftovers(&out, &list, work)
                   : !plan_as_roll(&out, &list, work)) {
        return refuse(name, "a piece is wider than the cloth");
    }
    return write_text(buffer_string(&out));
}
