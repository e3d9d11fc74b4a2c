/* Where to look: the element of an error, its parent, its definition, the file.
 * Each ring is offered and tried whole; the search ends with the first that has
 * a change which leaves nothing out. Read next: choose.c. */
#include <string.h>

#include "mender.h"
#include "trade.h"

/* Wrong in how it is written: no size and no picture can tell what was meant.
 */
bool of_form(enum diag_code code)
{
    return code <= DIAG_VALUE || code == DIAG_PHOTO || code == DIAG_FONT ||
           code == DIAG_CYCLE || code == DIAG_PRESS || code == DIAG_GRID_UNIT ||
           code == DIAG_BORDER_CORNERS;
}

/* The quilt can be sewn, but does not show what was drawn. */
bool of_picture(enum diag_code code)
{
    return code == DIAG_PICTURE || code == DIAG_USE_TURN ||
           code == DIAG_LINE_DIRECTION || code == DIAG_WRONG_DIRECTION ||
           code == DIAG_CORNER_PLACE || code == DIAG_WRONG_FABRIC ||
           code == DIAG_SWAPPED;
}

/* The quilt is right, but its written steps do not make it. */
bool of_steps(enum diag_code code)
{
    return code == DIAG_STEP_ORDER || code == DIAG_STEP_MISSING ||
           code == DIAG_STEP_TWICE || code == DIAG_STEP_UNUSED ||
           code == DIAG_STEP_COUNT || code == DIAG_MIRRORED_HEAP;
}

/* What stands once, or tells nothing that something else tells, too. */
static bool passed_over(const struct element *element)
{
    return element->kind == ELEMENT_ABOUT || element->kind == ELEMENT_SAY ||
           element->kind == ELEMENT_BATTING ||
           element->kind == ELEMENT_SUMMARY ||
           element->kind == ELEMENT_BACKING ||
           element->kind == ELEMENT_BINDING ||
           element->kind == ELEMENT_COLORWAY ||
           element->kind == ELEMENT_PICTURE || element->kind == ELEMENT_SHAPE;
}

/* All that may be wrong in one tag: its words, names, numbers, and what it
 * lacks. Children are offered by others. */
void offer_tag(struct mender *mender, const struct element *element)
{
    if (passed_over(element) || element == mender->root || has_plenty(mender))
        return;
    if (element->kind == ELEMENT_CLOTH) {
        /* Its own width and amounts are the shop's. */
        for (size_t i = 0; i < element->value_count; i++)
            if (element->values[i].id == ATTR_FABRIC)
                offer_names(mender, element, &element->values[i]);
        return;
    }
    offer_choices(mender, element);
    for (size_t i = 0; i < element->value_count; i++) {
        offer_names(mender, element, &element->values[i]);
        offer_numbers(mender, element, &element->values[i]);
    }
    offer_own_exchanges(mender, element);
    if (element->kind == ELEMENT_MAP)
        offer_map_words(mender, element);
    if (element->kind == ELEMENT_PATCH ||
        element->kind == ELEMENT_SQUARE_IN_SQUARE)
        offer_corners(mender, element);
    if (element->kind == ELEMENT_USE && !only_steps(mender))
        offer_casts(mender, element);
    if (element->kind == ELEMENT_SASHING && !only_steps(mender))
        offer_stone(mender, element);
}

/* The element and all below it. */
static void offer_tags(struct mender *mender, const struct element *element)
{
    offer_tag(mender, element);
    for (size_t i = 0; i < element->children.count; i++)
        offer_tags(mender, element->children.items[i]);
}

/* Orders and counts of children, at every depth. */
static void offer_all_children(struct mender *mender,
                               const struct element *element)
{
    offer_children(mender, element);
    for (size_t i = 0; i < element->children.count; i++)
        offer_all_children(mender, element->children.items[i]);
}

/* A map has words too many or too few. */
static void offer_counts_of(struct mender *mender,
                            const struct element *element,
                            const struct diagnostic *d)
{
    if (d->code == DIAG_GRID_COUNT && element->kind == ELEMENT_MAP) {
        offer_drawing_counts(mender, element);
        offer_map_counts(mender, element, d->span);
        offer_row_places(mender, element, d->span);
        offer_row_exchanges(mender, element);
    }
}

/* What is used mirrored may be meant as it lies. */
static void offer_hands_of(struct mender *mender, const struct diagnostic *d)
{
    if (d->code != DIAG_MIRRORED_HEAP || d->notes.count == 0)
        return;
    const struct element *use =
        element_at(mender, d->notes.items[0].span.start);
    for (size_t i = 0; use->parent != NULL && i < use->parent->children.count;
         i++)
        if (use->parent->children.items[i]->kind == ELEMENT_MAP)
            offer_map_hands(mender, use->parent->children.items[i]);
    if (use->kind == ELEMENT_USE)
        offer_choices(mender, use);
}

