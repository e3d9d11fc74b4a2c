/* Two revisions become a list of changes. Pieces come first, as sewing and
 * cloth are compared by what became of them. Read next: match.c, pieces.c. */
#include <stdlib.h>
#include <string.h>

#include "compare_parts.h"

/* These names stand in data; scripts rely on them. */
const char *harm_name(enum harm harm)
{
    static const char *const names[HARM_KINDS] = {"cut",    "cloth", "count",
                                                  "result", "way",   "words"};
    return names[harm];
}

/* These, too. In the order of enum change_kind. */
const char *change_name(enum change_kind kind)
{
    static const char *const names[CHANGE_KINDS] = {
        "piece",        "piece-count",   "print",        "amount",
        "cloth-width",  "sold",          "backing",      "batting",
        "plan",         "step",          "step-added",   "step-removed",
        "order",        "quilting",      "id",           "name",
        "label",        "say",           "text",         "color",
        "price",        "code",          "looks",        "plan-rule",
        "quilt-added",  "quilt-removed", "colorway-added",
        "colorway-removed"};
    return names[kind];
}

/* All places are nowhere at first: who adds a change fills in those that it is
 * about. */
struct change *add_change(struct arena *arena, struct comparison *comparison,
                          const struct quilt_pair *pair, enum harm harm,
                          enum change_kind kind)
{
    struct change *change = LIST_ADD(arena, &comparison->changes);
    *change = (struct change){
        .harm = harm, .kind = kind, .what = "", .was = {"", ""}};
    for (int side = 0; side < 2; side++) {
        change->quilt[side] = pair == NULL ? NOWHERE : pair->index[side];
        change->colorway[side] = change->piece[side] = NOWHERE;
        change->step[side] = change->fabric[side] = NOWHERE;
        change->beside[side] = NOWHERE;
    }
    return change;
}

/* From the first change of a quilt on, so that one quilt does not hide what
 * another has. */
bool has_own(const struct quilt_pair *pair, size_t from, enum harm most)
{
    for (size_t i = from; i < pair->comparison->changes.count; i++) {
        const struct change *change = &pair->comparison->changes.items[i];
        if (change->harm <= most && !change->follows)
            return true;
    }
    return false;
}

/* Equal texts are the usual case, and leave the list as it is. */
struct change *compare_text(struct arena *arena, struct comparison *comparison,
                            const struct quilt_pair *pair, enum harm harm,
                            enum change_kind kind, const char *what,
                            const char *old, const char *changed)
{
    if (strcmp(old, changed) == 0)
        return NULL;
    struct change *change = add_change(arena, comparison, pair, harm, kind);
    change->what = what;
    change->was[0] = old;
    change->was[1] = changed;
    return change;
}

/* ---- whether it is one pattern ---- */

/* How many of the pieces are the same, of 100. */
static size_t share_alike(struct arena *arena,
                          const struct comparison *comparison,
                          const struct pairs *fabrics,
                          const struct pairs *quilts)
{
    size_t alike = 0, all = 0;
    for (size_t q = 0; q < quilts->counts[0]; q++) {
        if (quilts->of[0][q] == NOWHERE)
            continue;
        struct quilt_pair pair = {
            .arena = arena,
            .comparison = (struct comparison *)(uintptr_t)comparison,
            .fabrics = fabrics};
        pair.quilt[0] = &comparison->revisions[0]->quilts.items[q];
        pair.quilt[1] =
            &comparison->revisions[1]->quilts.items[quilts->of[0][q]];
        match_pieces(&pair);
        for (size_t i = 0; i < pair.pieces.counts[0]; i++)
            alike += pair.pieces.of[0][i] != NOWHERE;
        all += pair.pieces.counts[0] > pair.pieces.counts[1]
                   ? pair.pieces.counts[0]
                   : pair.pieces.counts[1];
    }
    return all == 0 ? 0 : 100 * alike / all;
}

/* ---- quilts ---- */

/* The order matters: sewing asks which pieces changed, cloth asks both, and
 * words come last, as names and labels may have moved for any of them. */
