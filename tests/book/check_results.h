/* What stands around the figures of the steps: functions that look at one
 * booklet. */
#ifndef SEAMWRIGHT_TESTS_CHECK_RESULTS_H
#define SEAMWRIGHT_TESTS_CHECK_RESULTS_H

#include "figures.h"

/* A text of a step, and where it stands among the items. */
struct sign {
    size_t page, item;
    const struct text_item *text;
};
struct signs {
    LIST(struct sign) items;
};
typedef bool chooser(const struct item *item);

static inline const struct item *item_at(const struct visit *visit, size_t page,
                                         size_t item)
{
    return &visit->book->pages.items[page]->items.items[item];
}

/* All chosen texts between the heading of a step and what follows it. */
static inline struct signs signs_of(struct visit *visit, size_t step,
                                    chooser *chosen)
{
    struct signs signs = {0};
    size_t now = 0;
    for (size_t p = 0; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            const struct item *item = item_at(visit, p, i);
            const size_t heading = heading_number(item);
            now = heading > 0 ? heading : is_section(item) ? 0 : now;
            if (now == step && chosen(item))
                *LIST_ADD(visit->all->arena, &signs.items) =
                    (struct sign){p, i, &item->as.text};
        }
    return signs;
}

/* Of the ink, as capitals and digits stand in the middle of their line. */
static inline struct point centre(struct visit *visit,
                                  const struct text_item *text)
{
    const struct quad q = text_quad(visit->all->typeset, text, true);
    return (struct point){(q.corner[0].x + q.corner[2].x) / 2.0,
                          (q.corner[0].y + q.corner[2].y) / 2.0};
}

/* ---- how many ---- */

static inline bool tells_count(const struct item *item)
{
    return item->kind == ITEM_TEXT &&
           (strncmp(item->as.text.text, "Make ", 5) == 0 ||
            strncmp(item->as.text.text, "Add ", 4) == 0);
}

/* Sizes are told one by one, casts of one size all at once where they are as
 * many each. */
static inline const char *wanted_count(const struct visit *visit,
                                       const struct told_step *step)
{
    struct arena *arena = visit->all->arena;
    size_t total = step->count;
    bool casts = step->sizes.count > 0;
    const char *one_by_one = arena_printf(arena, "Make %zu", step->count);
    for (size_t i = 0; i < step->sizes.count; i++) {
        const struct told_size *size = &step->sizes.items[i];
        casts &= is_other_cast(visit->plan->quilt, size->heap) &&
                 size->count == step->count;
        total += size->count;
        one_by_one =
            arena_printf(arena, "%s\u00a0+\u00a0%zu", one_by_one, size->count);
    }
    return casts ? arena_printf(arena, "Make %zu: %zu each of %zu kinds", total,
                                step->count, step->sizes.count + 1)
                 : one_by_one;
}

/* How many borders a step adds at once: the strips of matched ones are joined
 * first. */
static inline size_t in_one(const struct visit *visit, const struct heap *heap)
{
    const struct heap *strip =
        &visit->plan->quilt->heaps.items[heap->inputs.items[BORDER_LEFT].heap];
    return strip->technique == TECHNIQUE_JOIN ? strip->inputs.count : 1;
}

/* Once in a step, right of its title, and in no figure. */
static inline void look_at_count(struct visit *visit,
                                 const struct told_step *step)
{
    const struct signs signs = signs_of(visit, step->number, tells_count);
    const struct heap *heap = heap_of_step(visit, step->number);
    const bool border = heap->technique == TECHNIQUE_BORDER;
    if (signs.items.count != 1) {
        breach(visit->breaches, "step %zu tells its count %zu times",
               step->number, signs.items.count);
        return;
    }
    const struct sign *sign = &signs.items.items[0];
    const size_t borders = border ? step->heaps.count * in_one(visit, heap) : 0;
    const char *wanted =
        border ? arena_printf(visit->all->arena, "Add %zu %s", borders,
                              borders == 1 ? "border" : "borders")
               : wanted_count(visit, step);
    if (strcmp(sign->text->text, wanted) != 0)
        breach(visit->breaches, "step %zu: \"%s\" for \"%s\"", step->number,
               sign->text->text, wanted);
    if (sign->text->style.align != ALIGN_RIGHT ||
        sign->text->style.size != 13.0)
        breach(visit->breaches, "step %zu: its count is not at its title",
               step->number);
}

static inline void look_at_counts(struct visit *visit)
{
    for (size_t i = 0; i < visit->steps.items.count; i++)
        look_at_count(visit, &visit->steps.items.items[i]);
}

/* ---- sizes ---- */

static inline const char *side_of(struct visit *visit, const struct heap *heap,
                                  struct rational finished)
{
    return arena_printf(
        visit->all->arena, "%s\u00a0%s",
        word_length(&visit->wording, whole_side(visit, heap, finished)),
        word_unit(&visit->wording));
}

