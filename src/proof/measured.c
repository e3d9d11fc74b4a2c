/* What testers measure, with what comes of a seam that is off: the same model
 * as `list --tolerance`, sewn by three hands. Read next: gather.c. */
#include "measured.h"

#include <math.h>

#include "told_step.h"
#include "tolerance.h"
#include "trade.h"

/* The same quilt by hands that differ in their seams alone. */
enum { HAND_NARROW, HAND_RIGHT, HAND_WIDE, HANDS };

struct measuring {
    const struct wording *w;
    struct claims *claims;
    struct hand usual;
    struct expected *sides[HANDS]; /* by heap and side */
};

/* A thread is what one person differs from the next (tolerance.h). */
static struct hand hand_at(const struct measuring *m, int at)
{
    struct hand hand = m->usual;
    hand.offset += (at - HAND_RIGHT) * hand.persons;
    return hand;
}

/* Numbers go on behind those of all other claims. */
static void add_measure(const struct measuring *m, enum claim_kind kind,
                        const char *section, const char *text,
                        struct claim_measure measure)
{
    struct claim *one = LIST_ADD(m->w->arena, &m->claims->items);
    *one =
        (struct claim){m->claims->items.count, kind, section, text, measure};
}

/* Three pieces and two seams: each seam takes its offset twice, and twice the
 * chance; each piece has the chance of its cut (tolerance.h). */
static void add_strips(const struct measuring *m)
{
    const struct wording *w = m->w;
    const struct pattern *pattern = w->design->pattern;
    const struct rational sewn = test_strips(pattern);
    const double right = rational_double(sewn), thread = m->usual.persons;
    const double variance = 3 * m->usual.cut * m->usual.cut +
                            8 * m->usual.stitch * m->usual.stitch;
    add_measure(
        m, CLAIM_STRIPS, say(w->arena, w->phrases, "proof.strips", NULL),
        say(w->arena, w->phrases, "claim.strips", "strip",
            word_length_unit(w, trade_length(TRADE_TEST_STRIP, pattern->units)),
            "sewn", word_length_unit(w, sewn), NULL),
        (struct claim_measure){
            right, right + 4 * thread, right, right - 4 * thread,
            sqrt(variance),
            rational_double(trade_length(TRADE_OFF_BLOCK, pattern->units))});
}

/* The bounds are those of `list --tolerance`: a top is held to what a border
 * takes in, what is trimmed to the ruler, all else to what the next step can
 * ease. */
static enum trade_fact bound_of(const struct measuring *m, size_t index)
{
    const struct sewn_quilt *quilt = m->w->quilt;
    return index == quilt->top || index == quilt->whole ||
                   quilt->heaps.items[index].technique == TECHNIQUE_BORDER
               ? TRADE_OFF_TOP
           : m->sides[HAND_RIGHT][SIDES * index].trimmed ? TRADE_OFF_TRIMMED
                                                         : TRADE_OFF_BLOCK;
}

/* The spread is that of the right seam: it hardly changes within a thread. */
static struct claim_measure measure_of(const struct measuring *m, size_t heap,
                                       int side, struct rational told)
{
    const size_t at = SIDES * heap + (size_t)side;
    return (struct claim_measure){
        rational_double(told),
        m->sides[HAND_NARROW][at].mean,
        m->sides[HAND_RIGHT][at].mean,
        m->sides[HAND_WIDE][at].mean,
        sqrt(m->sides[HAND_RIGHT][at].variance),
        rational_double(
            trade_length(bound_of(m, heap), m->w->design->pattern->units))};
}

/* Sides that come to the same whoever sews are one claim. */
static bool alike(const struct claim_measure *a, const struct claim_measure *b)
{
    const double nothing = 1e-9;
    return fabs(a->told - b->told) < nothing &&
           fabs(a->narrow - b->narrow) < nothing &&
           fabs(a->right - b->right) < nothing &&
           fabs(a->wide - b->wide) < nothing &&
           fabs(a->spread - b->spread) < nothing;
}

/* Through the middle, as it lies unfinished: with a seam at each edge. */
static void add_step(const struct measuring *m, const struct told_step *step)
{
    const struct wording *w = m->w;
    const struct heap *heap = &w->quilt->heaps.items[step->heap];
    const struct rational seams =
        rational_times(w->design->pattern->seam, 2);
    const struct rational told[SIDES] = {rational_add(heap->width, seams),
                                         rational_add(heap->height, seams)};
    const struct claim_measure measures[SIDES] = {
        measure_of(m, step->heap, ACROSS, told[ACROSS]),
        measure_of(m, step->heap, DOWN, told[DOWN])};
    const char *section =
        arena_printf(w->arena, "%zu. %s", step->number, step->title);
    const char *length[SIDES] = {word_length_unit(w, told[ACROSS]),
                                 word_length_unit(w, told[DOWN])};
    if (alike(&measures[ACROSS], &measures[DOWN])) {
        add_measure(m, CLAIM_SIZE, section,
                    say(w->arena, w->phrases, "claim.both-ways", "length",
                        length[ACROSS], NULL),
                    measures[ACROSS]);
        return;
    }
    add_measure(m, CLAIM_SIZE, section,
                say(w->arena, w->phrases, "claim.wide", "length",
                    length[ACROSS], NULL),
                measures[ACROSS]);
    add_measure(m, CLAIM_SIZE, section,
                say(w->arena, w->phrases, "claim.high", "length",
                    length[DOWN], NULL),
                measures[DOWN]);
}

/* Three hands sew the whole quilt once each, and every step looks at its own
 * heap. */
void claim_measures(const struct wording *w, struct claims *claims)
{
    const struct pattern *pattern = w->design->pattern;
    struct measuring m = {w, claims, usual_hand(pattern->units), {NULL}};
    const struct sums *sums = sums_of(w->arena, pattern, w->quilt);
    for (int at = 0; at < HANDS; at++) {
        const struct hand hand = hand_at(&m, at);
        m.sides[at] = sew_sums(w->arena, sums, &hand,
                               (struct oversize){NO_HEAP, 0});
    }
    add_strips(&m);
    const struct told_steps steps = tell_steps(w);
    for (size_t i = 0; i < steps.items.count; i++)
        add_step(&m, &steps.items.items[i]);
}
