/* The least to sew: a worked quilt, and all samples against a search of another
 * kind, which takes no bound but the best that it has. */
#include "least.h"

#include "../book/sample.h"

/* Four alike blocks of two mirrored wings; the meetings of blocks are all of
 * one kind. Sewn by hand: a wing is 1 seam, a block of two wings 3, a pair of
 * blocks 7. */
static const char mat[] =
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"gulls\" title=\"Gulls\" "
    "units=\"in\" seam=\"1/4\"><fabrics><fabric id=\"sea\"/>"
    "<fabric id=\"sky\"/></fabrics><colorway id=\"noon\">"
    "<cloth fabric=\"sea\" color=\"#224466\"/>"
    "<cloth fabric=\"sky\" color=\"#ddeeff\"/></colorway>"
    "<unit id=\"wing\"><patch fabric=\"sea\" width=\"4\" height=\"6\">"
    "<corner at=\"top-left\" fabric=\"sky\" size=\"2\"/></patch></unit>"
    "<block id=\"gull\"><row><use unit=\"wing\"/><use unit=\"wing\" "
    "mirror=\"yes\"/></row></block>"
    "<quilt id=\"mat\"><grid across=\"3\" down=\"1\"><use block=\"gull\"/>"
    "</grid></quilt></pattern>";

static struct wording wording_of(struct arena *arena,
                                 const struct sample *sample, size_t quilt)
{
    return (struct wording){arena, sample->design,
                            &sample->sewn->quilts.items[quilt], false,
                            phrases_load(arena, "en")};
}

static size_t facts_of(const struct least *least, enum sew_fact_kind kind)
{
    size_t count = 0;
    for (size_t i = 0; i < least->facts.count; i++)
        count += least->facts.items[i].kind == kind;
    return count;
}

static void test_worked(void **state)
{
    const struct sample sample = sample_text(*state, mat);
    const struct wording w = wording_of(*state, &sample, 0);
    const struct least least = least_to_sew(&w);
    assert_true(least.plan.least);
    assert_int_equal(least.all_seams, 3 * 3 + 2);
    assert_int_equal(least.seams, 7);
    assert_int_equal(least.plan.chosen.count, 1);
    assert_string_equal(
        word_trial(&w, &least.trials.items[least.plan.chosen.items[0]]),
        "2 neighbors side by side, gull and gull (row 1 of quilt top, from "
        "the left 1 and 2)");
    assert_int_equal(facts_of(&least, FACT_LINE), 2);
    assert_int_equal(facts_of(&least, FACT_CORNER), 2);
    assert_int_equal(facts_of(&least, FACT_MIRROR), 1);
    assert_int_equal(facts_of(&least, FACT_SIZE), 3);
    assert_int_equal(facts_of(&least, FACT_TECHNIQUE), 1);
    assert_int_equal(least_percent(&least), (7 * 100 + 10) / 11);
    /* Four wings of six: 4 1/2 by 6 1/2, and a square of 2 1/2. */
    assert_true(rational_equal(least.cloth, rational_whole(142)));
    assert_true(rational_equal(least.all_cloth, rational_whole(213)));
}

/* Two rows of four wings, the lower ones mirrored. All of it lies round the seam
 * between the rows: two wings of each, cut out of them, take 4 seams inside and
 * 3 between; the whole 8 and 7. Beside one wing of a lower row a long piece ends
 * nowhere with the wings, so that a scrap stands for it. */
static const char rows[] =
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"gulls\" title=\"Gulls\" "
    "units=\"in\" seam=\"1/4\"><fabrics><fabric id=\"sea\"/>"
    "<fabric id=\"sky\"/></fabrics><colorway id=\"noon\">"
    "<cloth fabric=\"sea\" color=\"#224466\"/>"
    "<cloth fabric=\"sky\" color=\"#ddeeff\"/></colorway>"
    "<unit id=\"wing\"><patch fabric=\"sea\" width=\"4\" height=\"6\">"
    "<corner at=\"top-left\" fabric=\"sky\" size=\"2\"/></patch></unit>"
    "<quilt id=\"mat\"><column><row><use unit=\"wing\"/><use unit=\"wing\"/>"
    "<use unit=\"wing\"/><use unit=\"wing\"/></row>%s</column></quilt>"
    "</pattern>";

