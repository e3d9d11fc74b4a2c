/* Errata sheets of samples with one edit of each kind: in both languages and on
 * both papers. What is told must be what the comparison holds: each class of
 * harm under its heading, the old and the new form of what was cut or sewn
 * otherwise as drawings, and nothing off the page. */
#include "../compare/edits.h"
#include "compose.h"
#include "look.h"
#include "phrase.h"
#include "render.h"

struct telling {
    struct arena *arena;
    struct typeset *typeset;
    const struct phrases *phrases;
    const struct comparison *comparison;
    const char *edit;
};

/* ---- what stands on a sheet ---- */

struct seen {
    bool off;     /* a text begins outside the paper */
    size_t cloth; /* shapes of cloth */
    size_t marks; /* lines and arrows in the color of what hands do */
    struct buffer text;
};

static struct seen look_at(struct arena *arena, const struct book *book,
                           bool a4)
{
    struct seen seen = {.text = buffer_in(arena)};
    const double width = a4 ? MM(210.0) : MM(215.9);
    const double height = a4 ? MM(297.0) : MM(279.4);
    for (size_t p = 0; p < book->pages.count; p++) {
        const struct item_list items = page_items(arena, book->pages.items[p]);
        for (size_t i = 0; i < items.count; i++) {
            const struct item *item = &items.items[i];
            if (item->kind == ITEM_PATH) {
                seen.cloth += item->as.path.role == ROLE_CLOTH;
                seen.marks += item->as.path.role == ROLE_MARK;
            }
            if (item->kind != ITEM_TEXT)
                continue;
            const struct text_item *text = &item->as.text;
            seen.off |= text->x < 0 || text->x > width || text->y < 0 ||
                        text->y > height;
            buffer_printf(&seen.text, "%s\n", text->text);
        }
    }
    buffer_string(&seen.text);
    return seen;
}

/* Changes that come of a worse one are told below that. */
static bool has_own_of(const struct comparison *of, enum harm harm)
{
    for (size_t i = 0; i < of->changes.count; i++)
        if (of->changes.items[i].harm == harm && !of->changes.items[i].follows)
            return true;
    return false;
}

/* The data tell the faces of a step that has not too many. */
static bool has_faces(const struct comparison *of, const struct change *change)
{
    for (int side = 0; side < 2; side++)
        if (change->step[side] == NOWHERE ||
            of->revisions[side]
                    ->quilts.items[change->quilt[side]]
                    .steps.items[change->step[side]]
                    .cloth == NULL)
            return false;
    return true;
}

/* What comes out otherwise has an old and a new form. */
static bool has_forms(const struct comparison *of)
{
    for (size_t i = 0; i < of->changes.count; i++) {
        const struct change *change = &of->changes.items[i];
        if (!change->follows && change->kind == CHANGE_STEP &&
            change->harm == HARM_RESULT && has_faces(of, change))
            return true;
    }
    return false;
}

/* The ways of all seams of a step, in their order. */
static const char *ways_of(struct arena *arena,
                           const struct revision_step *step)
{
    struct buffer out = buffer_in(arena);
    for (size_t i = 0; i < step->actions.count; i++)
        for (size_t k = 0; k < step->actions.items[i].seams.count; k++)
            buffer_printf(&out, "%s ",
                          step->actions.items[i].seams.items[k].way);
    return buffer_string(&out);
}

/* ensures: the caption of the figure that a change must have; NULL for a change
 * that may have none. */
static const char *caption_of(struct arena *arena,
                              const struct telling *telling,
                              const struct change *change)
{
    const struct comparison *of = telling->comparison;
    if (change->follows)
        return NULL;
    if (change->kind == CHANGE_QUILTING && change->harm == HARM_RESULT)
        return say(arena, telling->phrases, "compare.quilting-old", NULL);
    if (change->kind != CHANGE_STEP || change->harm != HARM_WAY ||
        !has_faces(of, change))
        return NULL;
    const struct revision_step *steps[2];
    for (int side = 0; side < 2; side++)
        steps[side] = &of->revisions[side]
                           ->quilts.items[change->quilt[side]]
                           .steps.items[change->step[side]];
    return strcmp(ways_of(arena, steps[0]), ways_of(arena, steps[1])) == 0
               ? NULL
               : say(arena, telling->phrases, "compare.figure-pressed", "name",
                     steps[1]->makes, NULL);
}

/* Pressing and quilting show nothing in the cloth: lines and arrows do. */
static void check_marks(struct arena *arena, const struct telling *telling,
                        const struct seen *seen)
{
    for (size_t i = 0; i < telling->comparison->changes.count; i++) {
        const char *caption = caption_of(
            arena, telling, &telling->comparison->changes.items[i]);
        if (caption == NULL)
            continue;
        if (strstr(seen->text.bytes, caption) == NULL)
            fail_msg("%s: the sheet lacks the figure \"%s\"", telling->edit,
                     caption);
        if (seen->marks < 2)
            fail_msg("%s: no difference is marked", telling->edit);
    }
}

