/* What is sewn. The parts of a step, where and how they lie and which line is
 * sewn make its form; the order of its actions, the craft and the pressing are
 * its way. Where the form differs and the cloth does not, it was only another
 * way. Sizes and fabrics of pieces are no part of either: they are compared as
 * pieces, and a step that takes other pieces for that reason follows. */
#include <stdlib.h>
#include <string.h>

#include "buffer.h"
#include "compare_parts.h"

/* How a difference in a step is told apart, from the top down:
 *
 * 1. Parts that are not the same lie at one place. Where they are made from the
 *    same pieces, they were exchanged or mirrored: the step comes out otherwise.
 *    Where they are not, the pieces were told already, and the step follows.
 * 2. Parts are the same, but one is turned, lies elsewhere, or another line is
 *    sewn: the step comes out otherwise.
 * 3. None of that, and its cloth differs, although that of its parts does not:
 *    which half of a square is which cloth stands nowhere else.
 * 4. In all three cases: if the cloth of the step is the same, or that of the
 *    whole top, it was only another way.
 * 5. Nothing of that, but hands do other things, or in another order, or press
 *    otherwise: another way.
 *
 * A step is the same one in both revisions by match_steps, so a change deep
 * inside is told where it is made and not again in all that takes it. */

/* ---- what a step takes in the end ---- */

/* Adds how often each cut piece is in the step, by its place in the new
 * revision; what only the old one has stands behind. `sign` is 1 or -1. */
static void add_leaves(const struct quilt_pair *pair, int side,
                       const struct revision_part *part, long sign,
                       long *leaves)
{
    if (part->piece != NOWHERE) {
        const int other = pair->pieces.of[side][part->piece];
        const bool same =
            other != NOWHERE &&
            same_piece(pair, (size_t)(side == 0 ? part->piece : other),
                       (size_t)(side == 0 ? other : part->piece));
        const size_t at = side == 1 ? (size_t)part->piece
                          : same    ? (size_t)other
                                    : pair->pieces.counts[1] +
                                       (size_t)part->piece;
        leaves[at] += sign;
        return;
    }
    const struct revision_step *step =
        &pair->quilt[side]->steps.items[part->step];
    for (size_t i = 0; i < step->parts.count; i++)
        add_leaves(pair, side, &step->parts.items[i], sign, leaves);
}

/* By step: is there a piece in it, down to its last part, that changed its size
 * or number? What comes of that follows. */
static bool *changed_within(const struct quilt_pair *pair, int side)
{
    const struct revision_quilt *quilt = pair->quilt[side];
    bool *within = ARENA_ARRAY(pair->arena, bool, quilt->steps.count + 1);
    bool *pieces = ARENA_ARRAY(pair->arena, bool, quilt->pieces.count + 1);
    for (size_t i = 0; i < pair->comparison->changes.count; i++) {
        const struct change *c = &pair->comparison->changes.items[i];
        if (c->quilt[side] == pair->index[side] && c->piece[side] != NOWHERE)
            pieces[c->piece[side]] = true;
    }
    for (size_t i = 0; i < quilt->steps.count; i++)
        for (size_t k = 0; k < quilt->steps.items[i].parts.count; k++) {
            const struct revision_part *part =
                &quilt->steps.items[i].parts.items[k];
            within[i] |= part->piece != NOWHERE ? pieces[part->piece]
                                                : within[part->step];
        }
    return within;
}

/* ---- form ---- */

/* A part in the order of reading; its place counts, not its size. */
struct placed {
    const struct revision_part *part;
    size_t row, column; /* which of the heights and of the widths, from 0 */
};

/* Rows from the top, in each from the left. */
static int by_place(const void *a, const void *b)
{
    const struct placed *x = a, *y = b;
    return x->row != y->row         ? (x->row < y->row ? -1 : 1)
           : x->column != y->column ? (x->column < y->column ? -1 : 1)
                                    : 0;
}

static int by_length(const void *a, const void *b)
{
    return compare_lengths(*(const struct rational *)a,
                           *(const struct rational *)b);
}

/* ensures: how many different lengths are below each. */
static void rank(struct arena *arena, struct rational *lengths, size_t count,
                 size_t *ranks)
{
    struct rational *sorted = ARENA_ARRAY(arena, struct rational, count + 1);
    for (size_t i = 0; i < count; i++)
        sorted[i] = lengths[i];
    qsort(sorted, count, sizeof *sorted, by_length);
    size_t different = 0;
    for (size_t i = 0; i < count; i++)
        if (i == 0 || compare_lengths(sorted[i], sorted[i - 1]) != 0)
            sorted[different++] = sorted[i];
    for (size_t i = 0; i < count; i++)
        ranks[i] = (size_t)((struct rational *)bsearch(&lengths[i], sorted,
                                                       different, sizeof *sorted,
                                                       by_length) -
                            sorted);
}

