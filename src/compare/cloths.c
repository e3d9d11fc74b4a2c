/* What is bought. An amount that follows from other pieces is told with them;
 * it is a change of its own where the same pieces are cut. */
#include <string.h>

#include "compare_parts.h"

/* The finished top; what lies under and around it goes by that. */
static bool is_resized(const struct quilt_pair *pair)
{
    return !rational_equal(pair->quilt[0]->width, pair->quilt[1]->width) ||
           !rational_equal(pair->quilt[0]->height, pair->quilt[1]->height);
}

/* Is the binding of that cloth, or the backing in any colorway? Both go by the
 * size of the quilt, and no piece of them tells how long they are. */
static bool goes_round(const struct revision_quilt *quilt, int fabric)
{
    for (size_t i = 0; i < quilt->pieces.count; i++)
        if (quilt->pieces.items[i].strip &&
            quilt->pieces.items[i].fabric == fabric)
            return true;
    for (size_t c = 0; c < quilt->colorways.count; c++)
        if (quilt->colorways.items[c].backing.wanted &&
            quilt->colorways.items[c].backing.fabric == fabric)
            return true;
    return false;
}

/* Was something changed that is cut from the fabric, or sewn in the quilt? */
static bool fabric_changed(const struct quilt_pair *pair, int old, int changed)
{
    for (size_t i = 0; i < pair->comparison->changes.count; i++) {
        const struct change *c = &pair->comparison->changes.items[i];
        if (c->quilt[0] != pair->index[0] || c->harm == HARM_WORDS)
            continue;
        if ((c->kind == CHANGE_PIECE || c->kind == CHANGE_PIECE_COUNT) &&
            ((old != NOWHERE && c->fabric[0] == old) ||
             (changed != NOWHERE && c->fabric[1] == changed)))
            return true;
    }
    return pair->pieces_changed && is_resized(pair) && old != NOWHERE &&
           changed != NOWHERE && goes_round(pair->quilt[0], old) &&
           goes_round(pair->quilt[1], changed);
}

/* Of a colorway and a fabric; either side may be without that cloth. */
struct cloth_pair {
    struct quilt_pair *quilt;
    int colorway[2], fabric[2];
    const struct revision_cloth *cloth[2];
};

/* Which colorway and fabric a change is of. NULL, for a text that does not
 * differ, stays NULL. */
static struct change *place(struct change *change,
                            const struct cloth_pair *pair)
{
    for (int side = 0; change != NULL && side < 2; side++) {
        change->colorway[side] = pair->colorway[side];
        change->fabric[side] = pair->fabric[side];
    }
    return change;
}

/* A text of the cloth in both revisions. ensures: the change, or NULL where
 * they are equal. */
static struct change *compare_of(const struct cloth_pair *pair, enum harm harm,
                                 enum change_kind kind, const char *was,
                                 const char *is)
{
    struct quilt_pair *quilt = pair->quilt;
    return place(compare_text(quilt->arena, quilt->comparison, quilt, harm,
                              kind, pair->cloth[0]->name, was, is),
                 pair);
}

/* Their names and looks. Older data do not tell all of them. */
static void compare_cloth_words(const struct cloth_pair *pair)
{
    const struct revision_cloth *a = pair->cloth[0], *b = pair->cloth[1];
    const bool told = a->color[0] != '\0' && b->color[0] != '\0';
    compare_of(pair, HARM_WORDS, CHANGE_NAME, a->name, b->name);
    compare_of(pair, HARM_WORDS, CHANGE_CODE, a->code, b->code);
    if (!told)
        return;
    compare_of(pair, HARM_WORDS, CHANGE_COLOR, a->color, b->color);
    compare_of(pair, HARM_WORDS, CHANGE_PRICE, a->price, b->price);
}

/* One cloth in both. Its width and the form in which it is sold are causes; its
 * amount may be an effect of them or of the pieces; the plan is of interest
 * only where the amount stayed, as it else is another one in any case. */
