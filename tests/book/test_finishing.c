/* Steps of finishing: which there are and how they are numbered; their figures,
 * measured against the plan. */
#include "compose.h"
#include "finishing_figures.h"
#include "sample.h"
#include "trade.h"

#define HEAD                                                                \
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"p\" title=\"P\">"     \
    "<fabrics><fabric id=\"reed\"/><fabric id=\"pond\"/></fabrics>"         \
    "<colorway id=\"c\"><cloth fabric=\"reed\" color=\"#6a7b3c\" "          \
    "width=\"42\"/><cloth fabric=\"pond\" color=\"#24566b\" width=\"42\"/>" \
    "</colorway><quilt id=\"q\" finished=\"%s\"><grid across=\"2\" "        \
    "down=\"2\" press=\"open\"><patch fabric=\"pond\"/></grid>%s</quilt>"   \
    "</pattern>"

static struct sample quilt_with(struct arena *arena, const char *size,
                                const char *finishing)
{
    return sample_text(arena, arena_printf(arena, HEAD, size, finishing));
}

/* Numbers stand on rulers, too: those of steps are numerals. */
static size_t told(const struct book *book, const char *text, bool whole)
{
    size_t count = 0;
    for (size_t p = 0; p < book->pages.count; p++)
        for (size_t i = 0; i < book->pages.items[p]->items.count; i++) {
            const struct item *item = &book->pages.items[p]->items.items[i];
            if (item->kind == ITEM_TEXT &&
                (text[0] > '9' || item->as.text.style.face == FACE_DISPLAY))
                count += whole ? strcmp(item->as.text.text, text) == 0
                               : strstr(item->as.text.text, text) != NULL;
        }
    return count;
}

/* What a source asks for, and no more. The top is step 1. */
static void test_steps(void **state)
{
    static const struct {
        const char *size, *finishing, *words;
        size_t count;
    } cases[] = {
        {"30 x 40", "", "Finishing", 0},
        /* Title, part, and the table of the back cover. */
        {"30 x 40", "<backing fabric=\"reed\"/>", "Backing", 3},
        {"30 x 40", "<backing fabric=\"reed\"/>", "Layers", 0},
        {"30 x 40", "<batting/>", "Layers", 1},
        {"30 x 40", "<backing fabric=\"reed\"/><batting/>",
         "Backing and layers", 1},
        {"30 x 40", "<binding fabric=\"reed\"/>", "Binding", 1},
        {"30 x 40", "<binding fabric=\"reed\"/>", "2", 1},
        {"30 x 40", "<binding fabric=\"reed\"/>", "3", 0},
        {"30 x 40", "<batting/><binding fabric=\"reed\"/>", "3", 1},
        {"30 x 40", "<binding fabric=\"reed\"/>", "h", 1},
        /* One strip of 42 in is joined to none. */
        {"6 x 8", "<binding fabric=\"reed\"/>", "h", 0},
        {"6 x 8", "<binding fabric=\"reed\"/>", "g", 1},
    };
    struct typeset *typeset = typeset_create();
    const struct phrases *phrases = phrases_load(*state, "en");
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const struct sample sample =
            quilt_with(*state, cases[i].size, cases[i].finishing);
        const struct book *book =
            compose_book(*state, typeset, phrases, sample.design,
                         &sample.plans->items.items[0], false);
        if (told(book, cases[i].words, true) != cases[i].count)
            fail_msg("%s, %s: %s", cases[i].size, cases[i].finishing,
                     cases[i].words);
    }
    typeset_destroy(typeset);
}

/* The loose ends are what the strips are longer than the edge, but no more than
 * half of a side. */