/* In any map of a quilt. */
static void offer_odd_words(struct mender *mender,
                            const struct element *element)
{
    if (element->kind == ELEMENT_MAP)
        offer_odd_word(mender, element);
    for (size_t i = 0; i < element->children.count; i++)
        offer_odd_words(mender, element->children.items[i]);
}

/* The element itself; what it holds where it is told as a whole. */
static void offer_first(struct mender *mender, const struct element *element,
                        const struct diagnostic *d)
{
    offer_counts_of(mender, element, d);
    offer_hands_of(mender, d);
    for (size_t i = 0; of_steps(d->code) && i < d->notes.count; i++) {
        const uint32_t at = d->notes.items[i].span.start;
        if (at > 0 && element_at(mender, at) != mender->root)
            offer_odd_words(mender, top_of(mender, element_at(mender, at)));
    }
    offer_tag(mender, element);
    if (d->span.start == element->name.start) {
        for (size_t i = 0; i < element->children.count; i++)
            offer_tag(mender, element->children.items[i]);
        offer_children(mender, element);
    }
    const enum element_kind top = top_of(mender, element)->kind;
    if (d->code == DIAG_SIZE_OPEN && top != ELEMENT_QUILT)
        offer_sizes(mender, element);
}

/* The second ring: all below the element, its neighbours and its parent. The
 * parent is left out where it is the root, whose children are the whole file.
 */
static void offer_second(struct mender *mender, const struct element *element)
{
    const struct element *parent = element->parent;
    offer_tags(mender, element);
    offer_all_children(mender, element);
    if (parent == NULL || parent == mender->root)
        return;
    offer_tag(mender, parent);
    for (size_t i = 0; i < parent->children.count; i++)
        offer_tag(mender, parent->children.items[i]);
    offer_children(mender, parent);
}

/* The definition, and all that it uses. */
static void offer_definition(struct mender *mender, const struct element *top,
                             bool *seen)
{
    const struct definition *definition = defined_by(mender, top);
    if (definition != NULL) {
        if (seen[definition->index])
            return;
        seen[definition->index] = true;
    }
    offer_tags(mender, top);
    offer_name_exchanges(mender, top);
    offer_all_children(mender, top);
    const struct design *design = mender->sized->design;
    for (size_t i = 0; definition != NULL && i < design->pieces.count; i++) {
        const struct piece *piece = design->pieces.items[i];
        if (piece->owner == definition && piece->target != NULL)
            offer_definition(mender, piece->target->element, seen);
    }
}

/* The third ring: the definitions that messages and their notes point to, with
 * all they use. Notes of warnings are passed over, as they explain what is not
 * in the way. */
static void offer_definitions_around(struct mender *mender)
{
    bool *seen = ARENA_ARRAY(mender->arena, bool,
                             mender->sized->design->definitions.count + 1);
    for (size_t i = 0; i < mender->seed_count; i++) {
        const struct diagnostic *d = mender->seeds[i];
        const struct element *element = element_at(mender, d->span.start);
        if (element != mender->root)
            offer_definition(mender, top_of(mender, element), seen);
    }
    for (size_t i = 0; i < mender->error_count; i++) {
        const struct diagnostic *d = mender->errors[i];
        for (size_t k = 0; k < d->notes.count; k++) {
            const uint32_t at = d->notes.items[k].span.start;
            const struct element *element = element_at(mender, at);
            if (at > 0 && element != mender->root)
                offer_definition(mender, top_of(mender, element), seen);
        }
    }
}

/* The last ring. By now much was tried, so that the likeliest come first: what
 * the picture shows, the head of the pattern, fabrics exchanged, then tags, then children. */
static void offer_file(struct mender *mender)
{
    const struct element *root = mender->root;
    offer_shown_words(mender);
    offer_choices(mender, root);
    for (size_t i = 0; i < root->value_count; i++)
        offer_numbers(mender, root, &root->values[i]);
    for (size_t i = 0; i < root->children.count; i++)
        if (root->children.items[i]->kind == ELEMENT_FABRICS)
            offer_name_exchanges(mender, root->children.items[i]);
    for (size_t i = 0; i < root->children.count; i++)
        offer_tags(mender, root->children.items[i]);
    for (size_t i = 0; i < root->children.count; i++)
        offer_all_children(mender, root->children.items[i]);
}

/* Does the change do what is looked for? Without an aim all errors must go,
 * with one only those of its bits; in both cases nothing new may come. */