static void compare_quilt(struct arena *arena, struct comparison *comparison,
                          const struct pairs *fabrics, size_t old, int changed)
{
    struct quilt_pair pair = {
        .arena = arena,
        .comparison = comparison,
        .index = {(int)old, changed},
        .quilt = {&comparison->revisions[0]->quilts.items[old],
                  &comparison->revisions[1]->quilts.items[changed]},
        .fabrics = fabrics,
        .first = comparison->changes.count};
    match_pieces(&pair);
    compare_pieces(&pair);
    match_steps(&pair);
    compare_sewing(&pair);
    compare_cloths(&pair);
    compare_quilt_words(&pair);
    save_pieces(&pair);
}

/* The first version numbers steps otherwise: of it, only what all versions say
 * alike is compared. */
static void compare_quilts(struct arena *arena, struct comparison *comparison,
                           const struct pairs *fabrics,
                           const struct pairs *quilts)
{
    const struct revision *a = comparison->revisions[0];
    const struct revision *b = comparison->revisions[1];
    for (size_t i = 0; i < quilts->counts[0]; i++) {
        if (quilts->of[0][i] == NOWHERE)
            add_change(arena, comparison, NULL, HARM_WORDS,
                       CHANGE_QUILT_REMOVED)
                ->what = a->quilts.items[i].id;
        else if (a->version > 1 && b->version > 1)
            compare_quilt(arena, comparison, fabrics, i, quilts->of[0][i]);
    }
    for (size_t j = 0; j < quilts->counts[1]; j++)
        if (quilts->of[1][j] == NOWHERE)
            add_change(arena, comparison, NULL, HARM_WORDS, CHANGE_QUILT_ADDED)
                ->what = b->quilts.items[j].id;
}

/* ---- the whole ---- */

/* Worst first; in a class those that others follow from; then as found. */
static void sort_changes(struct arena *arena, struct comparison *comparison)
{
    const size_t count = comparison->changes.count;
    struct change *sorted = ARENA_ARRAY(arena, struct change, count + 1);
    size_t filled = 0;
    for (int harm = 0; harm < HARM_KINDS; harm++)
        for (int follows = 0; follows < 2; follows++)
            for (size_t i = 0; i < count; i++)
                if ((int)comparison->changes.items[i].harm == harm &&
                    comparison->changes.items[i].follows == (follows == 1))
                    sorted[filled++] = comparison->changes.items[i];
    comparison->changes.items = sorted;
    comparison->changes.capacity = count;
    for (size_t i = 0; i < count; i++)
        if (!sorted[i].follows) {
            comparison->counts[sorted[i].harm]++;
            comparison->total++;
        }
}

/* Names of a colorway are the same in each quilt, and are told once. */
static void drop_doubles(struct comparison *comparison)
{
    size_t kept = 0;
    for (size_t i = 0; i < comparison->changes.count; i++) {
        const struct change c = comparison->changes.items[i];
        bool told = false;
        for (size_t k = 0; k < kept && c.harm == HARM_WORDS; k++) {
            const struct change *d = &comparison->changes.items[k];
            told |= d->kind == c.kind && d->harm == c.harm &&
                    c.kind != CHANGE_LABEL && strcmp(d->what, c.what) == 0 &&
                    strcmp(d->was[0], c.was[0]) == 0 &&
                    strcmp(d->was[1], c.was[1]) == 0 &&
                    d->fabric[0] == c.fabric[0];
        }
        if (!told)
            comparison->changes.items[kept++] = c;
    }
    comparison->changes.count = kept;
}

/* Fabrics first, as a piece of renamed cloth is the same piece; then each quilt
 * by itself; then what all of them share. */
struct comparison *compare_revisions(struct arena *arena,
                                     const struct revision *old,
                                     const struct revision *changed)
{
    struct comparison *comparison = ARENA_NEW(arena, struct comparison);
    comparison->revisions[0] = old;
    comparison->revisions[1] = changed;
    comparison->partly = !old->whole || !changed->whole;
    const struct pairs fabrics = match_fabrics(arena, old, changed);
    const struct pairs quilts = match_quilts(arena, old, changed);
    enum { HALF = 50 };
    comparison->same_pattern =
        strcmp(old->id, changed->id) == 0 ||
        share_alike(arena, comparison, &fabrics, &quilts) >= HALF;
    if (!comparison->same_pattern)
        return comparison;
    compare_quilts(arena, comparison, &fabrics, &quilts);
    compare_pattern_words(arena, comparison, &fabrics);
    drop_doubles(comparison);
    sort_changes(arena, comparison);
    return comparison;
}
