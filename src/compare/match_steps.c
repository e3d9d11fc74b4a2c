/* Steps by what they make: everything in them down to the cut pieces becomes
 * one text, which gets a number, so that equal numbers are equal work and no two
 * different steps can be taken for one. */
#include <stdlib.h>
#include <string.h>

#include "buffer.h"
#include "compare_parts.h"
#include "name_table.h"

/* What both revisions' steps are, by numbers that they share. */
struct contents_of {
    struct name_table numbers;
    size_t *of[2];
};

/* A piece is called by its place in the new revision, where it has one. */
static void add_piece(struct buffer *out, const struct quilt_pair *pair,
                      int side, int piece)
{
    const int other = pair->pieces.of[side][piece];
    if (other == NOWHERE)
        buffer_printf(out, "%c%d", side == 0 ? 'o' : 'n', piece);
    else
        buffer_printf(out, "p%d", side == 0 ? other : piece);
}

static void add_pair(struct buffer *out, struct rational one,
                     struct rational other)
{
    rational_key(out, one);
    buffer_char(out, ' ');
    rational_key(out, other);
    buffer_char(out, ' ');
}

/* One text of all that the step is: its size, its parts with their places and
 * turns, and what hands do, but neither pressing nor words. requires: its parts
 * have their numbers already, which they have, as they stand before it. */
static const char *content_text(const struct quilt_pair *pair,
                                const struct contents_of *contents, int side,
                                size_t index)
{
    const struct revision_step *step = &pair->quilt[side]->steps.items[index];
    struct buffer out = buffer_in(pair->arena);
    add_pair(&out, step->width, step->height);
    for (size_t i = 0; i < step->parts.count; i++) {
        const struct revision_part *part = &step->parts.items[i];
        buffer_printf(&out, ";%ld ", part->turn);
        add_pair(&out, part->x, part->y);
        if (part->piece != NOWHERE)
            add_piece(&out, pair, side, part->piece);
        else
            buffer_printf(&out, "s%zu", contents->of[side][part->step]);
    }
    for (size_t i = 0; i < step->actions.count; i++)
        buffer_printf(&out, ";%s %s %s", step->actions.items[i].kind,
                      step->actions.items[i].line, step->actions.items[i].at);
    return buffer_string(&out);
}

/* Texts are compared in full by the table, so that two contents never share a
 * number by chance, as they could a digest. */
static struct contents_of number_contents(const struct quilt_pair *pair)
{
    struct contents_of contents = {.of = {NULL, NULL}};
    for (int side = 0; side < 2; side++) {
        const size_t count = pair->quilt[side]->steps.count;
        contents.of[side] = ARENA_ARRAY(pair->arena, size_t, count + 1);
        for (size_t i = 0; i < count; i++) {
            const char *text = content_text(pair, &contents, side, i);
            size_t number = contents.numbers.count;
            if (!name_table_add(pair->arena, &contents.numbers, text, number))
                name_table_find(&contents.numbers, text, &number);
            contents.of[side][i] = number;
        }
    }
    return contents;
}

/* What has no id is never the same by it. */
static bool same_id(const struct revision_step *a,
                    const struct revision_step *b)
{
    return a->id[0] != '\0' && strcmp(a->id, b->id) == 0;
}

/* Is the one the other in this round? The rounds go from what is surest. */
static bool is_match(const struct quilt_pair *of,
                     const struct contents_of *contents, int round, size_t i,
                     size_t j)
{
    const struct revision_step *a = &of->quilt[0]->steps.items[i];
    const struct revision_step *b = &of->quilt[1]->steps.items[j];
    switch (round) {
    case 0:
        return contents->of[0][i] == contents->of[1][j] && same_id(a, b) &&
               a->mirrored == b->mirrored;
    case 1:
        return contents->of[0][i] == contents->of[1][j];
    case 2:
        return same_id(a, b) && a->mirrored == b->mirrored &&
               strcmp(a->cast, b->cast) == 0;
    default:
        return same_id(a, b) && a->mirrored == b->mirrored;
    }
}