/* The first, as there is one at most here. */
static const struct trial *chosen_cutout(const struct least *least)
{
    for (size_t i = 0; i < least->plan.chosen.count; i++) {
        const struct trial *trial =
            &least->trials.items[least->plan.chosen.items[i]];
        if (trial->kind == TRIAL_CUTOUT)
            return trial;
    }
    return NULL;
}

/* By hand: a wing is a seam, and two by two pieces take three. */
static void test_cutouts(void **state)
{
    static const char mirrored[] =
        "<row><use unit=\"wing\" mirror=\"yes\"/><use unit=\"wing\" "
        "mirror=\"yes\"/><use unit=\"wing\" mirror=\"yes\"/><use "
        "unit=\"wing\" mirror=\"yes\"/></row>";
    static const char longer[] =
        "<row><use unit=\"wing\"/><patch fabric=\"sea\" width=\"12\"/></row>";
    const struct sample sample =
        sample_text(*state, arena_printf(*state, rows, mirrored));
    const struct wording w = wording_of(*state, &sample, 0);
    const struct least least = least_to_sew(&w);
    assert_true(least.plan.least);
    assert_int_equal(least.all_seams, 8 + 7);
    assert_int_equal(least.seams, 4 + 3);
    const struct trial *trial = chosen_cutout(&least);
    assert_non_null(trial);
    assert_int_equal(trial->cells.count, 4);
    assert_false(trial->has_scrap);
    /* Below the first two wings a wing and 4 in of the long patch. */
    const struct sample other =
        sample_text(*state, arena_printf(*state, rows, longer));
    const struct wording v = wording_of(*state, &other, 0);
    const struct least shorter = least_to_sew(&v);
    trial = chosen_cutout(&shorter);
    assert_non_null(trial);
    assert_true(trial->has_scrap);
    assert_true(rational_equal(trial->scrap_width, rational_make(9, 2)));
    assert_true(rational_equal(trial->scrap_height, rational_make(13, 2)));
    assert_int_equal(trial->seams, 3 + 3);
    assert_int_equal(shorter.seams, 3 + 3);
    assert_int_equal(shorter.all_seams, 5 + 3 + 1 + 1);
}

/* ---- against another search ---- */

struct oracle {
    const struct least *least;
    size_t *brought;
    size_t seams;
    struct rational cloth;
    bool found;
    size_t best_seams;
    struct rational best_cloth;
};

static bool brings(const struct trial *trial, size_t fact)
{
    for (size_t i = 0; i < trial->facts.count; i++)
        if (trial->facts.items[i] == fact)
            return true;
    return false;
}

static bool is_worse(const struct oracle *oracle)
{
    return oracle->found &&
           (oracle->seams > oracle->best_seams ||
            (oracle->seams == oracle->best_seams &&
             rational_compare(oracle->cloth, oracle->best_cloth) >= 0));
}

/* The first fact that is not there is brought by each trial in turn. */
static void look_further(struct oracle *oracle)
{
    const struct least *least = oracle->least;
    size_t fact = 0;
    while (fact < least->facts.count && oracle->brought[fact] > 0)
        fact++;
    if (is_worse(oracle))
        return;
    if (fact == least->facts.count) {
        oracle->found = true;
        oracle->best_seams = oracle->seams;
        oracle->best_cloth = oracle->cloth;
        return;
    }
    for (size_t t = 0; t < least->trials.count; t++) {
        const struct trial *trial = &least->trials.items[t];
        if (!brings(trial, fact))
            continue;
        const struct rational cloth = oracle->cloth;
        for (size_t i = 0; i < trial->facts.count; i++)
            oracle->brought[trial->facts.items[i]]++;
        oracle->seams += trial->seams;
        oracle->cloth = rational_add(cloth, trial->cloth);
        look_further(oracle);
        oracle->cloth = cloth;
        oracle->seams -= trial->seams;
        for (size_t i = 0; i < trial->facts.count; i++)
            oracle->brought[trial->facts.items[i]]--;
    }
}

