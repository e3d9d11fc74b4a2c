/* Steps as they are told, against the heaps: which heap is told where, what a
 * step takes from outside, and what each of its sizes takes. Counted anew from
 * the inputs of the heaps, from the top down. */
#include "told_step.h"

#include "../book/sample.h"

/* One block in three sizes and its mirror image in one; rows on the way; a row
 * with words of its own; two borders. */
static const char quay[] =
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"quay\" title=\"Quay\" "
    "units=\"in\" seam=\"1/4\"><fabrics><fabric id=\"kelp\"/>"
    "<fabric id=\"sand\"/><fabric id=\"foam\"/></fabrics><colorway id=\"ebb\">"
    "<cloth fabric=\"kelp\" color=\"#224433\"/>"
    "<cloth fabric=\"sand\" color=\"#ccbb88\"/>"
    "<cloth fabric=\"foam\" color=\"#f4f4f0\"/></colorway>"
    "<unit id=\"sail\"><patch fabric=\"kelp\" width=\"2\" height=\"4\">"
    "<corner at=\"top-left\" fabric=\"sand\" size=\"2\"/></patch></unit>"
    "<block id=\"boat\" grid=\"6\"><column><row><use unit=\"sail\"/>"
    "<patch fabric=\"foam\" width=\"2\"/><use unit=\"sail\"/></row>"
    "<patch fabric=\"sand\" height=\"2\"/></column></block>"
    "<quilt id=\"mat\"><column><row><use block=\"boat\" finished=\"24\"/>"
    "<column><grid across=\"2\" down=\"1\"><use block=\"boat\" "
    "finished=\"6\"/></grid><use block=\"boat\" finished=\"12\"/>"
    "<grid across=\"2\" down=\"1\"><use block=\"boat\" finished=\"6\" "
    "mirror=\"yes\"/></grid></column></row>"
    "<row id=\"shore\"><patch fabric=\"foam\" width=\"18\" height=\"3\"/>"
    "<patch fabric=\"kelp\" width=\"18\"/></row></column>"
    "<border fabric=\"sand\" width=\"2\"/><border fabric=\"kelp\" width=\"3\"/>"
    "</quilt><assembly of=\"mat\"><step make=\"sail\"/>"
    "<step make=\"sail\" mirror=\"yes\"/><step make=\"boat\" count=\"4\"/>"
    "<step make=\"boat\" mirror=\"yes\" count=\"2\"/>"
    "<step make=\"shore\"><say>Mind the tide.</say></step>"
    "<step make=\"mat\"/></assembly></pattern>";

typedef void looker(const struct wording *w, const struct told_steps *steps);

static void look_at_quilts(struct arena *arena, const struct sample *sample,
                           looker *look)
{
    for (size_t q = 0; q < sample->sewn->quilts.count; q++) {
        const struct wording w = {arena, sample->design,
                                  &sample->sewn->quilts.items[q], false,
                                  phrases_load(arena, "en")};
        const struct told_steps steps = tell_steps(&w);
        look(&w, &steps);
    }
}

static void look_at_all(void **state, looker *look)
{
    for (size_t s = 0; s < SAMPLE_COUNT; s++) {
        const struct sample sample = sample_file(SAMPLES[s]);
        look_at_quilts(*state, &sample, look);
    }
    const struct sample sample = sample_text(*state, quay);
    look_at_quilts(*state, &sample, look);
}

/* The heap and all that is sewn on the way to it alone. */
static bool is_made_for(const struct sewn_quilt *quilt, size_t heap,
                        size_t whole)
{
    return heap == whole ||
           (quilt->heaps.items[heap].within != heap &&
            is_made_for(quilt, quilt->heaps.items[heap].within, whole));
}

/* Every heap that is sewn is told once: in the heaps of one step, or as one of
 * its sizes with what is on the way to that. */
