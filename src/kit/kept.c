/* Facts as text and back. One walk does both ways, so that what is written is
 * what is read. A text is `LENGTH:BYTES`, a number its digits and a blank; what
 * cannot be so makes the whole unreadable, and the pattern is planned again. */
#include <inttypes.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>

#include "buffer.h"
#include "kit_facts.h"

/* More than any pattern has of anything here. */
enum { KEPT_MOST = 1000000 };

struct walk {
    struct arena *arena;
    struct buffer *out; /* NULL: reading */
    const char *at, *end;
    bool bad;
};

/* In reading, a number ends with its blank; one that has none, or is longer
 * than 64 bits, is damage. */
static void walk_number(struct walk *w, int64_t *number)
{
    if (w->out != NULL) {
        buffer_printf(w->out, "%" PRId64 " ", *number);
        return;
    }
    const bool minus = w->at < w->end && *w->at == '-';
    const char *digits = w->at + minus;
    const char *at = digits;
    int64_t value = 0;
    for (; at < w->end && *at >= '0' && *at <= '9'; at++) {
        if (value > (INT64_MAX - 9) / 10)
            break;
        value = value * 10 + (*at - '0');
    }
    w->bad |= at == digits || at >= w->end || *at != ' ';
    *number = w->bad ? 0 : minus ? -value : value;
    w->at = w->bad ? w->end : at + 1;
}

/* Never below 0, as it becomes the length of something. */
static void walk_count(struct walk *w, size_t *count)
{
    int64_t number = (int64_t)*count;
    walk_number(w, &number);
    w->bad |= number < 0;
    *count = w->bad ? 0 : (size_t)number;
}

/* 0 or 1; all else counts as 0, since the digest has vouched for the bytes. */
static void walk_bool(struct walk *w, bool *flag)
{
    size_t number = *flag;
    walk_count(w, &number);
    *flag = number == 1;
}

/* By its length, so that a text may hold any sign, a blank or a digit, too. */
static void walk_text(struct walk *w, const char **text)
{
    size_t length = w->out != NULL ? strlen(*text) : 0;
    walk_count(w, &length);
    if (w->out != NULL) {
        buffer_add(w->out, *text, length);
        return;
    }
    w->bad |= length > (size_t)(w->end - w->at);
    *text = w->bad ? "" : arena_copy(w->arena, w->at, length);
    w->at += w->bad ? 0 : length;
}

/* Unknown is 0 over 0 and comes back as that. What 64 bits do not hold is 0
 * over -1 and its text. */
static void walk_rational(struct walk *w, struct rational *value)
{
    const bool stored = value->den < 0;
    int64_t num = stored ? 0 : value->num, den = value->den;
    walk_number(w, &num);
    walk_number(w, &den);
    const char *text = w->out != NULL && stored
                           ? rational_text(w->out->arena, *value)
                           : "";
    if (den < 0)
        walk_text(w, &text);
    if (w->out != NULL)
        return;
    *value = w->bad    ? rational_unknown()
             : den < 0 ? rational_read(text, strlen(text))
                       : rational_make(num, den);
    w->bad |= den < 0 && !rational_known(*value);
}

/* How many items follow; 0 where that cannot be read. */
static size_t walk_items(struct walk *w, size_t count)
{
    walk_count(w, &count);
    w->bad |= count > KEPT_MOST;
    return w->bad ? 0 : count;
}

/* Walks each item of a list; in reading, they are added to it. */
#define WALK_LIST(w, list, item_walk)                              \
    do {                                                           \
        const size_t items = walk_items((w), (list)->count);       \
        for (size_t item = 0; item < items && !(w)->bad; item++) { \
            if ((w)->out == NULL)                                  \
                LIST_ADD((w)->arena, (list));                      \
            item_walk((w), &(list)->items[item]);                  \
        }                                                          \
    } while (0)

/* In the order of the members of the struct, as all that follow. */
static void walk_piece(struct walk *w, struct kit_piece *piece)
{
    walk_text(w, &piece->label);
    walk_rational(w, &piece->width);
    walk_rational(w, &piece->height);
    walk_count(w, &piece->count);
    walk_bool(w, &piece->turns);
    walk_bool(w, &piece->lengthwise);
    walk_bool(w, &piece->joined);
    walk_bool(w, &piece->binding);
    walk_bool(w, &piece->border);
    walk_bool(w, &piece->trimmed);
}

/* Heights stay exact: they are lengths that are cut. */
static void walk_strips(struct walk *w, struct kit_strips *strips)
{
    walk_rational(w, &strips->height);
    walk_count(w, &strips->count);
    walk_bool(w, &strips->binding);
}

/* An enum that is out of its range would be taken for a table's index
 * elsewhere. */
static void walk_fabric(struct walk *w, struct kit_fabric *fabric)
{
    walk_text(w, &fabric->letter);
    walk_text(w, &fabric->role);
    walk_text(w, &fabric->name);
    walk_text(w, &fabric->code);
    int64_t number = fabric->color;
    walk_number(w, &number);
    fabric->color = (long)number;
    size_t sold = fabric->sold;
    walk_count(w, &sold);
    w->bad |= sold > SOLD_STRIP;
    fabric->sold = w->bad ? SOLD_YARDAGE : (enum sold_as)sold;
    walk_rational(w, &fabric->width);
    walk_rational(w, &fabric->needed);
    walk_rational(w, &fabric->price);
    walk_bool(w, &fabric->top);
    walk_rational(w, &fabric->amount);
    walk_rational(w, &fabric->amount_unbound);
    walk_count(w, &fabric->sheets);
    WALK_LIST(w, &fabric->pieces, walk_piece);
    WALK_LIST(w, &fabric->strips, walk_strips);
}

