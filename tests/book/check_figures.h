/* The figures of all steps against the states of the sewn cloth: functions that
 * look at one booklet. */
#ifndef SEAMWRIGHT_TESTS_CHECK_FIGURES_H
#define SEAMWRIGHT_TESTS_CHECK_FIGURES_H

#include "figures.h"

/* Calls `look` for each figure that shows cloth of its step. */
typedef void figure_visitor(struct visit *visit, struct drawn *drawn);

static inline void visit_figures(struct visit *visit, figure_visitor *look)
{
    struct drawings drawings = drawings_of(visit);
    for (size_t i = 0; i < drawings.items.count; i++)
        look(visit, &drawings.items.items[i]);
}

/* ---- captions ---- */

/* The lines that a figure shows: rising, falling ones. */
struct lines {
    size_t rising, falling;
};

static inline struct lines drawn_lines(const struct state *state)
{
    struct lines lines = {0, 0};
    for (size_t i = 0; i < state->marks.count; i++) {
        const struct mark *mark = &state->marks.items[i];
        const bool rising =
            rational_sign(rational_sub(mark->to.x, mark->from.x)) !=
            rational_sign(rational_sub(mark->to.y, mark->from.y));
        lines.rising += mark->kind == MARK_DRAWN && rising;
        lines.falling += mark->kind == MARK_DRAWN && !rising;
    }
    return lines;
}

/* The way of a line is told in words, too, for those who do not see it well:
 * in the caption of the figure or in one before it in the same action. */
static inline void expect_lines(struct visit *visit, const struct drawn *drawn,
                                const char *words)
{
    const struct lines lines = drawn_lines(drawn->state);
    const bool rising = strstr(words, "rising") != NULL;
    const bool falling = strstr(words, "falling") != NULL;
    const bool each = strstr(words, "each diagonal") != NULL ||
                      strstr(words, "each corner") != NULL ||
                      strstr(words, "both diagonals") != NULL;
    if (drawn->action == NULL || drawn->state == &drawn->action->other)
        return;
    if (!each &&
        ((lines.rising > 0 && !rising) || (lines.falling > 0 && !falling)))
        breach(visit->breaches,
               "step %zu: \"%s\" for %zu rising and %zu "
               "falling lines",
               drawn->step->number, words, lines.rising, lines.falling);
    if ((rising && lines.rising == 0) || (falling && lines.falling == 0))
        breach(visit->breaches,
               "step %zu: \"%s\" tells a line that is not "
               "drawn",
               drawn->step->number, words);
}

static inline bool says(const struct drawn *drawn, const char *words)
{
    return strstr(drawn->caption, words) != NULL;
}

static inline size_t seams_told(const struct drawn *drawn)
{
    return drawn->exploded == NULL ? 0 : drawn->exploded->seams.count;
}

/* The parts, how many seams; the result, its pressing and its size. */
static inline void expect_words(struct visit *visit, const struct drawn *drawn)
{
    const struct wording *w = &visit->wording;
    const char *size = word_size_unit(
        w, whole_side(visit, drawn->heap, drawn->heap->width),
        whole_side(visit, drawn->heap, drawn->heap->height));
    if (drawn->exploded != NULL && drawn->before &&
        says(drawn, "in the order of their numbers") != (seams_told(drawn) > 1))
        breach(visit->breaches, "step %zu: \"%s\" for %zu seams",
               drawn->step->number, drawn->caption, seams_told(drawn));
    if (drawn->result && !is_border_like(drawn->heap) && !says(drawn, size))
        breach(visit->breaches, "step %zu: \"%s\" does not tell \"%s\"",
               drawn->step->number, drawn->caption, size);
    if (drawn->result && !says(drawn, "Press "))
        breach(visit->breaches, "step %zu: \"%s\" does not tell how to press",
               drawn->step->number, drawn->caption);
}