/* The dimension line: the straight line of a direction that is nearest to the
 * text on the side of the cloth, and whose middle is the text's. */
static inline bool has_line(struct visit *visit, const struct drawn *drawn,
                            const struct sign *sign, double from, double to)
{
    const struct page *page = visit->book->pages.items[sign->page];
    const bool upright = sign->text->angle != 0.0;
    const struct point text = centre(visit, sign->text);
    for (size_t i = 0; i < page->items.count; i++) {
        const struct path_item *path = &page->items.items[i].as.path;
        if (page->items.items[i].kind != ITEM_PATH || path->count != 2 ||
            path->closed || path->dash[0] > 0.0)
            continue;
        const struct point a = path->points[0], b = path->points[1];
        const double away = upright ? a.x - text.x : a.y - text.y;
        const double tilt = upright ? a.x - b.x : a.y - b.y;
        if (tilt == 0.0 && away > 0.0 && away < 10.0 &&
            fabs((upright ? a.y : a.x) - from) < 0.01 &&
            fabs((upright ? b.y : b.x) - to) < 0.01)
            return true;
    }
    breach(visit->breaches,
           "step %zu: no line of a dimension from %.2f to "
           "%.2f",
           drawn->step->number, from, to);
    return false;
}

/* All chosen texts of one figure. */
static inline struct signs signs_in(struct visit *visit,
                                    const struct drawn *drawn, chooser *chosen)
{
    struct signs signs = {0};
    for (size_t i = drawn->first; i < drawn->last; i++)
        if (chosen(item_at(visit, drawn->page, i)))
            *LIST_ADD(visit->all->arena, &signs.items) = (struct sign){
                drawn->page, i, &item_at(visit, drawn->page, i)->as.text};
    return signs;
}

/* The label is the solver's size, and its line as long as the cloth. */
static inline void look_at_size(struct visit *visit, struct drawn *drawn)
{
    const struct heap *heap = drawn->heap;
    const struct signs signs = signs_in(visit, drawn, is_dimension);
    const struct reach reach = reach_of_faces(drawn, WHOLE);
    if (signs.items.count != 2) {
        breach(visit->breaches, "step %zu has %zu dimensions",
               drawn->step->number, signs.items.count);
        return;
    }
    for (size_t i = 0; i < 2; i++) {
        const struct sign *sign = &signs.items.items[i];
        const bool upright = sign->text->angle != 0.0;
        const struct rational finished = upright ? heap->height : heap->width;
        const char *wanted = side_of(visit, heap, finished);
        if (strcmp(sign->text->text, wanted) != 0)
            breach(visit->breaches, "step %zu: \"%s\" for \"%s\"",
                   drawn->step->number, sign->text->text, wanted);
        if (sign->text->angle != (i == 0 ? 0.0 : -90.0))
            breach(visit->breaches, "step %zu: a size at %.0f degrees",
                   drawn->step->number, sign->text->angle);
        has_line(visit, drawn, sign, upright ? reach.top : reach.left,
                 upright ? reach.bottom : reach.right);
    }
}

/* Only results are measured. */
static inline void look_at_result_sizes(struct visit *visit)
{
    struct drawings drawings = all_drawings_of(visit);
    for (size_t i = 0; i < drawings.items.count; i++) {
        struct drawn *drawn = &drawings.items.items[i];
        if (drawn->result && drawn->state != NULL)
            look_at_size(visit, drawn);
        else if (signs_in(visit, drawn, is_dimension).items.count > 0)
            breach(visit->breaches, "step %zu: a size before it is done",
                   drawn->step->number);
    }
}

/* ---- numbers of seams ---- */

/* How often a heap of the step lies in what the step makes. */
static inline size_t times_in(const struct visit *visit, size_t heap,
                              size_t whole)
{
    const struct heap *taker = &visit->plan->quilt->heaps.items[whole];
    size_t times = 0;
    if (heap == whole)
        return 1;
    for (size_t i = 0; i < taker->inputs.count; i++)
        if (visit->plan->quilt->heaps.items[taker->inputs.items[i].heap].step ==
            taker->step)
            times += times_in(visit, heap, taker->inputs.items[i].heap);
    return times;
}

/* Counted from the engine's marks: each seam of all that a step joins is
 * pressed once, and lies there as often as its heap does. */
static inline size_t joints_of(const struct visit *visit,
                               const struct told_step *step, size_t *drawn)
{
    size_t count = 0;
    *drawn = 0;
    for (size_t h = 0; h < step->heaps.count; h++) {
        const struct heap *heap =
            &visit->plan->quilt->heaps.items[step->heaps.items[h]];
        for (size_t i = 0; i < heap->actions.count; i++) {
            const struct action *action = &heap->actions.items[i];
            if (action->operation->laid == LAID_TOGETHER)
                continue;
            count += action->after.presses.count;
            *drawn += action->after.presses.count *
                      times_in(visit, step->heaps.items[h], step->heap);
        }
    }
    return count;
}

