/* Single changes of the samples: the comparison names each in the one class
 * that it belongs to, and in no other. What a change does is known by its kind,
 * and for kinds that can do several things (a turn may change nothing on a
 * symmetric block) by the cloth, the pieces and the plans (truth.h). */
#include <stdio.h>
#include <stdlib.h>

#include "edits.h"
#include "told_changes.h"
#include "truth.h"

static const char *const samples[] = {
    "samples/eight-sails.xml",  "samples/gull-rock.xml",
    "samples/lantern-walk.xml", "samples/lone-beacon.xml",
    "samples/orchard-gate.xml", "samples/reed-lights.xml",
    "samples/turning-lamp.xml", "samples/vane-harbor.xml",
    /* Half-rectangles, settings on point, triangles, mitred borders. */
    "tests/driver/pages/kite-reach.xml",
    "tests/driver/pages/salt-pans.xml",
    "tests/compare/sand-bar.xml",
    "tests/driver/pages/slack-water.xml"};

/* Classes as bits; no bit for nothing at all. */
enum { NOTHING = 1 << HARM_KINDS };
#define BIT(harm) (1u << (harm))

/* Which results are right. More than one bit only where neither cloth, pieces,
 * amounts nor pressing differ: then the edit may have another way, or none. */
static unsigned right_classes(enum edit_kind kind, const struct truth *truth)
{
    if (kind >= EDIT_ID)
        return BIT(HARM_WORDS);
    if (kind == EDIT_QUILTING)
        return BIT(HARM_RESULT);
    if (truth->lost_and_gained)
        return BIT(HARM_CUT);
    if (truth->lost || truth->gained || truth->counts)
        return BIT(HARM_COUNT);
    if (truth->amounts)
        return BIT(HARM_CLOTH);
    if (truth->top)
        return BIT(HARM_RESULT);
    if (truth->seams || truth->order || truth->methods)
        return BIT(HARM_WAY);
    return kind == EDIT_CLOTH ? NOTHING | BIT(HARM_WAY) | BIT(HARM_WORDS)
                              : NOTHING | BIT(HARM_WAY);
}

static unsigned told_classes(const struct comparison *comparison)
{
    unsigned told = 0;
    for (int harm = 0; harm < HARM_KINDS; harm++)
        if (comparison->counts[harm] > 0)
            told |= BIT(harm);
    return told == 0 ? NOTHING : told;
}

/* Words: what was edited is what is told. */
static bool right_kind(enum edit_kind edit, const struct comparison *comparison)
{
    static const enum change_kind kinds[EDIT_KINDS] = {
        [EDIT_ID] = CHANGE_ID,       [EDIT_NAME] = CHANGE_NAME,
        [EDIT_TEXT] = CHANGE_TEXT,   [EDIT_SAY] = CHANGE_SAY,
        [EDIT_COLOR] = CHANGE_COLOR, [EDIT_PRICE] = CHANGE_PRICE,
        [EDIT_CODE] = CHANGE_CODE,   [EDIT_LABELS] = CHANGE_LABEL};
    for (size_t i = 0; edit >= EDIT_ID && i < comparison->changes.count; i++)
        if (comparison->changes.items[i].kind != kinds[edit] &&
            !comparison->changes.items[i].follows)
            return false;
    return true;
}

/* Every size that is lost or gained is named, and no other. */
static bool names_sizes(struct arena *arena, const struct compiled *a,
                        const struct compiled *b,
                        const struct comparison *comparison)
{
    size_t wanted = 0, told = 0;
    for (size_t q = 0; q < a->plans->sewn->quilts.count; q++) {
        const struct keys old = keys_of(arena, a, q), now = keys_of(arena, b, q);
        for (size_t i = 0; i < old.items.count; i++)
            wanted += find_key(&now, &old.items.items[i]) == NULL;
        for (size_t i = 0; i < now.items.count; i++)
            wanted += find_key(&old, &now.items.items[i]) == NULL;
    }
    for (size_t i = 0; i < comparison->changes.count; i++) {
        const struct change *c = &comparison->changes.items[i];
        if (c->kind == CHANGE_PIECE)
            told += 2;
        else if (c->kind == CHANGE_PIECE_COUNT)
            told += c->piece[0] == NOWHERE || c->piece[1] == NOWHERE;
    }
    return wanted == told;
}

/* What is told as a change never has the same text as old and as new, on a
 * terminal or on a page, in any language; nor does it tell nothing at all under
 * a title that says no more than that something differs. */
