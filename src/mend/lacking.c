/* A piece that lacks, unlike its neighbors: where a row, a column or a grid has
 * too few, the pieces of its definition are tried at each place, in three
 * steps. A blank patch at each place shows the likely ones; there all pieces
 * are tried, as they are written elsewhere; and the best of them otherwise
 * turned. Only where a picture tells what lies there, so never in a quilt's own
 * setting. Read next: rings.c. */
#include <string.h>

#include "mender.h"

enum {
    PLACES_MOST = 4,   /* of the likely ones */
    KINDS_MOST = 24,   /* of pieces */
    TURNED_MOST = 12,  /* of the best pieces */
    CHILDREN_MOST = 40 /* of what lacks one */
};

/* A piece that may lack. */
struct kind_of_piece {
    const char *text;
    const struct element *like; /* is written so; NULL where none is */
    const char *fabric;         /* of a plain patch, else NULL */
};

/* What lacks a piece, and what may be put into it. */
struct lack {
    const struct element *parent;
    struct kind_of_piece kinds[KINDS_MOST];
    size_t count;
    size_t most; /* trials */
};

/* ---- pieces, as they are written ---- */

/* Lengths and counts do not part one kind of piece from another. */
static bool parts_kinds(enum attribute_id id)
{
    return id != ATTR_WIDTH && id != ATTR_HEIGHT && id != ATTR_CUT &&
           id != ATTR_UNFINISHED && id != ATTR_COUNT && id != ATTR_ID;
}

/* The same but for sizes, children included. */
static bool same_kind(const struct element *a, const struct element *b)
{
    if (a->kind != b->kind || a->children.count != b->children.count)
        return false;
    for (size_t i = 0; i < a->value_count; i++) {
        const struct value *value = written(b, a->values[i].id);
        if (parts_kinds(a->values[i].id) &&
            (value == NULL || strcmp(value->text, a->values[i].text) != 0))
            return false;
    }
    for (size_t i = 0; i < b->value_count; i++)
        if (parts_kinds(b->values[i].id) && !written(a, b->values[i].id))
            return false;
    for (size_t i = 0; i < a->children.count; i++)
        if (!same_kind(a->children.items[i], b->children.items[i]))
            return false;
    return true;
}

/* On one line, as messages name lines. */
static const char *flat_text(const struct mender *mender,
                             const struct element *element)
{
    const char *text = span_text(mender, whole_element(mender, element));
    char *flat = arena_copy(mender->arena, text, strlen(text));
    size_t length = 0;
    for (const char *c = text; *c != '\0'; c++) {
        const bool blank = *c == '\n' || *c == '\r' || *c == '\t' || *c == ' ';
        if (!blank)
            flat[length++] = *c;
        else if (length > 0 && flat[length - 1] != ' ')
            flat[length++] = ' ';
    }
    flat[length] = '\0';
    return flat;
}

/* A piece of its own, no heap of others. */
static bool is_single(const struct element *element)
{
    return is_part(element) && element->kind != ELEMENT_ROW &&
           element->kind != ELEMENT_COLUMN && element->kind != ELEMENT_GRID;
}

/* Rows of a column are no patches. */
static bool holds_single(const struct element *parent)
{
    for (size_t i = 0; i < parent->children.count; i++)
        if (is_single(parent->children.items[i]))
            return true;
    return false;
}

static void add_kind(struct lack *lack, struct kind_of_piece kind)
{
    for (size_t i = 0; i < lack->count; i++)
        if (strcmp(lack->kinds[i].text, kind.text) == 0)
            return;
    if (lack->count < KINDS_MOST)
        lack->kinds[lack->count++] = kind;
}

/* Those of the parent come first. */
static void add_pieces(struct mender *mender, struct lack *lack,
                       const struct element *element)
{
    for (size_t i = 0; i < element->children.count; i++) {
        const struct element *child = element->children.items[i];
        const struct value *fabric = written(child, ATTR_FABRIC);
        const bool plain = child->kind == ELEMENT_PATCH &&
                           child->children.count == 0 && fabric != NULL;
        if (is_single(child))
            add_kind(lack,
                     (struct kind_of_piece){flat_text(mender, child), child,
                                            plain ? fabric->text : NULL});
    }
    for (size_t i = 0; i < element->children.count; i++)
        add_pieces(mender, lack, element->children.items[i]);
}

