/* Figures and pages of quilting: what is drawn lies on its page, is what the
 * plan has, and is as long as it where that is promised. */
#include <math.h>
#include <stdlib.h>

#include "buffer.h"
#include "compose.h"
#include "mat.h"
#include "sample.h"

struct drawn {
    struct arena *arena;
    struct typeset *typeset;
    struct sample sample;
    const struct cutplan *cut;
    struct figures figures;
    const struct book *book;
};

/* The first quilt in the first colorway. */
static int set_up(void **state)
{
    struct arena *arena = arena_create();
    struct drawn *drawn = ARENA_NEW(arena, struct drawn);
    drawn->arena = arena;
    drawn->typeset = typeset_create();
    drawn->sample = sample_fresh(arena, "samples/reed-lights.xml");
    drawn->cut = &drawn->sample.plans->items.items[0];
    const struct phrases *phrases = phrases_load(arena, "en");
    drawn->figures = compose_figures(arena, drawn->typeset, phrases,
                                     drawn->sample.design, drawn->cut, 0);
    drawn->book = compose_book(arena, drawn->typeset, phrases,
                               drawn->sample.design, drawn->cut, 0);
    *state = drawn;
    return 0;
}

/* The pages and figures go with it. */
static int tear_down(void **state)
{
    struct drawn *drawn = *state;
    typeset_destroy(drawn->typeset);
    arena_destroy(drawn->arena);
    return 0;
}

/* Its only page; a figure that is not there fails the test. */
static const struct page *page_of(const struct drawn *drawn, const char *name)
{
    const struct named_figure *named = compose_figure(&drawn->figures, name);
    if (named == NULL)
        fail_msg("no figure %s", name);
    return named->book->pages.items[0];
}

/* ---- names ---- */

/* Each kind of area has two figures, or one where nothing is stitched for it
 * alone; each stage that has a path has one. */
static void test_all_figures_are_named(void **state)
{
    const struct drawn *drawn = *state;
    const struct quilting_plan *plan = drawn->cut->quilting;
    page_of(drawn, "quilting");
    page_of(drawn, "quilting-gaps");
    for (int i = 0; i < QUILTING_STAGES; i++)
        page_of(drawn,
                arena_printf(drawn->arena, "quilting-%s",
                             quilting_stage_name((enum quilting_stage)i)));
    for (size_t i = 0; i < plan->kinds.count; i++) {
        const struct quilted_kind *kind = &plan->kinds.items[i];
        const char *name =
            arena_printf(drawn->arena, "quilting-area-%s", kind->letter);
        page_of(drawn, name);
        name = arena_printf(drawn->arena, "%s-sequence", name);
        assert_int_equal(compose_figure(&drawn->figures, name) != NULL,
                         kind->sequences.count > 0);
    }
}

/* Names are there only with a plan. */
static void test_a_plain_quilt_has_none(void **state)
{
    const struct drawn *drawn = *state;
    const struct sample plain = sample_file(SAMPLES[0]);
    const struct figures figures = compose_figures(
        drawn->arena, drawn->typeset, phrases_load(drawn->arena, "en"),
        plain.design, &plain.plans->items.items[0], 0);
    if (plain.plans->items.items[0].quilting == NULL)
        for (size_t i = 0; i < figures.items.count; i++)
            assert_null(strstr(figures.items.items[i].name, "quilting"));
}

/* ---- what is drawn ---- */

/* Nothing lies outside its page. */
static void test_figures_hold_what_they_draw(void **state)
{
    const struct drawn *drawn = *state;
    size_t looked = 0;
    for (size_t i = 0; i < drawn->figures.items.count; i++) {
        const struct named_figure *named = &drawn->figures.items.items[i];
        if (strncmp(named->name, "quilting", 8) != 0)
            continue;
        looked++;
        const struct item_list items =
            page_items(drawn->arena, named->book->pages.items[0]);
        for (size_t k = 0; k < items.count; k++) {
            const struct path_item *path = &items.items[k].as.path;
            for (size_t n = 0;
                 items.items[k].kind == ITEM_PATH && n < path->count; n++)
                if (path->points[n].x < -1e-6 || path->points[n].y < -1e-6 ||
                    path->points[n].x > named->book->width + 1e-6 ||
                    path->points[n].y > named->book->height + 1e-6)
                    fail_msg("%s: (%g, %g) is outside", named->name,
                             path->points[n].x, path->points[n].y);
        }
    }
    assert_true(looked > 10);
}

