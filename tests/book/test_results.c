/* What stands around the figures of the steps: the count of a heap in its
 * badge, the unfinished size on two sides, numbers of seams, the legend. */
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

static const struct item *item_at(const struct visit *visit, size_t page,
                                  size_t item)
{
    return &visit->book->pages.items[page]->items.items[item];
}

/* All chosen texts between the heading of a step and what follows it. */
static struct signs signs_of(struct visit *visit, size_t step, chooser *chosen)
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
static struct point centre(struct visit *visit, const struct text_item *text)
{
    const struct quad q = text_quad(visit->all->typeset, text, true);
    return (struct point){(q.corner[0].x + q.corner[2].x) / 2.0,
                          (q.corner[0].y + q.corner[2].y) / 2.0};
}

/* In the box around a path, which for a badge is the path. */
static bool inside_box(const struct path_item *path, struct point p)
{
    double left = 1e9, right = -1e9, top = 1e9, bottom = -1e9;
    for (size_t i = 0; i < path->count; i++) {
        left = fmin(left, path->points[i].x);
        right = fmax(right, path->points[i].x);
        top = fmin(top, path->points[i].y);
        bottom = fmax(bottom, path->points[i].y);
    }
    return p.x > left && p.x < right && p.y > top && p.y < bottom;
}

/* ---- badges ---- */

static bool is_badge(const struct item *item)
{
    return item->kind == ITEM_TEXT && item->as.text.style.face == FACE_BOLD &&
           item->as.text.style.color.red == 1.0;
}

/* One a step, with the heap's count and nothing else, on a dark box. */
static void look_at_badge(struct visit *visit, size_t step)
{
    const struct signs signs = signs_of(visit, step, is_badge);
    const struct heap *heap = heap_of_step(visit, step);
    size_t count = 0;
    if (signs.items.count != 1) {
        breach(visit->breaches, "step %zu has %zu badges", step,
               signs.items.count);
        return;
    }
    const struct sign *badge = &signs.items.items[0];
    if (sscanf(badge->text->text, "Make %zu", &count) != 1 ||
        count != heap->count)
        breach(visit->breaches, "step %zu: \"%s\" for %zu", step,
               badge->text->text, heap->count);
    const struct item *below = item_at(visit, badge->page, badge->item - 1);
    if (below->kind != ITEM_PATH || !below->as.path.filled ||
        below->as.path.fill.red > 0.2 ||
        !inside_box(&below->as.path, centre(visit, badge->text)))
        breach(visit->breaches, "step %zu: the badge has no box", step);
}

static void look_at_badges(struct visit *visit)
{
    for (size_t step = 1; step <= step_count(visit); step++)
        look_at_badge(visit, step);
}

static void test_badges_count_their_heaps(void **state)
{
    visit_booklets(state, look_at_badges);
}

/* ---- sizes ---- */

static const char *side_of(struct visit *visit, struct rational finished)
{
    const struct rational seams =
        rational_times(visit->sample->design->pattern->seam, 2);
    return arena_printf(
        visit->all->arena, "%s\u00a0%s",
        word_length(&visit->wording, rational_add(finished, seams)),
        word_unit(&visit->wording));
}

/* The dimension line: the straight line of a direction that is nearest to the
 * text on the side of the cloth, and whose middle is the text's. */
static bool has_line(struct visit *visit, const struct drawn *drawn,
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
    breach(visit->breaches, "step %zu: no line of a dimension from %.2f to "
           "%.2f", drawn->heap->step, from, to);
    return false;
}

/* The label is the solver's size, and its line as long as the cloth. */
static void look_at_size(struct visit *visit, struct drawn *drawn)
{
    const struct heap *heap = drawn->heap;
    const struct signs signs = signs_of(visit, heap->step, is_dimension);
    if (signs.items.count != 2) {
        breach(visit->breaches, "step %zu has %zu dimensions", heap->step,
               signs.items.count);
        return;
    }
    double left = 1e9, right = -1e9, top = 1e9, bottom = -1e9;
    for (size_t i = 0; i < drawn->state->faces.count; i++)
        for (size_t k = 0; k < drawn->paths.items[i]->as.path.count; k++) {
            const struct point p = drawn->paths.items[i]->as.path.points[k];
            left = fmin(left, p.x);
            right = fmax(right, p.x);
            top = fmin(top, p.y);
            bottom = fmax(bottom, p.y);
        }
    for (size_t i = 0; i < 2; i++) {
        const struct sign *sign = &signs.items.items[i];
        const bool upright = sign->text->angle != 0.0;
        const struct rational finished = upright ? heap->height : heap->width;
        const char *wanted = side_of(visit, finished);
        if (strcmp(sign->text->text, wanted) != 0)
            breach(visit->breaches, "step %zu: \"%s\" for \"%s\"", heap->step,
                   sign->text->text, wanted);
        if (sign->text->angle != (i == 0 ? 0.0 : -90.0))
            breach(visit->breaches, "step %zu: a size at %.0f degrees",
                   heap->step, sign->text->angle);
        has_line(visit, drawn, sign, upright ? top : left,
                 upright ? bottom : right);
    }
}

