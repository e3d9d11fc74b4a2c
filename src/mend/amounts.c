/* Where only amounts of cloth do not hold: a fabric of the quilt that no
 * picture shows, or two cloths of a colorway that play each other's role. Each
 * trial plans cloth, up to the first amount that is off, so there are few. Read
 * next: say.c. */
#include <string.h>

#include "mender.h"

enum { FABRICS_MOST = 4, PLACES_MOST = 8, PLANS_MOST = 4 };

/* Where a fabric is named. Of a role that a use leaves to its default, the span
 * is empty. */
struct naming {
    const struct element *element;
    const char *role; /* of a use; NULL for the fabric of the element itself */
    const char *fabric;
    struct span span;
};

/* Fabrics whose amounts do not hold, and where they are named in the quilts
 * that say so. */
struct amounts {
    const char *fabrics[FABRICS_MOST];
    bool more[FABRICS_MOST], less[FABRICS_MOST]; /* of each than is stated */
    size_t fabric_count;
    struct naming places[PLACES_MOST];
    size_t place_count;
    bool too_many; /* of either */
};

/* What the fabric of an element is written as, or NULL. */
static const char *fabric_of(const struct element *element)
{
    const struct value *fabric = written(element, ATTR_FABRIC);
    return fabric == NULL ? NULL : fabric->text;
}

/* Its number among those that are wrong, or their count. */
static size_t number_of(const struct amounts *amounts, const char *fabric)
{
    size_t i = 0;
    while (i < amounts->fabric_count &&
           strcmp(amounts->fabrics[i], fabric) != 0)
        i++;
    return i;
}

/* Named by an error of the amounts; cloth without a name is no fabric. */
static bool is_wrong(const struct amounts *amounts, const char *fabric)
{
    return fabric != NULL && number_of(amounts, fabric) < amounts->fabric_count;
}

/* Each once. Where more fabrics are wrong than can be tried, the search is
 * given up rather than told by halves. */
static void add_fabric(struct amounts *amounts, const char *fabric,
                       struct rational off)
{
    if (fabric == NULL)
        return;
    const size_t number = number_of(amounts, fabric);
    if (number == FABRICS_MOST) {
        amounts->too_many = true;
        return;
    }
    if (number == amounts->fabric_count)
        amounts->fabrics[amounts->fabric_count++] = fabric;
    amounts->more[number] |= !rational_known(off) || rational_sign(off) > 0;
    amounts->less[number] |= !rational_known(off) || rational_sign(off) < 0;
}

static void add_place(void *context, struct naming place)
{
    struct amounts *amounts = context;
    if (!is_wrong(amounts, place.fabric))
        return;
    for (size_t i = 0; i < amounts->place_count; i++)
        if (amounts->places[i].element == place.element &&
            amounts->places[i].role == place.role)
            return;
    if (amounts->place_count == PLACES_MOST)
        amounts->too_many = true;
    else
        amounts->places[amounts->place_count++] = place;
}

/* Where a use keeps a default, that may be wrong as well. */
static void add_role(void *amounts, const struct element *use,
                     const struct role *role, const struct cast_text *given)
{
    const struct value *other = written(role->element, ATTR_FABRIC);
    if (given != NULL) {
        add_place(amounts, (struct naming){use, role->id, given->fabric,
                                           given->fabric_span});
    } else if (other != NULL) {
        add_place(amounts, (struct naming){use, role->id, other->text, {0, 0}});
        add_place(amounts, (struct naming){role->element, NULL, other->text,
                                           other->span});
    }
}

/* The backing is told by nothing else, so any would do. Quilting names the
 * cloth that it runs on, and takes none. */
static void add_places(const struct mender *mender, struct amounts *amounts,
                       const struct element *element)
{
    const struct value *fabric = written(element, ATTR_FABRIC);
    if (element->kind == ELEMENT_QUILTING)
        return;
    if (element->kind != ELEMENT_BACKING && fabric != NULL)
        add_place(amounts,
                  (struct naming){element, NULL, fabric->text, fabric->span});
    each_cast(mender, element, add_role, amounts);
    for (size_t i = 0; i < element->children.count; i++)
        add_places(mender, amounts, element->children.items[i]);
}