static void look_where_told(const struct wording *w,
                            const struct told_steps *steps)
{
    const struct sewn_quilt *quilt = w->quilt;
    for (size_t h = 0; h < quilt->heaps.count; h++) {
        size_t told = 0;
        for (size_t s = 0; s < steps->items.count; s++) {
            const struct told_step *step = &steps->items.items[s];
            assert_int_equal(step->number, s + 1);
            assert_int_equal(step->heaps.items[step->heaps.count - 1],
                             step->heap);
            for (size_t i = 0; i < step->heaps.count; i++)
                told += step->heaps.items[i] == h;
            for (size_t k = 0; k < step->sizes.count; k++)
                told += is_made_for(quilt, h, step->sizes.items[k].heap);
        }
        const struct heap *heap = &quilt->heaps.items[h];
        assert_int_equal(told,
                         heap->technique != TECHNIQUE_CUT && heap->count > 0);
    }
}

static void test_each_heap_is_told_once(void **state)
{
    look_at_all(state, look_where_told);
}

/* What is sewn on the way is brought to no step and taken by its own alone; it
 * has a name that no other part has. */
static void look_on_the_way(const struct wording *w,
                            const struct told_steps *steps)
{
    const struct sewn_quilt *quilt = w->quilt;
    for (size_t h = 0; h < quilt->heaps.count; h++) {
        const struct heap *heap = &quilt->heaps.items[h];
        if (heap->within == h)
            continue;
        for (size_t i = 0; i < quilt->heaps.count; i++)
            for (size_t k = 0; k < quilt->heaps.items[i].inputs.count; k++)
                if (quilt->heaps.items[i].inputs.items[k].heap == h)
                    assert_int_equal(i, heap->within);
        for (size_t s = 0; s < steps->items.count; s++) {
            const struct told_step *step = &steps->items.items[s];
            for (size_t p = 0; p < step->parts.items.count; p++)
                assert_int_not_equal(step->parts.items.items[p].heap, h);
            for (size_t k = 0; k < step->sizes.count; k++)
                for (size_t p = 0; p < step->sizes.items[k].parts.items.count;
                     p++)
                    assert_int_not_equal(
                        step->sizes.items[k].parts.items.items[p].heap, h);
        }
        assert_int_equal(heap->says.count, 0);
        assert_int_equal(heap->step, quilt->heaps.items[heap->within].step);
    }
}

static void test_what_is_on_the_way_is_told_nowhere_else(void **state)
{
    look_at_all(state, look_on_the_way);
}

/* Counts how many of `part` all heaps made for `whole` take, input by input. */
static size_t counted(const struct sewn_quilt *quilt, size_t whole, size_t part)
{
    size_t count = 0;
    for (size_t h = 0; h < quilt->heaps.count; h++) {
        const struct heap *heap = &quilt->heaps.items[h];
        size_t batches = (heap->count + heap->yield - 1) / heap->yield;
        for (size_t i = 0;
             i < heap->inputs.count && is_made_for(quilt, h, whole); i++)
            if (heap->inputs.items[i].heap == part)
                count += batches;
    }
    return count;
}

/* Each part of a list is taken, as often as is told; none is left out, and none
 * stands twice. */
static void assert_parts(const struct sewn_quilt *quilt, size_t whole,
                         const struct told_parts *parts)
{
    size_t found = 0;
    for (size_t part = 0; part < quilt->heaps.count; part++) {
        size_t listed = 0, times = 0;
        for (size_t i = 0; i < parts->items.count; i++)
            if (parts->items.items[i].heap == part) {
                listed = parts->items.items[i].count;
                times++;
            }
        const size_t wanted =
            is_made_for(quilt, part, whole) ? 0 : counted(quilt, whole, part);
        assert_int_equal(listed, wanted);
        assert_int_equal(times, wanted > 0);
        found += times;
    }
    assert_int_equal(found, parts->items.count);
}