static void test_loose_ends(void **state)
{
    static const struct {
        const char *size, *says;
    } cases[] = {{"30 x 40", "leave a tail of 10"}, {"6 x 9", "leave a tail of 4"}};
    struct typeset *typeset = typeset_create();
    const struct phrases *phrases = phrases_load(*state, "en");
    for (size_t i = 0; i < UNIT_COUNT(cases); i++) {
        const struct sample sample =
            quilt_with(*state, cases[i].size, "<binding fabric=\"reed\"/>");
        const struct book *book =
            compose_book(*state, typeset, phrases, sample.design,
                         &sample.plans->items.items[0], false);
        assert_int_equal(told(book, cases[i].says, false), 1);
    }
    typeset_destroy(typeset);
}

/* ---- figures ---- */

static struct booklet booklet_for(struct arena *arena, struct typeset *typeset,
                                  const struct sample *sample)
{
    struct book *book = ARENA_NEW(arena, struct book);
    const struct cutplan *plan = &sample->plans->items.items[0];
    const struct phrases *phrases = phrases_load(arena, "en");
    book->width = 612.0;
    book->height = 792.0;
    struct booklet booklet = {
        .flow = flow_for(arena, typeset, book),
        .wording = {arena, sample->design, plan->quilt, true, phrases},
        .design = sample->design,
        .quilt = plan->quilt,
        .plan = plan};
    booklet.flow.phrases = phrases;
    return booklet;
}

/* The line of that number with the width and color of a mark. */
static const struct path_item *red_line(const struct box *box, double stroke,
                                        bool dashed, size_t number)
{
    for (size_t i = 0; i < box->items.count; i++) {
        const struct path_item *path = &box->items.items[i].as.path;
        if (box->items.items[i].kind == ITEM_PATH && path->count == 2 &&
            path->stroke_color.red == action_red.red &&
            path->stroke_color.green == action_red.green &&
            fabs(path->stroke - stroke) < 1e-9 &&
            (path->dash[0] > 0.0) == dashed && number-- == 0)
            return path;
    }
    fail_msg("no such line");
    return NULL;
}

static double distance_from(const struct path_item *line, struct point p)
{
    const double dx = line->points[1].x - line->points[0].x;
    const double dy = line->points[1].y - line->points[0].y;
    return ((p.x - line->points[0].x) * dy - (p.y - line->points[0].y) * dx) /
           hypot(dx, dy);
}

static const struct {
    const char *size, *width;
} strips[] = {{"30 x 40", "5/2"}, {"30 x 40", "9/4"}, {"50 x 60", "3"}};

static struct sample bound(struct arena *arena, size_t i)
{
    return quilt_with(arena, strips[i].size,
                      arena_printf(arena,
                                   "<backing fabric=\"reed\"/><batting "
                                   "max-gap=\"8\"/><binding fabric=\"reed\" "
                                   "width=\"%s\"/>",
                                   strips[i].width));
}

/* The seam is the diagonal of the overlap that leaves the outer corner, at the
 * top right, to be cut off, one seam beside it. */
static void test_strips_are_joined_the_right_way(void **state)
{
    struct typeset *typeset = typeset_create();
    for (size_t i = 0; i < UNIT_COUNT(strips); i++) {
        const struct sample sample = bound(*state, i);
        struct booklet booklet = booklet_for(*state, typeset, &sample);
        const struct binding_view view = binding_view(&booklet, MM(42.0), 1.0);
        const double scale =
            view.strip / rational_double(booklet.plan->binding.width);
        assert_true(fabs(view.seam - 0.25 * scale) < 1e-9);
        const struct box *box = binding_join(&view);
        const struct path_item *seam = red_line(box, LINE_BROAD, true, 0);
        const struct path_item *cut = red_line(box, LINE_MIDDLE, false, 0);
        assert_true(fabs(seam->points[1].x - seam->points[0].x - view.strip) <
                    1e-9);
        assert_true(fabs(seam->points[1].y - seam->points[0].y - view.strip) <
                    1e-9);
        /* Above and to the right of the seam. */
        const struct point outer = {seam->points[1].x, seam->points[0].y};
        for (int end = 0; end < 2; end++)
            assert_true(fabs(distance_from(seam, cut->points[end]) -
                             view.seam) < 1e-9);
        assert_true(distance_from(seam, outer) > view.seam);
    }
    typeset_destroy(typeset);
}

