/* The solved model as JSON, read by jq, which knows nothing of how it was
 * written (RFC 8259), and compared with the plans. */
#include <stdlib.h>
#include <unistd.h>

#include "buffer.h"
#include "plans.h"

static const struct selection everything = {NULL, NULL};

/* What jq prints for the filter; the text goes through a file. */
static struct buffer ask(struct arena *arena, const char *json,
                         const char *filter)
{
    const char *folder = getenv("TMPDIR");
    char *path = arena_printf(arena, "%s/seamwright-json-XXXXXX",
                              folder == NULL ? "/tmp" : folder);
    const int file = mkstemp(path);
    assert_true(file >= 0);
    assert_int_equal(write(file, json, strlen(json)), (ssize_t)strlen(json));
    close(file);
    FILE *pipe =
        popen(arena_printf(arena, "jq -r '%s' %s", filter, path), "r");
    assert_non_null(pipe);
    struct buffer said = buffer_in(arena);
    char part[4096];
    for (size_t n; (n = fread(part, 1, sizeof part, pipe)) > 0;)
        buffer_add(&said, part, n);
    const int status = pclose(pipe);
    unlink(path);
    if (status != 0)
        fail_msg("jq ends with %d for %s", status, filter);
    return said;
}

static void assert_says(struct arena *arena, const char *json,
                        const char *filter, const char *wanted)
{
    struct buffer said = ask(arena, json, filter);
    if (strcmp(buffer_string(&said), wanted) != 0)
        fail_msg("%s is\n%s\nnot\n%s", filter, buffer_string(&said), wanted);
}

static void test_it_is_json_and_stable(void **state)
{
    struct arena *arena = *state;
    for (size_t s = 0; s <= SAMPLE_COUNT; s++) {
        const struct sample a = any_sample(arena, s);
        const struct sample b = s < SAMPLE_COUNT
                                    ? sample_fresh(arena, SAMPLES[s])
                                    : sample_text(arena, hostile);
        const char *first = render_json(a.run, a.plans, &everything);
        assert_string_equal(first, render_json(a.run, a.plans, &everything));
        assert_string_equal(first, render_json(b.run, b.plans, &everything));
        assert_true(first[strlen(first) - 1] == '\n');
        assert_says(arena, first, ".version", "2\n");
        assert_says(arena, first, ".quilts | type", "array\n");
    }
}

/* No object has a key twice: jq would keep the last without a word. */
static void test_no_key_stands_twice(void **state)
{
    struct arena *arena = *state;
    for (size_t s = 0; s <= SAMPLE_COUNT; s++) {
        const struct sample sample = any_sample(arena, s);
        const char *json = render_json(sample.run, sample.plans, &everything);
        /* The diagnostics are last, and another module writes them. */
        const char *end = strstr(json, "\n  \"diagnostics\"");
        assert_non_null(end);
        size_t keys = 0;
        for (const char *at = json;
             (at = strstr(at, "\": ")) != NULL && at < end; at++)
            keys++;
        const struct buffer seen = ask(
            arena, json,
            "[del(.diagnostics) | .. | objects | keys[]] | length");
        assert_int_equal(keys, strtoul(seen.bytes, NULL, 10));
    }
}

static void test_hostile_names_come_back(void **state)
{
    struct arena *arena = *state;
    const struct sample sample = sample_text(arena, hostile);
    const char *json = render_json(sample.run, sample.plans, &everything);
    assert_says(arena, json, ".pattern.title",
                "A \"quoted\", <odd> \\ title\n");
    assert_says(arena, json, ".pattern.designer", "=cmd()\n");
    assert_says(arena, json, ".fabrics[].name",
                "=SUM(A1:A9)\n+1 shade, \"warm\"\n-2\n@home\n");
    assert_says(arena, json,
                ".pattern.publisher | startswith(\"\\ud83e\\uddf5\")",
                "true\n");
}

/* The pieces and steps of each quilt, one line each, made from the sewn
 * quilt in a way of their own. */
