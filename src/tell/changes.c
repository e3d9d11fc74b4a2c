/* Each change as a title, what was told and what is told now. Sentences are
 * those of the language; names, amounts and steps are as the revisions have
 * them. Read next: changes_advice.c. */
#include "changes.h"

#include <string.h>

#include "buffer.h"

/* ---- facts as words ---- */

/* In the new revision's unit; two revisions in different units differ in every
 * length anyway. */
const char *change_length(const struct change_wording *w,
                          struct rational length)
{
    const enum length_unit unit = w->comparison->revisions[1]->unit;
    const char *number =
        w->glyphs                      ? length_glyphs(w->arena, length, unit)
        : rational_is_fraction(length) ? length_plain(w->arena, length, unit)
                                       : say(w->arena, w->phrases,
                                             "compare.about", "length",
                                             length_on_ruler(w->arena, length,
                                                             unit),
                                             NULL);
    const char *point = strchr(number, '.');
    const char *sign = say(w->arena, w->phrases, "number.point", NULL);
    return point == NULL
               ? number
               : arena_printf(w->arena, "%.*s%s%s", (int)(point - number),
                              number, sign, point + 1);
}

/* As the language has it. */
static const char *unit_word(const struct change_wording *w)
{
    return say(w->arena, w->phrases,
               w->comparison->revisions[1]->unit == UNIT_CM ? "unit.centimetre"
                                                            : "unit.inch",
               NULL);
}

/* "2½ × 6½ in" */
const char *change_size(const struct change_wording *w, struct rational width,
                        struct rational height)
{
    return arena_printf(w->arena, "%s %s %s %s", change_length(w, width),
                        w->glyphs ? "\u00d7" : "x", change_length(w, height),
                        unit_word(w));
}

/* NULL for a change of the pattern itself. */
static const struct revision_quilt *quilt_of(const struct change_wording *w,
                                             const struct change *change,
                                             int side)
{
    return change->quilt[side] == NOWHERE
               ? NULL
               : &w->comparison->revisions[side]
                      ->quilts.items[change->quilt[side]];
}

/* The name of the role, as labels and steps call it, not that of a bolt. */
const char *change_fabric(const struct change_wording *w, int side, int fabric)
{
    return fabric == NOWHERE
               ? ""
               : w->comparison->revisions[side]->fabrics.items[fabric].name;
}

/* "A1: 120 of Night sky, 2½ × 6½ in" */
const char *change_piece(const struct change_wording *w,
                         const struct revision_quilt *quilt, int side,
                         int index)
{
    const struct revision_piece *piece = &quilt->pieces.items[index];
    const char *cloth = change_fabric(w, side, piece->fabric);
    if (piece->strip)
        return say(w->arena, w->phrases, "compare.strip-told", "cloth", cloth,
                   "width",
                   arena_printf(w->arena, "%s %s",
                                change_length(w, piece->width), unit_word(w)),
                   NULL);
    return say(w->arena, w->phrases,
               piece->from_each > 1 ? "compare.squares-told"
                                    : "compare.piece-told",
               "label", piece->label, "count",
               say_count(w->arena, cut_by_hand(piece)), "cloth", cloth, "size",
               change_size(w, piece->width, piece->height), "triangles",
               say_count(w->arena, piece->count), NULL);
}

/* "" for a piece that only the other revision has. */
static const char *piece_or_none(const struct change_wording *w,
                                 const struct change *change, int side)
{
    return change->piece[side] == NOWHERE
               ? ""
               : change_piece(w, quilt_of(w, change, side), side,
                              change->piece[side]);
}

/* How far lines may lie apart is told of a batting only where that changed. */
static bool is_other_gap(const struct change_wording *w,
                         const struct change *change)
{
    struct rational gaps[2];
    for (int side = 0; side < 2; side++)
        gaps[side] = quilt_of(w, change, side)
                         ->colorways.items[change->colorway[side]]
                         .batting.gap;
    return rational_known(gaps[0]) != rational_known(gaps[1]) ||
           (rational_known(gaps[0]) && !rational_equal(gaps[0], gaps[1]));
}

