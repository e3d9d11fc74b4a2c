/* A piece that lacks, unlike its neighbors: where a row, a column or a grid has
 * too few, the pieces of its definition are tried at each place, in three
 * steps. A blank patch at each place shows the likely ones; there all pieces
 * are tried, as they are written elsewhere; and the best of them otherwise
 * turned. Only where a picture tells what lies there, so never in a quilt's own
 * setting. Read next: rings.c. */
#include <string.h>

#include "lacking.h"

enum {
    PLACES_MOST = 4,   /* of the likely ones */
    TURNED_MOST = 12,  /* of the best pieces */
    CHILDREN_MOST = 40 /* of what lacks one */
};

/* ---- places ---- */

/* How many of the parent's children begin in the line of this one. */
static size_t in_line(const struct mender *mender, const struct element *parent,
                      const struct element *child)
{
    const struct source *source = mender->run->source;
    const size_t line = source_line(source, child->tag.start);
    size_t count = 0;
    for (size_t i = 0; i < parent->children.count; i++)
        count +=
            source_line(source, parent->children.items[i]->tag.start) == line;
    return count;
}

/* Grids are written row by row, so that a line with fewer pieces lacks one. A
 * copy goes behind what it repeats. */
static bool goes_before(const struct mender *mender,
                        const struct element *parent, size_t place,
                        const char *text)
{
    if (place == 0 || place == parent->children.count)
        return place == 0;
    if (strcmp(flat_text(mender, parent->children.items[place - 1]), text) == 0)
        return false;
    return in_line(mender, parent, parent->children.items[place]) <
           in_line(mender, parent, parent->children.items[place - 1]);
}

/* Before child `place`, or behind the last. */
static struct candidate piece_at(const struct mender *mender,
                                 const struct element *parent, size_t place,
                                 const char *text)
{
    const bool before = goes_before(mender, parent, place, text);
    const struct element *beside =
        parent->children.items[before ? place : place - 1];
    const struct span span = whole_element(mender, beside);
    const uint32_t at = before ? span.start : span.end;
    return (struct candidate){
        .manner = MANNER_INSERT,
        .far = !holds_single(parent),
        .kind = before ? KIND_PIECE_BEFORE : KIND_PIECE_BEHIND,
        .element = beside,
        .number = rational_unknown(),
        .place = beside->name,
        .edit = {{at, at},
                 arena_printf(mender->arena, before ? "%s " : " %s", text)}};
}

/* ensures: negative where `a` leaves less to say; what hides more is more. */
static int compare_outcomes(const struct outcome *a, const struct outcome *b)
{
    if (a->left != b->left)
        return a->left < b->left ? -1 : 1;
    if (a->stage != b->stage)
        return a->stage > b->stage ? -1 : 1;
    return (a->fresh > b->fresh) - (a->fresh < b->fresh);
}

/* Once for each text at each place; what is the same as what stands there
 * already is tried behind it. ensures: NULL where there are no trials left. */
static struct candidate *try_piece(struct mender *mender,
                                   const struct lack *lack, size_t place,
                                   const char *text)
{
    const struct element *parent = lack->parent;
    if (mender->tried >= lack->most ||
        (place < parent->children.count &&
         strcmp(flat_text(mender, parent->children.items[place]), text) == 0))
        return NULL;
    struct candidate *one =
        offer(mender, piece_at(mender, parent, place, text));
    if (one != NULL && !one->tried) {
        one->outcome = try_edit(mender, &one->edit);
        one->tried = true;
    }
    return one;
}

/* Where a piece likely lacks, and the cells that one there covers. */
struct gap {
    size_t index;
    struct outcome blank; /* with a patch there */
    bool filled;          /* a piece shows what the place is asked for */
    struct cell_seen cells[2 * CELLS_SEEN];
    size_t count;
};

static bool has_cell(const struct cell_seen *cells, size_t count,
                     const struct cell_seen *cell)
{
    for (size_t i = 0; i < count; i++)
        if (cells[i].at == cell->at && cells[i].shown == cell->shown)
            return true;
    return false;
}

/* What differs with the one patch but not with the other is covered by them. */
static void add_covered(struct gap *gap, const struct outcome *one,
                        const struct outcome *other)
{
    for (size_t i = 0; i < one->cell_count; i++) {
        bool seen = has_cell(other->cells, other->cell_count, &one->cells[i]);
        for (size_t k = 0; k < gap->count; k++)
            seen |= gap->cells[k].at == one->cells[i].at;
        if (!seen)
            gap->cells[gap->count++] = one->cells[i];
    }
}

static struct outcome try_blank(struct mender *mender, const struct lack *lack,
                                size_t place, size_t fabric)
{
    const struct edit edit =
        piece_at(mender, lack->parent, place, patch_of(mender, fabric).text)
            .edit;
    return try_edit(mender, &edit);
}