/* A message of an amount begins with the name of its quilt. */
static bool is_told(const struct mender *mender, const struct element *quilt)
{
    const struct value *id = written(quilt, ATTR_ID);
    if (id == NULL)
        return false;
    const char *name = quoted(mender->arena, id->text);
    for (size_t i = 0; i < mender->error_count; i++)
        if (strncmp(mender->errors[i]->message, name, strlen(name)) == 0)
            return true;
    return false;
}

/* requires: an element whose fabric is written. */
static struct span fabric_span(const struct element *element)
{
    return written(element, ATTR_FABRIC)->span;
}

/* The cloth that an error is told at. */
static const struct element *cloth_of(const struct mender *mender, size_t error)
{
    return element_at(mender, mender->errors[error]->span.start);
}

/* Errors of one colorway alone can come from its own cloths; a fabric in the
 * quilt would be wrong in every colorway. */
static bool in_one_colorway(const struct mender *mender)
{
    for (size_t i = 1; i < mender->error_count; i++)
        if (cloth_of(mender, i)->parent != cloth_of(mender, 0)->parent)
            return false;
    return true;
}

/* The cloths of a colorway exchanged. */
static void offer_cloths(struct mender *mender)
{
    const struct element *first = cloth_of(mender, 0);
    for (size_t i = 1; i < mender->error_count; i++) {
        const struct element *cloth = cloth_of(mender, i);
        if (fabric_of(first) != NULL && fabric_of(cloth) != NULL &&
            cloth != first)
            offer_exchange(mender, first, fabric_span(first),
                           fabric_span(cloth));
    }
}

/* Any place of a fabric of which too much is taken may have been meant for one
 * of which too little is. */
static void offer_fabrics(struct mender *mender, const struct amounts *amounts)
{
    for (size_t i = 0; i < amounts->place_count; i++) {
        const struct naming *place = &amounts->places[i];
        for (size_t f = 0; f < amounts->fabric_count; f++) {
            if (!amounts->more[number_of(amounts, place->fabric)] ||
                !amounts->less[f])
                continue;
            if (place->role != NULL)
                offer_cast(mender, place->element, place->role,
                           amounts->fabrics[f], MANNER_VALUE);
            else
                offer_value(mender, place->element, ATTR_FABRIC,
                            amounts->fabrics[f], rational_unknown());
        }
    }
}

/* All that two uses of one block say. */
static void offer_whole_casts(struct mender *mender, const struct element *a,
                              const struct element *b)
{
    const struct value *one = written(a, ATTR_WITH);
    const struct value *other = written(b, ATTR_WITH);
    const struct value *block = written(a, ATTR_BLOCK);
    const struct value *same = written(b, ATTR_BLOCK);
    if (one != NULL && other != NULL && block != NULL && same != NULL &&
        strcmp(block->text, same->text) == 0)
        offer_exchange(mender, a, one->span, other->span);
}

/* Two places may have been taken for each other. Within one definition only: a
 * slip of the pen seldom reaches further, and pairs grow with the square of the
 * places. */
static void offer_fabric_exchanges(struct mender *mender,
                                   const struct amounts *amounts)
{
    for (size_t i = 0; i < amounts->place_count; i++)
        for (size_t k = i + 1; k < amounts->place_count; k++) {
            const struct naming a = amounts->places[i], b = amounts->places[k];
            if (top_of(mender, a.element) == top_of(mender, b.element) &&
                a.span.end > 0 && b.span.end > 0)
                offer_exchange(mender, a.element, a.span, b.span);
            if (a.role != NULL && b.role != NULL && a.element != b.element)
                offer_whole_casts(mender, a.element, b.element);
        }
}

