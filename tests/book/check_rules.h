/* Rules of a printed page that no other check looks at: of steps, figures and
 * words. Functions that look at one booklet. */
#ifndef SEAMWRIGHT_TESTS_CHECK_RULES_H
#define SEAMWRIGHT_TESTS_CHECK_RULES_H

#include "check_layout.h"
#include "check_legend.h"
#include "check_results.h"
#include "figures.h"

/* ---- steps ---- */

/* Only like seams share a step. */
static inline void look_at_one_operation(struct visit *visit)
{
    for (size_t s = 0; s < visit->steps.items.count; s++) {
        const struct told_step *step = &visit->steps.items.items[s];
        const struct heap *heaps = visit->plan->quilt->heaps.items;
        for (size_t i = 0; i < step->heaps.count; i++)
            if (heaps[step->heaps.items[i]].technique !=
                heaps[step->heap].technique)
                breach(visit->breaches, "step %zu: two techniques",
                       step->number);
    }
}

static inline bool takes_the_same(const struct heap *a, const struct heap *b)
{
    if (a->technique != b->technique || a->inputs.count != b->inputs.count ||
        a->technique == TECHNIQUE_CUT)
        return false;
    for (size_t i = 0; i < a->inputs.count; i++)
        if (a->inputs.items[i].heap != b->inputs.items[i].heap ||
            a->inputs.items[i].turn != b->inputs.items[i].turn ||
            a->inputs.items[i].at != b->inputs.items[i].at ||
            rational_compare(a->inputs.items[i].x, b->inputs.items[i].x) != 0 ||
            rational_compare(a->inputs.items[i].y, b->inputs.items[i].y) != 0)
            return false;
    return true;
}

/* What is done alike from the same parts is one step with its count. */
static inline void look_at_like_steps(struct visit *visit)
{
    for (size_t k = 0; k < visit->steps.items.count; k++)
        for (size_t i = 0; i < k; i++) {
            const size_t a = visit->steps.items.items[i].number;
            const size_t b = visit->steps.items.items[k].number;
            const struct heap *one = heap_of_step(visit, a);
            const struct heap *other = heap_of_step(visit, b);
            if (one->named_mirror == other->named_mirror &&
                one->technique == TECHNIQUE_JOIN && takes_the_same(one, other))
                breach(visit->breaches, "steps %zu and %zu are alike", a, b);
        }
}

/* At most five parts, and seven labels in a figure. */
static inline void look_at_few_things(struct visit *visit)
{
    enum { PARTS = 5, LABELS = 7 };
    const struct drawings drawings = all_drawings_of(visit);
    for (size_t s = 0; s < visit->steps.items.count; s++)
        if (visit->steps.items.items[s].parts.items.count > PARTS)
            breach(visit->breaches, "step %zu takes %zu parts",
                   visit->steps.items.items[s].number,
                   visit->steps.items.items[s].parts.items.count);
    for (size_t i = 0; i < drawings.items.count; i++)
        if (drawings.items.items[i].labels.count > LABELS)
            breach(visit->breaches, "step %zu: a figure has %zu labels",
                   drawings.items.items[i].step->number,
                   drawings.items.items[i].labels.count);
}

/* Is the part named in a figure of its step, or told by the step it comes from?
 */
static inline bool is_named_in(struct visit *visit,
                               const struct drawings *drawings,
                               const struct told_step *step, size_t heap)
{
    for (size_t i = 0; i < drawings->items.count; i++)
        for (size_t k = 0; drawings->items.items[i].step == step &&
                           k < drawings->items.items[i].labels.count;
             k++)
            if (is_name_of(
                    visit, heap,
                    drawings->items.items[i].labels.items[k]->as.text.text))
                return true;
    return false;
}

/* Behind the first figure of the step, up to the next heading: captions and
 * tables of lengths say the name, too. */