/* The cloth of a cut, or what a sewn part is told as. */
static void assert_same_kind(const struct sewn_quilt *quilt, size_t a, size_t b)
{
    const struct heap *one = &quilt->heaps.items[a];
    const struct heap *other = &quilt->heaps.items[b];
    assert_int_equal(one->technique, other->technique);
    assert_int_equal(heap_fabric(one), heap_fabric(other));
    assert_ptr_equal(one->named, other->named);
    assert_int_equal(one->named_mirror, other->named_mirror);
    assert_int_equal(one->step, other->step);
}

static void look_at_parts(const struct wording *w,
                          const struct told_steps *steps)
{
    const struct sewn_quilt *quilt = w->quilt;
    for (size_t s = 0; s < steps->items.count; s++) {
        const struct told_step *step = &steps->items.items[s];
        assert_parts(quilt, step->heap, &step->parts);
        assert_int_equal(step->count, quilt->heaps.items[step->heap].count);
        for (size_t k = 0; k < step->sizes.count; k++) {
            const struct told_size *size = &step->sizes.items[k];
            assert_int_equal(size->count, quilt->heaps.items[size->heap].count);
            assert_parts(quilt, size->heap, &size->parts);
            assert_int_equal(size->parts.items.count, step->parts.items.count);
            for (size_t p = 0; p < size->parts.items.count; p++)
                assert_same_kind(quilt, step->parts.items.items[p].heap,
                                 size->parts.items.items[p].heap);
        }
    }
}

static void test_each_size_takes_its_own_parts(void **state)
{
    look_at_all(state, look_at_parts);
}

/* All that is made is taken: parts of all steps and sizes add up to what the
 * quilt needs. What is cut for a border or the binding is no part of a step. */
static void look_at_sums(const struct wording *w,
                         const struct told_steps *steps)
{
    const struct sewn_quilt *quilt = w->quilt;
    for (size_t h = 0; h < quilt->heaps.count; h++) {
        const struct heap *heap = &quilt->heaps.items[h];
        size_t taken = 0;
        for (size_t s = 0; s < steps->items.count; s++) {
            const struct told_step *step = &steps->items.items[s];
            for (size_t p = 0; p < step->parts.items.count; p++)
                if (step->parts.items.items[p].heap == h)
                    taken += step->parts.items.items[p].count;
            for (size_t k = 0; k < step->sizes.count; k++)
                for (size_t p = 0; p < step->sizes.items[k].parts.items.count;
                     p++)
                    if (step->sizes.items[k].parts.items.items[p].heap == h)
                        taken +=
                            step->sizes.items[k].parts.items.items[p].count;
        }
        if (heap->within == h && h != quilt->whole)
            assert_int_equal(taken, heap->count);
    }
}

static void test_parts_add_up_to_the_quilt(void **state)
{
    look_at_all(state, look_at_sums);
}

/* The sizes share words, so hands do the same for each: as many actions with as
 * many parts, pressed to the same sides. */
static void look_at_moves(const struct wording *w,
                          const struct told_steps *steps)
{
    for (size_t s = 0; s < steps->items.count; s++) {
        const struct told_step *step = &steps->items.items[s];
        const struct heap *one = &w->quilt->heaps.items[step->heap];
        for (size_t k = 0; k < step->sizes.count; k++) {
            const struct heap *other =
                &w->quilt->heaps.items[step->sizes.items[k].heap];
            assert_int_equal(one->actions.count, other->actions.count);
            assert_false(rational_equal(one->factor, other->factor));
            for (size_t a = 0; a < one->actions.count; a++) {
                const struct action *p = &one->actions.items[a];
                const struct action *q = &other->actions.items[a];
                assert_string_equal(word_press(w, NULL, one, p),
                                    word_press(w, NULL, other, q));
                assert_int_equal(p->parts.count, q->parts.count);
            }
        }
    }
}

static void test_sizes_are_made_alike(void **state)
{
    look_at_all(state, look_at_moves);
}

/* By hand: of the boats, 24, 12 and twice 6 are one step, the mirrored ones
 * another; the row of a boat is sewn on the way, the row with words of its own
 * is a step; both borders are one. */