/* Is the backing of another quilt of this fabric? */
static bool backs_elsewhere(const struct mender *mender,
                            const struct element *backing, const char *fabric)
{
    for (size_t i = 0; i < mender->root->children.count; i++) {
        const struct element *quilt = mender->root->children.items[i];
        for (size_t k = 0; k < quilt->children.count; k++) {
            const struct element *other = quilt->children.items[k];
            if (other->kind == ELEMENT_BACKING && other != backing &&
                fabric_of(other) != NULL &&
                strcmp(fabric_of(other), fabric) == 0)
                return true;
        }
    }
    return false;
}

/* All that is of the fabric which a place should be of may have changed places
 * with it. Of the backing no amount tells, only that of another quilt. */
static void offer_partners(struct mender *mender, const struct element *place,
                           const char *fabric, const struct element *element)
{
    const char *own = fabric_of(element);
    if (element->kind == ELEMENT_QUILTING)
        return;
    if (element != place && own != NULL && strcmp(own, fabric) == 0 &&
        mender->candidates.count < PLANS_MOST &&
        (element->kind != ELEMENT_BACKING ||
         backs_elsewhere(mender, element, fabric_of(place))))
        offer_exchange(mender, place, fabric_span(place), fabric_span(element));
    for (size_t i = 0; i < element->children.count; i++)
        offer_partners(mender, place, fabric, element->children.items[i]);
}

/* Where one fabric alone makes all agree, an exchange may do as well, as
 * amounts are rounded up to what is sold. */
static void offer_likely_exchanges(struct mender *mender)
{
    const size_t count = mender->candidates.count;
    for (size_t i = 0; i < count; i++) {
        const struct candidate one = mender->candidates.items[i];
        if (one.outcome.left == 0 && one.kind == KIND_ATTRIBUTE &&
            one.attribute == ATTR_FABRIC)
            offer_partners(mender, one.element, one.edit.text,
                           top_of(mender, one.element));
    }
}

/* ensures: true where one of those that were offered since makes all agree, or
 * where they would be too many. */
static bool try_plans(struct mender *mender)
{
    bool found = false;
    for (size_t i = 0; i < mender->candidates.count; i++) {
        struct candidate *one = &mender->candidates.items[i];
        if (one->tried || mender->candidates.count > PLANS_MOST)
            continue;
        one->outcome.left = !holds_whole(mender, &one->edit, 1);
        one->tried = true;
        found |= one->outcome.left == 0;
    }
    return found || mender->candidates.count > PLANS_MOST;
}

/* One fabric that is off may be a wrong amount, which the author must decide;
 * two that are off together hint at cloth that was exchanged. Single changes
 * come first, and exchanges only where no single one made the amounts agree. */
bool search_amounts(struct mender *mender)
{
    struct amounts amounts = {.fabric_count = 0};
    const struct element *root = mender->root;
    for (size_t i = 0; i < mender->error_count; i++) {
        const struct diagnostic *d = mender->errors[i];
        if (d->code != DIAG_YARDAGE)
            return false;
        add_fabric(&amounts, fabric_of(cloth_of(mender, i)), d->off[0]);
    }
    if (amounts.fabric_count < 2)
        return false;
    for (size_t i = 0; i < root->children.count; i++)
        if (root->children.items[i]->kind == ELEMENT_QUILT &&
            is_told(mender, root->children.items[i]))
            add_places(mender, &amounts, root->children.items[i]);
    if (amounts.too_many)
        return false;
    /* A fabric of the quilt would be told in all colorways. */
    const bool one = in_one_colorway(mender);
    const bool all = !one || mender->sized->design->colorways.count == 1;
    if (one)
        offer_cloths(mender);
    if (all)
        offer_fabrics(mender, &amounts);
    const bool found = try_plans(mender);
    if (!all || mender->candidates.count > PLANS_MOST)
        return mender->candidates.count <= PLANS_MOST;
    if (found)
        offer_likely_exchanges(mender);
    else
        offer_fabric_exchanges(mender, &amounts);
    try_plans(mender);
    return mender->candidates.count <= PLANS_MOST;
}
