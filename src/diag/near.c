/* Names that a writer may have meant.
 *
 * The distance is the number of single slips of the hand: a letter left out,
 * added, exchanged, or swapped with its neighbour. A wrong offer sends a
 * beginner astray, so the limit is tight: one slip in three letters. */
#include <stdbool.h>
#include <string.h>

#include "character.h"
#include "diag.h"

enum {
    NAME_CHARACTERS = 64, /* a longer name is near to nothing */
    OFFERED = 3,
    FAR = NAME_CHARACTERS + 1
};

/* A name as characters, small letters only: a wrong case is a small slip. */
struct folded {
    uint32_t codes[NAME_CHARACTERS];
    size_t count;
    uint64_t letters; /* which there are, by their lowest six bits */
    bool too_long;
};

/* Only what `count` covers is filled: this is asked for each of thousands of
 * names. */
static void fold(struct folded *folded, const char *name)
{
    size_t left = strlen(name);
    folded->count = 0;
    folded->letters = 0;
    folded->too_long = false;
    while (left > 0) {
        const struct character c = character_at(name, left);
        if (folded->count == NAME_CHARACTERS) {
            folded->too_long = true;
            break;
        }
        const bool capital = c.code >= 'A' && c.code <= 'Z';
        const uint32_t code = capital ? c.code + ('a' - 'A') : c.code;
        folded->codes[folded->count++] = code;
        folded->letters |= UINT64_C(1) << code % 64;
        name += c.size;
        left -= c.size;
    }
}

/* One row of the table of distances between prefixes. */
typedef size_t distance_row[NAME_CHARACTERS + 1];

static size_t smaller(size_t a, size_t b)
{
    return a < b ? a : b;
}

/* Fills the row for the first `i` characters of `a` from the two before it,
 * where prefixes differ in length by at most `limit`: nothing farther off the
 * middle can come back below it. ensures: the least of the row. */
static size_t fill_row(const struct folded *a, const struct folded *b, size_t i,
                       size_t limit, distance_row rows[3])
{
    size_t *row = rows[i % 3];
    const size_t *above = rows[(i + 2) % 3];
    const size_t *twice_above = rows[(i + 1) % 3];
    const size_t from = i > limit ? i - limit : 1;
    const size_t to = smaller(i + limit, b->count);
    size_t least = row[from - 1] = from == 1 ? i : FAR;
    for (size_t j = from; j <= to; j++) {
        const bool same = a->codes[i - 1] == b->codes[j - 1];
        /* The row above ends one place earlier. */
        const size_t over = j == i + limit ? FAR : above[j];
        row[j] = smaller(above[j - 1] + !same, smaller(over, row[j - 1]) + 1);
        if (i > 1 && j > 1 && a->codes[i - 1] == b->codes[j - 2] &&
            a->codes[i - 2] == b->codes[j - 1])
            row[j] = smaller(row[j], twice_above[j - 2] + 1);
        least = smaller(least, row[j]);
    }
    return least;
}

/* The distance with swaps of neighbours counted as one (optimal string
 * alignment), by the usual table of which three rows are kept; or FAR where it
 * is over the limit. */
static size_t edit_distance(const struct folded *a, const struct folded *b,
                            size_t limit)
{
    distance_row rows[3];
    size_t before = 0; /* the least of the row before */
    for (size_t j = 0; j <= b->count; j++)
        rows[0][j] = j;
    for (size_t i = 1; i <= a->count; i++) {
        const size_t least = fill_row(a, b, i, limit, rows);
        /* A swap looks two rows back. */
        if (least > limit && before > limit)
            return FAR;
        before = least;
    }
    return rows[a->count % 3][b->count];
}

/* How many letters one of the two has and the other has not. A slip changes at
 * most two. */
static size_t letters_apart(const struct folded *a, const struct folded *b)
{
    size_t count = 0;
    for (uint64_t bits = a->letters ^ b->letters; bits != 0; bits &= bits - 1)
        count++;
    return count;
}

/* ensures: the distance of what was written (folded: `a`) from a name, or FAR
 * where the name is no likely meaning. */
static size_t nearness(const char *wrong, const struct folded *a,
                       const char *name)
{
    struct folded b;
    fold(&b, name);
    /* The very same name cannot be what was meant instead. */
    if (a->too_long || b.too_long || strcmp(wrong, name) == 0)
        return FAR;
    const size_t third = a->count / 3; /* so at most 2 below 9 characters */
    const size_t limit = third < 1 ? 1 : third;
    const size_t longer = a->count > b.count ? a->count : b.count;
    const size_t shorter = smaller(a->count, b.count);
    if (longer - shorter > limit || letters_apart(a, &b) > 2 * limit)
        return FAR; /* known without the work */
    const size_t distance = edit_distance(a, &b, limit);
    /* Names with nothing in common are not near, however short. */
    return distance <= limit && distance < longer ? distance : FAR;
}

/* A name that may have been meant, and how far it is from what was written. */
struct offer {
    const char *name;
    size_t distance;
};

/* Puts the name behind those that are as near, if there is room. */
static size_t insert_offer(struct offer *offers, size_t count,
                           struct offer added)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(offers[i].name, added.name) == 0)
            return count;
    size_t at = count;
    while (at > 0 && offers[at - 1].distance > added.distance)
        at--;
    if (at == OFFERED)
        return count;
    if (count < OFFERED)
        count++;
    for (size_t i = count - 1; i > at; i--)
        offers[i] = offers[i - 1];
    offers[at] = added;
    return count;
}

/* ensures: at most OFFERED names, nearest first; gives how many. */
static size_t find_offers(struct offer *offers, const char *wrong,
                          const char *const *names, size_t count)
{
    size_t found = 0;
    struct folded written;
    fold(&written, wrong);
    for (size_t i = 0; i < count; i++) {
        const struct offer offer = {names[i],
                                    nearness(wrong, &written, names[i])};
        if (offer.distance != FAR)
            found = insert_offer(offers, found, offer);
    }
    return found;
}

const char *near_names(struct arena *arena, const char *wrong,
                       const char *const *names, size_t count)
{
    struct offer offers[OFFERED];
    const size_t found = find_offers(offers, wrong, names, count);
    struct buffer buffer = buffer_in(arena);
    for (size_t i = 0; i < found; i++) {
        if (i > 0)
            buffer_text(&buffer, i + 1 == found ? " or " : ", ");
        buffer_text(&buffer, quoted(arena, offers[i].name));
    }
    return found == 0 ? NULL : buffer_string(&buffer);
}

const char *nearest_name(const char *wrong, const char *const *names,
                         size_t count)
{
    struct offer offers[OFFERED];
    const size_t found = find_offers(offers, wrong, names, count);
    return found == 0 ? NULL : offers[0].name;
}
