/* The words about lines and waste against the marks that are drawn. The
 * directions are found anew from the points of the marks, not from the fields
 * that the words were made from. */
#include "rational.h"
#include "visits.h"

/* ---- lines ---- */

/* Up to the right on the page (y runs down): rising. */
static bool mark_rises(const struct mark *mark)
{
    const struct rational x = rational_sub(mark->to.x, mark->from.x);
    const struct rational y = rational_sub(mark->to.y, mark->from.y);
    return rational_sign(x) * rational_sign(y) < 0;
}

static void look_at_line(struct breaches *breaches, const struct wording *w,
                         const struct heap *heap, const struct action *action)
{
    size_t rising = 0, falling = 0;
    for (size_t i = 0; i < action->before.marks.count; i++)
        if (action->before.marks.items[i].kind == MARK_DRAWN) {
            rising += mark_rises(&action->before.marks.items[i]);
            falling += !mark_rises(&action->before.marks.items[i]);
        }
    const char *text = word_action(w, heap, action);
    const bool both = rising > 0 && falling > 0;
    const bool joins = action->operation->laid != LAID_TOGETHER;
    if (joins != (rising + falling == 0))
        breach(breaches, "step %zu: %zu lines", heap->step, rising + falling);
    if (has(text, "rising") != (rising > 0 && !both) ||
        has(text, "\u2571") != (w->glyphs && rising > 0 && !both))
        breach(breaches, "step %zu: %zu lines rise, but: %s", heap->step,
               rising, text);
    if (has(text, "falling") != (falling > 0 && !both) ||
        has(text, "\u2572") != (w->glyphs && falling > 0 && !both))
        breach(breaches, "step %zu: %zu lines fall, but: %s", heap->step,
               falling, text);
    if (!joins && both != has(text, "each diagonal across its corner"))
        breach(breaches, "step %zu: lines of both ways, but: %s", heap->step,
               text);
    if (!joins && !has(text, "Right sides together"))
        breach(breaches, "step %zu: no face is told: %s", heap->step, text);
}

static void test_lines_are_told_as_drawn(void **state)
{
    visit_all(state, look_at_line);
}

/* ---- waste ---- */

/* The n-th mark of a kind, or NULL. */
static const struct mark *nth_mark(const struct state *state,
                                   enum mark_kind kind, size_t n)
{
    for (size_t i = 0; i < state->marks.count; i++)
        if (state->marks.items[i].kind == kind && n-- == 0)
            return &state->marks.items[i];
    return NULL;
}

/* The corner that is named is the one on whose side the waste is cut off. */
static void look_at_corner(struct breaches *breaches, const struct wording *w,
                           const struct heap *heap, const struct action *action)
{
    if (!action->operation->at_corner)
        return;
    const char *text = word_action(w, heap, action);
    const struct mark *sewn, *cut;
    size_t n = 0;
    for (; (sewn = nth_mark(&action->before, MARK_SEWN, n)) != NULL &&
           (cut = nth_mark(&action->before, MARK_CUT, n)) != NULL;
         n++) {
        const bool right =
            rational_compare(rational_add(cut->from.x, cut->to.x),
                             rational_add(sewn->from.x, sewn->to.x)) > 0;
        const bool low =
            rational_compare(rational_add(cut->from.y, cut->to.y),
                             rational_add(sewn->from.y, sewn->to.y)) > 0;
        const char *name =
            arena_printf(w->arena, "%s-%s", low ? "bottom" : "top",
                         right ? "right" : "left");
        if (!has(text, name))
            breach(breaches, "step %zu: waste at the %s corner, but: %s",
                   heap->step, name, text);
    }
    if (n != action->parts.count - 1)
        breach(breaches, "step %zu: %zu lines for %zu corners", heap->step, n,
               action->parts.count - 1);
}

static void test_corners_are_named_where_they_lie(void **state)
{
    visit_all(state, look_at_corner);
}

/* How far the middle of a cut lies below the line through the points of
 * another mark, on the page, where y runs down. */
static double below_line(const struct mark *line, const struct mark *cut)
{
    const double x = rational_double(cut->from.x) + rational_double(cut->to.x);
    const double y = rational_double(cut->from.y) + rational_double(cut->to.y);
    const double slope =
        rational_double(rational_sub(line->to.y, line->from.y)) /
        rational_double(rational_sub(line->to.x, line->from.x));
    const double there = rational_double(line->from.y) +
                         slope * (x / 2 - rational_double(line->from.x));
    return y / 2 - there;
}