/* Dots that are filled, and those that are not. */
static void count_dots(const struct drawn *drawn, const char *name,
                       size_t dots[2])
{
    enum { CORNERS = 10 };
    const struct item_list items =
        page_items(drawn->arena, page_of(drawn, name));
    dots[0] = dots[1] = 0;
    for (size_t i = 0; i < items.count; i++) {
        const struct path_item *path = &items.items[i].as.path;
        if (items.items[i].kind == ITEM_PATH && path->closed && path->filled &&
            path->count == CORNERS &&
            hypot(path->points[0].x - path->points[5].x,
                  path->points[0].y - path->points[5].y) < 5.0)
            dots[path->fill.red < 0.5 ? 0 : 1]++;
    }
}

/* As many starts, and as many ends, as the paths of the stage have. */
static void test_stages_show_starts_and_ends(void **state)
{
    const struct drawn *drawn = *state;
    const struct quilting_plan *plan = drawn->cut->quilting;
    for (int i = 0; i < QUILTING_STAGES; i++) {
        size_t starts = 0, dots[2];
        for (size_t k = 0; k < plan->routes.count; k++)
            if ((int)plan->routes.items[k].stage == i)
                starts += plan->routes.items[k].starts;
        count_dots(drawn,
                   arena_printf(drawn->arena, "quilting-%s",
                                quilting_stage_name((enum quilting_stage)i)),
                   dots);
        assert_int_equal(dots[0], starts);
        assert_int_equal(dots[1], starts);
    }
}

/* Each kind of area in which something is stitched or marked is named on the
 * map, and no other. */
static void test_map_has_all_letters(void **state)
{
    const struct drawn *drawn = *state;
    const struct quilting_plan *plan = drawn->cut->quilting;
    const struct item_list items =
        page_items(drawn->arena, page_of(drawn, "quilting"));
    for (size_t i = 0; i < plan->kinds.count; i++) {
        bool there = false;
        for (size_t k = 0; k < items.count; k++)
            there |= items.items[k].kind == ITEM_TEXT &&
                     strcmp(items.items[k].as.text.text,
                            plan->kinds.items[i].letter) == 0;
        assert_int_equal(there, quilting_kind_shown(plan, i));
    }
}

/* There is room in all areas of the first quilt: nobody has to guess which of
 * them are alike. */
static void test_each_area_has_its_letter(void **state)
{
    const struct drawn *drawn = *state;
    const struct quilting_plan *plan = drawn->cut->quilting;
    const struct item_list items =
        page_items(drawn->arena, page_of(drawn, "quilting"));
    for (size_t i = 0; i < plan->kinds.count; i++) {
        size_t there = 0;
        for (size_t k = 0; k < items.count; k++)
            there += items.items[k].kind == ITEM_TEXT &&
                     strcmp(items.items[k].as.text.text,
                            plan->kinds.items[i].letter) == 0;
        if (quilting_kind_shown(plan, i))
            assert_int_equal(there, plan->kinds.items[i].count);
    }
}

/* Strokes of a texture in the figure of an area, by whether they come back to
 * where they began. No chord of them is longer than a spacing. */
static void count_strokes(const struct drawn *drawn, const char *letter,
                          size_t strokes[2])
{
    const struct item_list items = page_items(
        drawn->arena,
        page_of(drawn, arena_printf(drawn->arena, "quilting-area-%s", letter)));
    strokes[0] = strokes[1] = 0;
    for (size_t k = 0; k < items.count; k++) {
        const struct path_item *path = &items.items[k].as.path;
        if (items.items[k].kind != ITEM_PATH || path->closed || path->filled)
            continue;
        const struct point *last = &path->points[path->count - 1];
        strokes[hypot(path->points[0].x - last->x,
                      path->points[0].y - last->y) < 1e-6]++;
        for (size_t n = 1; n < path->count; n++)
            assert_true(hypot(path->points[n].x - path->points[n - 1].x,
                              path->points[n].y - path->points[n - 1].y) <
                        0.8 * 14.0 * 72.0 / 25.4);
    }
}