static inline void look_at_captions(struct visit *visit)
{
    struct drawings drawings = all_drawings_of(visit);
    const char *words = "";
    for (size_t i = 0; i < drawings.items.count; i++) {
        const struct drawn *drawn = &drawings.items.items[i];
        const struct drawn *last = i == 0 ? NULL : drawn - 1;
        if (!drawn->worded)
            breach(visit->breaches, "step %zu: a figure without words",
                   drawn->step->number);
        if (last == NULL || last->step != drawn->step ||
            last->action != drawn->action)
            words = "";
        words = arena_printf(visit->scratch, "%s %s", words, drawn->caption);
        if (drawn->state == NULL)
            continue;
        if (drawn->before)
            expect_lines(visit, drawn, words);
        expect_words(visit, drawn);
    }
}

/* ---- size and fill ---- */

static inline struct color share_of(const struct bolt *bolt, double share)
{
    return (struct color){1.0 - share * (1.0 - bolt->red),
                          1.0 - share * (1.0 - bolt->green),
                          1.0 - share * (1.0 - bolt->blue)};
}

static inline bool is_near(struct color a, struct color b)
{
    return fabs(a.red - b.red) < 0.001 && fabs(a.green - b.green) < 0.001 &&
           fabs(a.blue - b.blue) < 0.001;
}

/* In work 40 % of the cloth on white, done all of it; the wrong side 10 %, with
 * dots. No hatch in color. */
static inline void look_at_face_fill(struct visit *visit, struct drawn *drawn)
{
    for (size_t i = 0; i < drawn->state->faces.count; i++) {
        const struct face *face = &drawn->state->faces.items[i].face;
        const struct bolt *bolt = &visit->plan->colorway->bolts[face->fabric];
        const struct path_item *path = &drawn->paths.items[i]->as.path;
        const double share = face->wrong_side ? 0.1 : drawn->result ? 1.0 : 0.4;
        const bool dotted = path->hatch != NULL && path->hatch->dotted;
        if (!is_near(path->fill, share_of(bolt, share)) ||
            dotted != face->wrong_side || (path->hatch != NULL && !dotted))
            breach(visit->breaches,
                   "step %zu: face %zu is filled as another "
                   "side, cloth or time",
                   drawn->step->number, i);
        if (path->stroke <= 0.0)
            breach(visit->breaches, "step %zu: face %zu has no outline",
                   drawn->step->number, i);
    }
}

static inline void look_at_fills(struct visit *visit)
{
    visit_figures(visit, look_at_face_fill);
}

/* One scale in all frames of a step; only a join's result may be smaller. */
static inline void look_at_scales(struct visit *visit)
{
    struct drawings drawings = drawings_of(visit);
    for (size_t i = 0; i + 1 < drawings.items.count; i++) {
        const struct drawn *a = &drawings.items.items[i];
        const struct drawn *b = &drawings.items.items[i + 1];
        const bool smaller =
            b->exploded != NULL && b->result && b->scale < a->scale;
        if (a->step == b->step && !smaller && fabs(a->scale - b->scale) > 1e-4)
            breach(visit->breaches, "step %zu: frames at %.4f and %.4f",
                   a->step->number, a->scale, b->scale);
    }
}

/* Parts that are to be joined lie apart, so that both edges and the number of
 * the seam between them are seen. */
static inline void look_at_part_gap(struct visit *visit, struct drawn *drawn)
{
    if (drawn->exploded == NULL || !drawn->before)
        return;
    const size_t count = drawn->exploded->parts.count;
    struct reach *reach = ARENA_ARRAY(visit->scratch, struct reach, count + 1);
    double least = 1e9;
    for (size_t i = 0; i < count; i++)
        reach[i] = reach_of_faces(drawn, (int)i);
    for (size_t i = 0; i < count; i++)
        for (size_t k = i + 1; k < count; k++)
            least = fmin(least, fmax(fmax(reach[k].left - reach[i].right,
                                          reach[i].left - reach[k].right),
                                     fmax(reach[k].top - reach[i].bottom,
                                          reach[i].top - reach[k].bottom)));
    if (least < MM(4.3))
        breach(visit->breaches, "step %zu: parts %.2f pt apart",
               drawn->step->number, least);
}