/* A unit that nothing uses was meant to be used. */
static void add_unused_units(struct mender *mender, struct lack *lack)
{
    const struct design *design = mender->sized->design;
    for (size_t i = 0; i < design->definitions.count; i++) {
        const struct definition *one = design->definitions.items[i];
        if (one->kind == DEFINE_UNIT && !one->used && one->id != NULL &&
            one->element != top_of(mender, lack->parent))
            add_kind(lack, (struct kind_of_piece){
                               arena_printf(mender->arena, "<use unit=\"%s\"/>",
                                            one->id),
                               NULL, NULL});
    }
}

/* A patch that takes what is left of its row. */
static struct kind_of_piece patch_of(const struct mender *mender, size_t fabric)
{
    const char *id = mender->sized->design->fabrics.items[fabric].id;
    return (struct kind_of_piece){
        arena_printf(mender->arena, "<patch fabric=\"%s\"/>", id), NULL, id};
}

/* Units that are not used, pieces as they are written, then plain patches. */
static void fill_kinds(struct mender *mender, struct lack *lack)
{
    const struct design *design = mender->sized->design;
    add_unused_units(mender, lack);
    add_pieces(mender, lack, lack->parent);
    add_pieces(mender, lack, top_of(mender, lack->parent));
    for (size_t i = 0; holds_single(lack->parent) && i < design->fabrics.count;
         i++)
        if (design->fabrics.items[i].id != NULL)
            add_kind(lack, patch_of(mender, i));
}

/* But for sizes. */
static bool alike(const struct kind_of_piece *a, const struct kind_of_piece *b)
{
    if (a->fabric != NULL && b->fabric != NULL)
        return strcmp(a->fabric, b->fabric) == 0;
    return a->like != NULL && b->like != NULL && same_kind(a->like, b->like);
}

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

/* The places where a blank patch leaves the least to say; of many that are
 * alike, none is. ensures: how many. */
static size_t likely_places(struct mender *mender, const struct lack *lack,
                            size_t places[PLACES_MOST])
{
    struct outcome least = {0};
    size_t count = 0;
    for (size_t i = 0; i <= lack->parent->children.count; i++) {
        if (mender->tried >= lack->most)
            return 0;
        const struct edit edit =
            piece_at(mender, lack->parent, i, patch_of(mender, 0).text).edit;
        const struct outcome outcome = try_edit(mender, &edit);
        const int order = count == 0 ? -1 : compare_outcomes(&outcome, &least);
        if (order < 0) {
            least = outcome;
            count = 0;
        }
        if (order <= 0 && count++ < PLACES_MOST)
            places[count - 1] = i;
    }
    return count < PLACES_MOST ? count : PLACES_MOST;
}

/* ---- the search ---- */