/* The part of one that is the part of the other. */
static bool same_part(const struct quilt_pair *pair,
                      const struct revision_part *a,
                      const struct revision_part *b)
{
    if (a->piece != NOWHERE)
        return b->piece != NOWHERE && pair->pieces.of[0][a->piece] == b->piece;
    return b->step != NOWHERE && pair->steps.of[0][a->step] == b->step;
}

/* Of 100: parts in common count most, then what hands do, how many are made and
 * how large. */
static long likeness(const struct quilt_pair *pair,
                     const struct revision_step *a,
                     const struct revision_step *b)
{
    const size_t most =
        a->parts.count > b->parts.count ? a->parts.count : b->parts.count;
    const size_t least =
        a->parts.count < b->parts.count ? a->parts.count : b->parts.count;
    size_t same = 0;
    for (size_t i = 0; i < least; i++)
        same +=
            same_part(pair, &a->parts.items[i], &b->parts.items[i]) ? 1 : 0;
    long like = most == 0 ? 50 : (long)(50 * same / most);
    like += a->parts.count == b->parts.count ? 10 : 0;
    like += a->actions.count == b->actions.count && a->actions.count > 0 &&
                    strcmp(a->actions.items[0].kind,
                           b->actions.items[0].kind) == 0
                ? 15
                : 0;
    like += a->count == b->count ? 10 : 0;
    like += rational_equal(a->width, b->width) &&
                    rational_equal(a->height, b->height)
                ? 10
                : 0;
    return like + (a->number == b->number ? 5 : 0);
}

/* What is alike by half is the same step, changed; less is another. A step that
 * has a name is not one that has none. */
enum { HALF = 50 };

/* Steps without a mate, by index. */
struct rest {
    const struct quilt_pair *of;
    size_t *steps[2], counts[2];
};

static long step_gain(const void *context, size_t i, size_t j)
{
    const struct rest *rest = context;
    const struct revision_step *a =
        &rest->of->quilt[0]->steps.items[rest->steps[0][i]];
    const struct revision_step *b =
        &rest->of->quilt[1]->steps.items[rest->steps[1][j]];
    const long like = likeness(rest->of, a, b);
    return like >= HALF && (a->id[0] == '\0') == (b->id[0] == '\0') ? like : 0;
}

/* What is left has neither its content nor its id in common: the one assignment
 * that is most alike in all decides, and what is less than half alike stays
 * alone. */
static void match_rest(struct quilt_pair *of)
{
    struct rest rest = {.of = of};
    for (int side = 0; side < 2; side++) {
        const size_t count = of->steps.counts[side];
        rest.steps[side] = ARENA_ARRAY(of->arena, size_t, count + 1);
        for (size_t i = 0; i < count; i++)
            if (of->steps.of[side][i] == NOWHERE)
                rest.steps[side][rest.counts[side]++] = i;
    }
    if (rest.counts[0] == 0 || rest.counts[1] == 0)
        return;
    const int *found = assign_by(of->arena, step_gain, &rest, rest.counts[0],
                                 rest.counts[1]);
    for (size_t i = 0; i < rest.counts[0]; i++)
        if (found[i] != NOWHERE)
            pair_up(&of->steps, rest.steps[0][i], rest.steps[1][found[i]]);
}

/* Twice the rest, as what takes a step that was found is more alike then. */
void match_steps(struct quilt_pair *of)
{
    const size_t m = of->quilt[0]->steps.count;
    const size_t n = of->quilt[1]->steps.count;
    const struct contents_of contents = number_contents(of);
    of->steps = pairs_new(of->arena, m, n);
    for (int round = 0; round < 4; round++)
        for (size_t i = 0; i < m; i++)
            for (size_t j = 0; j < n && of->steps.of[0][i] == NOWHERE; j++)
                if (of->steps.of[1][j] == NOWHERE &&
                    is_match(of, &contents, round, i, j))
                    pair_up(&of->steps, i, j);
    match_rest(of);
    match_rest(of);
}
