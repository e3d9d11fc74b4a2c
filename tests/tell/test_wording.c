/* The words against the data they tell: pressing against the arrows, counts
 * against plural forms, names against the parts. */
#include "visits.h"

/* ---- pressing ---- */

struct pressing {
    size_t open, left, right, up, down, slanted;
};

static struct pressing pressing_of(const struct action *action)
{
    struct pressing p = {0};
    for (size_t i = 0; i < action->after.presses.count; i++) {
        const struct press_mark *mark = &action->after.presses.items[i];
        p.open += mark->x == 0 && mark->y == 0;
        p.right += mark->x > 0 && mark->y == 0;
        p.left += mark->x < 0 && mark->y == 0;
        p.down += mark->x == 0 && mark->y > 0;
        p.up += mark->x == 0 && mark->y < 0;
        p.slanted += mark->x != 0 && mark->y != 0;
    }
    return p;
}

/* Rows go right and left by turns, the first to the right. */
static bool rows_alternate(const struct action *action)
{
    for (size_t i = 0; i < action->after.presses.count; i++) {
        const struct press_mark *mark = &action->after.presses.items[i];
        if (mark->x != (mark->gap_y % 2 == 0 ? 1 : -1))
            return false;
    }
    return true;
}

static void look_at_press(struct breaches *breaches, const struct wording *w,
                          const struct heap *heap, const struct action *action)
{
    const size_t all = action->after.presses.count;
    const struct pressing p = pressing_of(action);
    const char *text = word_press(w, NULL, heap, action);
    const bool turns = has(text, "row 1 to the right, of row 2 to the left");
    const bool arrows = has(text, "as the arrows show");
    if (all == 0)
        breach(breaches, "step %zu: no arrow for: %s", heap->step, text);
    if (has(text, " open") != (p.open == all))
        breach(breaches, "step %zu: %zu of %zu open, but: %s", heap->step,
               p.open, all, text);
    if (turns && !rows_alternate(action))
        breach(breaches, "step %zu: the arrows do not alternate: %s",
               heap->step, text);
    if (!turns && ((has(text, "to the right") && p.right != all) ||
                   (has(text, "to the left") && p.left != all)))
        breach(breaches, "step %zu: %zu right, %zu left, but: %s", heap->step,
               p.right, p.left, text);
    if ((has(text, " down") && p.down != all) ||
        (has(text, " up.") && p.up != all))
        breach(breaches, "step %zu: %zu up, %zu down, but: %s", heap->step,
               p.up, p.down, text);
    if ((p.right == all || p.left == all || p.up == all || p.down == all) &&
        (turns || arrows))
        breach(breaches, "step %zu: one way, but: %s", heap->step, text);
}

static void test_pressing_is_told_as_drawn(void **state)
{
    visit_all(state, look_at_press);
}

static void look_at_plural(struct breaches *breaches, const struct wording *w,
                           const struct heap *heap, const struct action *action)
{
    const size_t all = action->after.presses.count;
    const char *press = word_press(w, NULL, heap, action);
    const char *text = word_action(w, heap, action);
    const bool many = has(press, "seams") || has(press, "triangles");
    const bool each = has(press, "each seam");
    if (all == 1 ? many || each : !many && !each)
        breach(breaches, "step %zu: %zu seams, but: %s", heap->step, all,
               press);
    if (has(text, " 1 pieces") || has(text, " 1 rows") ||
        has(text, "rows of 1."))
        breach(breaches, "step %zu: %s", heap->step, text);
    /* Squares that are laid at one go are drawn, sewn and trimmed at one go. */
    const bool several = action->parts.count > 2;
    if (action->operation->at_corner &&
        (has(text, "on the lines.") != several ||
         has(text, "on the line.") == several ||
         has(text, "outside the seams.") != several ||
         has(text, "outside the seam.") == several ||
         (has(text, "Draw their diagonals:") ||
          has(text, "Draw each diagonal ")) != several ||
         has(text, "Draw its diagonal:") == several))
        breach(breaches, "step %zu: %zu squares, but: %s", heap->step,
               action->parts.count - 1, text);
}