/* Pebbles are whole circles; swirls are strokes without a straight one, which
 * no swirl of 1 in on the paper needs. */
static void test_textures_look_like_what_they_are(void **state)
{
    const struct drawn *drawn = *state;
    const struct quilting_plan *plan = drawn->cut->quilting;
    size_t seen[2] = {0, 0};
    for (size_t i = 0; i < plan->kinds.count; i++) {
        const struct quilted_kind *kind = &plan->kinds.items[i];
        size_t strokes[2];
        if (kind->texture_count == 0)
            continue;
        const bool pebbles = kind->fill->of.fill.with == TOLD_PEBBLES;
        count_strokes(drawn, kind->letter, strokes);
        assert_true(strokes[pebbles] > 0);
        assert_int_equal(strokes[!pebbles], 0);
        seen[pebbles]++;
    }
    assert_true(seen[0] > 0 && seen[1] > 0);
}

/* Legs are numbered from 1 on, no number twice. */
static void test_path_is_numbered(void **state)
{
    enum { NUMBERS = 2000 };
    const struct drawn *drawn = *state;
    const struct quilting_plan *plan = drawn->cut->quilting;
    for (size_t i = 0; i < plan->kinds.count; i++) {
        bool seen[NUMBERS] = {false};
        if (plan->kinds.items[i].sequences.count == 0)
            continue;
        const struct item_list items = page_items(
            drawn->arena,
            page_of(drawn,
                    arena_printf(drawn->arena, "quilting-area-%s-sequence",
                                 plan->kinds.items[i].letter)));
        for (size_t k = 0; k < items.count; k++) {
            if (items.items[k].kind != ITEM_TEXT)
                continue;
            const int number = atoi(items.items[k].as.text.text);
            assert_in_range(number, 1, NUMBERS - 1);
            assert_false(seen[number]);
            seen[number] = true;
        }
        assert_true(seen[1]);
    }
}

/* ---- the way over the top ---- */

/* Does travel begin at the step, or take another direction there? */
static bool travel_begins(const struct quilted_route *route, size_t step)
{
    const struct path_step *at = &route->steps.items[step];
    if (at->manner == PATH_STITCH)
        return false;
    if (step == 0 || at->start || (at - 1)->manner == PATH_STITCH)
        return true;
    const double x = at->to.x - at->from.x, y = at->to.y - at->from.y;
    const double u = (at - 1)->to.x - (at - 1)->from.x;
    const double v = (at - 1)->to.y - (at - 1)->from.y;
    return fabs(x * v - y * u) > 1e-6 || x * u + y * v < 0.0;
}

/* What a figure of a stage has of signs. */
struct way_signs {
    size_t numbers, arrows, dashes;
    int highest;
};

static struct way_signs way_signs_of(const struct drawn *drawn,
                                     const char *name)
{
    struct way_signs signs = {.numbers = 0};
    const struct item_list items =
        page_items(drawn->arena, page_of(drawn, name));
    for (size_t k = 0; k < items.count; k++) {
        const struct path_item *path = &items.items[k].as.path;
        if (items.items[k].kind == ITEM_TEXT) {
            const int number = atoi(items.items[k].as.text.text);
            signs.numbers++;
            signs.highest = number > signs.highest ? number : signs.highest;
            continue;
        }
        signs.arrows += items.items[k].kind == ITEM_PATH && path->filled &&
                        path->count == 3 && path->fill.red < 0.2 &&
                        !(path->stroke > 0.0);
        signs.dashes += items.items[k].kind == ITEM_PATH && !path->closed &&
                        path->dash[0] > 0.0;
    }
    return signs;
}

/* The ditch and the lines can be sewn from their figures: nearly all legs of
 * the first quilt have a number and an arrow, and each piece of travel is
 * dashed, which nothing else is. */