static void compare_cloth(const struct cloth_pair *pair)
{
    struct arena *arena = pair->quilt->arena;
    const struct revision_cloth *a = pair->cloth[0], *b = pair->cloth[1];
    const bool follows =
        fabric_changed(pair->quilt, pair->fabric[0], pair->fabric[1]);
    bool own = false;
    if (a->sold[0] != '\0' && b->sold[0] != '\0')
        own |= compare_of(pair, HARM_CLOTH, CHANGE_SOLD, a->sold, b->sold) !=
               NULL;
    if (!rational_equal(a->width, b->width))
        own |= compare_of(pair, HARM_CLOTH, CHANGE_CLOTH_WIDTH,
                          length_plain(arena, a->width, UNIT_IN),
                          length_plain(arena, b->width, UNIT_IN)) != NULL;
    struct change *amount =
        compare_of(pair, HARM_CLOTH, CHANGE_AMOUNT, a->amount, b->amount);
    if (amount != NULL)
        amount->follows = follows || own;
    else if (!own && strcmp(a->plan, b->plan) != 0) {
        struct change *plan = compare_of(pair, HARM_WAY, CHANGE_PLAN, "0", "1");
        plan->was[0] = plan->was[1] = "";
        plan->follows = follows;
    }
    compare_cloth_words(pair);
}

/* The cloth that plays the fabric, or NULL: a fabric that nothing is cut from
 * in this quilt has none. */
static const struct revision_cloth *
cloth_of(const struct revision_colorway *colorway, int fabric)
{
    for (size_t i = 0; i < colorway->cloths.count; i++)
        if (fabric != NOWHERE && colorway->cloths.items[i].fabric == fabric)
            return &colorway->cloths.items[i];
    return NULL;
}

/* A cloth that only one of the two buys. */
static void compare_lone_cloth(const struct cloth_pair *pair)
{
    const int side = pair->cloth[0] != NULL ? 0 : 1;
    struct quilt_pair *quilt = pair->quilt;
    const struct revision_cloth *cloth = pair->cloth[side];
    struct change *change =
        place(compare_text(quilt->arena, quilt->comparison, quilt, HARM_CLOTH,
                           CHANGE_AMOUNT, cloth->name,
                           side == 0 ? cloth->amount : "",
                           side == 1 ? cloth->amount : ""),
              pair);
    if (change != NULL)
        change->follows =
            fabric_changed(quilt, pair->fabric[0], pair->fabric[1]);
}

/* Unknown lengths, of what is not there, are equal to each other. */
static bool same_length(struct rational a, struct rational b)
{
    return rational_known(a) == rational_known(b) &&
           (!rational_known(a) || rational_equal(a, b));
}

/* Sizes of backing and batting follow from the quilt's; another cloth, or more
 * of it around the same quilt, does not. */
static void compare_layer(struct quilt_pair *pair, const int colorway[2],
                          enum change_kind kind,
                          const struct revision_layer *a,
                          const struct revision_layer *b)
{
    const bool resized = is_resized(pair);
    const bool recast = a->fabric != NOWHERE && b->fabric != NOWHERE &&
                        pair->fabrics->of[0][a->fabric] != b->fabric;
    if (!recast && a->wanted == b->wanted && same_length(a->gap, b->gap) &&
        strcmp(a->amount, b->amount) == 0 && same_length(a->width, b->width) &&
        same_length(a->height, b->height))
        return;
    struct change *change = place(
        add_change(pair->arena, pair->comparison, pair, HARM_CLOTH, kind),
        &(struct cloth_pair){pair,
                             {colorway[0], colorway[1]},
                             {a->fabric, b->fabric},
                             {NULL, NULL}});
    change->follows = resized && !recast && a->wanted == b->wanted &&
                      same_length(a->gap, b->gap);
}

/* By fabrics, not by the order of cloths: that order is the order of fabrics in
 * the source, which may have changed. */
