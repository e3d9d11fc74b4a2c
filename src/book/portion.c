/* May assume portions that are drawn. Read next: flow.c. */
#include "portion.h"

#include <math.h>

/* What goes between two portions beside the space that they ask for. */
#define MOST_SPREAD MM(6.6)
/* What is left of the space between portions where a page holds them only so:
 * the rule over each step still parts them. */
#define TIGHT 0.25

const double figure_sizes[SIZES] = {1.3, 1.15, 1.0, 0.87, 0.75, 0.65, 0.55};

/* ---- what is drawn ---- */

void drawn_add(struct arena *arena, struct drawn *drawn, struct box *box,
               double space)
{
    box->space_before = space;
    drawn->height += space + box->height;
    *LIST_ADD(arena, &drawn->boxes) = box;
}

void drawn_take_names(struct booklet *booklet, size_t count,
                      struct drawn *drawn)
{
    for (size_t i = count; i < booklet->named.count; i++)
        *LIST_ADD(booklet->wording.arena, &drawn->named) =
            booklet->named.items[i];
    unname_figures(booklet, count);
}

/* ---- pages ---- */

/* Where portions from..to-1 share a page: the size of each, and what is left.
 */
struct shared {
    bool fits;
    double gaps; /* the share of their spaces that portions get */
    double rest; /* points; the gaps are taken off */
    double cost;
};

static double height_of(const struct portion *portion, size_t size)
{
    return portion->drawn[portion->one_size ? USUAL_SIZE : size].height;
}

/* How bad it is to draw figures in this size. */
static double size_cost(size_t size)
{
    const double smaller =
        figure_sizes[size] < 1.0 ? 1.0 - figure_sizes[size] : 0.0;
    return 2.0 * smaller * smaller;
}

/* The size in which it needs least room; smaller figures may need more, as they
 * are laid out otherwise. */
static size_t least_size(const struct portion *portion)
{
    size_t least = USUAL_SIZE;
    for (size_t k = 0; k < SIZES && !portion->one_size; k++)
        if (height_of(portion, k) < height_of(portion, least))
            least = k;
    return least;
}

/* The next larger size that the rest has room for. ensures: false for none. */
static bool enlarge(const struct portion *portion, size_t *size, double *rest)
{
    for (size_t k = *size; k-- > 0 && !portion->one_size;) {
        const double more = height_of(portion, k) - height_of(portion, *size);
        if (more > *rest)
            continue;
        *rest -= more;
        *size = k;
        return true;
    }
    return false;
}

/* Of those that can grow, the one that is drawn smallest, again and again.
 * requires: `chosen` has room for to - from. */
static void enlarge_all(const struct portions *portions, size_t from, size_t to,
                        double *rest, size_t *chosen)
{
    bool grown = true;
    while (grown) {
        grown = false;
        for (size_t k = SIZES; k-- > 1 && !grown;)
            for (size_t i = from; i < to && !grown; i++)
                grown =
                    chosen[i - from] == k &&
                    enlarge(&portions->items.items[i], &chosen[i - from], rest);
    }
}

/* The heights in the sizes that were chosen, and the spaces between them. */
static double used_height(const struct portions *portions, size_t from,
                          size_t to, double gaps, const size_t *chosen)
{
    double used = 0.0;
    for (size_t i = from; i < to; i++) {
        const struct portion *portion = &portions->items.items[i];
        used += height_of(portion, chosen[i - from]) +
                (i > from || from == 0 ? portion->space * gaps : 0.0);
    }
    return used;
}

/* requires: `chosen` has room for to - from. */
static struct shared share_page(const struct portions *portions, size_t from,
                                size_t to, double room, size_t *chosen)
{
    struct shared shared = {.gaps = 1.0};
    for (size_t i = from; i < to; i++)
        chosen[i - from] = least_size(&portions->items.items[i]);
    shared.rest = room - used_height(portions, from, to, 1.0, chosen);
    if (shared.rest < 0.0) {
        shared.gaps = TIGHT;
        shared.rest = room - used_height(portions, from, to, TIGHT, chosen);
    }
    shared.fits = shared.rest >= 0.0;
    if (!shared.fits)
        return shared;
    enlarge_all(portions, from, to, &shared.rest, chosen);
    for (size_t i = from; i < to; i++)
        shared.cost += size_cost(chosen[i - from]);
    return shared;
}