/* "4\u215e yd, 74 \u00d7 86 in", "74 \u00d7 86 in, lines at most 8 in apart"; ""
 * for none. */
static const char *layer_told(const struct change_wording *w,
                              const struct change *change, int side)
{
    const struct revision_quilt *quilt = quilt_of(w, change, side);
    const struct revision_colorway *colorway =
        &quilt->colorways.items[change->colorway[side]];
    const struct revision_layer *layer = change->kind == CHANGE_BACKING
                                             ? &colorway->backing
                                             : &colorway->batting;
    const char *size = change_size(w, layer->width, layer->height);
    if (!layer->wanted)
        return "";
    if (rational_known(layer->gap) && is_other_gap(w, change))
        return say(w->arena, w->phrases, "compare.layer-gap", "size", size,
                   "gap",
                   arena_printf(w->arena, "%s %s",
                                change_length(w, layer->gap), unit_word(w)),
                   NULL);
    if (layer->amount[0] != '\0')
        size = say(w->arena, w->phrases, "list.comma", "first", layer->amount,
                   "next", size, NULL);
    return layer->fabric == NOWHERE
               ? size
               : say(w->arena, w->phrases, "compare.layer-cloth", "cloth",
                     change_fabric(w, side, layer->fabric), "size", size, NULL);
}

/* Texts of the data have plain digits; a page has signs for fractions. */
static const char *on_page(const struct change_wording *w, const char *text)
{
    struct buffer out = buffer_in(w->arena);
    for (const char *at = text; *at != '\0';) {
        const bool begins = at == text || at[-1] == ' ' || at[-1] == '(';
        size_t digits = begins ? strspn(at, "0123456789 /") : 0;
        while (digits > 0 && (at[digits - 1] == ' ' || at[digits - 1] == '/'))
            digits--;
        const struct length_result length =
            length_parse(at, digits, UNIT_IN);
        if (digits > 0 && length.fault == LENGTH_OK &&
            memchr(at, '/', digits) != NULL) {
            buffer_text(&out, length_glyphs(w->arena, length.value, UNIT_IN));
            at += digits;
        } else {
            buffer_char(&out, *at++);
        }
    }
    return buffer_string(&out);
}

/* ---- steps ---- */

/* Enough to find them in the figure; more are no help. */
enum { PARTS_TOLD = 6 };

/* Parts that do not lie as they did, each with its turn: "Wing 90\u00b0". */
static const char *parts_told(const struct change_wording *w,
                              const struct revision_step *step,
                              const struct revision_step *other)
{
    struct buffer out = buffer_in(w->arena);
    size_t told = 0;
    for (size_t i = 0; i < step->parts.count; i++) {
        const struct revision_part *part = &step->parts.items[i];
        const struct revision_part *beside =
            i < other->parts.count ? &other->parts.items[i] : NULL;
        if (beside != NULL && beside->turn == part->turn &&
            beside->piece == part->piece && beside->step == part->step &&
            rational_equal(beside->x, part->x) &&
            rational_equal(beside->y, part->y))
            continue;
        if (told++ == PARTS_TOLD) {
            buffer_text(&out, ", ...");
            break;
        }
        buffer_printf(&out, "%s%s", told == 1 ? "" : ", ", part->name);
        if (part->turn != 0)
            buffer_printf(&out, " %ld\u00b0", part->turn);
    }
    return buffer_string(&out);
}

/* NULL where the change is about no step. */
static const struct revision_step *step_of(const struct change_wording *w,
                                           const struct change *change,
                                           int side)
{
    const struct revision_quilt *quilt = quilt_of(w, change, side);
    return quilt == NULL || change->step[side] == NOWHERE
               ? NULL
               : &quilt->steps.items[change->step[side]];
}

