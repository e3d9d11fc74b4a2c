/* Checks of lines, terms and keys find what they are for: a booklet is damaged
 * in memory, or its file on the way to who reads it. */
#include "check_legend.h"
#include "check_lines.h"
#include "check_pdf.h"
#include "check_terms.h"
#include "damage.h"

/* ---- lines ---- */

/* Points are shared by items that lie on each other. */
static struct point *own_points(struct visit *visit, struct item *item)
{
    struct path_item *path = &item->as.path;
    struct point *points =
        ARENA_ARRAY(visit->all->arena, struct point, path->count);
    memcpy(points, path->points, path->count * sizeof *points);
    path->points = points;
    return points;
}

static bool is_from_corner(const struct item *item)
{
    return is_guide(item) &&
           item->as.path.points[0].x != item->as.path.points[1].x;
}

static void leave_a_corner(struct visit *visit)
{
    struct item *guide = first_of(visit, PAGE_FINISHING, is_from_corner);
    own_points(visit, guide)[1].x += MM(0.5);
}

static bool is_hidden_edge(const struct item *item)
{
    return is_guide(item) &&
           item->as.path.points[1].y - item->as.path.points[0].y < MM(10.0) &&
           item->as.path.points[0].x == item->as.path.points[1].x;
}

static void leave_the_strip(struct visit *visit)
{
    struct item *edge = first_of(visit, PAGE_FINISHING, is_hidden_edge);
    own_points(visit, edge)[1].y += MM(0.5);
}

/* Above the first result that is no icon, so far. */
static void move_dimension(struct visit *visit, double off)
{
    const struct drawings drawings = drawings_of(visit);
    for (size_t d = 0; d < drawings.items.count; d++) {
        const struct drawn *drawn = &drawings.items.items[d];
        const struct reach reach = reach_of_faces(drawn, WHOLE);
        for (size_t i = drawn->first; i < drawn->last; i++) {
            struct item *item = item_of(visit, drawn->page, i);
            const struct path_item *path = &item->as.path;
            if (!drawn->result || reach.right - reach.left < MM(25.0) ||
                item->kind != ITEM_PATH || path->count != 2 ||
                path->points[0].y != path->points[1].y ||
                path->points[0].y > reach.top)
                continue;
            struct point *points = own_points(visit, item);
            points[0].y = points[1].y = reach.top - off;
            return;
        }
    }
    fail_msg("there is no dimension");
}

static void come_near(struct visit *visit)
{
    move_dimension(visit, MM(0.6));
}

static void lie_on_an_edge(struct visit *visit)
{
    move_dimension(visit, 0.0);
}

/* ---- leaders ---- */

/* The line of a leader on the second page; its dot, a rim and the ink, follows.
 * Of those that begin beside the first, the first or the last. */
static struct item *leader_line(const struct visit *visit, bool last)
{
    const struct item_list *items = &visit->book->pages.items[1]->items;
    struct item *first = NULL, *found = NULL;
    for (size_t i = 0; i + 2 < items->count; i++) {
        struct item *line = item_of(visit, 1, i);
        if (!is_leader_line(line) ||
            !is_dot_at(&line[2], line->as.path.points[1]))
            continue;
        first = first == NULL ? line : first;
        if (line->as.path.points[0].x == first->as.path.points[0].x)
            found = line;
    }
    assert_true(first != found);
    return last ? found : first;
}

static void lose_a_dot(struct visit *visit)
{
    leader_line(visit, false)[2].as.path.fill = white;
}

static void lead_elsewhere(struct visit *visit)
{
    struct item *line = leader_line(visit, false);
    own_points(visit, line)[1].x -= MM(8.0);
    for (int k = 1; k < 3; k++)
        for (size_t i = 0; i < line[k].as.path.count; i++)
            own_points(visit, &line[k])[i].x -= MM(8.0);
}

/* Each begins where the other one did. */
static void cross_leaders(struct visit *visit)
{
    struct point *one = own_points(visit, leader_line(visit, false));
    struct point *other = own_points(visit, leader_line(visit, true));
    const struct point kept = one[0];
    one[0] = other[0];
    other[0] = kept;
}