/* The places where a blank patch leaves the least to say. ensures: how many. */
static size_t likely_places(struct mender *mender, const struct lack *lack,
                            struct gap gaps[PLACES_MOST])
{
    struct outcome least = {0};
    size_t count = 0;
    for (size_t i = 0; i <= lack->parent->children.count; i++) {
        if (mender->tried >= lack->most)
            return 0;
        const struct outcome outcome = try_blank(mender, lack, i, 0);
        const int order = count == 0 ? -1 : compare_outcomes(&outcome, &least);
        if (order < 0) {
            least = outcome;
            count = 0;
        }
        if (order <= 0 && count++ < PLACES_MOST) {
            gaps[count - 1] = (struct gap){.index = i, .blank = outcome};
        }
    }
    if (count > PLACES_MOST)
        count = PLACES_MOST;
    for (size_t i = 0; i < count && mender->sized->design->fabrics.count > 1 &&
                       mender->tried < lack->most;
         i++) {
        const struct outcome other = try_blank(mender, lack, gaps[i].index, 1);
        add_covered(&gaps[i], &gaps[i].blank, &other);
        add_covered(&gaps[i], &other, &gaps[i].blank);
    }
    return count;
}

/* How many of the cells that it covers the piece shows otherwise. */
static size_t cells_otherwise(const struct gap *gap,
                              const struct outcome *outcome)
{
    size_t count = 0;
    for (size_t i = 0; i < outcome->cell_count; i++) {
        bool covered = false;
        for (size_t k = 0; k < gap->count; k++)
            covered |= gap->cells[k].at == outcome->cells[i].at;
        count += covered;
    }
    return count;
}

/* Sizes are right with it, so that its like with other sizes is no better. */
static bool fits(const struct outcome *outcome)
{
    return outcome->left == 0 && outcome->stage >= STAGE_CELLS;
}

/* Of several cells, one may be drawn wrongly. */
static void note_piece(struct gap *gap, struct candidate *one)
{
    const size_t otherwise = cells_otherwise(gap, &one->outcome);
    one->guess = 3 * otherwise > gap->count;
    gap->filled |= fits(&one->outcome) && otherwise == 0 && gap->count > 0;
}

/* ---- the search ---- */

/* A piece at its place, and how well it does. */
struct attempt {
    struct gap *gap;
    const struct kind_of_piece *kind;
    struct outcome outcome;
};

static void keep_best(struct attempt *best, size_t *count,
                      struct attempt attempt)
{
    size_t at = *count;
    while (at > 0 &&
           compare_outcomes(&attempt.outcome, &best[at - 1].outcome) < 0)
        at--;
    if (at == TURNED_MOST)
        return;
    *count += *count < TURNED_MOST;
    for (size_t i = *count - 1; i > at; i--)
        best[i] = best[i - 1];
    best[at] = attempt;
}

static void try_text(struct mender *mender, const struct lack *lack,
                     struct gap *gap, const char *text)
{
    struct candidate *one =
        text == NULL ? NULL : try_piece(mender, lack, gap->index, text);
    if (one != NULL)
        note_piece(gap, one);
}

static void try_value(struct mender *mender, const struct lack *lack,
                      struct gap *gap, const char *tag, const char *name,
                      const char *value)
{
    try_text(mender, lack, gap, with_value(mender, tag, name, value));
}

/* Nothing is left to try: what lies otherwise may show the same. */
static bool is_done(const struct attempt *attempt)
{
    return attempt->gap->filled ||
           attempt->outcome.left + attempt->outcome.fresh == 0;
}

static void try_turns(struct mender *mender, const struct lack *lack,
                      const struct attempt *attempt, const char *tag)
{
    static const char *const turns[] = {"", "90", "180", "270"};
    for (size_t i = 0; tag != NULL && i < 4; i++)
        try_value(mender, lack, attempt->gap, tag, "turn", turns[i]);
}

/* A use as others are not: mirrored, or not. */
static void try_mirrored(struct mender *mender, const struct lack *lack,
                         const struct attempt *attempt)
{
    const char *tag = attempt->kind->text;
    if (strncmp(tag, "<use ", strlen("<use ")) != 0 || is_done(attempt))
        return;
    const char *plain = with_value(mender, tag, "mirror", "");
    try_turns(mender, lack, attempt,
              plain == tag ? with_value(mender, tag, "mirror", "yes") : plain);
}

static void try_geese(struct mender *mender, const struct lack *lack,
                      const struct attempt *attempt)
{
    static const char *const ways[] = {"up", "right", "down", "left"};
    for (size_t i = 0; i < 4; i++)
        try_value(mender, lack, attempt->gap, attempt->kind->text, "points",
                  ways[i]);
}