static void test_counts_and_lengths_are_exact(void **state)
{
    struct arena *arena = *state;
    for (size_t s = 0; s <= SAMPLE_COUNT; s++) {
        const struct sample sample = any_sample(arena, s);
        const enum length_unit unit = sample.design->pattern->units;
        struct buffer pieces = buffer_in(arena), steps = buffer_in(arena);
        for (size_t q = 0; q < sample.sewn->quilts.count; q++) {
            const struct sewn_quilt *quilt = &sample.sewn->quilts.items[q];
            for (size_t h = 0; h < quilt->heaps.count; h++) {
                const struct heap *heap = &quilt->heaps.items[h];
                if (heap->technique == TECHNIQUE_CUT && heap->count > 0)
                    buffer_printf(&pieces, "%s|%zu|%s|%s\n", heap->of.cut.label,
                                  heap->count,
                                  length_plain(arena, heap->of.cut.width, unit),
                                  length_plain(arena, heap->of.cut.height, unit));
                if (heap->step > 0)
                    buffer_printf(&steps, "%zu|%zu|%zu|%zu|%s\n", heap->step,
                                  heap->count, heap->inputs.count,
                                  heap->actions.count,
                                  length_plain(arena, heap->width, unit));
            }
        }
        const char *json = render_json(sample.run, sample.plans, &everything);
        assert_says(arena, json,
                    ".quilts[].pieces[] | [.label, (.count | tostring), "
                    ".cut.width, .cut.height] | join(\"|\")",
                    buffer_string(&pieces));
        assert_says(arena, json,
                    ".quilts[].steps[] | [(.number | tostring), "
                    "(.count | tostring), (.parts | length | tostring), "
                    "(.actions | length | tostring), .finished.width] | "
                    "join(\"|\")",
                    buffer_string(&steps));
    }
}

/* Where each part lies and how it is turned, in degrees as a protractor has
 * them: a quarter turn is 90. */
static void test_parts_lie_and_turn_as_sewn(void **state)
{
    static const char *const degrees[] = {"0", "90", "180", "270"};
    struct arena *arena = *state;
    size_t turned[4] = {0};
    for (size_t s = 0; s <= SAMPLE_COUNT; s++) {
        const struct sample sample = any_sample(arena, s);
        const enum length_unit unit = sample.design->pattern->units;
        struct buffer parts = buffer_in(arena);
        for (size_t q = 0; q < sample.sewn->quilts.count; q++) {
            const struct sewn_quilt *quilt = &sample.sewn->quilts.items[q];
            for (size_t h = 0; h < quilt->heaps.count; h++) {
                const struct heap *heap = &quilt->heaps.items[h];
                for (size_t i = 0; heap->step > 0 && i < heap->inputs.count;
                     i++) {
                    const struct input *input = &heap->inputs.items[i];
                    turned[input->turn]++;
                    buffer_printf(&parts, "%s|%s|%s\n", degrees[input->turn],
                                  length_plain(arena, input->x, unit),
                                  length_plain(arena, input->y, unit));
                }
            }
        }
        assert_says(arena, render_json(sample.run, sample.plans, &everything),
                    ".quilts[].steps[].parts[] | [(.turn | tostring), .x, .y] "
                    "| join(\"|\")",
                    buffer_string(&parts));
    }
    for (size_t i = 0; i < UNIT_COUNT(turned); i++)
        assert_true(turned[i] > 0);
}

/* In each cloth, what the strips give is what the pieces need. */
static void test_strips_give_the_pieces(void **state)
{
    struct arena *arena = *state;
    for (size_t s = 0; s <= SAMPLE_COUNT; s++) {
        const struct sample sample = any_sample(arena, s);
        const char *json = render_json(sample.run, sample.plans, &everything);
        const char *filter =
            "[.quilts[] | . as $q | .colorways[] | "
            "def all: . as $s | (if .last then 1 else 0 end) as $part | "
            "(.cuts[] | [.label, .count * ($s.repeat - $part)]), "
            "((.last // [])[] | [.label, .count]); "
            "(reduce ((.cloths[].strips[] | all), (.cloths[].sheets[] | "
            ".repeat as $n | .strips[] | all | [.[0], .[1] * $n])) as $c "
            "({}; .[$c[0]] += $c[1])) as $got | "
            "$q.pieces[] | select(.border == null) | "
            "select($got[.label] != .count) | .label] | length";
        assert_says(arena, json, filter, "0\n");
    }
}

/* The lengths of parts' places are real and inside the heap. */
/* But for those of quilting, whose points are exact or have six decimals. */
static void test_every_length_is_a_length(void **state)
{
    struct arena *arena = *state;
    for (size_t s = 0; s <= SAMPLE_COUNT; s++) {
        const struct sample sample = any_sample(arena, s);
        const enum length_unit unit = sample.design->pattern->units;
        const char *json = render_json(sample.run, sample.plans, &everything);
        struct buffer said = ask(
            arena, json,
            "del(.quilts[].quilting) | .. | objects | (.width?, .height?, .x?, "
            ".y?, .used?, .panelLength?, .stripsTogether?) | strings");
        size_t lengths = 0;
        for (char *line = strtok(said.bytes, "\n"); line != NULL;
             line = strtok(NULL, "\n"), lengths++)
            assert_true(rational_known(plain_length(line, unit)));
        assert_true(lengths > 20);
    }
}

/* The diagonal of a square of 6 is in it in full, with what a ruler has of it
 * beside it; a cut size is rounded, and no other length has a second text. */