static void test_ways_are_shown_turn_by_turn(void **state)
{
    const struct drawn *drawn = *state;
    const struct quilting_plan *plan = drawn->cut->quilting;
    static const char *const names[] = {"quilting-ditch", "quilting-lines"};
    for (int i = 0; i < 2; i++) {
        const struct way_signs signs = way_signs_of(drawn, names[i]);
        size_t travel = 0;
        for (size_t k = 0; k < plan->routes.count; k++)
            for (size_t n = 0; (int)plan->routes.items[k].stage == i &&
                               n < plan->routes.items[k].steps.count;
                 n++)
                travel += travel_begins(&plan->routes.items[k], n);
        assert_true(travel > 0);
        assert_int_equal(signs.dashes, travel);
        assert_true(signs.highest > 10);
        assert_true(10 * signs.numbers >= 9 * (size_t)signs.highest);
        assert_true(10 * signs.arrows >= 8 * signs.numbers);
    }
}

/* Strokes of a figure that are not closed. */
static size_t open_strokes(const struct drawn *drawn, const char *name)
{
    size_t count = 0;
    const struct item_list items =
        page_items(drawn->arena, page_of(drawn, name));
    for (size_t k = 0; k < items.count; k++)
        count += items.items[k].kind == ITEM_PATH &&
                 !items.items[k].as.path.closed &&
                 !items.items[k].as.path.filled;
    return count;
}

/* Where an area is stitched by eye, its path is a number and a dot beside the
 * sample: nobody stitches straight to the middle. */
static void test_no_stroke_by_eye(void **state)
{
    const struct drawn *drawn = *state;
    const struct quilting_plan *plan = drawn->cut->quilting;
    size_t seen = 0;
    for (size_t i = 0; i < plan->kinds.count; i++) {
        const struct quilted_kind *kind = &plan->kinds.items[i];
        if (kind->texture_count == 0)
            continue;
        const char *name =
            arena_printf(drawn->arena, "quilting-area-%s", kind->letter);
        const size_t sample = open_strokes(drawn, name);
        assert_true(sample > 0);
        assert_int_equal(
            open_strokes(drawn,
                         arena_printf(drawn->arena, "%s-sequence", name)),
            sample);
        seen++;
    }
    assert_true(seen > 2);
}

/* ---- true size ---- */

/* Its booklet. */
static const struct book *book_of_mat(const struct drawn *drawn, int size)
{
    const struct sample sample =
        sample_text(drawn->arena, mat_of(drawn->arena, size));
    return compose_book(drawn->arena, drawn->typeset,
                        phrases_load(drawn->arena, "en"), sample.design,
                        &sample.plans->items.items[0], 0);
}

/* Has the page a sheet of area a? */
static bool has_sheet(struct item_list items)
{
    for (size_t k = 0; k < items.count; k++)
        if (items.items[k].kind == ITEM_TEXT &&
            strstr(items.items[k].as.text.text, "Area a: ") != NULL)
            return true;
    return false;
}

/* The outline of a mat of 6 in, one sheet, has four sides of 6 in, and the pages
 * say that they are true. */
static void test_marks_are_as_long_as_the_cloth(void **state)
{
    const struct drawn *drawn = *state;
    const struct book *book = book_of_mat(drawn, 6);
    size_t sides = 0, pages = 0;
    for (size_t p = 0; p < book->pages.count; p++) {
        const struct page *page = book->pages.items[p];
        const struct item_list items = page_items(drawn->arena, page);
        if (!has_sheet(items))
            continue;
        pages++;
        assert_true(page->true_to_scale);
        for (size_t k = 0; k < items.count; k++) {
            const struct path_item *path = &items.items[k].as.path;
            if (items.items[k].kind == ITEM_PATH && path->count == 2 &&
                !path->closed)
                sides += fabs(hypot(path->points[0].x - path->points[1].x,
                                    path->points[0].y - path->points[1].y) -
                              6.0 * 72.0) < 1e-6;
        }
    }
    assert_int_equal(pages, 1);
    assert_int_equal(sides, 4);
}

/* No line of the sample needs a mark: its rounded echoes have straight sides
 * alone, inside of triangles. So it has no sheets. */