/* ensures: the parts in the order of rows, those of a row from the left; of
 * those at one place, in the order of the step. */
static struct placed *placed_parts(struct arena *arena,
                                   const struct revision_step *step)
{
    const size_t count = step->parts.count;
    struct placed *placed = ARENA_ARRAY(arena, struct placed, count + 1);
    struct rational *x = ARENA_ARRAY(arena, struct rational, count + 1);
    struct rational *y = ARENA_ARRAY(arena, struct rational, count + 1);
    size_t *columns = ARENA_ARRAY(arena, size_t, count + 1);
    size_t *rows = ARENA_ARRAY(arena, size_t, count + 1);
    for (size_t i = 0; i < count; i++) {
        x[i] = step->parts.items[i].x;
        y[i] = step->parts.items[i].y;
    }
    rank(arena, x, count, columns);
    rank(arena, y, count, rows);
    for (size_t i = 0; i < count; i++)
        placed[i] =
            (struct placed){&step->parts.items[i], rows[i], columns[i]};
    qsort(placed, count, sizeof *placed, by_place);
    return placed;
}

/* What differs between the forms of two steps. */
struct form {
    bool turned; /* a part lies otherwise, or a line runs otherwise */
    bool taken;  /* other parts are taken ... */
    bool cut;    /* ... made from other pieces, or pieces of other sizes */
};

/* By who is who, not by what it is made of: that is told where it is made. */
static bool same_part(const struct quilt_pair *pair,
                      const struct revision_part *a,
                      const struct revision_part *b)
{
    if (a->piece != NOWHERE)
        return b->piece != NOWHERE && pair->pieces.of[0][a->piece] == b->piece;
    return b->step != NOWHERE && pair->steps.of[0][a->step] == b->step;
}

/* Parts are compared place by place in the order of reading, so that the order
 * in which the source names them does not count. Where the numbers of parts
 * differ there is no place for place: then all of both are set against each
 * other. */
static void compare_parts(const struct quilt_pair *pair,
                          const struct revision_step *a,
                          const struct revision_step *b, struct form *form)
{
    const struct placed *old = placed_parts(pair->arena, a);
    const struct placed *changed = placed_parts(pair->arena, b);
    const size_t leaf_count = pair->pieces.counts[0] + pair->pieces.counts[1];
    long *leaves = ARENA_ARRAY(pair->arena, long, leaf_count + 1);
    for (size_t i = 0; i < a->parts.count || i < b->parts.count; i++) {
        const bool both = i < a->parts.count && i < b->parts.count &&
                          a->parts.count == b->parts.count;
        if (both && same_part(pair, old[i].part, changed[i].part)) {
            form->turned |= by_place(&old[i], &changed[i]) != 0 ||
                            old[i].part->turn != changed[i].part->turn;
            form->cut |= old[i].part->piece != NOWHERE &&
                         !same_piece(pair, (size_t)old[i].part->piece,
                                     (size_t)changed[i].part->piece);
            continue;
        }
        form->taken = true;
        if (i < a->parts.count)
            add_leaves(pair, 0, old[i].part, 1, leaves);
        if (i < b->parts.count)
            add_leaves(pair, 1, changed[i].part, -1, leaves);
    }
    for (size_t i = 0; i < leaf_count; i++)
        form->cut |= leaves[i] != 0;
}

