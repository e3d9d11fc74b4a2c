/* Words, names, labels and looks: they harm no cloth. A name is told once for
 * the pattern, where it belongs to it, and once for a quilt, where that has
 * it. */
#include <string.h>

#include "compare_parts.h"

/* ---- of a quilt ---- */

/* Labels go by size, so that another size moves those of others. */
static void compare_labels(struct quilt_pair *pair)
{
    for (size_t i = 0; i < pair->pieces.counts[0]; i++) {
        const int to = pair->pieces.of[0][i];
        if (to == NOWHERE || !same_piece(pair, i, (size_t)to))
            continue;
        struct change *change = compare_text(
            pair->arena, pair->comparison, pair, HARM_WORDS, CHANGE_LABEL, "",
            pair->quilt[0]->pieces.items[i].label,
            pair->quilt[1]->pieces.items[to].label);
        if (change == NULL)
            continue;
        change->piece[0] = (int)i;
        change->piece[1] = to;
        change->follows = has_own(pair, pair->first, HARM_WAY);
    }
}

/* A definition has several steps where it is mirrored, cast or made in sizes. */
static bool is_told(const struct comparison *comparison,
                    const struct change *last)
{
    for (const struct change *c = comparison->changes.items; c < last; c++)
        if (c->kind == last->kind && c->quilt[0] == last->quilt[0] &&
            strcmp(c->was[0], last->was[0]) == 0 &&
            strcmp(c->was[1], last->was[1]) == 0)
            return true;
    return false;
}

/* The same words once, however many steps of the definition have them. */
static void compare_step_text(struct quilt_pair *pair, enum change_kind kind,
                              const char *what, const char *old,
                              const char *changed)
{
    struct change *change =
        compare_text(pair->arena, pair->comparison, pair, HARM_WORDS, kind,
                     what, old, changed);
    if (change != NULL && is_told(pair->comparison, change))
        pair->comparison->changes.count--;
}

/* By their order in the step; a word more or less stands against nothing. */
static void compare_says(struct quilt_pair *pair, size_t old, int changed)
{
    const struct revision_step *a = &pair->quilt[0]->steps.items[old];
    const struct revision_step *b = &pair->quilt[1]->steps.items[changed];
    for (size_t i = 0; i < a->says.count || i < b->says.count; i++) {
        struct change *change = compare_text(
            pair->arena, pair->comparison, pair, HARM_WORDS, CHANGE_SAY,
            a->makes, i < a->says.count ? a->says.items[i] : "",
            i < b->says.count ? b->says.items[i] : "");
        if (change == NULL)
            continue;
        change->step[0] = (int)old;
        change->step[1] = changed;
        if (is_told(pair->comparison, change))
            pair->comparison->changes.count--;
    }
}

/* A block of one piece is no step: its name is told with the piece alone. Names
 * of steps, told before, stand there, too. */
static void compare_purposes(struct quilt_pair *pair)
{
    for (size_t i = 0; i < pair->pieces.counts[0] &&
                       !has_own(pair, pair->first, HARM_WORDS);
         i++) {
        const int to = pair->pieces.of[0][i];
        if (to == NOWHERE)
            continue;
        const struct revision_piece *a = &pair->quilt[0]->pieces.items[i];
        const struct revision_piece *b = &pair->quilt[1]->pieces.items[to];
        compare_text(pair->arena, pair->comparison, pair, HARM_WORDS,
                     CHANGE_NAME, a->label, a->purpose, b->purpose);
    }
}

/* The names that quilting has are mostly those of threads and lines; where
 * others were renamed, or a cloth got another color, it may come of that. */
static void compare_quilting_words(struct quilt_pair *pair)
{
    const struct revision_quilt *a = pair->quilt[0], *b = pair->quilt[1];
    if (strcmp(a->quilting, b->quilting) != 0 ||
        strcmp(a->quilting_words, b->quilting_words) == 0)
        return;
    const bool follows = has_own(pair, pair->first, HARM_WORDS);
    add_change(pair->arena, pair->comparison, pair, HARM_WORDS,
               CHANGE_QUILTING)
        ->follows = follows;
}

/* Older data lack names and words of steps. Then they are not compared: empty
 * would differ from everything. */