static inline bool is_said_in(struct visit *visit, const struct told_step *step,
                              const char *name)
{
    bool inside = false, figure = false;
    for (size_t p = 1; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            const size_t number = heading_number(item);
            figure = number == 0 && figure;
            inside = number > 0 ? number == step->number : inside;
            figure |= inside && opens(item, "Figure");
            if (inside && figure && item->kind == ITEM_TEXT &&
                strstr(item->as.text.text, name) != NULL)
                return true;
        }
    return false;
}

/* Each part of the line is named at the figures of its step; one may be left
 * out, where all others have their names. */
static inline void look_at_named_parts(struct visit *visit)
{
    const struct drawings drawings = all_drawings_of(visit);
    for (size_t s = 0; s < visit->steps.items.count; s++) {
        const struct told_step *step = &visit->steps.items.items[s];
        const char *lacks = NULL;
        for (size_t i = 0; i < step->parts.items.count; i++) {
            const size_t heap = step->parts.items.items[i].heap;
            const char *name = word_part(&visit->wording, heap);
            if (is_named_in(visit, &drawings, step, heap) ||
                is_said_in(visit, step, name))
                continue;
            if (lacks != NULL)
                breach(visit->breaches, "step %zu: no figure names %s and %s",
                       step->number, lacks, name);
            lacks = name;
        }
    }
}

/* All that stands on the first two pages; a name may run over lines. */
static inline const char *first_words(struct visit *visit)
{
    struct buffer text = buffer_in(visit->scratch);
    for (size_t p = 0; p < 2; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            if (item->kind == ITEM_TEXT)
                buffer_printf(&text, "%s ", item->as.text.text);
        }
    return blanks_alike(visit->scratch, buffer_string(&text));
}

/* The name of each unit and block stands on the first two pages. */
static inline void look_at_overview(struct visit *visit)
{
    const char *words = first_words(visit);
    for (size_t s = 0; s < visit->steps.items.count; s++) {
        const struct told_step *step = &visit->steps.items.items[s];
        const char *title = step->title;
        if (heap_of_step(visit, step->number)->named != NULL &&
            !is_border_like(heap_of_step(visit, step->number)) &&
            strstr(words, blanks_alike(visit->scratch, title)) == NULL)
            breach(visit->breaches, "\"%s\" is not on the first pages", title);
    }
}

/* ---- figures ---- */

/* Dots of a grid over a part, and those of them where it is seen. */
static inline double seen_share(const struct drawn *drawn, int part)
{
    enum { GRID = 24 };
    const struct reach reach = reach_of_faces(drawn, part);
    size_t all = 0, seen = 0;
    for (int i = 1; i < GRID; i++)
        for (int k = 1; k < GRID; k++) {
            const struct point p = {
                reach.left + (reach.right - reach.left) * i / GRID,
                reach.top + (reach.bottom - reach.top) * k / GRID};
            bool own = false;
            for (size_t f = 0; f < drawn->state->faces.count && !own; f++) {
                struct drawn one = *drawn;
                struct state single = *drawn->state;
                single.faces.items += f;
                single.faces.count = 1;
                one.state = &single;
                one.paths.items += f;
                own = drawn->state->faces.items[f].part == part &&
                      face_at(&one, p) == 0;
            }
            const int top = own ? face_at(drawn, p) : -1;
            all += own;
            seen +=
                own && top >= 0 && drawn->state->faces.items[top].part == part;
        }
    return all == 0 ? 1.0 : (double)seen / (double)all;
}

/* Half of each part that is joined is seen. Squares that are laid on each other
 * are exempt: section 6 of the design shows the lower one at two edges. */
static inline void look_at_seen_parts(struct visit *visit)
{
    const struct drawings drawings = drawings_of(visit);
    for (size_t i = 0; i < drawings.items.count; i++) {
        const struct drawn *drawn = &drawings.items.items[i];
        if (drawn->exploded == NULL || !drawn->before)
            continue;
        for (size_t k = 0; k < drawn->exploded->parts.count; k++)
            if (seen_share(drawn, (int)k) < 0.5)
                breach(visit->breaches, "step %zu: a part is hidden",
                       drawn->step->number);
    }
}