/* Trimming on the other side of the line cuts the strips apart. */
static void look_at_trimming(struct breaches *breaches, const struct wording *w,
                             const struct heap *heap,
                             const struct action *action)
{
    if (strcmp(action->operation->name, "join-diagonal") != 0)
        return;
    const char *text = word_action(w, heap, action);
    const struct mark *cut = nth_mark(&action->before, MARK_CUT, 0);
    const struct mark *drawn = nth_mark(&action->before, MARK_DRAWN, 0);
    if (cut == NULL || drawn == NULL) {
        breach(breaches, "step %zu: no cut beside a line", heap->step);
        return;
    }
    const bool low = below_line(drawn, cut) > 0;
    if (has(text, "below the seam") != low ||
        has(text, "above the seam") == low)
        breach(breaches, "step %zu: the cut is %s the line, but: %s",
               heap->step, low ? "below" : "above", text);
}

/* Strips up and down and across, with lines of both directions: the waste is
 * below the line, but above it where a strip runs across and its line falls. */
static void test_waste_is_cut_where_it_is_told(void **state)
{
    struct breaches breaches = {"", 0, 0};
    for (int across = 0; across < 2; across++)
        for (int rising = 0; rising < 2; rising++) {
            const char *along = across ? "width" : "height";
            const struct sample sample = sample_text(
                *state,
                arena_printf(
                    *state,
                    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"quay\" "
                    "title=\"Quay\" units=\"in\" seam=\"1/4\"><fabrics>"
                    "<fabric id=\"kelp\" key=\"k\" name=\"Kelp\"/>"
                    "<fabric id=\"sand\" key=\"s\" name=\"Sand\"/></fabrics>"
                    "<colorway id=\"ebb\" name=\"Ebb\"><cloth fabric=\"kelp\" "
                    "color=\"#224433\" width=\"42\"/><cloth fabric=\"sand\" "
                    "color=\"#ccbb88\" width=\"42\"/></colorway>"
                    "<quilt id=\"mat\" name=\"Mat\"><diagonal %s=\"3\" "
                    "line=\"%s\"><patch fabric=\"kelp\" %s=\"8\"/>"
                    "<patch fabric=\"sand\" %s=\"7\"/></diagonal>"
                    "</quilt></pattern>",
                    across ? "height" : "width", rising ? "rising" : "falling",
                    along, along));
            visit_actions(&breaches, *state, &sample, look_at_trimming);
            const struct sewn_quilt *quilt = &sample.sewn->quilts.items[0];
            const struct heap *heap = &quilt->heaps.items[quilt->top];
            const struct action *action = &heap->actions.items[0];
            const bool low =
                below_line(nth_mark(&action->before, MARK_DRAWN, 0),
                           nth_mark(&action->before, MARK_CUT, 0)) > 0;
            assert_int_equal(low, rising || !across);
        }
    assert_kept(&breaches);
    visit_all(state, look_at_trimming);
}

/* Where the cut lies beside the drawn line, measured at the height of the
 * middle of the cut: above 0 it is to the right. */
static double right_of_line(const struct mark *line, const struct mark *cut)
{
    const double x = rational_double(cut->from.x) + rational_double(cut->to.x);
    const double y = rational_double(cut->from.y) + rational_double(cut->to.y);
    const double slope =
        rational_double(rational_sub(line->to.x, line->from.x)) /
        rational_double(rational_sub(line->to.y, line->from.y));
    return x / 2 - rational_double(line->from.x) -
           slope * (y / 2 - rational_double(line->from.y));
}

/* The fabric of a cloth at a place off its seams, from the faces alone: a point
 * lies in a convex face where it is on one side of all edges. */