void compare_quilt_words(struct quilt_pair *pair)
{
    const struct revision_quilt *a = pair->quilt[0], *b = pair->quilt[1];
    const bool named = pair->comparison->revisions[0]->whole &&
                       pair->comparison->revisions[1]->whole;
    compare_text(pair->arena, pair->comparison, pair, HARM_WORDS, CHANGE_ID, "",
                 a->id, b->id);
    compare_text(pair->arena, pair->comparison, pair, HARM_WORDS, CHANGE_NAME,
                 a->id, a->name, b->name);
    compare_labels(pair);
    for (size_t i = 0; i < pair->steps.counts[0]; i++) {
        const int to = pair->steps.of[0][i];
        if (to == NOWHERE)
            continue;
        const struct revision_step *x = &a->steps.items[i];
        const struct revision_step *y = &b->steps.items[to];
        if (x->id[0] != '\0' && y->id[0] != '\0')
            compare_step_text(pair, CHANGE_ID, "", x->id, y->id);
        if (!named)
            continue;
        if (x->id[0] != '\0' && y->id[0] != '\0')
            compare_step_text(pair, CHANGE_NAME, x->id, x->name, y->name);
        compare_says(pair, i, to);
    }
    compare_quilting_words(pair);
    compare_purposes(pair);
}

/* ---- of the pattern ---- */

/* The texts that all its booklets have. */
static void compare_about(struct arena *arena, struct comparison *comparison)
{
    const struct revision *a = comparison->revisions[0];
    const struct revision *b = comparison->revisions[1];
    const struct {
        const char *what, *was, *is;
    } texts[] = {
        {"title", a->title, b->title},
        {"designer", a->designer, b->designer},
        {"publisher", a->publisher, b->publisher},
        {"skill", a->skill, b->skill},
        {"summary", a->summary, b->summary},
    };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        if (i < 3 || (a->whole && b->whole))
            compare_text(arena, comparison, NULL, HARM_WORDS, CHANGE_TEXT,
                         texts[i].what, texts[i].was, texts[i].is);
    compare_text(arena, comparison, NULL, HARM_WORDS, CHANGE_ID, "", a->id,
                 b->id);
    if (!a->whole || !b->whole || strcmp(a->looks, b->looks) == 0)
        return;
    add_change(arena, comparison, NULL, HARM_WORDS, CHANGE_LOOKS);
}

/* What cloth is planned by; what comes of it is told before. */
static void compare_rules(struct arena *arena, struct comparison *comparison)
{
    const struct revision *a = comparison->revisions[0];
    const struct revision *b = comparison->revisions[1];
    const bool follows = comparison->changes.count > 0 &&
                         comparison->changes.items[0].harm != HARM_WORDS;
    struct change *change =
        compare_text(arena, comparison, NULL, HARM_WORDS, CHANGE_PLAN_RULE,
                     "allowance", a->allowance, b->allowance);
    if (change != NULL)
        change->follows = follows;
    change =
        compare_text(arena, comparison, NULL, HARM_WORDS, CHANGE_PLAN_RULE,
                     "cutting-step", a->cutting_step, b->cutting_step);
    if (change != NULL)
        change->follows = follows;
}

/* What all quilts share, told once. A print that gains a way is the one thing
 * among it that harms cloth: pieces that were cut across it are wrong. */
void compare_pattern_words(struct arena *arena, struct comparison *comparison,
                           const struct pairs *fabrics)
{
    compare_rules(arena, comparison);
    compare_about(arena, comparison);
    for (size_t i = 0; i < fabrics->counts[0]; i++) {
        if (fabrics->of[0][i] == NOWHERE)
            continue;
        const struct revision_fabric *a =
            &comparison->revisions[0]->fabrics.items[i];
        const struct revision_fabric *b =
            &comparison->revisions[1]->fabrics.items[fabrics->of[0][i]];
        compare_text(arena, comparison, NULL, HARM_WORDS, CHANGE_ID, "", a->id,
                     b->id);
        compare_text(arena, comparison, NULL, HARM_WORDS, CHANGE_NAME, a->id,
                     a->name, b->name);
        /* Pieces that lay with no way cannot be turned into one. */
        if (a->one_way == b->one_way)
            continue;
        struct change *change = add_change(
            arena, comparison, NULL, b->one_way ? HARM_CUT : HARM_WAY,
            CHANGE_PRINT);
        change->what = a->name;
        change->fabric[0] = (int)i;
        change->fabric[1] = fabrics->of[0][i];
    }
}