static void look_at_sizes(struct visit *visit)
{
    struct drawings drawings = drawings_of(visit);
    size_t seen = 0;
    for (size_t i = 0; i < drawings.items.count; i++) {
        struct drawn *drawn = &drawings.items.items[i];
        const struct heap *heap = drawn->heap;
        if (drawn->before ||
            drawn->action != &heap->actions.items[heap->actions.count - 1] ||
            !match_faces(visit, drawn))
            continue;
        look_at_size(visit, drawn);
        seen++;
    }
    if (seen != step_count(visit))
        breach(visit->breaches, "%zu results for %zu steps", seen,
               step_count(visit));
}

static void test_results_show_the_solved_size(void **state)
{
    visit_booklets(state, look_at_sizes);
}

/* ---- numbers of seams ---- */

/* Counted from the engine's marks: each seam is pressed once. */
static size_t joints_of(const struct heap *heap)
{
    size_t count = 0;
    for (size_t i = 0; i < heap->actions.count; i++) {
        const struct action *action = &heap->actions.items[i];
        if (action->operation->laid != LAID_TOGETHER)
            count += action->after.presses.count;
    }
    return count;
}

static bool tells_order(const struct item *item)
{
    return item->kind == ITEM_TEXT &&
           strstr(item->as.text.text, "in the order of their numbers") != NULL;
}

/* 1 to n, none twice, and the sentence once; none where one seam is all. */
static void look_at_numbers(struct visit *visit)
{
    for (size_t step = 1; step <= step_count(visit); step++) {
        const struct signs signs = signs_of(visit, step, is_seam_number);
        const size_t told = signs_of(visit, step, tells_order).items.count;
        const size_t joints = joints_of(heap_of_step(visit, step));
        const size_t wanted = joints > 1 ? joints : 0;
        if (signs.items.count != wanted || told != (wanted > 0))
            breach(visit->breaches, "step %zu: %zu numbers for %zu seams, told "
                   "%zu times", step, signs.items.count, wanted, told);
        for (size_t i = 0; i < signs.items.count; i++) {
            size_t number = 0;
            sscanf(signs.items.items[i].text->text, "%zu", &number);
            if (number != i + 1)
                breach(visit->breaches, "step %zu: %zu stands where %zu should",
                       step, number, i + 1);
        }
    }
}

static void test_seams_are_numbered_once_in_order(void **state)
{
    visit_booklets(state, look_at_numbers);
}

/* In its gap a number has the part that it joins on each side, and no cloth
 * below it. */
static void look_beside_number(struct visit *visit, struct drawn *drawn,
                               struct point at)
{
    const bool row = drawn->action->operation->laid == LAID_ACROSS;
    /* Points: beyond the gap, in the smallest part; strips of borders are
     * narrower than any other. */
    const double near = drawn->heap->technique == TECHNIQUE_BORDER ? 8.0 : 12.0;
    const double x = row ? near : 0.0, y = row ? 0.0 : near;
    const int before = face_at(drawn, (struct point){at.x - x, at.y - y});
    const int behind = face_at(drawn, (struct point){at.x + x, at.y + y});
    if (face_at(drawn, at) >= 0)
        breach(visit->breaches, "step %zu: a number lies on cloth",
               drawn->heap->step);
    if (before < 0 || behind < 0)
        breach(visit->breaches, "step %zu: a number lies beside its gap",
               drawn->heap->step);
}

static void look_at_gaps(struct visit *visit)
{
    struct drawings drawings = drawings_of(visit);
    for (size_t i = 0; i < drawings.items.count; i++) {
        struct drawn *drawn = &drawings.items.items[i];
        if (!drawn->before || joints_of(drawn->heap) < 2 ||
            !match_faces(visit, drawn))
            continue;
        size_t circles = 0;
        for (size_t k = drawn->state->faces.count; k < drawn->paths.count;
             k++) {
            const struct path_item *path = &drawn->paths.items[k]->as.path;
            if (!path->closed || path->count != 24)
                continue;
            circles++;
            look_beside_number(
                visit, drawn,
                (struct point){
                    (path->points[0].x + path->points[12].x) / 2.0,
                    (path->points[6].y + path->points[18].y) / 2.0});
        }
        if (circles != drawn->action->after.presses.count)
            breach(visit->breaches, "step %zu: %zu circles for %zu seams",
                   drawn->heap->step, circles,
                   drawn->action->after.presses.count);
    }
}

static void test_numbers_lie_in_their_gaps(void **state)
{
    visit_booklets(state, look_at_gaps);
}

/* ---- mirror images ---- */

/* The same words; a unit is bound to its number by a no-break space. */
static bool same_words(const char *a, const char *b)
{
    while (*a != '\0' && *b != '\0') {
        const bool bound = strncmp(a, "\u00a0", 2) == 0;
        if (*b != (bound ? ' ' : *a))
            return false;
        a += bound ? 2 : 1;
        b++;
    }
    return *a == *b;
}