static void test_roots_are_told_twice(void **state)
{
    struct arena *arena = *state;
    static const char source[] =
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"weir\" "
        "title=\"Weir\"><fabrics><fabric id=\"moss\"/></fabrics>"
        "<colorway id=\"noon\"><cloth fabric=\"moss\" color=\"#4f5b36\"/>"
        "</colorway><quilt id=\"mat\"><row><patch fabric=\"moss\" "
        "width=\"6r2\" height=\"6\"/><patch fabric=\"moss\" "
        "width=\"r3 - 1\"/></row></quilt></pattern>";
    const struct sample sample = sample_text(arena, source);
    const char *json = render_json(sample.run, sample.plans, &everything);
    assert_says(arena, json, ".quilts[0].finished | to_entries[] | .key, .value",
                "width\n6√2-1+√3\nwidthOnRuler\n9 1/4\nheight\n6\n");
    assert_says(arena, json,
                ".quilts[0].pieces | sort_by(.finished.width)[] | "
                ".finished.width, .finished.widthOnRuler, .cut.width, "
                ".unfinished.width",
                "6√2\n8 1/2\n9\n1/2+6√2\n√3-1\n3/4\n1 1/4\n√3-1/2\n");
    assert_says(arena, json,
                "[.. | objects | keys[] | select(test(\"OnRuler$\"))] | unique "
                "| join(\" \")",
                "widthOnRuler xOnRuler\n");
}

static void test_a_selection_is_a_part(void **state)
{
    struct arena *arena = *state;
    const struct sample sample = sample_file(SAMPLES[2]);
    const struct selection bed = {"bed", "pine"};
    const char *json = render_json(sample.run, sample.plans, &bed);
    assert_says(arena, json, ".quilts[] | .id, (.colorways[] | .id)",
                "bed\npine\n");
}

/* Warnings and remarks are in it, errors cannot be. */
static void test_diagnostics_are_in_it(void **state)
{
    struct arena *arena = *state;
    for (size_t s = 0; s <= SAMPLE_COUNT; s++) {
        const struct sample sample = any_sample(arena, s);
        const struct diagnostic **sorted;
        const size_t count = diag_sorted(sample.run, &sorted);
        assert_says(arena, render_json(sample.run, sample.plans, &everything),
                    ".diagnostics | length",
                    arena_printf(arena, "%zu\n", count));
    }
}

/* A step has an entry for each cast; a part of a block has that of the block.
 */
static void test_casts_are_told(void **state)
{
    struct arena *arena = *state;
    static const char source[] =
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"moor\" "
        "title=\"Moor\"><fabrics><fabric id=\"peat\"/><fabric "
        "id=\"heath\"/></fabrics><colorway id=\"dawn\"><cloth "
        "fabric=\"peat\" color=\"#402f26\"/><cloth fabric=\"heath\" "
        "color=\"#86577e\"/></colorway><block id=\"cairn\" grid=\"2\"><role "
        "id=\"top\" fabric=\"peat\"/><role id=\"foot\" "
        "fabric=\"heath\"/><grid across=\"2\" down=\"2\" press=\"open\">"
        "<half-square line=\"rising\" left=\"top\" right=\"foot\"/>"
        "<patch fabric=\"foot\" width=\"1\" height=\"1\"/>"
        "<patch fabric=\"foot\"/><patch fabric=\"top\"/></grid></block>"
        "<quilt id=\"mat\"><row press=\"open\"><use block=\"cairn\" "
        "finished=\"6\"/><use block=\"cairn\" finished=\"6\" "
        "with=\"top=heath foot=peat\"/></row></quilt></pattern>";
    const struct sample sample = sample_text(arena, source);
    const char *json = render_json(sample.run, sample.plans, &everything);
    assert_says(arena, json,
                "[.quilts[0].steps[] | select(.id == \"cairn\") | "
                "[.cast.of, (.cast.roles[] | .role + \"=\" + .fabric)] | "
                "join(\" \")] | sort | .[]",
                "cairn top=heath foot=peat\ncairn top=peat foot=heath\n");
    assert_says(arena, json,
                "[.quilts[0].steps[] | select(.cast == null)] | length", "1\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_it_is_json_and_stable),
        cmocka_unit_test(test_no_key_stands_twice),
        cmocka_unit_test(test_hostile_names_come_back),
        cmocka_unit_test(test_counts_and_lengths_are_exact),
        cmocka_unit_test(test_parts_lie_and_turn_as_sewn),
        cmocka_unit_test(test_strips_give_the_pieces),
        cmocka_unit_test(test_every_length_is_a_length),
        cmocka_unit_test(test_roots_are_told_twice),
        cmocka_unit_test(test_a_selection_is_a_part),
        cmocka_unit_test(test_casts_are_told),
        cmocka_unit_test(test_diagnostics_are_in_it),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