static bool tells_apart(struct arena *arena,
                        const struct comparison *comparison, const char *sample,
                        const struct edit *edit)
{
    bool apart = true;
    for (int form = 0; form < 4; form++) {
        const struct change_wording w = {
            arena, phrases_load(arena, form & 1 ? "de" : "en"), comparison,
            (form & 2) != 0};
        for (size_t i = 0; i < comparison->changes.count; i++) {
            const struct change *c = &comparison->changes.items[i];
            const struct told_change told = tell_change(&w, c);
            const bool by_title =
                told.was[0] == '\0' &&
                (c->kind == CHANGE_PLAN || c->kind == CHANGE_QUILTING ||
                 c->kind == CHANGE_LOOKS || c->kind == CHANGE_PRINT ||
                 (c->kind == CHANGE_STEP && c->follows) ||
                 c->kind >= CHANGE_QUILT_ADDED);
            if (strcmp(told.was, told.is) != 0 || by_title)
                continue;
            print_error("%s: %s: %s\n  %s: old and new are `%s`\n", sample,
                        edit_names[edit->kind], edit->what, told.title,
                        told.is);
            apart = false;
        }
    }
    return apart;
}

/* ---- running ---- */

struct tally {
    size_t tried, judged, open, wrong, alike;
    size_t by_class[HARM_KINDS + 1], by_kind[EDIT_KINDS];
};

static void count_classes(struct tally *tally, const struct edit *edit,
                          unsigned told, unsigned right)
{
    tally->judged++;
    tally->by_kind[edit->kind]++;
    tally->open += (right & (right - 1)) != 0;
    for (int bit = 0; bit <= HARM_KINDS; bit++)
        tally->by_class[bit] += told >> bit & 1;
}

/* What the source alone has, a name of cloth that nothing is cut from, is in no
 * booklet: then nothing is told. Messages of the compiler, which are last, are
 * no part of a booklet. */
static bool is_unseen(const struct edit *edit, const char *old,
                      const char *changed)
{
    const size_t length =
        (size_t)(strstr(old, "\n  \"diagnostics\"") - old);
    return edit->kind >= EDIT_ID && strncmp(old, changed, length) == 0;
}

static void judge(struct arena *arena, const struct compiled *base,
                  const struct revision *old, const char *old_json,
                  const struct edit *edit, const char *sample,
                  struct tally *tally)
{
    static const struct selection everything = {NULL, NULL};
    const struct compiled now = compile_text(arena, edit->text);
    tally->tried++;
    if (now.plans == NULL)
        return;
    const struct revision *changed = facts_of(arena, &now);
    if (is_unseen(edit, old_json, render_json(now.run, now.plans, &everything)))
        return;
    const struct comparison *comparison =
        compare_revisions(arena, old, changed);
    const struct truth truth = truth_of(arena, base, &now);
    const unsigned right = right_classes(edit->kind, &truth);
    const unsigned told = told_classes(comparison);
    count_classes(tally, edit, told, right);
    tally->alike += !tells_apart(arena, comparison, sample, edit);
    const bool sizes = edit->kind >= EDIT_ID ||
                       names_sizes(arena, base, &now, comparison);
    if ((told & ~right) == 0 && right_kind(edit->kind, comparison) && sizes)
        return;
    tally->wrong++;
    print_error("%s: %s: %s\n  told %#x, right %#x%s\n", sample,
                edit_names[edit->kind], edit->what, told, right,
                sizes ? "" : ", and sizes are not those");
    for (size_t i = 0; i < comparison->changes.count && i < 12; i++) {
        const struct change *c = &comparison->changes.items[i];
        print_error("    %s %s%s: %s: %.70s -> %.70s\n", harm_name(c->harm),
                    change_name(c->kind), c->follows ? " (follows)" : "",
                    c->what, c->was[0], c->was[1]);
    }
}

/* So many of each sample, drawn from a seed; of each kind in turn, so that rare
 * kinds come, too. */
static void run_sample(const char *path, size_t most,
                       struct unit_random *random, struct tally *tally)
{
    struct arena *arena = arena_create();
    static const struct selection everything = {NULL, NULL};
    const char *text = base_of(arena, path);
    const struct compiled base = compile_text(arena, text);
    assert_non_null(base.plans);
    const struct revision *old = facts_of(arena, &base);
    const char *json = render_json(base.run, base.plans, &everything);
    struct edits edits = edits_of(arena, text, base.pattern);
    const size_t until = tally->judged + most;
    bool *done = ARENA_ARRAY(arena, bool, edits.items.count + 1);
    size_t left = edits.items.count;
    for (int kind = 0; left > 0 && tally->judged < until;
         kind = (kind + 1) % EDIT_KINDS) {
        size_t chosen = edits.items.count, seen = 0;
        for (size_t i = 0; i < edits.items.count; i++)
            if (!done[i] && (int)edits.items.items[i].kind == kind &&
                unit_below(random, ++seen) == 0)
                chosen = i;
        if (chosen == edits.items.count)
            continue;
        struct arena *own = arena_create();
        done[chosen] = true;
        left--;
        judge(own, &base, old, json, &edits.items.items[chosen], path, tally);
        arena_destroy(own);
    }
    arena_destroy(arena);
}

static size_t number_of(const char *variable, size_t otherwise)
{
    const char *text = getenv(variable);
    return text == NULL ? otherwise : strtoul(text, NULL, 10);
}