static void test_a_block_in_three_sizes(void **state)
{
    const struct sample sample = sample_text(*state, quay);
    const struct sewn_quilt *quilt = &sample.sewn->quilts.items[0];
    const struct wording w = {*state, sample.design, quilt, false,
                              phrases_load(*state, "en")};
    const struct told_steps steps = tell_steps(&w);
    const struct told_step *boat = NULL, *shore = NULL;
    for (size_t s = 0; s < steps.items.count; s++) {
        const struct told_step *step = &steps.items.items[s];
        const struct heap *heap = &quilt->heaps.items[step->heap];
        if (strcmp(step->title, "boat") == 0 && step->sizes.count > 0)
            boat = step;
        if (heap->says.count > 0)
            shore = step;
    }
    assert_non_null(boat);
    assert_int_equal(boat->sizes.count, 2);
    assert_int_equal(boat->heaps.count, 2);
    size_t made = boat->count;
    for (size_t k = 0; k < 2; k++)
        made += boat->sizes.items[k].count;
    assert_int_equal(made, 4);
    assert_non_null(shore);
    assert_int_equal(shore->parts.items.count, 2);
    const struct told_step *last = &steps.items.items[steps.items.count - 1];
    assert_int_equal(last->heap, quilt->whole);
    assert_int_equal(last->heaps.count, 2);
    assert_string_equal(last->title, "Borders");
}

/* On a boat of 6 the squares on both upper corners are 1/2 apart and may be
 * laid at one go; on one of 3 they are 1/4 apart, and their allowances lie on
 * each other. What is done otherwise is told in a step of its own. */
static void test_other_moves_are_another_step(void **state)
{
    const struct sample sample = sample_text(
        *state,
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"quay\" "
        "title=\"Quay\" units=\"in\" seam=\"1/4\"><fabrics>"
        "<fabric id=\"kelp\"/><fabric id=\"sand\"/></fabrics>"
        "<colorway id=\"ebb\"><cloth fabric=\"kelp\" color=\"#224433\"/>"
        "<cloth fabric=\"sand\" color=\"#ccbb88\"/></colorway>"
        "<block id=\"buoy\" grid=\"12\"><patch fabric=\"kelp\" width=\"12\" "
        "height=\"12\"><corner at=\"top-left\" fabric=\"sand\" size=\"5\"/>"
        "<corner at=\"top-right\" fabric=\"sand\" size=\"6\"/></patch></block>"
        "<quilt id=\"mat\"><column><use block=\"buoy\" finished=\"12\"/><row>"
        "<use block=\"buoy\" finished=\"6\"/><column>"
        "<grid across=\"2\" down=\"2\"><use block=\"buoy\" finished=\"3\"/>"
        "</grid></column></row></column></quilt></pattern>");
    const struct sewn_quilt *quilt = &sample.sewn->quilts.items[0];
    const struct wording w = {*state, sample.design, quilt, false,
                              phrases_load(*state, "en")};
    const struct told_steps steps = tell_steps(&w);
    size_t buoys = 0, sizes = 0;
    for (size_t s = 0; s < steps.items.count; s++) {
        const struct told_step *step = &steps.items.items[s];
        if (quilt->heaps.items[step->heap].technique != TECHNIQUE_CORNERS)
            continue;
        buoys++;
        sizes += 1 + step->sizes.count;
    }
    assert_int_equal(buoys, 2);
    assert_int_equal(sizes, 3);
    look_at_quilts(*state, &sample, look_at_moves);
    look_at_quilts(*state, &sample, look_where_told);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_each_heap_is_told_once),
        cmocka_unit_test(test_what_is_on_the_way_is_told_nowhere_else),
        cmocka_unit_test(test_each_size_takes_its_own_parts),
        cmocka_unit_test(test_parts_add_up_to_the_quilt),
        cmocka_unit_test(test_sizes_are_made_alike),
        cmocka_unit_test(test_a_block_in_three_sizes),
        cmocka_unit_test(test_other_moves_are_another_step),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