static inline void look_at_part_gaps(struct visit *visit)
{
    visit_figures(visit, look_at_part_gap);
}

/* ---- labels ---- */

static inline struct point middle(struct visit *visit,
                                  const struct text_item *text)
{
    const struct quad q = text_quad(visit->all->typeset, text, true);
    return (struct point){(q.corner[0].x + q.corner[2].x) / 2.0,
                          (q.corner[0].y + q.corner[2].y) / 2.0};
}

/* Names of parts: none twice for two of them, and one for each. */
static inline bool names_part(struct visit *visit, const struct drawn *drawn,
                              int part, const char *text)
{
    return part != WHOLE && is_name_of(visit, part_of(drawn, part).heap, text);
}

/* The whole label inside of the part: neither a raw edge nor a gap below it. */
static inline bool within_part(struct visit *visit, const struct drawn *drawn,
                               const struct text_item *text, int part)
{
    const struct reach reach = reach_of_faces(drawn, part);
    const struct quad quad = text_quad(visit->all->typeset, text, true);
    bool inside = true;
    for (int i = 0; i < 4; i++)
        inside &= quad.corner[i].x > reach.left + 0.3 &&
                  quad.corner[i].x < reach.right - 0.3 &&
                  quad.corner[i].y > reach.top + 0.3 &&
                  quad.corner[i].y < reach.bottom - 0.3;
    return inside;
}

/* A label lies on the part that it names, and a cut piece's on its cloth. */
static inline void look_at_place(struct visit *visit, struct drawn *drawn)
{
    for (size_t i = 0; i < drawn->labels.count; i++) {
        const struct text_item *text = &drawn->labels.items[i]->as.text;
        if (is_direction(visit, text->text))
            continue;
        const int seen = face_at(drawn, middle(visit, text));
        const struct shown_face *shown =
            seen < 0 ? NULL : &drawn->state->faces.items[seen];
        if (shown == NULL ||
            !names_part(visit, drawn, shown->part, text->text)) {
            breach(visit->breaches, "step %zu: \"%s\" lies on %s",
                   drawn->step->number, text->text,
                   shown == NULL ? "no part" : "another part");
            continue;
        }
        const struct heap *part =
            &visit->plan->quilt->heaps.items[part_of(drawn, shown->part).heap];
        if (part->technique == TECHNIQUE_CUT &&
            part->of.cut.fabric != shown->face.fabric)
            breach(visit->breaches, "step %zu: \"%s\" lies on cloth %d",
                   drawn->step->number, text->text, shown->face.fabric);
        if (!within_part(visit, drawn, text, shown->part))
            breach(visit->breaches, "step %zu: \"%s\" reaches beyond its part",
                   drawn->step->number, text->text);
    }
}

static inline void look_at_places(struct visit *visit)
{
    visit_figures(visit, look_at_place);
}

/* No two parts of a step have one name, as its line of parts tells them. */
static inline void look_at_all_names(struct visit *visit)
{
    for (size_t s = 0; s < visit->steps.items.count; s++) {
        const struct told_step *step = &visit->steps.items.items[s];
        for (size_t i = 0; i < step->parts.items.count; i++)
            for (size_t k = 0; k < i; k++)
                if (strcmp(word_part(&visit->wording,
                                     step->parts.items.items[i].heap),
                           word_part(&visit->wording,
                                     step->parts.items.items[k].heap)) == 0)
                    breach(visit->breaches, "step %zu: two parts are \"%s\"",
                           step->number,
                           word_part(&visit->wording,
                                     step->parts.items.items[i].heap));
        for (size_t i = 0; i < s; i++)
            if (strcmp(step->title, visit->steps.items.items[i].title) == 0)
                breach(visit->breaches, "steps %zu and %zu are \"%s\"", i + 1,
                       s + 1, step->title);
    }
}