static void test_plural_forms(void **state)
{
    visit_all(state, look_at_plural);
}

/* Pressing towards a cloth that no seam touches cannot be asked for in words:
 * it is reported, or another side is told. */
static void test_a_cloth_that_no_seam_touches(void **state)
{
    static const char source[] =
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"pier\" "
        "title=\"Pier\" units=\"in\" seam=\"1/4\"><fabrics>"
        "<fabric id=\"kelp\" key=\"k\" name=\"Kelp\"/>"
        "<fabric id=\"sand\" key=\"s\" name=\"Sand\"/>"
        "<fabric id=\"foam\" key=\"f\" name=\"Foam\"/></fabrics>"
        "<colorway id=\"ebb\" name=\"Ebb\">"
        "<cloth fabric=\"kelp\" color=\"#224433\" width=\"42\"/>"
        "<cloth fabric=\"sand\" color=\"#ccbb88\" width=\"42\"/>"
        "<cloth fabric=\"foam\" color=\"#f4f4f0\" width=\"42\"/></colorway>"
        "<quilt id=\"mat\" name=\"Mat\"><column>"
        "<row toward=\"kelp\"><patch fabric=\"sand\" width=\"4\" "
        "height=\"4\"/><patch fabric=\"foam\" width=\"8\"/></row>"
        "<patch fabric=\"kelp\" height=\"4\"/></column></quilt></pattern>";
    struct arena *arena = *state;
    struct run *run = run_create(
        arena, source_create(arena, "pier.xml", source, strlen(source)));
    const struct design *design = resolve_pattern(run, read_pattern(run));
    const struct sewn *sewn = sew_design(run, solve_design(run, design));
    if (diag_count(run, DIAG_ERROR) + diag_count(run, DIAG_WARNING) > 0)
        return;
    const struct sewn_quilt *quilt = &sewn->quilts.items[0];
    const struct wording w = {arena, design, quilt, true,
                              phrases_load(arena, "en")};
    for (size_t i = 0; i < quilt->heaps.count; i++)
        for (size_t k = 0; k < quilt->heaps.items[i].actions.count; k++) {
            const struct heap *heap = &quilt->heaps.items[i];
            const char *text =
                word_press(&w, NULL, heap, &heap->actions.items[k]);
            if (heap->inputs.count == 2 && heap_across(heap) == 2 &&
                has(text, "Kelp"))
                fail_msg("nothing is kelp here: %s", text);
        }
}

/* Sentences end, and no placeholder, double blank or unknown size is left. */
static void look_at_form(struct breaches *breaches, const struct wording *w,
                         const struct heap *heap, const struct action *action)
{
    const char *texts[3] = {word_action(w, heap, action),
                            word_press(w, NULL, heap, action),
                            word_measure(w, heap)};
    for (int i = 0; i < 3; i++) {
        const size_t length = strlen(texts[i]);
        if (length == 0 || texts[i][length - 1] != '.' || texts[i][0] < 'A' ||
            texts[i][0] > 'Z' || has(texts[i], "  ") || has(texts[i], "?") ||
            has(texts[i], "(null)") || has(texts[i], " 0 "))
            breach(breaches, "step %zu: \"%s\"", heap->step, texts[i]);
    }
}

static void test_sentences_are_whole(void **state)
{
    visit_all(state, look_at_form);
}

/* ---- names ---- */

/* Each cloth of the parts that an action adds is named in it. */
static void look_at_parts(struct breaches *breaches, const struct wording *w,
                          const struct heap *heap, const struct action *action)
{
    if (action->operation->laid != LAID_TOGETHER)
        return;
    const char *text = word_action(w, heap, action);
    for (size_t i = 0; i < action->parts.count; i++) {
        const char *part =
            word_part(w, heap->inputs.items[action->parts.items[i]].heap);
        if (!has(text, part))
            breach(breaches, "step %zu: %s is not in: %s", heap->step, part,
                   text);
    }
}