static void test_single_changes(void **state)
{
    (void)state;
    const size_t all = number_of("SEAMWRIGHT_CHANGES", 64);
    struct unit_random random = {
        number_of("SEED", 1) * 0x9E3779B97F4A7C15u + 1};
    struct tally tally = {0};
    for (size_t i = 0; i < UNIT_COUNT(samples); i++)
        run_sample(samples[i], all / UNIT_COUNT(samples) + 1, &random, &tally);
    print_message("# %zu edits tried, %zu compile, %zu of them open, %zu "
                  "told wrong, %zu with the same text as old and new\n",
                  tally.tried, tally.judged, tally.open, tally.wrong,
                  tally.alike);
    for (int harm = 0; harm <= HARM_KINDS; harm++)
        print_message("#   %-8s %zu\n",
                      harm == HARM_KINDS ? "nothing"
                                         : harm_name((enum harm)harm),
                      tally.by_class[harm]);
    for (int kind = 0; kind < EDIT_KINDS; kind++)
        print_message("#   edits of %-14s %zu\n", edit_names[kind],
                      tally.by_kind[kind]);
    /* The samples have nearly a thousand edits that compile. */
    assert_true(tally.judged >= (all < 900 ? all : 900));
    assert_int_equal(tally.wrong, 0);
    assert_int_equal(tally.alike, 0);
}

/* A source compared with itself, and with the data that it gives. */
static void test_nothing_changes(void **state)
{
    for (size_t i = 0; i < UNIT_COUNT(samples); i++) {
        struct arena *arena = *state;
        const struct file_content file = file_read(arena, samples[i]);
        const struct compiled c = compile_text(arena, file.bytes);
        const struct comparison *comparison = compare_revisions(
            arena, facts_of(arena, &c), facts_of(arena, &c));
        assert_true(comparison->same_pattern);
        assert_false(comparison->partly);
        assert_int_equal(comparison->changes.count, 0);
        assert_int_equal(comparison->saved.count, 0);
    }
}

static int by_bytes(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

/* All faces of a cloth in one text, whatever their order and first corner. */
static const char *faces_text(struct arena *arena, const struct cloth *cloth)
{
    const char **faces = ARENA_ARRAY(arena, const char *, cloth->faces.count);
    struct buffer all = buffer_in(arena);
    for (size_t i = 0; i < cloth->faces.count; i++) {
        const struct face *face = &cloth->faces.items[i];
        const char *least = NULL;
        for (size_t first = 0; first < face->count; first++) {
            struct buffer one = buffer_in(arena);
            buffer_printf(&one, "%d", face->fabric);
            for (size_t k = 0; k < face->count; k++) {
                const struct vertex *at =
                    &face->points[(first + k) % face->count];
                buffer_char(&one, ' ');
                rational_key(&one, at->x);
                buffer_char(&one, ',');
                rational_key(&one, at->y);
            }
            if (least == NULL || strcmp(buffer_string(&one), least) < 0)
                least = buffer_string(&one);
        }
        faces[i] = least;
    }
    qsort(faces, cloth->faces.count, sizeof *faces, by_bytes);
    for (size_t i = 0; i < cloth->faces.count; i++)
        buffer_printf(&all, "%s;", faces[i]);
    return buffer_string(&all);
}

/* Digests are equal where the faces are, and nowhere else: a star and the same
 * one with two fabrics exchanged in its rays once had the same. */
static void test_digests(void **state)
{
    size_t equal = 0, other = 0;
    for (size_t i = 0; i < UNIT_COUNT(samples); i++) {
        struct arena *arena = *state;
        const struct file_content file = file_read(arena, samples[i]);
        const struct compiled c = compile_text(arena, file.bytes);
        const struct revision *facts = facts_of(arena, &c);
        const struct revision_quilt *quilt = &facts->quilts.items[0];
        const size_t count = quilt->steps.count;
        const char **texts = ARENA_ARRAY(arena, const char *, count + 1);
        for (size_t k = 0; k < count; k++)
            if (quilt->steps.items[k].cloth != NULL)
                texts[k] = faces_text(arena, quilt->steps.items[k].cloth);
        for (size_t k = 0; k < count; k++)
            for (size_t n = 0; n < k && texts[k] != NULL; n++) {
                if (texts[n] == NULL)
                    continue;
                const bool same = strcmp(texts[n], texts[k]) == 0;
                if ((strcmp(quilt->steps.items[n].result,
                            quilt->steps.items[k].result) == 0) != same)
                    fail_msg("%s: %s and %s", samples[i],
                             quilt->steps.items[n].part,
                             quilt->steps.items[k].part);
                equal += same;
                other += !same;
            }
    }
    print_message("# %zu pairs of equal cloths, %zu of others\n", equal, other);
    assert_true(other > 100);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_nothing_changes, unit_arena,
                                        unit_arena_end),
        cmocka_unit_test_setup_teardown(test_digests, unit_arena,
                                        unit_arena_end),
        cmocka_unit_test(test_single_changes)};
    return cmocka_run_group_tests_name("changes", tests, NULL, NULL);
}