/* ---- turns ---- */

/* Parts that a heap takes and that lie turned, counted through the rows that
 * are sewn on the way to it, apart from how they are drawn. */
static inline void count_turned(struct visit *visit,
                                const struct told_step *step, size_t index,
                                unsigned turn, size_t turned[4])
{
    const struct sewn_quilt *quilt = visit->plan->quilt;
    const struct heap *heap = &quilt->heaps.items[index];
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const struct input *input = &heap->inputs.items[i];
        const struct heap *part = &quilt->heaps.items[input->heap];
        bool inside = false;
        for (size_t k = 0; k < step->heaps.count; k++)
            inside |= step->heaps.items[k] == input->heap;
        if (inside)
            count_turned(visit, step, input->heap, turn + input->turn, turned);
        else if (part->technique != TECHNIQUE_CUT)
            turned[(turn + input->turn) % 4 % part->symmetry]++;
    }
}

/* Each turned part of a join has its mark, and no other has one. */
static inline void look_at_turn(struct visit *visit, struct drawn *drawn)
{
    static const char *const signs[] = {"", "\u00bc", "\u00bd", "\u00be"};
    const struct page *page = visit->book->pages.items[drawn->page];
    size_t turned[4] = {0}, marked[4] = {0};
    if (drawn->exploded == NULL)
        return;
    if (drawn->before)
        count_turned(visit, drawn->step, drawn->step->heap, 0, turned);
    for (size_t i = drawn->first; i < drawn->last; i++) {
        const struct item *item = &page->items.items[i];
        if (!is_turn(item))
            continue;
        unsigned quarters = 1;
        while (quarters < 3 && strcmp(item->as.text.text, signs[quarters]) != 0)
            quarters++;
        marked[quarters]++;
        const int seen = face_at(drawn, middle(visit, &item->as.text));
        const int part =
            seen < 0 ? WHOLE : drawn->state->faces.items[seen].part;
        if (part == WHOLE ||
            part_of(drawn, part).turn %
                    visit->plan->quilt->heaps.items[part_of(drawn, part).heap]
                        .symmetry !=
                quarters)
            breach(visit->breaches,
                   "step %zu: a mark of %u quarters lies on "
                   "%s",
                   drawn->step->number, quarters,
                   part == WHOLE ? "no part" : "another part");
    }
    for (unsigned quarters = 1; quarters < 4; quarters++)
        if (marked[quarters] != turned[quarters])
            breach(visit->breaches,
                   "step %zu: %zu marks for %zu parts turned "
                   "by %u quarters",
                   drawn->step->number, marked[quarters], turned[quarters],
                   quarters);
}

static inline void look_at_turns(struct visit *visit)
{
    visit_figures(visit, look_at_turn);
}

/* ---- arrows ---- */

static inline double along(struct point p, struct point from, double x,
                           double y)
{
    return (p.x - from.x) * x + (p.y - from.y) * y;
}

/* The fabric on which the head of a seam's arrow must lie, or NO_FABRIC where
 * the seam joins sewn parts. */
static inline int pressed_fabric(const struct visit *visit,
                                 const struct drawn *drawn)
{
    const struct action *action = drawn->action;
    if (action == NULL)
        return NO_FABRIC;
    if (action->press.side == PRESS_TOWARD_FABRIC)
        return action->press.fabric;
    if (action->operation->at_corner) {
        const size_t square =
            drawn->heap->inputs.items[action->parts.items[1]].heap;
        return visit->plan->quilt->heaps.items[square].of.cut.fabric;
    }
    return NO_FABRIC;
}