static int fabric_at(const struct cloth *cloth, double x, double y)
{
    for (size_t i = 0; i < cloth->faces.count; i++) {
        const struct face *face = &cloth->faces.items[i];
        size_t left = 0;
        for (size_t k = 0; k < face->count; k++) {
            const struct vertex p = face->points[k];
            const struct vertex q = face->points[(k + 1) % face->count];
            const double ax = rational_double(p.x), ay = rational_double(p.y);
            const double bx = rational_double(q.x), by = rational_double(q.y);
            left += (bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0.0;
        }
        if (left == 0 || left == face->count)
            return face->fabric;
    }
    return NO_FABRIC;
}

/* A square of one half-square or quarter-square, sewn on the line: the waste
 * lies on the side that is told; on the other side the lower square stays. */
static void look_at_side(struct breaches *breaches, const struct wording *w,
                         const struct heap *heap, const struct action *action)
{
    const char *text = word_action(w, heap, action);
    const bool told_right = has(text, "to the right of the line");
    const bool told_left = has(text, "to the left of the line");
    const struct mark *cut = nth_mark(&action->before, MARK_CUT, 0);
    const struct mark *drawn = nth_mark(&action->before, MARK_DRAWN, 0);
    if (heap->technique != TECHNIQUE_HALF_SQUARE &&
        heap->technique != TECHNIQUE_QUARTER_SQUARE)
        return;
    const double right = right_of_line(drawn, cut);
    const bool one = fabs(right) > 1e-9; /* else it is cut on the line */
    if (told_right != (one && right > 0) || told_left != (one && right < 0))
        breach(breaches, "step %zu: the cut is %g to the right, but: %s",
               heap->step, right, text);
    if (!one || heap->technique != TECHNIQUE_HALF_SQUARE)
        return;
    const struct heap *inputs = w->quilt->heaps.items;
    const int base = heap_fabric(&inputs[heap->inputs.items[0].heap]);
    const int flap = heap_fabric(&inputs[heap->inputs.items[1].heap]);
    const double size = rational_double(heap->width);
    const double kept = right > 0 ? size / 16 : size * 15 / 16;
    if (fabric_at(heap->cloth, kept, size / 2) != base ||
        fabric_at(heap->cloth, size - kept, size / 2) != flap)
        breach(breaches, "step %zu: the lower square is cut off: %s",
               heap->step, text);
}

/* Sewn on the line, of every method: dark on light and light on dark, both
 * lines, with and without a print that has a direction. By hand: the lighter
 * square lies on top, but never where a print has a direction; what is on top
 * makes the half on whose side the waste lies. */
static void test_waste_lies_beside_the_line_as_told(void **state)
{
    static const char *const methods[] = {"one", "two"};
    struct breaches breaches = {"", 0, 0};
    size_t left = 0, right = 0;
    for (size_t n = 0; n < 16; n++) {
        const bool light_left = n % 2 == 1, printed = n / 4 % 2 == 1;
        const struct sample sample = sample_text(
            *state,
            arena_printf(
                *state,
                "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"quay\" "
                "title=\"Quay\" units=\"in\" seam=\"1/4\"><fabrics>"
                "<fabric id=\"a\" print=\"%s\"/><fabric id=\"b\"/></fabrics>"
                "<colorway id=\"ebb\"><cloth fabric=\"a\" color=\"%s\"/>"
                "<cloth fabric=\"b\" color=\"%s\"/></colorway>"
                "<quilt id=\"mat\"><row><half-square line=\"%s\" left=\"a\" "
                "right=\"b\" size=\"3\" method=\"%s\"/><quarter-square "
                "top=\"a\" right=\"b\" bottom=\"a\" left=\"b\" size=\"3\" "
                "method=\"%s\"/></row></quilt></pattern>",
                printed ? "one-way" : "solid",
                light_left ? "#eeeedd" : "#112233",
                light_left ? "#112233" : "#eeeedd",
                n / 2 % 2 == 1 ? "rising" : "falling", methods[n / 8],
                methods[n / 8]));
        visit_actions(&breaches, *state, &sample, look_at_side);
        const struct sewn_quilt *quilt = &sample.sewn->quilts.items[0];
        for (size_t i = 0; i < quilt->heaps.count; i++) {
            const struct heap *heap = &quilt->heaps.items[i];
            if (heap->technique != TECHNIQUE_HALF_SQUARE ||
                heap->of.half_square.method != METHOD_ONE)
                continue;
            const int flap =
                heap_fabric(&quilt->heaps.items[heap->inputs.items[1].heap]);
            if (!printed && flap != (light_left ? 0 : 1)) /* 0 is a */
                fail_msg("the darker square lies on top");
            const struct state *before = &heap->actions.items[0].before;
            const bool low = right_of_line(nth_mark(before, MARK_DRAWN, 0),
                                           nth_mark(before, MARK_CUT, 0)) < 0;
            left += low;
            right += !low;
        }
    }
    assert_kept(&breaches);
    assert_true(left > 0 && right > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_lines_are_told_as_drawn),
        cmocka_unit_test(test_corners_are_named_where_they_lie),
        cmocka_unit_test(test_waste_is_cut_where_it_is_told),
        cmocka_unit_test(test_waste_lies_beside_the_line_as_told),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