/* Where something is taken off that is sewn on, it is shown as waste. */
static inline void look_at_waste(struct visit *visit)
{
    const struct drawings drawings = drawings_of(visit);
    const struct path_item style = mark_style(MARK_CUT);
    for (size_t i = 0; i < drawings.items.count; i++) {
        const struct drawn *drawn = &drawings.items.items[i];
        bool cut = false, waste = false;
        for (size_t k = 0; k < drawn->state->marks.count; k++)
            cut |= drawn->state->marks.items[k].kind == MARK_CUT &&
                   has_mark_line(drawn, &drawn->state->marks.items[k], &style);
        for (size_t k = 0; k < drawn->paths.count; k++)
            waste |= drawn->paths.items[k]->as.path.role == ROLE_WASTE;
        if (cut && !waste && drawn->action != NULL &&
            drawn->action->operation->at_corner)
            breach(visit->breaches, "step %zu: what is cut off is not shown",
                   drawn->step->number);
    }
}

/* A unit of a gap is as wide all over a figure. */
static inline void look_at_equal_gaps(struct visit *visit)
{
    const struct drawings drawings = drawings_of(visit);
    for (size_t i = 0; i < drawings.items.count; i++) {
        const struct drawn *drawn = &drawings.items.items[i];
        double unit = 0.0;
        if (drawn->exploded == NULL || !drawn->before)
            continue;
        const struct shown_face *faces = drawn->state->faces.items;
        const struct point zero =
            offset_of(drawn, faces[0].gap_x, faces[0].gap_y);
        for (size_t f = 1; f < drawn->state->faces.count; f++) {
            const struct point at =
                offset_of(drawn, faces[f].gap_x, faces[f].gap_y);
            const int steps = faces[f].gap_x - faces[0].gap_x;
            const double one = steps == 0 ? unit : (at.x - zero.x) / steps;
            if (unit > 0.0 && fabs(one - unit) > 0.05 * unit)
                breach(visit->breaches, "step %zu: gaps of %.1f and %.1f pt",
                       drawn->step->number, unit, one);
            unit = one;
        }
    }
}

/* Between 10 and 25 % of the shorter side of the smallest part, or what the
 * number of a seam takes, with a white rim (departure). */
static inline void look_at_gap_share(struct visit *visit)
{
    const struct drawings drawings = drawings_of(visit);
    for (size_t i = 0; i < drawings.items.count; i++) {
        const struct drawn *drawn = &drawings.items.items[i];
        double shorter = 1e9, least = 1e9;
        if (drawn->exploded == NULL || !drawn->before)
            continue;
        const int count = (int)drawn->exploded->parts.count;
        for (int k = 0; k < count; k++) {
            const struct reach a = reach_of_faces(drawn, k);
            shorter = fmin(shorter, fmin(a.right - a.left, a.bottom - a.top));
            for (int l = 0; l < k; l++) {
                const struct reach b = reach_of_faces(drawn, l);
                least =
                    fmin(least, fmax(fmax(a.left - b.right, b.left - a.right),
                                     fmax(a.top - b.bottom, b.top - a.bottom)));
            }
        }
        /* A millionth of a point is rounding: a gap may be 10 % exactly. */
        if (least < 0.10 * shorter - 1e-6 ||
            least > fmax(0.25 * shorter, SEAM_NUMBER + MM(1.3)))
            breach(visit->breaches, "step %zu: gaps of %.2f %%",
                   drawn->step->number, 100.0 * least / shorter);
    }
}

/* Filled heads, all of one size, at least three times as long as wide. */
static inline void look_at_heads(struct visit *visit)
{
    double first = 0.0;
    for (size_t p = 1; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item =
                &visit->book->pages.items[p]->items.items[i];
            if (item->kind != ITEM_PATH || !is_head(&item->as.path))
                continue;
            const struct point *c = item->as.path.points;
            const double wide = edge(c[1], c[2]);
            const double high = hypot(c[0].x - (c[1].x + c[2].x) / 2.0,
                                      c[0].y - (c[1].y + c[2].y) / 2.0);
            first = first == 0.0 ? high : first;
            if (high < 2.99 * wide || fabs(high - first) > 0.01)
                breach(visit->breaches, "page %zu: a head of %.1f by %.1f pt",
                       p + 1, high, wide);
        }
}