/* A piece at its place, and how well it does. */
struct attempt {
    size_t place;
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

/* The tag with another value of the attribute, written or not, or without it
 * where the value is empty. NULL for what has children. */
static const char *with_value(const struct mender *mender, const char *tag,
                              const char *name, const char *value)
{
    const char *end = strchr(tag, '>');
    if (end == NULL || end[-1] != '/' || end[1] != '\0')
        return NULL;
    const char *set = arena_printf(mender->arena, " %s=\"", name);
    const char *found = strstr(tag, set);
    if (found == NULL && value[0] == '\0')
        return tag;
    if (found == NULL)
        return arena_printf(mender->arena, "%.*s%s%s\"/>", (int)(end - 1 - tag),
                            tag, set, value);
    const char *tail = strchr(found + strlen(set), '"');
    if (value[0] == '\0')
        return arena_printf(mender->arena, "%.*s%s", (int)(found - tag), tag,
                            tail + 1);
    return arena_printf(mender->arena, "%.*s%s%s%s", (int)(found - tag), tag,
                        set, value, tail);
}

/* What the tag has for the attribute, or NULL. */
static const char *value_in(const struct mender *mender, const char *tag,
                            const char *name)
{
    const char *set = arena_printf(mender->arena, " %s=\"", name);
    const char *found = strstr(tag, set);
    return found == NULL ? NULL
                         : arena_copy(mender->arena, found + strlen(set),
                                      strcspn(found + strlen(set), "\""));
}

static void try_value(struct mender *mender, const struct lack *lack,
                      size_t place, const char *tag, const char *name,
                      const char *value)
{
    const char *text = with_value(mender, tag, name, value);
    if (text != NULL)
        try_piece(mender, lack, place, text);
}

/* As it lies, and mirrored where others are. */
static void try_uses(struct mender *mender, const struct lack *lack,
                     const struct attempt *attempt)
{
    static const char *const turns[] = {"", "90", "180", "270"};
    const char *plain = with_value(mender, attempt->kind->text, "mirror", "");
    for (size_t i = 0; i < 4; i++)
        try_value(mender, lack, attempt->place, attempt->kind->text, "turn",
                  turns[i]);
    for (size_t i = 0; plain != NULL && plain != attempt->kind->text && i < 4;
         i++)
        try_value(mender, lack, attempt->place, plain, "turn", turns[i]);
}

static void try_geese(struct mender *mender, const struct lack *lack,
                      const struct attempt *attempt)
{
    static const char *const ways[] = {"up", "right", "down", "left"};
    for (size_t i = 0; i < 4; i++)
        try_value(mender, lack, attempt->place, attempt->kind->text, "points",
                  ways[i]);
}

/* The line the other way, the sides exchanged, and both: in a mirror. */
static void try_half_squares(struct mender *mender, const struct lack *lack,
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
    try_piece(mender, lack, attempt->place, mirrored);
    try_piece(mender, lack, attempt->place, flipped);
    try_piece(mender, lack, attempt->place, exchanged);
}

/* Nothing is left to try. */
static bool says_nothing(const struct attempt *attempt)
{
    return attempt->outcome.left + attempt->outcome.fresh == 0;
}

/* The same piece, lying otherwise. */
static void try_turned(struct mender *mender, const struct lack *lack,
                       const struct attempt *attempt)
{
    const char *tag = attempt->kind->text;
    if (says_nothing(attempt))
        return;
    if (strncmp(tag, "<use ", strlen("<use ")) == 0)
        try_uses(mender, lack, attempt);
    else if (strncmp(tag, "<flying-geese ", strlen("<flying-geese ")) == 0)
        try_geese(mender, lack, attempt);
    else if (strncmp(tag, "<half-square ", strlen("<half-square ")) == 0)
        try_half_squares(mender, lack, attempt);
}

/* Sizes are right with it, so that its like with other sizes is no better. */
static bool fits(const struct outcome *outcome)
{
    return outcome->left == 0 && outcome->stage >= STAGE_CELLS;
}

static void try_place(struct mender *mender, const struct lack *lack,
                      size_t place, struct attempt *best, size_t *count)
{
    bool fitting[KINDS_MOST] = {false};
    for (size_t k = 0; k < lack->count; k++) {
        bool known = false;
        for (size_t i = 0; i < k; i++)
            known |= fitting[i] && alike(&lack->kinds[i], &lack->kinds[k]);
        const struct candidate *one =
            known ? NULL : try_piece(mender, lack, place, lack->kinds[k].text);
        if (one == NULL)
            continue;
        fitting[k] = fits(&one->outcome);
        keep_best(best, count,
                  (struct attempt){place, &lack->kinds[k], one->outcome});
    }
}

/* The same piece, one of its fabrics another. */
static void try_fabrics(struct mender *mender, const struct lack *lack,
                        const struct attempt *attempt)
{
    const struct design *design = mender->sized->design;
    const struct element *like = attempt->kind->like;
    if (like == NULL || like->kind == ELEMENT_PATCH || says_nothing(attempt))
        return;
    for (size_t i = 0; i < like->value_count; i++)
        for (size_t f = 0;
             names_fabric(like->values[i].id) && f < design->fabrics.count; f++)
            if (design->fabrics.items[f].id != NULL)
                try_value(mender, lack, attempt->place, attempt->kind->text,
                          attribute_name(like->values[i].id),
                          design->fabrics.items[f].id);
}

static void search_lack(struct mender *mender, struct lack *lack)
{
    size_t places[PLACES_MOST];
    struct attempt best[TURNED_MOST];
    size_t tried = 0;
    const size_t count = likely_places(mender, lack, places);
    fill_kinds(mender, lack);
    for (size_t i = 0; i < count; i++)
        try_place(mender, lack, places[i], best, &tried);
    for (size_t i = 0; i < tried; i++)
        try_turned(mender, lack, &best[i]);
    for (size_t i = 0; i < tried; i++)
        try_fabrics(mender, lack, &best[i]);
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

/* The first that lacks something: where one does, others are its echo. */
void search_pieces(struct mender *mender, size_t most)
{
    const struct design *design = mender->sized->design;
    if (design->fabrics.count == 0 || design->fabrics.items[0].id == NULL)
        return;
    for (size_t i = 0; i < mender->error_count; i++) {
        struct lack lack = {.parent = lacking(mender, mender->errors[i]),
                            .most = most};
        if (lack.parent == NULL)
            continue;
        search_lack(mender, &lack);
        return;
    }
}