static void test_no_mark_no_sheet(void **state)
{
    const struct drawn *drawn = *state;
    for (size_t p = 0; p < drawn->book->pages.count; p++)
        assert_false(has_sheet(
            page_items(drawn->arena, drawn->book->pages.items[p])));
}

/* ---- joins ---- */

/* What pages in true size hold of the sheets. */
struct seen {
    size_t sheets, numbers[5];
};

/* Sheets are dashed rectangles of 7 or 5 in. */
static void look_for_sheets(struct item_list items, struct seen *seen)
{
    for (size_t k = 0; k < items.count; k++) {
        const struct path_item *path = &items.items[k].as.path;
        const char *text = items.items[k].as.text.text;
        if (items.items[k].kind == ITEM_TEXT && text[0] >= '1' &&
            text[0] <= '4' && text[1] == '\0')
            seen->numbers[text[0] - '0']++;
        if (items.items[k].kind != ITEM_PATH || !path->closed ||
            path->count != 4 || !(path->dash[0] > 0.0))
            continue;
        const double wide = path->points[1].x - path->points[0].x;
        const double high = path->points[2].y - path->points[1].y;
        assert_true(fabs(wide - 504.0) < 1e-6 || fabs(wide - 360.0) < 1e-6);
        assert_true(fabs(high - 504.0) < 1e-6 || fabs(high - 360.0) < 1e-6);
        seen->sheets++;
    }
}

/* Each join has its number on both of its sheets, and all of them together are
 * as large as the area. */
static void test_sheets_join(void **state)
{
    const struct drawn *drawn = *state;
    const struct book *book = book_of_mat(drawn, 12); /* two across, two down */
    struct seen seen = {.sheets = 0};
    bool marks = false;
    for (size_t p = 0; p < book->pages.count; p++) {
        const struct page *page = book->pages.items[p];
        const struct item_list items = page_items(drawn->arena, page);
        const bool here = has_sheet(items);
        if (here)
            look_for_sheets(items, &seen);
        marks |= here;
    }
    assert_true(marks);
    assert_int_equal(seen.sheets, 4);
    for (int i = 1; i <= 4; i++)
        assert_int_equal(seen.numbers[i], 2);
}

/* ---- refused ---- */

/* One figure alone, with a ring around each of the places. */
static void test_gaps_are_drawn_alone(void **state)
{
    const struct drawn *drawn = *state;
    const struct quilting_plan *plan = drawn->cut->quilting;
    const struct figures figures = compose_gaps(
        drawn->arena, drawn->typeset, phrases_load(drawn->arena, "en"),
        drawn->sample.design, plan, drawn->cut->colorway);
    assert_int_equal(figures.items.count, 1);
    assert_string_equal(figures.items.items[0].name, "quilting-gaps");
    const struct item_list items =
        page_items(drawn->arena, figures.items.items[0].book->pages.items[0]);
    size_t rings = 0;
    for (size_t k = 0; k < items.count; k++)
        rings += items.items[k].kind == ITEM_PATH &&
                 items.items[k].as.path.count == 48 &&
                 items.items[k].as.path.closed &&
                 !items.items[k].as.path.filled;
    assert_true(rings > 0);
    assert_int_equal(rings, plan->gaps.count < 12 ? plan->gaps.count : 12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_all_figures_are_named),
        cmocka_unit_test(test_a_plain_quilt_has_none),
        cmocka_unit_test(test_figures_hold_what_they_draw),
        cmocka_unit_test(test_stages_show_starts_and_ends),
        cmocka_unit_test(test_map_has_all_letters),
        cmocka_unit_test(test_each_area_has_its_letter),
        cmocka_unit_test(test_textures_look_like_what_they_are),
        cmocka_unit_test(test_path_is_numbered),
        cmocka_unit_test(test_ways_are_shown_turn_by_turn),
        cmocka_unit_test(test_no_stroke_by_eye),
        cmocka_unit_test(test_marks_are_as_long_as_the_cloth),
        cmocka_unit_test(test_no_mark_no_sheet),
        cmocka_unit_test(test_sheets_join),
        cmocka_unit_test(test_gaps_are_drawn_alone),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