/* The way of a line is told along it. */
static inline void look_at_line_labels(struct visit *visit)
{
    const struct drawings drawings = all_drawings_of(visit);
    for (size_t i = 0; i < drawings.items.count; i++) {
        const struct drawn *drawn = &drawings.items.items[i];
        for (size_t k = 0; k < drawn->labels.count; k++) {
            const struct text_item *text = &drawn->labels.items[k]->as.text;
            bool along_one = false;
            for (size_t l = 0; l < drawn->paths.count; l++) {
                const struct path_item *path = &drawn->paths.items[l]->as.path;
                if (path->count != 2 || path->role != ROLE_MARK)
                    continue;
                const double angle =
                    atan2(path->points[1].y - path->points[0].y,
                          path->points[1].x - path->points[0].x) *
                    180.0 / acos(-1.0);
                const double off = fmod(fabs(angle - text->angle), 180.0);
                along_one |= off < 1.0 || off > 179.0;
            }
            if (is_direction(visit, text->text) && !along_one)
                breach(visit->breaches, "step %zu: \"%s\" at %.0f degrees",
                       drawn->step->number, text->text, text->angle);
        }
    }
}

/* Edges of parts are drawn broader than what only measures them. */
static inline void look_at_outline_widths(struct visit *visit)
{
    for (size_t p = 1; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct path_item *path =
                &visit->book->pages.items[p]->items.items[i].as.path;
            if (visit->book->pages.items[p]->items.items[i].kind == ITEM_PATH &&
                path->role == ROLE_OUTLINE && path->stroke > 0.0 &&
                path->stroke < LINE_MIDDLE - 0.01)
                breach(visit->breaches, "page %zu: an outline of %.2f pt",
                       p + 1, path->stroke);
        }
}

/* The first dimension line lies 6 mm or more from the outline. */
static inline void look_at_dimension_room(struct visit *visit)
{
    const struct drawings drawings = drawings_of(visit);
    for (size_t i = 0; i < drawings.items.count; i++) {
        const struct drawn *drawn = &drawings.items.items[i];
        const struct reach reach = reach_of_faces(drawn, WHOLE);
        for (size_t k = 0; k < drawn->paths.count && drawn->result; k++) {
            const struct path_item *path = &drawn->paths.items[k]->as.path;
            const double above = reach.top - path->points[0].y;
            if (path->count == 2 && path->points[0].y == path->points[1].y &&
                fabs(path->points[0].x - reach.left) < 0.01 &&
                fabs(path->points[1].x - reach.right) < 0.01 && above > 0.0 &&
                above < MM(6.0))
                breach(visit->breaches, "step %zu: a dimension %.1f mm off",
                       drawn->step->number, above / MM(1.0));
        }
    }
}

/* Extension lines keep off the outline that they extend. */
static inline void look_at_extensions(struct visit *visit)
{
    const struct drawings drawings = drawings_of(visit);
    for (size_t i = 0; i < drawings.items.count; i++) {
        const struct drawn *drawn = &drawings.items.items[i];
        const struct reach reach = reach_of_faces(drawn, WHOLE);
        size_t seen = 0;
        for (size_t k = 0; k < drawn->paths.count && drawn->result; k++) {
            const struct path_item *path = &drawn->paths.items[k]->as.path;
            const struct point *p = path->points;
            if (path->count != 2 || p[0].x != p[1].x || p[0].y > reach.top ||
                p[1].y > reach.top ||
                (fabs(p[0].x - reach.left) > 0.01 &&
                 fabs(p[0].x - reach.right) > 0.01))
                continue;
            seen++;
            if (reach.top - fmax(p[0].y, p[1].y) < 0.5)
                breach(visit->breaches, "step %zu: an extension line touches",
                       drawn->step->number);
        }
        if (drawn->result && seen != 2)
            breach(visit->breaches, "step %zu: %zu extension lines",
                   drawn->step->number, seen);
    }
}

#endif