/* A page costs more than anything that may come of having one less. What is
 * left goes between the steps, as far as it may; the last page may end
 * anywhere. */
static double page_cost(const struct shared *shared, size_t count, bool last,
                        bool turned_leaf, double height)
{
    const double spread = (double)(count - 1) * MOST_SPREAD;
    const double empty = fmax(0.0, shared->rest - spread) / height;
    return 1.0 + shared->cost + (last ? 0.05 : 0.6) * empty * empty +
           (turned_leaf ? 0.15 : 0.0);
}

/* The best way to go on from each portion, on a right page or a left one. */
struct way {
    size_t next; /* the first portion of the next page */
    double cost;
};

struct pages {
    const struct portions *portions;
    struct way *ways[2]; /* by the page's number, odd or even */
    double height;       /* of a page */
    double room;         /* of it, on the page that is begun */
    size_t *chosen;      /* room for all portions */
};

/* A portion that no page holds begins one and ends where it does. */
static void find_way(const struct pages *pages, size_t from, int odd)
{
    const struct portions *portions = pages->portions;
    const size_t count = portions->items.count;
    const double room = from == 0 ? pages->room : pages->height;
    struct way *way = &pages->ways[odd][from];
    way->cost = INFINITY;
    bool left_page = false;
    for (size_t to = from + 1; to <= count; to++) {
        const struct shared shared =
            share_page(portions, from, to, room, pages->chosen);
        left_page |= portions->items.items[to - 1].left_page;
        if (!shared.fits && to > from + 1)
            break;
        const double cost = page_cost(&shared, to - from, to == count,
                                      left_page && odd == 1, pages->height) +
                            (to < count ? pages->ways[1 - odd][to].cost : 0.0);
        if (cost < way->cost)
            *way = (struct way){to, cost};
        if (!shared.fits)
            break;
    }
}

/* ensures: the boxes are in the flow, and their figures have names. */
static void place_portion(struct booklet *booklet,
                          const struct portion *portion, size_t size,
                          double space, bool new_page)
{
    const struct drawn *drawn =
        &portion->drawn[portion->one_size ? USUAL_SIZE : size];
    for (size_t i = 0; i < drawn->boxes.count; i++) {
        struct box *box = drawn->boxes.items[i];
        box->turns_page = i == 0 && new_page;
        flow_add(&booklet->flow, box, i == 0 ? space : box->space_before);
    }
    for (size_t i = 0; i < drawn->named.count; i++)
        *LIST_ADD(booklet->wording.arena, &booklet->named) =
            drawn->named.items[i];
}

static void place_page(struct booklet *booklet, const struct pages *pages,
                       size_t from, size_t to)
{
    const struct portions *portions = pages->portions;
    const struct shared shared =
        share_page(portions, from, to, from == 0 ? pages->room : pages->height,
                   pages->chosen);
    double spread = 0.0;
    if (to < portions->items.count && to - from > 1)
        spread = shared.rest / (double)(to - from - 1) - 0.01;
    spread = fmax(0.0, fmin(spread, MOST_SPREAD));
    for (size_t i = from; i < to; i++) {
        const struct portion *portion = &portions->items.items[i];
        place_portion(booklet, portion,
                      shared.fits ? pages->chosen[i - from] : USUAL_SIZE,
                      portion->space * shared.gaps + (i > from ? spread : 0.0),
                      i == from && from > 0);
    }
}

void place_portions(struct booklet *booklet, const struct portions *portions)
{
    struct arena *arena = booklet->wording.arena;
    const struct flow_end end = flow_end(&booklet->flow);
    const size_t count = portions->items.count;
    struct pages pages = {.portions = portions,
                          .height = flow_page_height(&booklet->flow),
                          .room = end.room,
                          .chosen = ARENA_ARRAY(arena, size_t, count + 1)};
    for (int odd = 0; odd < 2; odd++)
        pages.ways[odd] = ARENA_ARRAY(arena, struct way, count + 1);
    for (size_t from = count; from-- > 0;)
        for (int odd = 0; odd < 2; odd++)
            find_way(&pages, from, odd);
    int odd = (int)(end.page % 2);
    for (size_t from = 0; from < count; odd = 1 - odd) {
        const size_t to = pages.ways[odd][from].next;
        place_page(booklet, &pages, from, to);
        from = to;
    }
}