/* Sentences that both begin or end with are left out, as who looks for what
 * differs would have to read them twice. */
static void drop_common(struct arena *arena, struct told_change *told)
{
    const char *a = told->was, *b = told->is;
    size_t same = 0, first = 0, last = 0;
    for (; a[same] != '\0' && a[same] == b[same]; same++)
        if (a[same] == ' ' && same > 0 && a[same - 1] == '.')
            first = same + 1;
    a += first;
    b += first;
    const size_t m = strlen(a), n = strlen(b);
    for (same = 0; same < m && same < n && a[m - 1 - same] == b[n - 1 - same];
         same++)
        if (a[m - 1 - same] == ' ' && same > 0 && m - 1 - same > 0 &&
            n - 1 - same > 0 && a[m - 2 - same] == '.' &&
            b[n - 2 - same] == '.')
            last = same + 1;
    told->was = arena_copy(arena, a, m - last);
    told->is = arena_copy(arena, b, n - last);
}

static const char *step_key(const struct change *change)
{
    static const char *const keys[2] = {"compare.step-result",
                                        "compare.step-way"};
    return change->kind == CHANGE_STEP_ADDED     ? "compare.step-added"
           : change->kind == CHANGE_STEP_REMOVED ? "compare.step-removed"
           : change->follows && change->harm == HARM_RESULT
               ? "compare.step-follows"
               : keys[change->harm == HARM_WAY];
}

/* By the old booklet, where it is in that. */
const char *change_step_title(const struct change_wording *w,
                              const struct change *change, bool all_casts)
{
    const struct revision_step *step = step_of(w, change, 0) != NULL
                                           ? step_of(w, change, 0)
                                           : step_of(w, change, 1);
    return say(w->arena, w->phrases, step_key(change), "number",
               say_count(w->arena, step->number), "step",
               all_casts ? step->name : step->makes, NULL);
}

/* The sentences of a step often stay where a part lies turned: then its parts
 * are told. */
static void tell_step(const struct change_wording *w,
                      const struct change *change, struct told_change *told)
{
    const struct revision_step *steps[2] = {step_of(w, change, 0),
                                            step_of(w, change, 1)};
    const char *key = step_key(change);
    told->title = change_step_title(w, change, false);
    told->was = change->was[0];
    told->is = change->was[1];
    if (steps[0] != NULL && steps[1] != NULL &&
        strcmp(told->was, told->is) == 0) {
        told->was = parts_told(w, steps[0], steps[1]);
        told->is = parts_told(w, steps[1], steps[0]);
    } else if (steps[0] != NULL && steps[1] != NULL) {
        drop_common(w->arena, told);
    }
    /* Two sizes of one thing may differ in that alone. */
    if (steps[0] != NULL && steps[1] != NULL &&
        strcmp(told->was, told->is) == 0) {
        told->was = change_size(w, steps[0]->width, steps[0]->height);
        told->is = change_size(w, steps[1]->width, steps[1]->height);
    }
    /* Nor their size: where other pieces were told before, the title says all;
     * else rows changed places. */
    if (steps[0] != NULL && steps[1] != NULL &&
        strcmp(told->was, told->is) == 0) {
        told->was = told->is = "";
        if (strcmp(key, "compare.step-follows") == 0)
            return;
        told->was = say(w->arena, w->phrases, "compare.placed-old", NULL);
        told->is = say(w->arena, w->phrases, "compare.placed-new", NULL);
    }
}

/* "step 3, after Gate (2)": what it is made behind or before, and the number of
 * both, as they stand in that booklet. */
static const char *order_told(const struct change_wording *w,
                              const struct change *change, int side)
{
    const struct revision_quilt *quilt = quilt_of(w, change, side);
    const struct revision_step *step = step_of(w, change, side);
    const struct revision_step *beside =
        &quilt->steps.items[change->beside[side]];
    return say(w->arena, w->phrases,
               side == 0 ? "compare.order-after" : "compare.order-before",
               "number", say_count(w->arena, step->number), "other",
               beside->makes, "beside", say_count(w->arena, beside->number),
               NULL);
}