bool hits(const struct mender *mender, const struct candidate *candidate)
{
    const struct outcome *outcome = &candidate->outcome;
    if (!candidate->tried || outcome->fresh > 0)
        return false;
    return mender->aim == 0 ? outcome->left == 0
                            : (outcome->which & mender->aim) == 0;
}

/* ensures: true where a change that leaves nothing out makes all agree; one
 * that leaves a size which no ruler cuts is looked beyond. The likeliest of all
 * places first, so that the trials reach every place. */
static bool try_offers(struct mender *mender, size_t most)
{
    bool found = false;
    for (unsigned rank = 0; rank <= LAST_RANK; rank++)
        for (size_t i = 0; i < mender->candidates.count; i++) {
            struct candidate *one = &mender->candidates.items[i];
            if (one->rank != rank)
                continue;
            if (!one->tried && mender->tried < most) {
                one->outcome = try_edit(mender, &one->edit);
                one->tried = true;
            }
            found |= one->manner != MANNER_REMOVE && !one->twofold &&
                     hits(mender, one) && !one->outcome.uncut;
        }
    return found;
}

/* A step that is missing is proposed as a whole tag. */
static bool adds_element(const struct diagnostic *d)
{
    return (d->code == DIAG_STEP_MISSING || d->code == DIAG_MIRRORED_HEAP) &&
           strchr(d->replacement, '<') != NULL;
}

/* A message that proposes an empty text wants something to go. */
static enum manner own_manner(const struct diagnostic *d)
{
    return d->replacement[0] == '\0' ? MANNER_REMOVE
           : adds_element(d)         ? MANNER_INSERT
                                     : MANNER_VALUE;
}

/* What the program itself offers, whatever ring it lies in. */
static void offer_own(struct mender *mender)
{
    for (size_t i = 0; i < mender->error_count; i++) {
        struct diagnostic *d = mender->errors[i];
        if (d->replacement == NULL)
            continue;
        struct candidate *own =
            offer(mender,
                  (struct candidate){.manner = own_manner(d),
                                     .kind = KIND_OWN,
                                     .twofold = d->code == DIAG_MIRRORED_HEAP &&
                                                adds_element(d),
                                     .number = rational_unknown(),
                                     .place = d->span,
                                     .edit = {d->mend_span, d->replacement}});
        if (own != NULL) {
            own->own = d;
            own->program = d->code != DIAG_MIRRORED_HEAP;
        }
    }
}

/* Is it the only word of its picture that differs? A group may repeat it. */
static bool differs_alone(const struct mender *mender,
                          const struct problem *cell)
{
    const struct element *picture = element_at(mender, cell->at);
    for (size_t i = 0; i < mender->before.count; i++) {
        const struct problem *other = &mender->before.items[i];
        if (other->code == DIAG_PICTURE && other->at != cell->at &&
            element_at(mender, other->at) == picture)
            return false;
    }
    return true;
}

/* Cells that differ may be what is wrong: a single one likely, a few perhaps.
 */
static void offer_cells(struct mender *mender)
{
    enum { CELLS_MANY = 60 }; /* of many, none is single */
    for (size_t i = 0; i < mender->before.count; i++) {
        const struct problem *cell = &mender->before.items[i];
        if (cell->code != DIAG_PICTURE || cell->shown == NULL ||
            strchr(cell->shown, '?') != NULL)
            continue;
        const struct span span = {cell->at, cell->end};
        struct candidate *offered = offer(
            mender, (struct candidate){.manner = MANNER_VALUE,
                                       .kind = KIND_WORD,
                                       .element = element_at(mender, cell->at),
                                       .number = rational_unknown(),
                                       .place = span,
                                       .edit = {span, cell->shown}});
        if (offered != NULL && mender->before.count < CELLS_MANY)
            offered->program = offered->program || differs_alone(mender, cell);
    }
}

/* Where much of a picture differs, two keys may have been exchanged. */
static void offer_keys(struct mender *mender)
{
    enum { CELLS_MANY = 4 };
    size_t cells = 0;
    for (size_t i = 0; i < mender->before.count; i++)
        cells += mender->before.items[i].code == DIAG_PICTURE;
    for (size_t i = 0; cells >= CELLS_MANY && i < mender->root->children.count;
         i++)
        if (mender->root->children.items[i]->kind == ELEMENT_FABRICS)
            offer_key_exchanges(mender, mender->root->children.items[i], 0);
}

/* A seam that is not the trade's is likelier a slip than several sizes. */
static void offer_seam(struct mender *mender)
{
    const struct value *seam = written(mender->root, ATTR_SEAM);
    const struct pattern *pattern = mender->sized->design->pattern;
    const struct rational usual = trade_length(TRADE_SEAM, pattern->units);
    if (seam == NULL || !seam->usable || rational_equal(seam->number, usual))
        return;
    offer_value(mender, mender->root, ATTR_SEAM,
                length_written(mender->arena, usual, pattern->units),
                rational_unknown());
    mender->candidates.items[mender->candidates.count - 1].program = true;
}