/* 1 to n, none twice but where its heap lies twice; none where one seam is all.
 */
static inline void look_at_numbered(struct visit *visit,
                                    const struct drawn *drawn)
{
    const struct signs signs = signs_in(visit, drawn, is_seam_number);
    size_t places = 0;
    const size_t joints = drawn->exploded != NULL && drawn->before
                              ? joints_of(visit, drawn->step, &places)
                              : 0;
    const size_t wanted = joints > 1 ? joints : 0;
    size_t *seen = ARENA_ARRAY(visit->scratch, size_t, wanted + 1);
    places = places > 1 ? places : 0;
    if (signs.items.count != places)
        breach(visit->breaches, "step %zu: %zu numbers for %zu seams",
               drawn->step->number, signs.items.count, places);
    for (size_t i = 0; i < signs.items.count; i++) {
        size_t number = 0;
        sscanf(signs.items.items[i].text->text, "%zu", &number);
        if (number == 0 || number > wanted)
            breach(visit->breaches, "step %zu: %zu stands for no seam",
                   drawn->step->number, number);
        else
            seen[number]++;
    }
    for (size_t n = 1; n <= wanted; n++)
        if (seen[n] == 0 || (places == wanted && seen[n] > 1))
            breach(visit->breaches, "step %zu: %zu stands %zu times",
                   drawn->step->number, n, seen[n]);
}

static inline void look_at_numbers(struct visit *visit)
{
    const struct drawings drawings = drawings_of(visit);
    for (size_t i = 0; i < drawings.items.count; i++)
        look_at_numbered(visit, &drawings.items.items[i]);
}

/* Is a part met on this way from the number? Where rows are joined, their own
 * gaps may lie beside it. */
static inline bool meets_part(const struct drawn *drawn, struct point at,
                              double x, double y)
{
    for (double far = MM(2.0); far < MM(30.0); far += 2.0)
        for (int side = -1; side <= 1; side++) {
            const double aside = MM(5.0) * side;
            const struct point p = {at.x + x * far + y * aside,
                                    at.y + y * far + x * aside};
            if (face_at(drawn, p) >= 0)
                return true;
        }
    return false;
}

/* In its gap a number has the parts that it joins on both sides, and no cloth
 * below its disc. */
static inline void look_at_circle(struct visit *visit,
                                  const struct drawn *drawn,
                                  const struct path_item *disc)
{
    const struct point at = {(disc->points[0].x + disc->points[12].x) / 2.0,
                             (disc->points[6].y + disc->points[18].y) / 2.0};
    bool covers = false;
    for (size_t i = 0; i < disc->count; i++)
        covers |= face_at(drawn, disc->points[i]) >= 0;
    if (covers)
        breach(visit->breaches, "step %zu: a number lies on cloth",
               drawn->step->number);
    if (!(meets_part(drawn, at, -1.0, 0.0) &&
          meets_part(drawn, at, 1.0, 0.0)) &&
        !(meets_part(drawn, at, 0.0, -1.0) && meets_part(drawn, at, 0.0, 1.0)))
        breach(visit->breaches, "step %zu: a number lies beside its gap",
               drawn->step->number);
}

static inline void look_at_number_gaps(struct visit *visit)
{
    struct drawings drawings = drawings_of(visit);
    for (size_t i = 0; i < drawings.items.count; i++) {
        const struct drawn *drawn = &drawings.items.items[i];
        size_t circles = 0;
        if (drawn->exploded == NULL || !drawn->before)
            continue;
        for (size_t k = drawn->state->faces.count; k < drawn->paths.count;
             k++) {
            const struct path_item *path = &drawn->paths.items[k]->as.path;
            if (!path->closed || path->count != 24)
                continue;
            circles++;
            look_at_circle(visit, drawn, path);
        }
        if (circles != signs_in(visit, drawn, is_seam_number).items.count)
            breach(visit->breaches, "step %zu: %zu circles for its numbers",
                   drawn->step->number, circles);
    }
}

/* ---- mirror images ---- */

static inline bool are_mirror_images(const struct heap *a, const struct heap *b)
{
    return a->named != NULL && a->named == b->named &&
           a->named_mirror != b->named_mirror &&
           rational_compare(a->factor, b->factor) == 0;
}

static inline bool any_numeral(const struct item *item)
{
    return heading_number(item) > 0;
}