/* ---- where it stands ---- */

/* In the old booklet: the page of the step, of the cloth, of the layers. */
static const char *where_of(const struct change_wording *w,
                            const struct change *change)
{
    const struct revision_quilt *quilt = quilt_of(w, change, 0);
    const struct revision_step *step = step_of(w, change, 0);
    if (quilt == NULL)
        return "";
    const bool layer =
        change->kind == CHANGE_BACKING || change->kind == CHANGE_BATTING;
    const char *page = step != NULL ? page_of_step(quilt, step->number)
                       : layer      ? page_of_layers(quilt)
                       : change->fabric[0] != NOWHERE
                           ? page_of_cloth(quilt, change->fabric[0])
                           : NULL;
    return page == NULL ? ""
                        : say(w->arena, w->phrases, "compare.where", "page",
                              page, NULL);
}

/* ---- titles ---- */

/* Sentences that need no more than a name. */
static const char *const titles[CHANGE_KINDS] = {
    [CHANGE_PIECE] = "compare.piece",
    [CHANGE_PIECE_COUNT] = "compare.count",
    [CHANGE_PRINT] = "compare.print",
    [CHANGE_AMOUNT] = "compare.amount",
    [CHANGE_CLOTH_WIDTH] = "compare.width",
    [CHANGE_SOLD] = "compare.sold",
    [CHANGE_BACKING] = "compare.backing",
    [CHANGE_BATTING] = "compare.batting",
    [CHANGE_PLAN] = "compare.plan",
    [CHANGE_ORDER] = "compare.order",
    [CHANGE_QUILTING] = "compare.quilting",
    [CHANGE_ID] = "compare.id",
    [CHANGE_NAME] = "compare.name",
    [CHANGE_LABEL] = "compare.label",
    [CHANGE_SAY] = "compare.say",
    [CHANGE_COLOR] = "compare.color",
    [CHANGE_PRICE] = "compare.price",
    [CHANGE_CODE] = "compare.code",
    [CHANGE_LOOKS] = "compare.looks",
    [CHANGE_QUILT_ADDED] = "compare.quilt-added",
    [CHANGE_QUILT_REMOVED] = "compare.quilt-removed",
    [CHANGE_COLORWAY_ADDED] = "compare.colorway-added",
    [CHANGE_COLORWAY_REMOVED] = "compare.colorway-removed",
};

/* The texts of a pattern, by the name of their attribute. */
static const char *text_key(const char *what)
{
    static const char *const keys[][2] = {
        {"title", "compare.text-title"},
        {"designer", "compare.text-designer"},
        {"publisher", "compare.text-publisher"},
        {"skill", "compare.text-skill"},
        {"summary", "compare.text-summary"},
        {"allowance", "compare.rule-allowance"},
        {"cutting-step", "compare.rule-step"}};
    size_t i = 0;
    while (strcmp(keys[i][0], what) != 0)
        i++;
    return keys[i][1];
}

/* Of a piece: how it is told when it comes and goes; a binding has no label. */
static const char *piece_title(const struct change_wording *w,
                               const struct change *change)
{
    const char *key = change->kind == CHANGE_PIECE ? "compare.piece"
                      : change->piece[0] == NOWHERE ? "compare.count-added"
                      : change->piece[1] == NOWHERE ? "compare.count-removed"
                                                    : "compare.count";
    return change->what[0] == '\0'
               ? say(w->arena, w->phrases, "compare.strip", NULL)
               : say(w->arena, w->phrases, key, "name", change->what, NULL);
}