/* Every chosen trial, added up, is what the least says, and brings all. */
static void assert_holds(struct arena *arena, const struct least *least)
{
    bool *brought = ARENA_ARRAY(arena, bool, least->facts.count + 1);
    size_t seams = 0;
    struct rational cloth = rational_whole(0);
    for (size_t i = 0; i < least->plan.chosen.count; i++) {
        const struct trial *trial =
            &least->trials.items[least->plan.chosen.items[i]];
        seams += trial->seams;
        cloth = rational_add(cloth, trial->cloth);
        for (size_t k = 0; k < trial->facts.count; k++)
            brought[trial->facts.items[k]] = true;
    }
    for (size_t f = 0; f < least->facts.count; f++)
        assert_true(brought[f]);
    assert_int_equal(seams, least->seams);
    assert_true(rational_equal(cloth, least->cloth));
    assert_true(seams <= least->all_seams);
}

static void check_against_search(struct arena *arena,
                                 const struct sample *sample)
{
    for (size_t q = 0; q < sample->sewn->quilts.count; q++) {
        const struct wording w = wording_of(arena, sample, q);
        const struct least least = least_to_sew(&w);
        struct oracle oracle = {.least = &least, .cloth = rational_whole(0)};
        oracle.brought = ARENA_ARRAY(arena, size_t, least.facts.count + 1);
        look_further(&oracle);
        assert_true(least.plan.possible && least.plan.least);
        assert_true(least.facts.count > 5);
        assert_holds(arena, &least);
        assert_true(oracle.found);
        assert_int_equal(least.seams, oracle.best_seams);
        assert_true(rational_equal(least.cloth, oracle.best_cloth));
    }
}

static void test_samples(void **state)
{
    for (size_t s = 0; s < SAMPLE_COUNT; s++) {
        const struct sample sample = sample_file(SAMPLES[s]);
        check_against_search(*state, &sample);
    }
}

/* ---- set-in seams ---- */

static size_t count_set_in(const struct least *least)
{
    size_t count = 0;
    for (size_t i = 0; i < least->facts.count; i++)
        count += least->facts.items[i].kind == FACT_MEETING &&
                 least->facts.items[i].meeting == MEET_SET_IN;
    return count;
}

/* A seam that turns about a dot is a skill of its own, which no other seam of a
 * star teaches: once in each quilt that has stars, in no other; the same least as
 * by search. */
static void test_set_in(void **state)
{
    const struct sample stars =
        sample_fresh(*state, "tests/driver/pages/beacon-shoal.xml");
    check_against_search(*state, &stars);
    for (size_t q = 0; q < stars.sewn->quilts.count; q++) {
        const struct wording w = wording_of(*state, &stars, q);
        const struct least least = least_to_sew(&w);
        assert_int_equal(count_set_in(&least), 1);
    }
    for (size_t s = 0; s < SAMPLE_COUNT; s++) {
        const struct sample sample = sample_file(SAMPLES[s]);
        bool has_star = false;
        for (size_t i = 0; i < sample.sewn->quilts.items[0].heaps.count; i++)
            has_star |= sample.sewn->quilts.items[0].heaps.items[i].technique ==
                        TECHNIQUE_STAR;
        const struct wording w = wording_of(*state, &sample, 0);
        const struct least least = least_to_sew(&w);
        assert_int_equal(count_set_in(&least), has_star ? 1 : 0);
    }
}

/* Whoever reads the list would look for what is different in two lines that say
 * the same. */