static const struct sign *sign_with(const struct signs *signs,
                                    const char *words)
{
    const struct sign *found = NULL;
    for (size_t i = 0; i < signs->items.count; i++)
        if (same_words(signs->items.items[i].text->text, words))
            found = &signs->items.items[i];
    return found;
}

static bool is_name(const struct item *item)
{
    return item->kind == ITEM_TEXT && item->as.text.style.size == 9.0 &&
           item->as.text.style.align == ALIGN_CENTER;
}

/* The polygons between a name and what was written or tagged before it. */
static size_t polygons_before(const struct visit *visit,
                              const struct sign *name)
{
    size_t count = 0;
    for (size_t i = name->item; i-- > 0;) {
        const struct item *item = item_at(visit, name->page, i);
        if (item->kind == ITEM_TEXT)
            break;
        count += item->kind == ITEM_PATH && item->as.path.filled;
    }
    return count;
}

/* Both names of a unit and its mirror image stand at one height in the later
 * step, each under all faces of its cloth. */
static size_t look_at_mirror(struct visit *visit, size_t first, size_t second)
{
    const struct sewn_quilt *quilt = visit->plan->quilt;
    const struct heap *a = &quilt->heaps.items[first];
    const struct heap *b = &quilt->heaps.items[second];
    if (a->named == NULL || a->named != b->named || a->step == 0 ||
        b->step <= a->step || a->named_mirror == b->named_mirror ||
        rational_compare(a->factor, b->factor) != 0)
        return 0;
    const struct signs names = signs_of(visit, b->step, is_name);
    const struct sign *one = sign_with(&names, word_heap(&visit->wording,
                                                         first));
    const struct sign *other = sign_with(&names, word_heap(&visit->wording,
                                                           second));
    if (one == NULL || other == NULL || one->page != other->page) {
        breach(visit->breaches, "step %zu: its mirror image is not beside it",
               b->step);
        return 1;
    }
    if (fabs(one->text->y - other->text->y) > 12.0 ||
        one->text->x >= other->text->x)
        breach(visit->breaches, "step %zu: mirror images are not side by side",
               b->step);
    if (polygons_before(visit, one) != a->cloth->faces.count ||
        polygons_before(visit, other) != b->cloth->faces.count)
        breach(visit->breaches, "step %zu: a mirror image is not whole",
               b->step);
    return 1;
}

static void look_at_mirrors(struct visit *visit)
{
    const struct sewn_quilt *quilt = visit->plan->quilt;
    size_t pairs = 0;
    for (size_t i = 0; i < quilt->heaps.count; i++)
        for (size_t k = 0; k < quilt->heaps.count; k++)
            pairs += look_at_mirror(visit, i, k);
    if (pairs == 0 && strncmp(visit->where, "lantern", 7) != 0)
        breach(visit->breaches, "no mirror images");
}

static void test_mirror_images_stand_side_by_side(void **state)
{
    visit_booklets(state, look_at_mirrors);
}

/* ---- nothing on lines ---- */

static bool crosses(struct visit *visit, const struct quad *box,
                    struct point a, struct point b)
{
    (void)visit;
    const struct quad line = {{a, b, b, a}};
    return quad_overlap(box, &line) > 0.0;
}

/* No line crosses a size or a number, but for the ring around it, which lies
 * before it among the items. */
static void look_at_lines(struct visit *visit)
{
    for (size_t p = 0; p < visit->book->pages.count; p++) {
        const struct page *page = visit->book->pages.items[p];
        for (size_t i = 1; i < page->items.count; i++) {
            const struct item *text = &page->items.items[i];
            if (!is_dimension(text) && !is_seam_number(text) && !is_badge(text))
                continue;
            const struct quad box =
                text_quad(visit->all->typeset, &text->as.text, true);
            for (size_t k = 0; k < page->items.count; k++) {
                const struct path_item *path = &page->items.items[k].as.path;
                if (page->items.items[k].kind != ITEM_PATH ||
                    path->stroke == 0.0 || (k + 1 == i && path->closed))
                    continue;
                for (size_t n = 0; n + !path->closed < path->count; n++)
                    if (crosses(visit, &box, path->points[n],
                                path->points[(n + 1) % path->count])) {
                        breach(visit->breaches, "page %zu: a line crosses "
                               "\"%s\"", p + 1, text->as.text.text);
                        break;
                    }
            }
        }
    }
}

static void test_lines_cross_no_number(void **state)
{
    visit_booklets(state, look_at_lines);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_badges_count_their_heaps),
        cmocka_unit_test(test_results_show_the_solved_size),
        cmocka_unit_test(test_seams_are_numbered_once_in_order),
        cmocka_unit_test(test_numbers_lie_in_their_gaps),
        cmocka_unit_test(test_mirror_images_stand_side_by_side),
        cmocka_unit_test(test_lines_cross_no_number),
    };
    return cmocka_run_group_tests(tests, booklets_setup, booklets_teardown);
}