/* By the table of sentences; three kinds have one that depends on more. */
static const char *title_of(const struct change_wording *w,
                            const struct change *change)
{
    const bool text =
        change->kind == CHANGE_TEXT || change->kind == CHANGE_PLAN_RULE;
    const char *key = text ? text_key(change->what) : titles[change->kind];
    if (change->kind == CHANGE_PIECE || change->kind == CHANGE_PIECE_COUNT)
        return piece_title(w, change);
    if (change->kind == CHANGE_QUILTING && change->harm == HARM_WORDS)
        key = "compare.quilting-words";
    if (change->kind == CHANGE_PRINT && change->harm == HARM_WAY)
        key = "compare.print-lost";
    return say(w->arena, w->phrases, key, "name", change->what, NULL);
}

/* All kinds are named, so that a new one cannot be forgotten: most are told by
 * the texts that were compared. */
static struct told_change tell_plain(const struct change_wording *w,
                                     const struct change *change)
{
    struct told_change told = {"", change->was[0], change->was[1],
                               where_of(w, change)};
    switch (change->kind) {
    case CHANGE_STEP:
    case CHANGE_STEP_ADDED:
    case CHANGE_STEP_REMOVED:
        tell_step(w, change, &told);
        return told;
    case CHANGE_PIECE:
    case CHANGE_PIECE_COUNT:
        told.was = piece_or_none(w, change, 0);
        told.is = piece_or_none(w, change, 1);
        break;
    case CHANGE_CLOTH_WIDTH:
        told.was =
            arena_printf(w->arena, "%s %s", change->was[0], unit_word(w));
        told.is = arena_printf(w->arena, "%s %s", change->was[1], unit_word(w));
        break;
    case CHANGE_BACKING:
    case CHANGE_BATTING:
        told.was = layer_told(w, change, 0);
        told.is = layer_told(w, change, 1);
        break;
    case CHANGE_ORDER:
        told.was = order_told(w, change, 0);
        told.is = order_told(w, change, 1);
        break;
    case CHANGE_PRINT:
    case CHANGE_AMOUNT:
    case CHANGE_SOLD:
    case CHANGE_PLAN:
    case CHANGE_QUILTING:
    case CHANGE_ID:
    case CHANGE_NAME:
    case CHANGE_LABEL:
    case CHANGE_SAY:
    case CHANGE_TEXT:
    case CHANGE_COLOR:
    case CHANGE_PRICE:
    case CHANGE_CODE:
    case CHANGE_LOOKS:
    case CHANGE_PLAN_RULE:
    case CHANGE_QUILT_ADDED:
    case CHANGE_QUILT_REMOVED:
    case CHANGE_COLORWAY_ADDED:
    case CHANGE_COLORWAY_REMOVED:
    case CHANGE_KINDS:
        break;
    }
    told.title = title_of(w, change);
    return told;
}

/* The same for a terminal and a page, but for the signs of fractions. */
struct told_change tell_change(const struct change_wording *w,
                               const struct change *change)
{
    struct told_change told = tell_plain(w, change);
    if (w->glyphs) {
        told.was = on_page(w, told.was);
        told.is = on_page(w, told.is);
    }
    return told;
}

/* ---- headings ---- */

/* A sentence each, as a heading. */
const char *tell_harm(const struct change_wording *w, enum harm harm)
{
    static const char *const keys[HARM_KINDS] = {
        "compare.harm-cut",    "compare.harm-cloth", "compare.harm-count",
        "compare.harm-result", "compare.harm-way",   "compare.harm-words"};
    return say(w->arena, w->phrases, keys[harm], NULL);
}

/* "" where the source states neither number nor date. */
const char *tell_revision(const struct change_wording *w, int side)
{
    const struct revision *r = w->comparison->revisions[side];
    if (r->revision[0] == '\0')
        return r->date;
    return r->date[0] == '\0'
               ? say(w->arena, w->phrases, "page.revision", "revision",
                     r->revision, NULL)
               : say(w->arena, w->phrases, "page.revision-date", "revision",
                     r->revision, "date", r->date, NULL);
}