/* Of two triangles in a square or a rectangle, the line the other way, the
 * sides exchanged, and both: in a mirror. */
static void try_halves(struct mender *mender, const struct lack *lack,
                       const struct attempt *attempt)
{
    const char *tag = attempt->kind->text;
    const char *line = value_in(mender, tag, "line");
    const char *left = value_in(mender, tag, "left");
    const char *right = value_in(mender, tag, "right");
    if (line == NULL || left == NULL || right == NULL)
        return;
    const char *flipped =
        with_value(mender, tag, "line",
                   strcmp(line, "rising") == 0 ? "falling" : "rising");
    const char *exchanged = with_value(mender, tag, "left", right);
    if (flipped == NULL || exchanged == NULL)
        return;
    exchanged = with_value(mender, exchanged, "right", left);
    const char *mirrored = with_value(mender, flipped, "left", right);
    mirrored = with_value(mender, mirrored, "right", left);
    try_text(mender, lack, attempt->gap, mirrored);
    try_text(mender, lack, attempt->gap, flipped);
    try_text(mender, lack, attempt->gap, exchanged);
}

/* The same piece, lying otherwise. */
static void try_turned(struct mender *mender, const struct lack *lack,
                       const struct attempt *attempt)
{
    const char *tag = attempt->kind->text;
    if (is_done(attempt))
        return;
    if (strncmp(tag, "<use ", strlen("<use ")) == 0)
        try_turns(mender, lack, attempt, tag);
    else if (strncmp(tag, "<flying-geese ", strlen("<flying-geese ")) == 0)
        try_geese(mender, lack, attempt);
    else if (strncmp(tag, "<half-", strlen("<half-")) == 0)
        try_halves(mender, lack, attempt);
}

static void try_place(struct mender *mender, const struct lack *lack,
                      struct gap *gap, struct attempt *best, size_t *count)
{
    bool fitting[PIECES_MOST] = {false};
    for (size_t k = 0; k < lack->count; k++) {
        bool known = false;
        for (size_t i = 0; i < k; i++)
            known |= fitting[i] && alike(&lack->kinds[i], &lack->kinds[k]);
        struct candidate *one =
            known ? NULL
                  : try_piece(mender, lack, gap->index, lack->kinds[k].text);
        if (known)
            continue;
        if (one != NULL) {
            note_piece(gap, one);
            fitting[k] = fits(&one->outcome);
        }
        keep_best(best, count,
                  (struct attempt){gap, &lack->kinds[k],
                                   one != NULL ? one->outcome : gap->blank});
    }
}

/* The same piece, one of its fabrics another. */
static void try_fabrics(struct mender *mender, const struct lack *lack,
                        const struct attempt *attempt)
{
    const struct design *design = mender->sized->design;
    const struct element *like = attempt->kind->like;
    if (like == NULL || like->kind == ELEMENT_PATCH || is_done(attempt))
        return;
    for (size_t i = 0; i < like->value_count; i++)
        for (size_t f = 0;
             names_fabric(like->values[i].id) && f < fabric_numbers(design);
             f++)
            if (fabric_name(mender, lack->parent, f) != NULL)
                try_value(mender, lack, attempt->gap, attempt->kind->text,
                          attribute_name(like->values[i].id),
                          fabric_name(mender, lack->parent, f));
}

/* Does another of these say how it is made? */
static bool states_method(const char *tag, const struct element *element)
{
    const char *name = element_name(element->kind);
    if (written(element, ATTR_METHOD) != NULL &&
        strncmp(tag + 1, name, strlen(name)) == 0)
        return true;
    for (size_t i = 0; i < element->children.count; i++)
        if (states_method(tag, element->children.items[i]))
            return true;
    return false;
}

/* A piece that covers one cell, and is unlike all others, is told by what is
 * drawn there. How it is made is not drawn. */
static void try_drawn(struct mender *mender, const struct lack *lack,
                      struct gap *gap)
{
    const char *text =
        gap->count == 1 && !gap->filled
            ? drawn_text(mender,
                         (struct span){gap->cells[0].at, gap->cells[0].end})
            : NULL;
    struct candidate *one =
        text == NULL ? NULL : try_piece(mender, lack, gap->index, text);
    if (one == NULL)
        return;
    note_piece(gap, one);
    one->made_somehow = states_method(text, mender->root);
}

static void search_lack(struct mender *mender, struct lack *lack)
{
    struct gap gaps[PLACES_MOST];
    struct attempt best[TURNED_MOST];
    size_t tried = 0;
    const size_t count = likely_places(mender, lack, gaps);
    fill_kinds(mender, lack);
    for (size_t i = 0; i < count; i++)
        try_place(mender, lack, &gaps[i], best, &tried);
    for (size_t i = 0; i < tried; i++)
        try_turned(mender, lack, &best[i]);
    for (size_t i = 0; i < count; i++)
        try_drawn(mender, lack, &gaps[i]);
    for (size_t i = 0; i < tried; i++)
        try_fabrics(mender, lack, &best[i]);
    for (size_t i = 0; i < tried; i++)
        try_mirrored(mender, lack, &best[i]);
}

