/* The figures of all steps of the samples against the states of the sewn
 * cloth: sizes, fills, labels on their own parts, arrows over their seams. */
#include "figures.h"

/* Calls `look` for each figure whose faces were matched. */
typedef void figure_visitor(struct visit *visit, struct drawn *drawn);

static void visit_figures(struct visit *visit, figure_visitor *look)
{
    struct drawings drawings = drawings_of(visit);
    if (drawings.items.count < step_count(visit))
        breach(visit->breaches, "%zu figures", drawings.items.count);
    for (size_t i = 0; i < drawings.items.count; i++)
        if (match_faces(visit, &drawings.items.items[i]))
            look(visit, &drawings.items.items[i]);
}

/* ---- captions ---- */

/* What a caption can say of parts that lie apart, by how they lie. */
struct layout {
    bool beside, above; /* some lie beside, above each other */
    bool sewn;          /* rows are sewn already */
};

static struct layout layout_of(const struct state *state)
{
    struct layout layout = {false, false, false};
    for (size_t i = 0; i < state->faces.count; i++) {
        const struct shown_face *a = &state->faces.items[i];
        layout.beside |= a->gap_x > 0;
        layout.above |= a->gap_y > 0;
        layout.sewn |= a->part == WHOLE;
    }
    return layout;
}

/* The way of the lines that are drawn; "across each corner" for several. */
static const char *lines_told(const struct state *state)
{
    size_t rising = 0, all = 0;
    for (size_t i = 0; i < state->marks.count; i++) {
        const struct mark *mark = &state->marks.items[i];
        if (mark->kind != MARK_DRAWN)
            continue;
        all++;
        rising += rational_sign(rational_sub(mark->to.x, mark->from.x)) !=
                  rational_sign(rational_sub(mark->to.y, mark->from.y));
    }
    return all > 1 ? "across each corner." : rising > 0 ? "rising." : "falling.";
}

static bool ends_with(const char *text, const char *end)
{
    const size_t length = strlen(text), tail = strlen(end);
    return length >= tail && strcmp(text + length - tail, end) == 0;
}

/* "The rows." are sewn, one above the other; parts are laid out before. */
static void look_at_caption(struct visit *visit, struct drawn *drawn)
{
    const bool joins = drawn->action->operation->laid != LAID_TOGETHER;
    const bool border = drawn->heap->technique == TECHNIQUE_BORDER;
    const size_t last = drawn->heap->actions.count - 1;
    const struct layout lie = layout_of(drawn->state);
    const char *wanted = "Lay out.";
    if (!drawn->before)
        wanted = drawn->action == &drawn->heap->actions.items[last]
                     ? "Unfinished size"
                     : "Pressed.";
    else if (!joins)
        wanted = lines_told(drawn->state);
    else if (border)
        wanted = "Lay out.";
    else if (lie.above && lie.beside)
        wanted = "Lay out the rows.";
    else if (lie.above && lie.sewn)
        wanted = "The rows.";
    if (!ends_with(drawn->caption, wanted))
        breach(visit->breaches, "step %zu: \"%s\" stands for \"%s\"",
               drawn->heap->step, drawn->caption, wanted);
}

static void look_at_captions(struct visit *visit)
{
    visit_figures(visit, look_at_caption);
}

static void test_captions_say_what_lies_there(void **state)
{
    visit_booklets(state, look_at_captions);
}

/* ---- size and fill ---- */

static void look_at_fill(struct visit *visit, struct drawn *drawn)
{
    for (size_t i = 0; i < drawn->state->faces.count; i++) {
        const struct face *face = &drawn->state->faces.items[i].face;
        const struct bolt *bolt =
            &visit->plan->colorway->bolts[face->fabric];
        const struct path_item *path = &drawn->paths.items[i]->as.path;
        const bool right = path->fill.red == bolt->red &&
                           path->fill.green == bolt->green &&
                           path->fill.blue == bolt->blue &&
                           !path->hatch.dotted;
        const bool wrong = path->hatch.spacing > 0.0 && path->hatch.dotted &&
                           path->fill.red >= bolt->red &&
                           path->fill.blue >= bolt->blue;
        if (face->wrong_side ? !wrong : !right)
            breach(visit->breaches, "step %zu: face %zu is filled as the "
                   "other side or another cloth", drawn->heap->step, i);
        if (path->stroke <= 0.0)
            breach(visit->breaches, "step %zu: face %zu has no outline",
                   drawn->heap->step, i);
    }
}