/* What the quilting takes, by thread. */
static void walk_thread(struct walk *w, struct kit_thread *thread)
{
    walk_text(w, &thread->id);
    walk_text(w, &thread->name);
    walk_count(w, &thread->spools);
    walk_number(w, &thread->length);
}

/* Spots may lie below 0, by the allowance. */
static void walk_int(struct walk *w, int *number)
{
    int64_t wide = *number;
    walk_number(w, &wide);
    w->bad |= wide < INT_MIN || wide > INT_MAX;
    *number = w->bad ? 0 : (int)wide;
}

/* Any place on the grid, or a little beyond it. */
static void walk_spot(struct walk *w, struct kit_spot *spot)
{
    walk_int(w, &spot->x);
    walk_int(w, &spot->y);
}

/* Held to the spots where they have been read. */
static void walk_shape(struct walk *w, struct kit_shape *shape)
{
    walk_count(w, &shape->fabric);
    walk_count(w, &shape->first);
    walk_count(w, &shape->count);
}

/* A list of pictures has pointers, so that facts can keep them. */
static void walk_picture(struct walk *w, struct kit_picture **kept)
{
    if (w->out == NULL)
        *kept = ARENA_NEW(w->arena, struct kit_picture);
    struct kit_picture *picture = *kept;
    walk_text(w, &picture->quilt);
    walk_int(w, &picture->width);
    walk_int(w, &picture->height);
    walk_int(w, &picture->allowance);
    w->bad |= picture->width <= 0 || picture->height <= 0;
    WALK_LIST(w, &picture->shapes, walk_shape);
    WALK_LIST(w, &picture->spots, walk_spot);
    for (size_t i = 0; i < picture->shapes.count; i++) {
        const struct kit_shape *shape = &picture->shapes.items[i];
        w->bad |= shape->first > picture->spots.count ||
                  shape->count > picture->spots.count - shape->first;
    }
}

/* Anything beyond 24 bits is cut off, as no color has it. */
static void walk_color(struct walk *w, long *color)
{
    int64_t number = *color;
    walk_number(w, &number);
    *color = (long)(number & 0xffffff);
}

/* All fabrics that shapes have must have a color. */
static void find_picture(struct walk *w, const struct kit_facts_list *list,
                         struct kit_facts *facts)
{
    for (size_t i = 0; i < list->pictures.count && !w->bad; i++)
        if (strcmp(list->pictures.items[i]->quilt, facts->quilt) == 0)
            facts->picture = list->pictures.items[i];
    for (size_t i = 0;
         facts->picture != NULL && i < facts->picture->shapes.count; i++)
        w->bad |=
            facts->picture->shapes.items[i].fabric >= facts->colors.count;
}

/* Indexes are held to the lists that they point into. */
static void walk_facts(struct walk *w, struct kit_facts *facts)
{
    walk_text(w, &facts->pattern_id);
    walk_text(w, &facts->title);
    walk_text(w, &facts->quilt);
    walk_text(w, &facts->quilt_name);
    walk_text(w, &facts->colorway);
    walk_text(w, &facts->colorway_name);
    size_t units = facts->units;
    walk_count(w, &units);
    facts->units = units == UNIT_CM ? UNIT_CM : UNIT_IN;
    walk_rational(w, &facts->width);
    walk_rational(w, &facts->height);
    WALK_LIST(w, &facts->fabrics, walk_fabric);
    walk_bool(w, &facts->backing);
    walk_count(w, &facts->backing_fabric);
    walk_rational(w, &facts->backing_amount);
    walk_bool(w, &facts->batting);
    walk_rational(w, &facts->batting_width);
    walk_rational(w, &facts->batting_height);
    walk_bool(w, &facts->binding);
    walk_count(w, &facts->binding_fabric);
    WALK_LIST(w, &facts->threads, walk_thread);
    WALK_LIST(w, &facts->colors, walk_color);
    w->bad |=
        (facts->backing && facts->backing_fabric >= facts->fabrics.count) ||
        (facts->binding && facts->binding_fabric >= facts->fabrics.count);
}

/* A writing walk changes nothing; it only shares its code with a reading one.
 */
const char *kit_facts_write(struct arena *arena,
                            const struct kit_facts_list *list)
{
    struct buffer out = buffer_in(arena);
    struct walk w = {.arena = arena, .out = &out};
    struct kit_facts_list copy = *list;
    WALK_LIST(&w, &copy.pictures, walk_picture);
    WALK_LIST(&w, &copy.items, walk_facts);
    return buffer_string(&out);
}

/* The whole or nothing: half a pattern would make half a kit. */
struct kit_facts_list *kit_facts_read(struct arena *arena, const char **at,
                                      const char *end)
{
    struct walk w = {.arena = arena, .at = *at, .end = end};
    struct kit_facts_list *list = ARENA_NEW(arena, struct kit_facts_list);
    WALK_LIST(&w, &list->pictures, walk_picture);
    WALK_LIST(&w, &list->items, walk_facts);
    for (size_t i = 0; i < list->items.count && !w.bad; i++)
        find_picture(&w, list, &list->items.items[i]);
    *at = w.at;
    return w.bad ? NULL : list;
}