/* A chain line of four dashes, upright, between both numerals. */
static inline bool has_axis(struct visit *visit, const struct sign *a,
                            const struct sign *b)
{
    const struct page *page = visit->book->pages.items[a->page];
    for (size_t i = 0; i < page->items.count; i++) {
        const struct path_item *path = &page->items.items[i].as.path;
        if (page->items.items[i].kind == ITEM_PATH && path->count == 2 &&
            path->dash[0] > path->dash[2] && path->dash[3] > 0.0 &&
            path->points[0].x == path->points[1].x &&
            path->points[0].x > a->text->x && path->points[0].x < b->text->x &&
            path->points[0].y < path->points[1].y &&
            path->points[1].y > a->text->y)
            return true;
    }
    return false;
}

static inline bool tells_mirror(const struct item *item)
{
    return item->kind == ITEM_TEXT &&
           strstr(item->as.text.text, "mirror image of step") != NULL;
}

/* A unit and its mirror image stand side by side with an axis between, or the
 * later one tells of the earlier by its number. ensures: side by side. */
static inline bool look_at_mirror(struct visit *visit, size_t first,
                                  size_t second)
{
    const struct signs a = signs_of(visit, first, any_numeral);
    const struct signs b = signs_of(visit, second, any_numeral);
    const struct signs told = signs_of(visit, second, tells_mirror);
    const char *number =
        arena_printf(visit->all->arena, "mirror image of step %zu:", first);
    assert_true(a.items.count == 1 && b.items.count == 1);
    const struct sign *one = &a.items.items[0], *other = &b.items.items[0];
    if (one->page == other->page && one->text->y == other->text->y) {
        if (!has_axis(visit, one, other))
            breach(visit->breaches, "steps %zu and %zu have no axis", first,
                   second);
        return true;
    }
    if (told.items.count != 1 ||
        strstr(told.items.items[0].text->text, number) == NULL)
        breach(visit->breaches, "step %zu does not tell of its mirror image",
               second);
    return false;
}

static inline void look_at_mirrors(struct visit *visit)
{
    size_t pairs = 0, beside = 0;
    for (size_t k = 0; k < visit->steps.items.count; k++)
        for (size_t i = 0; i < k; i++) {
            const size_t first = visit->steps.items.items[i].number;
            const size_t second = visit->steps.items.items[k].number;
            if (!are_mirror_images(heap_of_step(visit, first),
                                   heap_of_step(visit, second)))
                continue;
            pairs++;
            beside += look_at_mirror(visit, first, second);
        }
    if (pairs == 0 && (strncmp(visit->where, "turning", 7) == 0 ||
                       strncmp(visit->where, "vane", 4) == 0))
        breach(visit->breaches, "no mirror images");
    if (beside == 0 && strncmp(visit->where, "vane", 4) == 0)
        breach(visit->breaches, "no mirror images side by side");
}

/* ---- nothing on lines ---- */

/* The last white disc below a text hides what was drawn before it: its item, or
 * 0 where there is none. */
static inline size_t disc_below(struct visit *visit, const struct page *page,
                                size_t text)
{
    const struct point at = centre(visit, &page->items.items[text].as.text);
    for (size_t i = text; i-- > 0;) {
        const struct path_item *path = &page->items.items[i].as.path;
        if (page->items.items[i].kind == ITEM_PATH && path->filled &&
            path->closed && path->count >= 24 && path->fill.blue == 1.0 &&
            hypot(path->points[0].x - at.x, path->points[0].y - at.y) < 14.0)
            return i;
    }
    return 0;
}

/* No line crosses a size, a number or a turn, but for its own ring. */
static inline void look_at_crossed(struct visit *visit, size_t p, size_t text)
{
    const struct page *page = visit->book->pages.items[p];
    const struct item *item = &page->items.items[text];
    const struct quad box =
        text_quad(visit->all->typeset, &item->as.text, true);
    const size_t disc =
        is_dimension(item) ? 0 : disc_below(visit, page, text) + 1;
    for (size_t k = disc; k < page->items.count; k++) {
        const struct path_item *path = &page->items.items[k].as.path;
        if (page->items.items[k].kind != ITEM_PATH || path->stroke == 0.0)
            continue;
        for (size_t n = 0; n + !path->closed < path->count; n++)
            if (crosses(&box, path->points[n],
                        path->points[(n + 1) % path->count])) {
                breach(visit->breaches, "page %zu: a line crosses \"%s\"",
                       p + 1, item->as.text.text);
                return;
            }
    }
}

static inline void look_at_crossings(struct visit *visit)
{
    for (size_t p = 0; p < visit->book->pages.count; p++) {
        const struct page *page = visit->book->pages.items[p];
        for (size_t i = 1; i < page->items.count; i++)
            if (is_dimension(&page->items.items[i]) ||
                is_seam_number(&page->items.items[i]) ||
                is_turn(&page->items.items[i]))
                look_at_crossed(visit, p, i);
    }
}

#endif