static void check_sheet(const struct telling *telling, bool a4)
{
    static const char *const headings[HARM_KINDS] = {
        "compare.harm-cut",    "compare.harm-cloth", "compare.harm-count",
        "compare.harm-result", "compare.harm-way",   "compare.rest"};
    struct arena *arena = arena_create();
    const struct book *book =
        compose_errata(arena, telling->typeset, telling->phrases,
                       telling->comparison, a4 ? FORM_A4 : FORM_LETTER);
    const struct seen seen = look_at(arena, book, a4);
    if (seen.off)
        fail_msg("%s: something lies off the page", telling->edit);
    if (has_forms(telling->comparison) && seen.cloth < 2)
        fail_msg("%s: no old and new form is drawn", telling->edit);
    check_marks(arena, telling, &seen);
    for (int harm = 0; harm < HARM_KINDS; harm++) {
        const char *heading =
            say(arena, telling->phrases, headings[harm], NULL);
        /* Words are listed without a heading, before this sentence. */
        if ((harm == HARM_WORDS ||
             has_own_of(telling->comparison, (enum harm)harm)) &&
            strstr(seen.text.bytes, heading) == NULL)
            fail_msg("%s: the sheet lacks \"%s\"", telling->edit, heading);
    }
    const struct rendered pdf = render_pdf(arena, telling->typeset, book);
    assert_null(pdf.problem);
    assert_true(pdf.length > 1000);
    arena_destroy(arena);
}

/* ---- edits ---- */

/* Both as words of a terminal and as data, which name every change. */
static void check_words(const struct telling *telling)
{
    const char *words = render_changes(telling->arena, telling->comparison);
    const char *data = render_changes_json(telling->arena, telling->comparison);
    size_t told = 0;
    for (const char *at = data; (at = strstr(at, "\"harm\"")) != NULL; at++)
        told++;
    assert_true(strlen(words) > 0);
    assert_true(told >= telling->comparison->changes.count);
}

/* ensures: false where the edit is refused, or nothing comes of it. */
static bool try_edit(struct telling *telling, const struct revision *old,
                     const struct edit *edit)
{
    const struct compiled changed = compile_text(telling->arena, edit->text);
    if (changed.plans == NULL)
        return false;
    struct comparison *comparison = compare_revisions(
        telling->arena, old, facts_of(telling->arena, &changed));
    if (!comparison->same_pattern || comparison->total == 0)
        return false;
    comparison->names[0] = "old.xml";
    comparison->names[1] = "new.xml";
    telling->comparison = comparison;
    telling->edit = arena_printf(telling->arena, "%s: %s",
                                 edit_names[edit->kind], edit->what);
    for (int language = 0; language < 2; language++) {
        telling->phrases =
            phrases_load(telling->arena, language == 0 ? "en" : "de");
        check_sheet(telling, language == 1);
    }
    check_words(telling);
    return true;
}

/* Of each kind so many that the source takes, drawn from a seed. ensures: how
 * many were told. */
static size_t run_sample(struct typeset *typeset, const char *path,
                         struct unit_random *random, size_t of_each)
{
    struct arena *arena = arena_create();
    const char *text = base_of(arena, path);
    const struct compiled base = compile_text(arena, text);
    assert_non_null(base.plans);
    const struct revision *old = facts_of(arena, &base);
    const struct edits edits = edits_of(arena, text, base.pattern);
    size_t told = 0;
    for (int kind = 0; kind < EDIT_KINDS; kind++) {
        size_t left = of_each, tries = 6 * of_each;
        const size_t from = (size_t)unit_below(random, edits.items.count);
        for (size_t i = 0; i < edits.items.count && left > 0 && tries > 0;
             i++) {
            const struct edit *edit =
                &edits.items.items[(from + i) % edits.items.count];
            if ((int)edit->kind != kind)
                continue;
            struct arena *own = arena_create();
            struct telling telling = {own, typeset, NULL, NULL, ""};
            const bool taken = try_edit(&telling, old, edit);
            arena_destroy(own);
            left -= taken;
            told += taken;
            tries--;
        }
    }
    arena_destroy(arena);
    return told;
}

static void test_each_kind_of_change(void **state)
{
    static const char *const samples[] = {"samples/lantern-walk.xml",
                                          "samples/turning-lamp.xml",
                                          "samples/vane-harbor.xml"};
    struct unit_random random = {20261130};
    struct typeset *typeset = typeset_create();
    size_t told = 0;
    (void)state;
    for (size_t i = 0; i < UNIT_COUNT(samples); i++)
        told += run_sample(typeset, samples[i], &random, 1);
    typeset_destroy(typeset);
    print_message("# %zu sheets\n", 2 * told);
    assert_true(told >= 30);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_each_kind_of_change),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