static void test_added_parts_are_named(void **state)
{
    visit_all(state, look_at_parts);
}

/* No two steps of a quilt have one name and number, and a title names each
 * cloth that is cut for it. */
static void test_titles_name_their_parts(void **state)
{
    struct arena *arena = *state;
    struct breaches breaches = {"shore", 0, 0};
    const struct sample sample = sample_text(arena, shore);
    const struct sewn_quilt *quilt = &sample.sewn->quilts.items[0];
    const struct wording w = {arena, sample.design, quilt, true,
                              phrases_load(arena, "en")};
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        if (heap->technique != TECHNIQUE_CORNERS || heap->named != NULL)
            continue;
        for (size_t k = 0; k < heap->inputs.count; k++) {
            const char *part = word_part(&w, heap->inputs.items[k].heap);
            if (!has(word_heap(&w, i), part))
                breach(&breaches, "%s is not in the title \"%s\"", part,
                       word_heap(&w, i));
        }
    }
    assert_kept(&breaches);
}

static void test_short_names_tell_parts_apart(void **state)
{
    struct arena *arena = *state;
    struct breaches breaches = {"", 0, 0};
    for (size_t s = 0; s < SAMPLE_COUNT; s++) {
        const struct sample sample = sample_file(SAMPLES[s]);
        breaches.where = sample.name;
        for (size_t q = 0; q < sample.sewn->quilts.count; q++) {
            const struct sewn_quilt *quilt = &sample.sewn->quilts.items[q];
            const struct wording w = {arena, sample.design, quilt, true,
                                      phrases_load(arena, "en")};
            /* Sizes that are told in one step share its number. */
            for (size_t i = 0; i < quilt->heaps.count; i++)
                for (size_t k = i + 1; k < quilt->heaps.count; k++)
                    if (strcmp(word_part(&w, i), word_part(&w, k)) == 0 ||
                        (quilt->heaps.items[k].like == k &&
                         strcmp(word_mark(&w, i), word_mark(&w, k)) == 0))
                        breach(&breaches, "two parts are \"%s\"",
                               word_part(&w, i));
        }
    }
    assert_kept(&breaches);
}

/* "4 × A1, 1 × Wing" adds up to the inputs. */
static void test_parts_add_up(void **state)
{
    struct arena *arena = *state;
    for (size_t s = 0; s < SAMPLE_COUNT; s++) {
        const struct sample sample = sample_file(SAMPLES[s]);
        const struct sewn_quilt *quilt = &sample.sewn->quilts.items[0];
        const struct wording w = {arena, sample.design, quilt, false,
                                  phrases_load(arena, "en")};
        for (size_t i = 0; i < quilt->heaps.count; i++) {
            const struct heap *heap = &quilt->heaps.items[i];
            size_t sum = 0;
            const char *text = word_parts(&w, heap);
            for (const char *at = text; at != NULL && *at != '\0';) {
                unsigned count = 0;
                assert_int_equal(sscanf(at, "%u x ", &count), 1);
                sum += count;
                at = strstr(at, ", ");
                at = at == NULL ? NULL : at + 2;
            }
            assert_int_equal(sum, heap->inputs.count);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_added_parts_are_named),
        cmocka_unit_test(test_pressing_is_told_as_drawn),
        cmocka_unit_test(test_plural_forms),
        cmocka_unit_test(test_a_cloth_that_no_seam_touches),
        cmocka_unit_test(test_sentences_are_whole),
        cmocka_unit_test(test_titles_name_their_parts),
        cmocka_unit_test(test_short_names_tell_parts_apart),
        cmocka_unit_test(test_parts_add_up),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