/* The seam ends one seam before the corner; the fold runs at 45 degrees from
 * it; the next seam begins at the edge. */
static void test_corner_is_mitred(void **state)
{
    struct typeset *typeset = typeset_create();
    for (size_t i = 0; i < UNIT_COUNT(strips); i++) {
        const struct sample sample = bound(*state, i);
        struct booklet booklet = booklet_for(*state, typeset, &sample);
        const struct binding_view view = binding_view(&booklet, MM(42.0), 1.0);
        const double corner = MM(42.0) - MM(9.0);
        const struct path_item *stop =
            red_line(binding_stop(&view), LINE_BROAD, true, 0);
        assert_true(fabs(stop->points[1].x - (corner - view.seam)) < 1e-9);
        const struct box *up = binding_up(&view);
        bool creased = false;
        for (size_t k = 0; k < up->items.count; k++) {
            const struct path_item *path = &up->items.items[k].as.path;
            if (up->items.items[k].kind != ITEM_PATH || path->count != 2 ||
                fabs(path->stroke - LINE_BROAD) > 1e-9 || path->dash[0] > 0.0 ||
                path->stroke_color.red != ink.red)
                continue;
            creased = true;
            assert_true(fabs(path->points[0].x - corner) < 1e-9);
            assert_true(fabs(path->points[0].x - path->points[1].x -
                             view.folded) < 1e-9);
            assert_true(fabs(path->points[1].y - path->points[0].y -
                             view.folded) < 1e-9);
        }
        assert_true(creased);
        const struct path_item *down =
            red_line(binding_down(&view), LINE_BROAD, true, 1);
        assert_true(fabs(down->points[0].x - (corner - view.seam)) < 1e-9);
        assert_true(fabs(down->points[1].x - (corner - view.seam)) < 1e-9);
    }
    typeset_destroy(typeset);
}

/* Red cuts stand as far apart as the backing is wide, in proportion to the
 * panels with their seams. */
static void test_backing_is_to_scale(void **state)
{
    struct typeset *typeset = typeset_create();
    for (size_t i = 0; i < UNIT_COUNT(strips); i++) {
        const struct sample sample = bound(*state, i);
        struct booklet booklet = booklet_for(*state, typeset, &sample);
        const struct backing_plan *plan = &booklet.plan->backing;
        const struct box *box = backing_figure(&booklet, MM(58.0));
        const bool down = plan->seams_vertical;
        /* Strokes of scissors, which stand by each cut, are short. */
        const struct path_item *cuts[2] = {NULL, NULL};
        for (size_t n = 0, k = 0; k < 2; n++) {
            const struct path_item *line =
                red_line(box, LINE_MIDDLE, false, n);
            if (hypot(line->points[1].x - line->points[0].x,
                      line->points[1].y - line->points[0].y) > MM(10.0))
                cuts[k++] = line;
        }
        const struct path_item *first = cuts[0], *second = cuts[1];
        const double apart =
            down ? fabs(second->points[0].x - first->points[0].x)
                 : fabs(second->points[0].y - first->points[0].y);
        const double panels = (double)plan->panels;
        const double cloth =
            panels * 42.0 - (panels - 1.0) * 2.0 *
                                rational_double(trade_length(
                                    TRADE_BACKING_SEAM, UNIT_IN));
        const struct path_item *all = &box->items.items[0].as.path;
        const double drawn = down ? all->points[1].x - all->points[0].x
                                  : all->points[3].y - all->points[0].y;
        const double size =
            rational_double(down ? plan->width : plan->height);
        assert_true(fabs(apart / drawn - size / cloth) < 1e-6);
    }
    typeset_destroy(typeset);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_steps),
        cmocka_unit_test(test_loose_ends),
        cmocka_unit_test(test_strips_are_joined_the_right_way),
        cmocka_unit_test(test_corner_is_mitred),
        cmocka_unit_test(test_backing_is_to_scale),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