/* For qsort. */
static int by_text(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

/* ensures: the lines that are sewn, whatever comes first. */
static const char *lines_of(struct arena *arena,
                            const struct revision_step *step)
{
    const char **lines =
        ARENA_ARRAY(arena, const char *, step->actions.count + 1);
    size_t count = 0;
    for (size_t i = 0; i < step->actions.count; i++) {
        const struct revision_action *action = &step->actions.items[i];
        if (action->line[0] != '\0' || action->at[0] != '\0')
            lines[count++] =
                arena_printf(arena, "%s %s;", action->line, action->at);
    }
    qsort(lines, count, sizeof *lines, by_text);
    struct buffer out = buffer_in(arena);
    for (size_t i = 0; i < count; i++)
        buffer_text(&out, lines[i]);
    return buffer_string(&out);
}

/* ---- way ---- */

/* `pressed` tells of those that go on the same way but once, so that one more of
 * them is not seen. */
bool tells_seams(const struct revision_step *step)
{
    for (size_t i = 0; i < step->actions.count; i++)
        if (step->actions.items[i].seams.count == 0 &&
            step->actions.items[i].pressed[0] != '\0')
            return false;
    return true;
}

/* What hands do, in their order, and what they take in it; of seams the ways
 * alone, as their places follow from the parts. */
static const char *way_of(struct quilt_pair *pair, int side,
                          const struct revision_step *step, bool seams)
{
    struct buffer out = buffer_in(pair->arena);
    for (size_t i = 0; i < step->parts.count; i++) {
        const struct revision_part *part = &step->parts.items[i];
        const int other = part->piece != NOWHERE
                              ? pair->pieces.of[side][part->piece]
                              : pair->steps.of[side][part->step];
        const int own = part->piece != NOWHERE ? part->piece : part->step;
        buffer_printf(&out, "%c%d ", part->piece != NOWHERE ? 'p' : 's',
                      side == 0 ? other : own);
    }
    for (size_t i = 0; i < step->actions.count; i++) {
        const struct revision_action *action = &step->actions.items[i];
        buffer_printf(&out, ";%s %s %s", action->kind, action->at,
                      seams ? "" : action->pressed);
        for (size_t k = 0; seams && k < action->seams.count; k++)
            buffer_printf(&out, " %s", action->seams.items[k].way);
    }
    return buffer_string(&out);
}

/* By seams where both tell them, else by what both tell in short. */
static bool is_another_way(struct quilt_pair *pair,
                           const struct revision_step *a,
                           const struct revision_step *b)
{
    const bool seams = tells_seams(a) && tells_seams(b);
    return strcmp(way_of(pair, 0, a, seams), way_of(pair, 1, b, seams)) != 0;
}

/* All that the step tells to do. */
static const char *told_of(struct arena *arena, const struct revision_step *step)
{
    struct buffer out = buffer_in(arena);
    for (size_t i = 0; i < step->actions.count; i++)
        buffer_printf(&out, "%s%s %s", i == 0 ? "" : " ",
                      step->actions.items[i].text,
                      step->actions.items[i].press);
    return buffer_string(&out);
}

/* ---- steps ---- */

/* With all that both steps tell; who prints it leaves out what is the same. */
static struct change *add_step(struct quilt_pair *pair, enum harm harm,
                               enum change_kind kind, int old, int changed)
{
    struct change *change =
        add_change(pair->arena, pair->comparison, pair, harm, kind);
    const int steps[2] = {old, changed};
    for (int side = 0; side < 2; side++) {
        change->step[side] = steps[side];
        if (steps[side] == NOWHERE)
            continue;
        const struct revision_step *step =
            &pair->quilt[side]->steps.items[steps[side]];
        change->was[side] = told_of(pair->arena, step);
        if (change->what[0] == '\0')
            change->what = step->makes;
    }
    return change;
}

/* The cloth itself decides whether another form is only another way. */
static bool comes_out_alike(const struct quilt_pair *pair,
                            const struct revision_step *a,
                            const struct revision_step *b)
{
    return (a->result[0] != '\0' && strcmp(a->result, b->result) == 0) ||
           (pair->quilt[0]->result[0] != '\0' &&
            strcmp(pair->quilt[0]->result, pair->quilt[1]->result) == 0);
}

/* Cloth that is digested with other names of fabrics differs by that alone. */
static bool is_renamed(const struct quilt_pair *pair)
{
    const struct revision *const *r = pair->comparison->revisions;
    for (size_t i = 0; i < pair->fabrics->counts[0]; i++) {
        const int to = pair->fabrics->of[0][i];
        if (to == NOWHERE || strcmp(r[0]->fabrics.items[i].id,
                                    r[1]->fabrics.items[to].id) != 0)
            return true;
    }
    return false;
}

/* Which half of a square is which cloth stands in no part and no line: where
 * all of these are the same, and what it is made of, and the cloth is not. */
static bool comes_out_otherwise(const struct quilt_pair *pair,
                                const struct revision_step *a,
                                const struct revision_step *b)
{
    if (a->result[0] == '\0' || b->result[0] == '\0' ||
        strcmp(a->result, b->result) == 0 || is_renamed(pair))
        return false;
    for (size_t i = 0; i < a->parts.count; i++) {
        const int step = a->parts.items[i].step;
        const int to = step == NOWHERE ? NOWHERE : pair->steps.of[0][step];
        if (to != NOWHERE &&
            strcmp(pair->quilt[0]->steps.items[step].result,
                   pair->quilt[1]->steps.items[to].result) != 0)
            return false;
    }
    return true;
}

/* `within`: some piece of it changed, so that whatever else differs here may
 * come of that. Another form that ends in the same cloth is another way;
 * pressing never changes the cloth that is seen. */
static void compare_step(struct quilt_pair *pair, int old, int changed,
                         bool within)
{
    const struct revision_step *a = &pair->quilt[0]->steps.items[old];
    const struct revision_step *b = &pair->quilt[1]->steps.items[changed];
    struct form form = {false, false, false};
    compare_parts(pair, a, b, &form);
    const bool lines =
        strcmp(lines_of(pair->arena, a), lines_of(pair->arena, b)) != 0;
    /* What is cut in steps of a ruler may stay where its unit is trimmed to
     * another size: that comes of the size of others then. */
    const bool other_size = !rational_equal(a->width, b->width) ||
                            !rational_equal(a->height, b->height);
    const bool resized = other_size && !pair->pieces_changed;
    within |= other_size && pair->pieces_changed;
    if (form.turned || form.taken || resized || lines ||
        (!within && comes_out_otherwise(pair, a, b))) {
        add_step(pair,
                 !form.cut && comes_out_alike(pair, a, b) ? HARM_WAY
                                                          : HARM_RESULT,
                 CHANGE_STEP, old, changed)
            ->follows = form.cut || within;
    } else if (is_another_way(pair, a, b)) {
        /* Which side is darker, or nests, may come of other cloth or forms. */
        add_step(pair, HARM_WAY, CHANGE_STEP, old, changed)->follows =
            pair->pieces_changed;
    }
}

/* Steps that are there in one revision alone. */
static void compare_lone_steps(struct quilt_pair *pair, size_t first)
{
    const bool alike = pair->quilt[0]->result[0] != '\0' &&
                       strcmp(pair->quilt[0]->result, pair->quilt[1]->result) ==
                           0;
    const enum harm harm = alike ? HARM_WAY : HARM_RESULT;
    const bool follows = pair->pieces_changed || has_own(pair, first, HARM_WAY);
    for (int side = 0; side < 2; side++)
        for (size_t i = 0; i < pair->steps.counts[side]; i++)
            if (pair->steps.of[side][i] == NOWHERE)
                add_step(pair, harm,
                         side == 0 ? CHANGE_STEP_REMOVED : CHANGE_STEP_ADDED,
                         side == 0 ? (int)i : NOWHERE,
                         side == 1 ? (int)i : NOWHERE)
                    ->follows = follows;
}

/* Numbers grow with those of the old revision, or steps were moved. The first
 * that comes earlier than one before it is told, and which one that is: its own
 * number may be the same, where steps before it came or went. */
static void compare_order(struct quilt_pair *pair, size_t first)
{
    const struct revision_quilt *a = pair->quilt[0], *b = pair->quilt[1];
    for (size_t i = 0; i < a->steps.count; i++)
        for (size_t j = 0; j < a->steps.count; j++) {
            const int to[2] = {pair->steps.of[0][i], pair->steps.of[0][j]};
            if (to[0] == NOWHERE || to[1] == NOWHERE ||
                a->steps.items[i].number >= a->steps.items[j].number ||
                b->steps.items[to[0]].number <= b->steps.items[to[1]].number)
                continue;
            const bool follows =
                pair->pieces_changed || has_own(pair, first, HARM_WAY);
            struct change *change =
                add_step(pair, HARM_WAY, CHANGE_ORDER, (int)j, to[1]);
            change->follows = follows;
            change->beside[0] = (int)i;
            change->beside[1] = to[0];
            return;
        }
}

/* Lines of quilting follow the seams and faces that they run on. */
static void compare_quilting(struct quilt_pair *pair, size_t first)
{
    if (strcmp(pair->quilt[0]->quilting, pair->quilt[1]->quilting) == 0)
        return;
    const bool follows = pair->pieces_changed || has_own(pair, first, HARM_WAY);
    add_change(pair->arena, pair->comparison, pair, HARM_RESULT,
               CHANGE_QUILTING)
        ->follows = follows;
}

/* Step by step, then what only one revision has, then the order of all;
 * quilting last, as its lines run over what is sewn. */
void compare_sewing(struct quilt_pair *pair)
{
    const size_t first = pair->comparison->changes.count;
    const bool *within[2] = {changed_within(pair, 0), changed_within(pair, 1)};
    for (size_t i = 0; i < pair->steps.counts[0]; i++) {
        const int to = pair->steps.of[0][i];
        if (to != NOWHERE)
            compare_step(pair, (int)i, to, within[0][i] || within[1][to]);
    }
    /* Of several that come out otherwise, ways follow. */
    const bool otherwise = has_own(pair, first, HARM_RESULT);
    for (size_t i = first; i < pair->comparison->changes.count; i++)
        if (otherwise && pair->comparison->changes.items[i].harm == HARM_WAY)
            pair->comparison->changes.items[i].follows = true;
    compare_lone_steps(pair, first);
    compare_order(pair, first);
    compare_quilting(pair, first);
}