static void compare_colorway(struct quilt_pair *pair, const int colorway[2])
{
    const struct revision_colorway *of[2] = {
        &pair->quilt[0]->colorways.items[colorway[0]],
        &pair->quilt[1]->colorways.items[colorway[1]]};
    struct cloth_pair cloth = {.quilt = pair,
                               .colorway = {colorway[0], colorway[1]}};
    for (size_t f = 0; f < pair->fabrics->counts[0]; f++) {
        cloth.fabric[0] = (int)f;
        cloth.fabric[1] = pair->fabrics->of[0][f];
        for (int side = 0; side < 2; side++)
            cloth.cloth[side] = cloth_of(of[side], cloth.fabric[side]);
        if (cloth.cloth[0] != NULL && cloth.cloth[1] != NULL)
            compare_cloth(&cloth);
        else if (cloth.cloth[0] != NULL || cloth.cloth[1] != NULL)
            compare_lone_cloth(&cloth);
    }
    for (size_t f = 0; f < pair->fabrics->counts[1]; f++) {
        cloth.fabric[0] = NOWHERE;
        cloth.fabric[1] = (int)f;
        cloth.cloth[0] = NULL;
        cloth.cloth[1] = cloth_of(of[1], (int)f);
        if (pair->fabrics->of[1][f] == NOWHERE && cloth.cloth[1] != NULL)
            compare_lone_cloth(&cloth);
    }
    compare_layer(pair, colorway, CHANGE_BACKING, &of[0]->backing,
                  &of[1]->backing);
    compare_layer(pair, colorway, CHANGE_BATTING, &of[0]->batting,
                  &of[1]->batting);
    struct change *name = compare_text(
        pair->arena, pair->comparison, pair, HARM_WORDS, CHANGE_NAME,
        of[0]->id, of[0]->name, of[1]->name);
    place(name, &(struct cloth_pair){pair,
                                     {colorway[0], colorway[1]},
                                     {NOWHERE, NOWHERE},
                                     {NULL, NULL}});
}

/* A colorway that is called otherwise keeps its place in the order. */
static int colorway_for(const struct quilt_pair *pair, size_t old)
{
    const struct revision_quilt *a = pair->quilt[0], *b = pair->quilt[1];
    for (size_t j = 0; j < b->colorways.count; j++)
        if (strcmp(a->colorways.items[old].id, b->colorways.items[j].id) == 0)
            return (int)j;
    if (old >= b->colorways.count)
        return NOWHERE;
    for (size_t i = 0; i < a->colorways.count; i++)
        if (strcmp(a->colorways.items[i].id, b->colorways.items[old].id) == 0)
            return NOWHERE;
    return (int)old;
}

/* Strips of a border may come whole from more cloth, or joined from less: what
 * hands do then comes of the amount. */
static void follow_strips(const struct quilt_pair *pair, struct change *step)
{
    const struct revision_step *of =
        &pair->quilt[0]->steps.items[step->step[0]];
    for (size_t i = pair->first; i < pair->comparison->changes.count; i++) {
        const struct change *change = &pair->comparison->changes.items[i];
        for (size_t k = 0; change->harm == HARM_CLOTH && k < of->parts.count;
             k++) {
            const int piece = of->parts.items[k].piece;
            step->follows |=
                piece != NOWHERE &&
                pair->quilt[0]->pieces.items[piece].border > 0 &&
                pair->quilt[0]->pieces.items[piece].fabric == change->fabric[0];
        }
    }
}

/* Colorways of one quilt. What is only in one of the two revisions is a matter
 * of words for who holds the old one: what he has stays right. */
void compare_cloths(struct quilt_pair *pair)
{
    const struct revision_quilt *a = pair->quilt[0], *b = pair->quilt[1];
    bool *found = ARENA_ARRAY(pair->arena, bool, b->colorways.count + 1);
    for (size_t i = 0; i < a->colorways.count; i++) {
        const int both[2] = {(int)i, colorway_for(pair, i)};
        if (both[1] == NOWHERE) {
            add_change(pair->arena, pair->comparison, pair, HARM_WORDS,
                       CHANGE_COLORWAY_REMOVED)
                ->what = a->colorways.items[i].id;
            continue;
        }
        found[both[1]] = true;
        compare_text(pair->arena, pair->comparison, pair, HARM_WORDS, CHANGE_ID,
                     "", a->colorways.items[i].id,
                     b->colorways.items[both[1]].id);
        compare_colorway(pair, both);
    }
    for (size_t j = 0; j < b->colorways.count; j++)
        if (!found[j])
            add_change(pair->arena, pair->comparison, pair, HARM_WORDS,
                       CHANGE_COLORWAY_ADDED)
                ->what = b->colorways.items[j].id;
    /* How cloth is cut may come of anything that is worse. */
    const bool follows =
        pair->pieces_changed || has_own(pair, pair->first, HARM_RESULT);
    for (size_t i = pair->first; i < pair->comparison->changes.count; i++) {
        struct change *change = &pair->comparison->changes.items[i];
        if (change->kind == CHANGE_PLAN)
            change->follows |= follows;
        if (change->kind == CHANGE_STEP && change->harm == HARM_WAY)
            follow_strips(pair, change);
    }
}