/* ---- words and keys ---- */

static void write_another_term(struct visit *visit)
{
    say_instead(visit, "Cut off the selvedge.");
}

static void write_a_shorter_term(struct visit *visit)
{
    say_instead(visit, "Press towards A.");
}

static void write_a_condition_last(struct visit *visit)
{
    say_instead(visit, "Press it again, if it is not flat.");
}

static void string_labels(struct visit *visit)
{
    say_instead(visit, "Sew A1, B1 and C2 together.");
}

static void string_sizes(struct visit *visit)
{
    say_instead(visit,
                "Trim to 2\u00a0in, 3\u00a0in, or 4\u00bd\u00a0in with care.");
}

static bool is_part_count(const struct item *item)
{
    return item->kind == ITEM_TEXT &&
           strncmp(item->as.text.text, "\u00d7\u00a0",
                   strlen("\u00d7\u00a0")) == 0;
}

static void miscount_a_part(struct visit *visit)
{
    first_of(visit, PAGE_SEWING, is_part_count)->as.text.text = "\u00d7\u00a01";
}

static void paint_in_greys(struct visit *visit)
{
    const struct legend legend = legend_of(visit);
    double grey_of = 0.1;
    for (size_t i = legend.first; i < legend.last; i++) {
        struct path_item *path = &legend.page->items.items[i].as.path;
        if (legend.page->items.items[i].kind != ITEM_PATH || !path->filled)
            continue;
        path->fill = (struct color){grey_of, grey_of, grey_of};
        grey_of += 0.1;
    }
}

/* ---- each check and its fault ---- */

static const struct seeded_fault seeds[] = {
    {"A14", "a count is wrong", miscount_a_part, look_at_choices},
    {"B3", "a guide leaves its corner", leave_a_corner, look_at_guides},
    {"B3", "an edge leaves its strip", leave_the_strip, look_at_guides},
    {"C4", "lines are near", come_near, look_at_parallels},
    {"C7", "a line lies on an edge", lie_on_an_edge, look_at_edges},
    {"D10", "a dot is missing", lose_a_dot, look_at_leaders},
    {"D10", "a leader goes astray", lead_elsewhere, look_at_leaders},
    {"D10", "leaders cross", cross_leaders, look_at_leaders},
    {"E6", "there are many greys", paint_in_greys, look_at_greys},
    {"F4", "a thing has two terms", write_another_term, look_at_terms},
    {"F4", "a term has two ends", write_a_shorter_term, look_at_terms},
    {"F7", "an if comes late", write_a_condition_last, look_at_conditions},
    {"F8", "labels are strung", string_labels, look_at_strings},
    {"F8", "sizes are strung", string_sizes, look_at_strings},
};

static void test_each_check_finds_its_fault(void **state)
{
    assert_seeds_found(*state, seeds, UNIT_COUNT(seeds));
}

/* The program fits all dashes that it draws, so that the fault is put into the
 * file: a phase, and a dash that is longer than it was. */
static void test_dashes_that_do_not_fit_are_found(void **state)
{
    const struct booklets *all = *state;
    const struct sample sample = sample_file(SAMPLES[2]);
    struct arena *arena = arena_create();
    struct booklets own = {.arena = arena,
                           .typeset = all->typeset,
                           .phrases = phrases_load(arena, "en")};
    add_both_papers(&own, &sample);
    const char *path = written_pdf(&own.visits.items[0]);
    assert_string_equal(told_of_pages(arena, path, "cat", "pdf_dashes"), "");
    assert_true(
        reported(told_of_pages(arena, path,
                               "sed 's/^\\(\\[ 5.*\\]\\) 0 d/\\1 1.5 d/'",
                               "pdf_dashes"),
                 "C6") > 0);
    assert_true(reported(told_of_pages(arena, path, "sed 's/^\\[ 5\\./[ 6./'",
                                       "pdf_dashes"),
                         "C6") > 0);
    unlink(path);
    arena_destroy(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_each_check_finds_its_fault),
        cmocka_unit_test(test_dashes_that_do_not_fit_are_found),
    };
    return cmocka_run_group_tests(tests, typeset_setup, booklets_teardown);
}