static void test_told_once(void **state)
{
    static const char *const more[] = {"tests/driver/pages/beacon-shoal.xml",
                                       "tests/driver/pages/salt-pans.xml",
                                       "tests/driver/pages/slack-water.xml",
                                       "tests/driver/pages/kite-reach.xml",
                                       "tests/driver/pages/weir-house.xml"};
    for (size_t s = 0; s < SAMPLE_COUNT + UNIT_COUNT(more); s++) {
        const char *path =
            s < SAMPLE_COUNT ? SAMPLES[s] : more[s - SAMPLE_COUNT];
        const struct sample sample = sample_fresh(*state, path);
        for (size_t q = 0; q < sample.sewn->quilts.count; q++) {
            const struct wording w = wording_of(*state, &sample, q);
            const struct least least = least_to_sew(&w);
            struct name_table told = {0};
            for (size_t i = 0; i < least.facts.count; i++) {
                const struct sew_fact *fact = &least.facts.items[i];
                const char *words = arena_printf(*state, "%d %s",
                                                 (int)fact->kind,
                                                 word_fact(&w, fact));
                if (!name_table_add(*state, &told, words, i))
                    fail_msg("%s: twice: %s", path, words);
            }
        }
    }
}

/* All that is said of a fact or a trial is a sentence in both languages. */
static void test_words(void **state)
{
    const char *const *languages = phrase_languages();
    for (; *languages != NULL; languages++)
        for (size_t s = 0; s < SAMPLE_COUNT; s++) {
            const struct sample sample = sample_file(SAMPLES[s]);
            struct wording w = wording_of(*state, &sample, 0);
            w.phrases = phrases_load(*state, *languages);
            const struct least least = least_to_sew(&w);
            for (size_t i = 0; i < least.facts.count; i++)
                assert_true(word_fact(&w, &least.facts.items[i])[0] != '\0');
            for (size_t i = 0; i < least.trials.count; i++)
                assert_true(word_trial(&w, &least.trials.items[i])[0] != '\0');
        }
}

/* Triangles are counted one by one and cut from squares with others: ten quarters
 * are 2.5 squares. A piece with slanted edges takes a scrap as wide as it is
 * itself: a triangle with equal sides in a strip 6 3/4 high has sides of
 * 6 3/4 times 2 over the root of 3, 7.79. */
static void test_scraps(void **state)
{
    static const struct {
        const char *path, *line;
    } cases[] = {
        {"tests/driver/pages/salt-pans.xml",
         "Reed: 10 C1, from 3 squares of 15 1/2 x 15 1/2 in, each cut in four "
         "on both diagonals"},
        {"tests/driver/pages/salt-pans.xml",
         "Reed: 4 C2, from 2 squares of 8 1/2 x 8 1/2 in, each cut in two on "
         "one diagonal"},
        {"tests/driver/pages/salt-pans.xml", "Brine: 36 A2, 3 5/8 x 3 5/8 in"},
        {"tests/compare/sand-bar.xml",
         "Sand: 17 A3, 60\u00b0 triangle, 6 3/4 in high, each from a scrap of 6 3/4 x "
         "7 7/8 in"}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const struct sample sample = sample_fresh(*state, cases[i].path);
        const struct wording w = wording_of(*state, &sample, 0);
        const struct least least = least_to_sew(&w);
        const struct scrap_lines lines = word_scraps(&w, &least);
        bool told = false;
        for (size_t k = 0; k < lines.items.count; k++)
            told |= strcmp(lines.items.items[k], cases[i].line) == 0;
        if (!told)
            fail_msg("%s: no \"%s\"", cases[i].path, cases[i].line);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_worked),
        cmocka_unit_test(test_cutouts),
        cmocka_unit_test(test_samples),
        cmocka_unit_test(test_set_in),
        cmocka_unit_test(test_told_once),
        cmocka_unit_test(test_words),
        cmocka_unit_test(test_scraps),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