static inline void look_at_arrow(struct visit *visit, const struct drawn *drawn,
                                 const struct press_mark *mark,
                                 struct arrow arrow)
{
    const struct point offset = offset_of(drawn, mark->gap_x, mark->gap_y);
    const struct point real = real_point(mark->at);
    const struct point at = {offset.x + real.x * drawn->scale,
                             offset.y + real.y * drawn->scale};
    const bool open = mark->x == 0 && mark->y == 0;
    const double x = open ? mark->across_x : mark->x;
    const double y = open ? mark->across_y : mark->y;
    const double tail = along(arrow.tail, at, x, y);
    const double head = along(arrow.head, at, x, y);
    if (!open && !(tail < -1.0 && head > 1.0))
        breach(visit->breaches,
               "step %zu: an arrow from %.1f to %.1f across "
               "its seam",
               drawn->step->number, tail, head);
    const int seen = face_at(drawn, arrow.head);
    if (seen < 0) {
        breach(visit->breaches,
               "step %zu: an arrow's head lies beside the "
               "cloth",
               drawn->step->number);
        return;
    }
    const int wanted = open ? NO_FABRIC : pressed_fabric(visit, drawn);
    const int found = drawn->state->faces.items[seen].face.fabric;
    if (wanted != NO_FABRIC && found != wanted)
        breach(visit->breaches,
               "step %zu: an arrow's head lies on cloth %d, "
               "not %d",
               drawn->step->number, found, wanted);
}

static inline void look_at_press(struct visit *visit, struct drawn *drawn)
{
    if (!drawn->result)
        return;
    const struct arrows arrows = arrows_of(visit->all->arena, drawn);
    size_t next = 0;
    for (size_t i = 0; i < drawn->state->presses.count; i++) {
        const struct press_mark *mark = &drawn->state->presses.items[i];
        const size_t heads = mark->x == 0 && mark->y == 0 ? 2 : 1;
        for (size_t k = 0; k < heads && next < arrows.items.count; k++)
            look_at_arrow(visit, drawn, mark, arrows.items.items[next++]);
    }
    if (next != arrows.items.count || next < drawn->state->presses.count)
        breach(visit->breaches, "step %zu: %zu arrows for %zu seams",
               drawn->step->number, arrows.items.count,
               drawn->state->presses.count);
    if (drawn->state->presses.count == 0)
        breach(visit->breaches, "step %zu: nothing says how to press",
               drawn->step->number);
}

static inline void look_at_presses(struct visit *visit)
{
    visit_figures(visit, look_at_press);
}

/* Arrows of different seams keep 0.7 mm apart (ISO 128, the least space
 * between lines). They are parallel or nearly so: their ends decide. */
static inline double between(struct arrow a, struct arrow b)
{
    double least = 1e9;
    for (int i = 0; i <= 20; i++)
        for (int k = 0; k <= 20; k++) {
            const double s = i / 20.0, t = k / 20.0;
            least =
                fmin(least, hypot(a.tail.x + s * (a.head.x - a.tail.x) -
                                      b.tail.x - t * (b.head.x - b.tail.x),
                                  a.tail.y + s * (a.head.y - a.tail.y) -
                                      b.tail.y - t * (b.head.y - b.tail.y)));
        }
    return least;
}

static inline void look_between(struct visit *visit, struct drawn *drawn)
{
    if (!drawn->result)
        return;
    const struct arrows arrows = arrows_of(visit->all->arena, drawn);
    for (size_t i = 0; i < arrows.items.count; i++)
        for (size_t k = i + 1; k < arrows.items.count; k++) {
            const struct arrow *a = &arrows.items.items[i];
            const struct arrow *b = &arrows.items.items[k];
            if (edge(a->tail, b->tail) < 0.01)
                continue; /* the two heads of a seam pressed open */
            if (between(*a, *b) < 2.0) {
                breach(visit->breaches, "step %zu: arrows %.1f pt apart",
                       drawn->step->number, between(*a, *b));
                return;
            }
        }
}

static inline void look_between_arrows(struct visit *visit)
{
    visit_figures(visit, look_between);
}

#endif