static void look_at_fills(struct visit *visit)
{
    visit_figures(visit, look_at_fill);
}

static void test_faces_show_their_cloth_and_side(void **state)
{
    visit_booklets(state, look_at_fills);
}

static void look_at_scales(struct visit *visit)
{
    struct drawings drawings = drawings_of(visit);
    for (size_t i = 0; i + 1 < drawings.items.count; i++) {
        struct drawn *a = &drawings.items.items[i];
        struct drawn *b = &drawings.items.items[i + 1];
        if (a->action != b->action || !match_faces(visit, a) ||
            !match_faces(visit, b))
            continue;
        if (fabs(a->scale - b->scale) > 1e-6)
            breach(visit->breaches, "step %zu: before at %.4f, after at %.4f",
                   a->heap->step, a->scale, b->scale);
    }
}

static void test_before_and_after_share_the_scale(void **state)
{
    visit_booklets(state, look_at_scales);
}

/* Parts that are to be joined lie apart, so that both edges are seen. */
static void look_at_gap(struct visit *visit, struct drawn *drawn)
{
    if (!drawn->before || drawn->action->operation->laid == LAID_TOGETHER)
        return;
    double least = 1e9;
    for (size_t i = 0; i < drawn->state->faces.count; i++)
        for (size_t k = 0; k < drawn->state->faces.count; k++) {
            const struct shown_face *a = &drawn->state->faces.items[i];
            const struct shown_face *b = &drawn->state->faces.items[k];
            const bool across =
                a->gap_x + 1 == b->gap_x && a->gap_y == b->gap_y;
            const bool down = a->gap_y + 1 == b->gap_y && a->gap_x == b->gap_x;
            if (!across && !down)
                continue;
            double high = -1e9, low = 1e9;
            for (size_t n = 0; n < a->face.count; n++) {
                const struct point p = drawn->paths.items[i]->as.path.points[n];
                high = fmax(high, across ? p.x : p.y);
            }
            for (size_t n = 0; n < b->face.count; n++) {
                const struct point p = drawn->paths.items[k]->as.path.points[n];
                low = fmin(low, across ? p.x : p.y);
            }
            least = fmin(least, low - high);
        }
    if (least < 2.0)
        breach(visit->breaches, "step %zu: parts %.2f pt apart",
               drawn->heap->step, least);
}

static void look_at_gaps(struct visit *visit)
{
    visit_figures(visit, look_at_gap);
}

static void test_parts_lie_apart(void **state)
{
    visit_booklets(state, look_at_gaps);
}

/* Small patches of a metric pattern are drawn large, and their seam allowances
 * with them. */
static const char metric[] =
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"buoys\" "
    "title=\"Buoys\" units=\"cm\" seam=\"0.75\">"
    "<fabrics><fabric id=\"foam\" key=\"f\" name=\"Foam\"/>"
    "<fabric id=\"rust\" key=\"r\" name=\"Rust\"/></fabrics>"
    "<colorway id=\"noon\" name=\"Noon\">"
    "<cloth fabric=\"foam\" name=\"Chalk\" color=\"#eeeeee\" width=\"106\"/>"
    "<cloth fabric=\"rust\" name=\"Brick\" color=\"#993322\" width=\"106\"/>"
    "</colorway>"
    "<block id=\"buoy\" name=\"Buoy\"><grid across=\"2\" down=\"2\">"
    "<patch fabric=\"foam\" width=\"4\" height=\"4\"/>"
    "<patch fabric=\"rust\" width=\"4\" height=\"4\"/>"
    "<patch fabric=\"rust\" width=\"4\" height=\"4\"/>"
    "<patch fabric=\"foam\" width=\"4\" height=\"4\"/></grid></block>"
    "<quilt id=\"mat\" name=\"Mat\"><grid across=\"3\" down=\"3\">"
    "<use block=\"buoy\"/></grid></quilt></pattern>";