static size_t cells_of(const struct mender *mender, const struct element *grid)
{
    const struct design *design = mender->sized->design;
    for (size_t i = 0; i < design->pieces.count; i++)
        if (design->pieces.items[i]->element == grid)
            return design->pieces.items[i]->across *
                   design->pieces.items[i]->down;
    return 0;
}

/* What is said to have too few parts, or NULL. */
static const struct element *lacking(const struct mender *mender,
                                     const struct diagnostic *d)
{
    const bool sum = d->code == DIAG_SEAM_SUM && rational_known(d->off[0]) &&
                     d->about.end > 0;
    if (!sum && d->code != DIAG_GRID_COUNT)
        return NULL;
    const struct element *element =
        element_at(mender, sum ? d->about.start : d->span.start);
    /* A piece that is too large for its own sides fills a row alone. */
    if (is_single(element))
        element = element->parent;
    else if (sum && rational_sign(d->off[0]) > 0)
        return NULL;
    const bool holds = element->kind == ELEMENT_ROW ||
                       element->kind == ELEMENT_COLUMN ||
                       (element->kind == ELEMENT_GRID &&
                        element->children.count < cells_of(mender, element));
    const enum element_kind top = top_of(mender, element)->kind;
    if (!holds || (top != ELEMENT_UNIT && top != ELEMENT_BLOCK) ||
        element->children.count == 0 || element->children.count > CHILDREN_MOST)
        return NULL;
    for (size_t i = 0; i < element->children.count; i++)
        if (!is_part(element->children.items[i]))
            return NULL;
    return element;
}

/* One piece that lacks is told by few errors; many have another cause. */
static bool has_few_errors(const struct mender *mender)
{
    enum { ERRORS_FEW = 4 };
    size_t count = 0;
    for (size_t i = 0; i < mender->error_count; i++)
        count += !of_steps(mender->errors[i]->code);
    return count <= ERRORS_FEW;
}

/* The first that lacks something: where one does, others are its echo. */
void search_pieces(struct mender *mender, size_t most)
{
    enum { SHARE = 5 };
    const struct design *design = mender->sized->design;
    const size_t share = mender->tried + mender->most / SHARE;
    if (design->fabrics.count == 0 || design->fabrics.items[0].id == NULL ||
        !has_few_errors(mender))
        return;
    for (size_t i = 0; i < mender->error_count; i++) {
        struct lack lack = {.parent = lacking(mender, mender->errors[i]),
                            .most = share < most ? share : most};
        if (lack.parent == NULL)
            continue;
        search_lack(mender, &lack);
        return;
    }
}

/* ---- a key of a map ---- */

/* The last use of the grid, or NULL. */
static const struct element *last_use(const struct element *grid)
{
    const struct element *last = NULL;
    for (size_t i = 0; i < grid->children.count; i++)
        if (grid->children.items[i]->kind == ELEMENT_USE)
            last = grid->children.items[i];
    return last;
}

void offer_keyed_uses(struct mender *mender)
{
    const struct design *design = mender->sized->design;
    for (size_t i = 0; i < mender->error_count; i++) {
        const struct diagnostic *d = mender->errors[i];
        const struct element *map = element_at(mender, d->span.start);
        const struct element *use =
            d->code == DIAG_MAP && map->kind == ELEMENT_MAP
                ? last_use(map->parent)
                : NULL;
        if (use == NULL)
            continue;
        const bool unit = written(use, ATTR_UNIT) != NULL;
        const char *key = arena_copy(
            mender->arena, mender->run->source->bytes + d->span.start, 1);
        const char *keyed =
            with_value(mender, flat_text(mender, use), "key", key);
        for (size_t k = 0; keyed != NULL && k < design->definitions.count;
             k++) {
            const struct definition *one = design->definitions.items[k];
            if (one->id == NULL ||
                one->kind != (unit ? DEFINE_UNIT : DEFINE_BLOCK))
                continue;
            const struct span span = whole_element(mender, use);
            offer(mender,
                  (struct candidate){
                      .manner = MANNER_INSERT,
                      .kind = KIND_PIECE_BEHIND,
                      .element = use,
                      .number = rational_unknown(),
                      .place = use->name,
                      .edit = {{span.end, span.end},
                               arena_printf(mender->arena, " %s",
                                            with_value(mender, keyed,
                                                       unit ? "unit" : "block",
                                                       one->id))}});
        }
    }
}