/* Two errors of one kind at two values: they may have been exchanged. */
static void offer_error_exchanges(struct mender *mender)
{
    enum { ERRORS_MOST = 6 };
    for (size_t i = 0; i < mender->error_count && i < ERRORS_MOST; i++)
        for (size_t k = i + 1; k < mender->error_count && k < ERRORS_MOST;
             k++) {
            const struct diagnostic *a = mender->errors[i];
            const struct diagnostic *b = mender->errors[k];
            if (a->code == b->code && of_picture(a->code) &&
                a->replacement != NULL && b->replacement != NULL &&
                a->mend_span.end > a->mend_span.start &&
                b->mend_span.end > b->mend_span.start)
                offer_exchange(mender, element_at(mender, a->span.start),
                               a->mend_span, b->mend_span);
        }
}

/* Errors of two places that are alike, where the message points at one of them
 * and a note at the other. */
static bool of_two(const struct diagnostic *d)
{
    return (d->code == DIAG_DOUBLE_NAME || d->code == DIAG_STEP_TWICE ||
            d->code == DIAG_CORNER_SIZE) &&
           d->notes.count > 0 && d->notes.items[0].span.end > 0;
}

/* Rings 0 and 1 go by message, as each has a place; ring 2 looks at the
 * definitions of all of them together, and ring 3 is the file. */
static void offer_ring(struct mender *mender, unsigned ring)
{
    mender->ring = ring;
    for (size_t i = 0; ring < 2 && i < mender->seed_count; i++) {
        const struct diagnostic *d = mender->seeds[i];
        const struct element *element = element_at(mender, d->span.start);
        if (ring == 0)
            offer_first(mender, element, d);
        else
            offer_second(mender, element);
        /* Of two that are alike, either may be the wrong one. */
        if (ring == 0 && of_two(d))
            offer_first(mender,
                        element_at(mender, d->notes.items[0].span.start), d);
    }
    if (ring == 2)
        offer_definitions_around(mender);
    if (ring == 3)
        offer_file(mender);
}

/* A second piece where one may be. */
static void offer_repeats_around(struct mender *mender)
{
    for (size_t i = 0; mender->root != NULL && i < mender->error_count; i++) {
        const struct diagnostic *d = mender->errors[i];
        const struct element *element = element_at(mender, d->span.start);
        if (d->code == DIAG_UNKNOWN_ELEMENT && element->parent != NULL)
            offer_repeats(mender, element->parent);
    }
}

/* What all errors together point at. */
static void offer_slips(struct mender *mender)
{
    offer_error_exchanges(mender);
    offer_keys(mender);
    offer_picture_exchanges(mender);
    offer_drawn_words(mender);
    offer_drawn_casts(mender);
    offer_size_exchanges(mender);
    offer_counted_names(mender);
    offer_counted_uses(mender);
    offer_keyed_uses(mender);
    offer_seam(mender);
}

/* ensures: true where a piece that lacks, or a cell of a picture, makes all
 * agree. */
static bool try_pieces(struct mender *mender, size_t most)
{
    const size_t before = mender->candidates.count;
    if (mender->root == NULL)
        return false;
    search_drawings(mender, most);
    search_pieces(mender, most);
    for (size_t i = before; i < mender->candidates.count; i++)
        if (hits(mender, &mender->candidates.items[i]))
            return true;
    return false;
}

/* A ring has its share of the trials; what is left of it comes when all rings
 * had theirs. A piece that lacks is likelier than what lies further off. */
void search_rings(struct mender *mender)
{
    enum { RINGS = 4, BEHIND = 3, NEAR = 1 };
    mender->rank = mender->error_count > ERRORS_MANY ? BEHIND : 0;
    offer_renames(mender);
    offer_own(mender);
    offer_cells(mender);
    mender->rank = 0;
    for (size_t i = 0; i < mender->error_count; i++)
        if (of_form(mender->errors[i]->code)) {
            offer_repeats_around(mender);
            try_offers(mender, mender->most);
            return;
        }
    const size_t start = mender->tried;
    for (unsigned ring = 0; ring < RINGS; ring++) {
        if (mender->root != NULL && ring == 0)
            offer_slips(mender);
        if (mender->root != NULL)
            offer_ring(mender, ring);
        if (try_offers(mender,
                       start + (mender->most - start) * (ring + 1) / RINGS))
            return;
        if (ring == NEAR && try_pieces(mender, start + (mender->most - start) *
                                                           (ring + 2) / RINGS))
            return;
    }
}