static void test_metric_parts_lie_apart(void **state)
{
    const struct booklets *all = *state;
    struct booklets *own = ARENA_NEW(all->arena, struct booklets);
    own->arena = all->arena;
    own->typeset = all->typeset;
    own->phrases = all->phrases;
    const struct sample sample = sample_text(all->arena, metric);
    add_visits(own, &sample);
    void *owner = own;
    visit_booklets(&owner, look_at_gaps);
    visit_booklets(&owner, look_at_fills);
    visit_booklets(&owner, look_at_scales);
}

/* ---- labels ---- */

static struct point middle(struct visit *visit, const struct text_item *text)
{
    const struct quad q = text_quad(visit->all->typeset, text, true);
    return (struct point){(q.corner[0].x + q.corner[2].x) / 2.0,
                          (q.corner[0].y + q.corner[2].y) / 2.0};
}

static bool names_part(struct visit *visit, const struct drawn *drawn,
                       int part, const char *text)
{
    if (part == WHOLE)
        return false;
    const size_t heap =
        drawn->heap->inputs.items[part].heap;
    return strcmp(text, word_part(&visit->wording, heap)) == 0 ||
           strcmp(text, word_mark(&visit->wording, heap)) == 0;
}

/* A label lies on the part that it names, and a cut piece's on its cloth. */
static void look_at_place(struct visit *visit, struct drawn *drawn)
{
    for (size_t i = 0; i < drawn->labels.count; i++) {
        const struct text_item *text = &drawn->labels.items[i]->as.text;
        if (strcmp(text->text, "rising") == 0 ||
            strcmp(text->text, "falling") == 0)
            continue;
        const int seen = face_at(drawn, middle(visit, text));
        const struct shown_face *shown =
            seen < 0 ? NULL : &drawn->state->faces.items[seen];
        if (shown == NULL ||
            !names_part(visit, drawn, shown->part, text->text)) {
            breach(visit->breaches, "step %zu, action %td: \"%s\" lies on %s",
                   drawn->heap->step,
                   drawn->action - drawn->heap->actions.items, text->text,
                   shown == NULL ? "no part" : "another part");
            continue;
        }
        const struct heap *part =
            &visit->plan->quilt->heaps
                 .items[drawn->heap->inputs.items[shown->part].heap];
        if (part->technique == TECHNIQUE_CUT &&
            part->of.cut.fabric != shown->face.fabric)
            breach(visit->breaches, "step %zu, action %td: \"%s\" lies on "
                   "cloth %d", drawn->heap->step,
                   drawn->action - drawn->heap->actions.items, text->text,
                   shown->face.fabric);
    }
}

static void look_at_places(struct visit *visit)
{
    visit_figures(visit, look_at_place);
}

static void test_labels_lie_on_what_they_name(void **state)
{
    visit_booklets(state, look_at_places);
}

/* One part has one name in a figure. */
static void look_at_names(struct visit *visit, struct drawn *drawn)
{
    for (size_t i = 0; i < drawn->labels.count; i++)
        for (size_t k = 0; k < drawn->heap->inputs.count; k++) {
            const size_t heap = drawn->heap->inputs.items[k].heap;
            const char *name = word_part(&visit->wording, heap);
            const char *mark = word_mark(&visit->wording, heap);
            if (strcmp(name, mark) == 0 ||
                strcmp(drawn->labels.items[i]->as.text.text, name) != 0)
                continue;
            for (size_t l = 0; l < drawn->labels.count; l++)
                if (strcmp(drawn->labels.items[l]->as.text.text, mark) == 0) {
                    breach(visit->breaches, "step %zu: \"%s\" and \"%s\" are "
                           "the same part", drawn->heap->step, name, mark);
                    return;
                }
        }
}

static void look_at_all_names(struct visit *visit)
{
    visit_figures(visit, look_at_names);
}

static void test_a_part_has_one_name_in_a_figure(void **state)
{
    visit_booklets(state, look_at_all_names);
}

/* ---- arrows ---- */

static double along(struct point p, struct point from, double x, double y)
{
    return (p.x - from.x) * x + (p.y - from.y) * y;
}

/* The fabric on which the head of a seam's arrow must lie, or NO_FABRIC where
 * the seam joins sewn parts. */
