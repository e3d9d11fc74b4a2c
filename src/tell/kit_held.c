/* What lies in a kit, in one form for slips, counts, labels and cards, so that
 * none of them tells it otherwise. Read next: section_kit_slip.c. */

#include "kit_words.h"

/* ---- cloth ---- */

/* What the length of a cloth is for. */
static const char *length_word(const struct kit_telling *t,
                               const struct kits_content *content)
{
    return say(t->w->arena, t->w->phrases,
               content->part == PART_OF_BACKING ? "kit.backing-length"
               : content->binding               ? "kit.length-bound"
                                                : "kit.length",
               NULL);
}

/* Whole strips and binding are told as such: no ruler of 6 in is laid on
 * them, and they are no pieces to be counted into heaps. */
static struct kit_held held_piece(const struct kit_telling *t,
                                  const struct kits_content *content,
                                  const struct kits_bag_piece *piece)
{
    const char *key = piece->joined    ? "kit.strip-label"
                      : piece->binding ? "kit.binding-label"
                                       : "kit.piece-label";
    return (struct kit_held){
        content,
        say(t->w->arena, t->w->phrases, key, "label", piece->label, NULL),
        kit_size(t, piece->width, piece->height), piece->count};
}

/* Exactly one of the four forms is there; one function tells them all, so
 * that no paper forgets one. */
struct kit_holding kit_content_held(const struct kit_telling *t,
                                    const struct kits_content *content)
{
    struct arena *arena = t->w->arena;
    const struct rational width = t->kits->cloths.items[content->cloth].width;
    struct kit_holding held = {.items = {0}};
    if (rational_sign(content->length) > 0)
        *LIST_ADD(arena, &held.items) = (struct kit_held){
            content, length_word(t, content),
            say(arena, t->w->phrases, "kit.wide", "length",
                kit_yardage(t, content->length), "width", kit_length(t, width),
                NULL),
            1};
    for (size_t i = 0; i < content->strips.count; i++)
        *LIST_ADD(arena, &held.items) = (struct kit_held){
            content,
            say(arena, t->w->phrases,
                content->strips.items[i].binding ? "kit.binding-strip"
                                                 : "kit.strip",
                NULL),
            kit_size(t, content->strips.items[i].height, width),
            content->strips.items[i].count};
    if (content->pieces > 0)
        *LIST_ADD(arena, &held.items) = (struct kit_held){
            content, word_sheets(t->w, content->kind, content->pieces), "",
            content->pieces};
    for (size_t i = 0; i < content->bag.count; i++)
        *LIST_ADD(arena, &held.items) =
            held_piece(t, content, &content->bag.items[i]);
    return held;
}

/* What a hand can count: a length is one, however long it is. */
size_t kit_pieces_of(const struct kits_content *content)
{
    size_t count =
        content->pieces + (rational_sign(content->length) > 0 ? 1 : 0);
    for (size_t i = 0; i < content->strips.count; i++)
        count += content->strips.items[i].count;
    for (size_t i = 0; i < content->bag.count; i++)
        count += content->bag.items[i].count;
    return count;
}

/* ---- what is no cloth ---- */

/* The batting is told in the size that the booklet asks for, in units of the
 * order. */
static struct kit_held held_batting(const struct kit_telling *t,
                                    const struct kit_facts *facts)
{
    const struct rational factor =
        length_factor(facts->units, t->kits->order->units);
    return (struct kit_held){
        NULL, say(t->w->arena, t->w->phrases, "materials.batting", NULL),
        kit_size(t, rational_mul(facts->batting_width, factor),
                 rational_mul(facts->batting_height, factor)),
        1};
}

/* A thread whose spools are not known is one spool: the booklet says how
 * long it must be. */
struct kit_holding kit_things_held(const struct kit_telling *t, size_t line)
{
    const struct kit_facts *facts = t->kits->lines[line].facts;
    const struct order_line *asked = t->kits->lines[line].asked;
    struct arena *arena = t->w->arena;
    struct kit_holding held = {.items = {0}};
    if (facts->batting && asked->batting)
        *LIST_ADD(arena, &held.items) = held_batting(t, facts);
    for (size_t i = 0; asked->thread && i < facts->threads.count; i++) {
        const struct kit_thread *thread = &facts->threads.items[i];
        const char *name = thread->name[0] != '\0' ? thread->name : thread->id;
        *LIST_ADD(arena, &held.items) = (struct kit_held){
            NULL,
            say(arena, t->w->phrases, "kit.thread", "name", name, NULL), "",
            thread->spools > 0 ? thread->spools : 1};
    }
    for (size_t i = 0; i < asked->extras.count; i++)
        *LIST_ADD(arena, &held.items) =
            (struct kit_held){NULL, asked->extras.items[i].name, "",
                              asked->extras.items[i].count};
    return held;
}

/* ---- what is in and what is not ---- */

/* Kits are sold with and without these, so it is said in any case. Where the
 * pattern asks for none of it, neither is said of the kit. */
static void add_part(const struct kit_telling *t, struct texts *texts,
                     const char *name_key, bool wanted, bool inside)
{
    const char *name = say(t->w->arena, t->w->phrases, name_key, NULL);
    const char *key = !wanted  ? "kit.part-none"
                      : inside ? "kit.part-in"
                               : "kit.part-out";
    texts_add(t->w, texts,
              say(t->w->arena, t->w->phrases, key, "part", name, NULL));
}

/* In the order in which a quilt is finished. Thread is told only where the
 * pattern plans its quilting, as else nobody expects it. */
struct texts kit_told_parts(const struct kit_telling *t, size_t line)
{
    const struct kit_facts *facts = t->kits->lines[line].facts;
    const struct order_line *asked = t->kits->lines[line].asked;
    struct texts texts = {.items = {0}};
    add_part(t, &texts, "kit.name-backing", facts->backing, asked->backing);
    add_part(t, &texts, "kit.name-batting", facts->batting, asked->batting);
    add_part(t, &texts, "kit.name-binding", facts->binding, asked->binding);
    if (facts->threads.count > 0)
        add_part(t, &texts, "kit.name-thread", true, asked->thread);
    return texts;
}

/* A cloth that states nothing is left out: what it is of is not known here. */
struct texts kit_fibers(const struct kit_telling *t, size_t line)
{
    const struct kits_line *of = &t->kits->lines[line];
    struct texts texts = {.items = {0}};
    for (size_t i = 0; i < of->contents.count; i++) {
        const struct kits_cloth *cloth =
            &t->kits->cloths.items[of->contents.items[i].cloth];
        if (cloth->fiber[0] != '\0')
            texts_add_once(t->w, &texts,
                           say(t->w->arena, t->w->phrases, "kit.fiber",
                               "cloth", cloth->name, "fiber", cloth->fiber,
                               NULL));
    }
    return texts;
}
