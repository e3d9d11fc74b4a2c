/* What is cut. A piece whose size or cloth is no longer there, while another
 * takes its place, was cut wrong. Where all sizes stay, only counts differ, and
 * what was cut serves. */
#include <string.h>

#include "compare_parts.h"

/* ---- which one took its place ---- */

/* Weights of what makes a piece likely to be the successor of another. Where it
 * lies says most: a patch that was cut anew lies where the old one lay. Then its
 * cloth, then how many there are, then a side in common. Only their order
 * matters; nothing that is told depends on the sum. */

/* How often the one lies where the other lay, in steps of one name and as many
 * parts. ensures: NULL where there are too many pieces to keep that. */
static long *count_places(const struct quilt_pair *pair)
{
    const size_t n = pair->quilt[1]->pieces.count;
    if (are_many(pair->quilt[0]->pieces.count, n))
        return NULL;
    long *places =
        ARENA_ARRAY(pair->arena, long, pair->quilt[0]->pieces.count *n + 1);
    for (size_t i = 0; i < pair->quilt[0]->steps.count &&
                       i < pair->quilt[1]->steps.count;
         i++) {
        const struct revision_step *a = &pair->quilt[0]->steps.items[i];
        const struct revision_step *b = &pair->quilt[1]->steps.items[i];
        if (strcmp(a->id, b->id) != 0 || a->parts.count != b->parts.count)
            continue;
        for (size_t k = 0; k < a->parts.count; k++)
            if (a->parts.items[k].piece != NOWHERE &&
                b->parts.items[k].piece != NOWHERE)
                places[(size_t)a->parts.items[k].piece * n +
                       (size_t)b->parts.items[k].piece]++;
    }
    return places;
}

/* 0 where the one cannot be the other, changed: borders stay borders. */
static long likeness(const struct quilt_pair *pair, const long *places,
                     size_t old, size_t changed)
{
    const struct revision_piece *a = &pair->quilt[0]->pieces.items[old];
    const struct revision_piece *b = &pair->quilt[1]->pieces.items[changed];
    if (a->strip != b->strip || a->border != b->border)
        return 0;
    const bool same_cloth = pair->fabrics->of[0][a->fabric] == b->fabric;
    long like = 1;
    like += same_cloth ? 40 : 0;
    like += a->count == b->count ? 30 : 0;
    like += rational_equal(a->width, b->width) ? 10 : 0;
    like += rational_equal(a->height, b->height) ? 10 : 0;
    like += strcmp(a->label, b->label) == 0 ? 5 : 0;
    const long there =
        places == NULL
            ? 0
            : places[old * pair->quilt[1]->pieces.count + changed];
    return like + (there > 0 ? 100 : 0);
}

struct piece_gains {
    const struct quilt_pair *pair;
    const long *places;
};

/* Of what is no longer there and what is new. */
static long piece_gain(const void *context, size_t i, size_t j)
{
    const struct piece_gains *of = context;
    return of->pair->pieces.of[0][i] == NOWHERE &&
                   of->pair->pieces.of[1][j] == NOWHERE
               ? likeness(of->pair, of->places, i, j)
               : 0;
}

/* ---- telling ---- */

/* Counts follow from another size: a quilt of other borders has other strips. */
static struct change *add_piece(struct quilt_pair *pair, enum harm harm,
                                enum change_kind kind, int old, int changed)
{
    struct change *change =
        add_change(pair->arena, pair->comparison, pair, harm, kind);
    const int pieces[2] = {old, changed};
    for (int side = 0; side < 2; side++) {
        const struct revision_quilt *quilt = pair->quilt[side];
        change->piece[side] = pieces[side];
        if (pieces[side] == NOWHERE)
            continue;
        change->fabric[side] = quilt->pieces.items[pieces[side]].fabric;
        change->what = quilt->pieces.items[pieces[side]].label;
    }
    if (old != NOWHERE)
        change->what = pair->quilt[0]->pieces.items[old].label;
    pair->pieces_changed = true;
    return change;
}

size_t cut_by_hand(const struct revision_piece *piece)
{
    return (piece->count + piece->from_each - 1) / piece->from_each;
}

/* How many strips a binding takes follows from the quilt. */
static void compare_count(struct quilt_pair *pair, int old, int changed)
{
    const struct revision_piece *a =
        old == NOWHERE ? NULL : &pair->quilt[0]->pieces.items[old];
    const struct revision_piece *b =
        changed == NOWHERE ? NULL : &pair->quilt[1]->pieces.items[changed];
    if (a != NULL && b != NULL && (a->count == b->count || a->strip))
        return;
    add_piece(pair, HARM_COUNT, CHANGE_PIECE_COUNT, old, changed);
}

/* Pairs what is no longer there with what is new. ensures: whether there is
 * any such pair. */
static bool pair_changed(struct quilt_pair *of)
{
    const size_t m = of->pieces.counts[0], n = of->pieces.counts[1];
    const struct piece_gains gains = {of, count_places(of)};
    const int *found = assign_by(of->arena, piece_gain, &gains, m, n);
    bool any = false;
    for (size_t i = 0; i < m; i++)
        if (found[i] != NOWHERE) {
            pair_up(&of->pieces, i, (size_t)found[i]);
            add_piece(of, HARM_CUT, CHANGE_PIECE, (int)i, found[i]);
            any = true;
        }
    return any;
}

/* Where sizes were exchanged for others, changed counts follow: a quilt of
 * other blocks takes other numbers of all pieces. Else each count is a change
 * of its own. */
void compare_pieces(struct quilt_pair *pair)
{
    const bool wrong = pair_changed(pair);
    const size_t first = pair->comparison->changes.count;
    for (size_t i = 0; i < pair->pieces.counts[0]; i++)
        if (pair->pieces.of[0][i] == NOWHERE ||
            same_piece(pair, i, (size_t)pair->pieces.of[0][i]))
            compare_count(pair, (int)i, pair->pieces.of[0][i]);
    for (size_t j = 0; j < pair->pieces.counts[1]; j++)
        if (pair->pieces.of[1][j] == NOWHERE)
            compare_count(pair, NOWHERE, (int)j);
    for (size_t i = first; wrong && i < pair->comparison->changes.count; i++)
        pair->comparison->changes.items[i].follows = true;
}