static int pressed_fabric(const struct visit *visit, const struct drawn *drawn)
{
    const struct action *action = drawn->action;
    if (action->press.side == PRESS_TOWARD_FABRIC)
        return action->press.fabric;
    if (action->operation->at_corner) {
        const size_t square = drawn->heap->inputs.items[action->parts.items[1]]
                                  .heap;
        return visit->plan->quilt->heaps.items[square].of.cut.fabric;
    }
    return NO_FABRIC;
}

static void look_at_arrow(struct visit *visit, const struct drawn *drawn,
                          const struct press_mark *mark, struct arrow arrow)
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
        breach(visit->breaches, "step %zu: an arrow from %.1f to %.1f across "
               "its seam", drawn->heap->step, tail, head);
    const int seen = face_at(drawn, arrow.head);
    if (seen < 0) {
        breach(visit->breaches, "step %zu: an arrow's head lies beside the "
               "cloth", drawn->heap->step);
        return;
    }
    const int wanted = open ? NO_FABRIC : pressed_fabric(visit, drawn);
    const int found = drawn->state->faces.items[seen].face.fabric;
    if (wanted != NO_FABRIC && found != wanted)
        breach(visit->breaches, "step %zu: an arrow's head lies on cloth %d, "
               "not %d", drawn->heap->step, found, wanted);
}

static void look_at_press(struct visit *visit, struct drawn *drawn)
{
    if (drawn->before)
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
               drawn->heap->step, arrows.items.count,
               drawn->state->presses.count);
    if (drawn->state->presses.count == 0)
        breach(visit->breaches, "step %zu: nothing says how to press",
               drawn->heap->step);
}

static void look_at_presses(struct visit *visit)
{
    visit_figures(visit, look_at_press);
}

static void test_press_arrows_cross_their_seams(void **state)
{
    visit_booklets(state, look_at_presses);
}

/* Arrows of different seams keep 0.7 mm apart (ISO 128, the least space
 * between lines). They are parallel or nearly so: their ends decide. */
static double between(struct arrow a, struct arrow b)
{
    double least = 1e9;
    for (int i = 0; i <= 20; i++)
        for (int k = 0; k <= 20; k++) {
            const double s = i / 20.0, t = k / 20.0;
            least = fmin(least,
                         hypot(a.tail.x + s * (a.head.x - a.tail.x) -
                                   b.tail.x - t * (b.head.x - b.tail.x),
                               a.tail.y + s * (a.head.y - a.tail.y) -
                                   b.tail.y - t * (b.head.y - b.tail.y)));
        }
    return least;
}

static void look_between(struct visit *visit, struct drawn *drawn)
{
    const struct arrows arrows = arrows_of(visit->all->arena, drawn);
    for (size_t i = 0; i < arrows.items.count; i++)
        for (size_t k = i + 1; k < arrows.items.count; k++) {
            const struct arrow *a = &arrows.items.items[i];
            const struct arrow *b = &arrows.items.items[k];
            if (edge(a->tail, b->tail) < 0.01)
                continue; /* the two heads of a seam pressed open */
            if (between(*a, *b) < 2.0) {
                breach(visit->breaches, "step %zu: arrows %.1f pt apart",
                       drawn->heap->step, between(*a, *b));
                return;
            }
        }
}

static void look_between_arrows(struct visit *visit)
{
    visit_figures(visit, look_between);
}

static void test_arrows_keep_apart(void **state)
{
    visit_booklets(state, look_between_arrows);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_captions_say_what_lies_there),
        cmocka_unit_test(test_faces_show_their_cloth_and_side),
        cmocka_unit_test(test_before_and_after_share_the_scale),
        cmocka_unit_test(test_parts_lie_apart),
        cmocka_unit_test(test_metric_parts_lie_apart),
        cmocka_unit_test(test_labels_lie_on_what_they_name),
        cmocka_unit_test(test_a_part_has_one_name_in_a_figure),
        cmocka_unit_test(test_press_arrows_cross_their_seams),
        cmocka_unit_test(test_arrows_keep_apart),
    };
    return cmocka_run_group_tests(tests, booklets_setup, booklets_teardown);
}
