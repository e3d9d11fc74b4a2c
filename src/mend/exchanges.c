/* What one slip of the pen exchanges, as the errors together tell: two rows or
 * two cells of a picture, two sizes of neighbors, one unit for another. Read
 * next: lacking.c. */
#include <string.h>

#include "mender.h"

/* The cells that differ, all of one picture. */
struct differing {
    const struct definition *definition;
    size_t rows[2]; /* of the picture; 0 for none */
    size_t in_row[2];
    const struct picture_cell *cells[2];
    size_t count;
    bool more_rows;
};

static const struct picture_cell *cell_at(const struct mender *mender,
                                          uint32_t at,
                                          const struct definition **owner)
{
    const struct design *design = mender->sized->design;
    for (size_t i = 0; i < design->definitions.count; i++) {
        const struct definition *one = design->definitions.items[i];
        for (size_t k = 0; k < one->cells.count; k++)
            if (one->cells.items[k].span.start == at) {
                *owner = one;
                return &one->cells.items[k];
            }
    }
    return NULL;
}

static void add_cell(struct differing *all, const struct picture_cell *cell)
{
    size_t i = 0;
    if (all->count < 2)
        all->cells[all->count] = cell;
    all->count++;
    while (i < 2 && all->rows[i] != 0 && all->rows[i] != cell->row)
        i++;
    if (i == 2) {
        all->more_rows = true;
        return;
    }
    all->rows[i] = cell->row;
    all->in_row[i]++;
}

/* ensures: a definition of NULL where they are of several pictures. */
static struct differing cells_differing(const struct mender *mender)
{
    struct differing all = {.definition = NULL};
    for (size_t i = 0; i < mender->before.count; i++) {
        const struct definition *owner = NULL;
        if (mender->before.items[i].code != DIAG_PICTURE)
            continue;
        const struct picture_cell *cell =
            cell_at(mender, mender->before.items[i].at, &owner);
        if (cell == NULL || (all.definition != NULL && owner != all.definition))
            return (struct differing){.definition = NULL};
        all.definition = owner;
        add_cell(&all, cell);
    }
    return all;
}

/* From its first cell to its last. */
static struct span row_span(const struct definition *definition, size_t row)
{
    struct span span = {0, 0};
    for (size_t i = 0; i < definition->cells.count; i++) {
        const struct picture_cell *cell = &definition->cells.items[i];
        if (cell->row != row)
            continue;
        if (span.end == 0)
            span.start = cell->span.start;
        span.end = cell->span.end;
    }
    return span;
}

static void offer_likely_exchange(struct mender *mender, struct span a,
                                  struct span b)
{
    const size_t count = mender->candidates.count;
    offer_exchange(mender, element_at(mender, a.start), a, b);
    if (mender->candidates.count > count)
        mender->candidates.items[count].program = true;
}

void offer_picture_exchanges(struct mender *mender)
{
    const struct differing all = cells_differing(mender);
    if (all.definition == NULL || all.count < 2)
        return;
    if (all.count == 2)
        offer_likely_exchange(mender, all.cells[0]->span, all.cells[1]->span);
    if (!all.more_rows && all.rows[1] != 0 && all.in_row[0] == all.in_row[1])
        offer_likely_exchange(mender, row_span(all.definition, all.rows[0]),
                              row_span(all.definition, all.rows[1]));
}

/* The widths, or the heights, of two children. */
static void offer_sizes_of(struct mender *mender, const struct element *parent)
{
    enum { CHILDREN_MOST = 12 }; /* pairs grow with their square */
    static const enum attribute_id sides[] = {ATTR_WIDTH, ATTR_HEIGHT};
    const size_t count = parent->children.count;
    for (size_t s = 0; s < 2 && count <= CHILDREN_MOST; s++)
        for (size_t i = 0; i < parent->children.count; i++)
            for (size_t k = i + 1; k < parent->children.count; k++) {
                const struct value *a =
                    written(parent->children.items[i], sides[s]);
                const struct value *b =
                    written(parent->children.items[k], sides[s]);
                if (a != NULL && b != NULL)
                    offer_likely_exchange(mender, a->span, b->span);
            }
    for (size_t i = 0; i < parent->children.count; i++)
        offer_sizes_of(mender, parent->children.items[i]);
}

void offer_size_exchanges(struct mender *mender)
{
    enum { CELLS_MOST = 40 };
    const struct differing all = cells_differing(mender);
    if (all.definition == NULL || all.count > CELLS_MOST)
        return;
    offer_sizes_of(mender, all.definition->element);
    for (size_t i = 0; i < all.definition->uses.count; i++) {
        const struct definition *target = all.definition->uses.items[i]->target;
        if (target != NULL)
            offer_sizes_of(mender, target->element);
    }
}

/* ---- one unit for another ---- */

/* What the step of a wrong count makes, or NULL. */
static const struct value *counted_name(const struct mender *mender,
                                        size_t error)
{
    const struct diagnostic *d = mender->errors[error];
    const bool counts = d->code == DIAG_STEP_COUNT ||
                        d->code == DIAG_STEP_UNUSED ||
                        d->code == DIAG_MIRRORED_HEAP;
    const struct element *step = element_at(mender, d->span.start);
    return counts && step->kind == ELEMENT_STEP ? written(step, ATTR_MAKE)
                                                : NULL;
}

/* In place of the one name the other, in all uses below the element. */
static void offer_other_name(struct mender *mender,
                             const struct element *element, const char *from,
                             const char *to)
{
    static const enum attribute_id names[] = {ATTR_UNIT, ATTR_BLOCK};
    for (size_t i = 0; element->kind == ELEMENT_USE && i < 2; i++) {
        const struct value *value = written(element, names[i]);
        if (value != NULL && strcmp(value->text, from) == 0)
            offer_value(mender, element, names[i], to, rational_unknown());
    }
    for (size_t i = 0; i < element->children.count; i++)
        offer_other_name(mender, element->children.items[i], from, to);
}

void offer_counted_names(struct mender *mender)
{
    enum { ERRORS_MOST = 6 };
    const struct design *design = mender->sized->design;
    for (size_t i = 0; i < mender->error_count && i < ERRORS_MOST; i++)
        for (size_t k = 0; k < mender->error_count && k < ERRORS_MOST; k++) {
            const struct value *from = counted_name(mender, i);
            const struct value *to = counted_name(mender, k);
            if (from == NULL || to == NULL || strcmp(from->text, to->text) == 0)
                continue;
            for (size_t n = 0; n < design->definitions.count; n++)
                offer_other_name(mender, design->definitions.items[n]->element,
                                 from->text, to->text);
        }
}
