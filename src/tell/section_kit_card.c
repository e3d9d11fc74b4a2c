/* A card for the shelf of the shop: what the quilt looks like, how large it
 * gets, what lies in the kit, what it is sold at. No cost stands here. Read
 * next: section_kit_labels.c. */
#include "kit_words.h"

/* One line for each cloth: its sizes belong on the slip. */
static const char *cloth_text(const struct kit_telling *t,
                              const struct kits_content *content)
{
    struct arena *arena = t->w->arena;
    const struct kit_holding held = kit_content_held(t, content);
    const char *cloth = t->kits->cloths.items[content->cloth].name;
    const char *count = say_count(arena, kit_pieces_of(content));
    if (content->bag.count > 0 || content->strips.count > 0)
        return say(arena, t->w->phrases,
                   content->bag.count > 0 ? "kit.card-pieces"
                                          : "kit.card-strips",
                   "cloth", cloth, "count", count, NULL);
    return content->pieces > 0
               ? say(arena, t->w->phrases, "kit.card-counted", "cloth", cloth,
                     "count", count, "pieces", held.items.items[0].what, NULL)
               : say(arena, t->w->phrases, "kit.card-length", "cloth", cloth,
                     "length", kit_yardage(t, content->length), NULL);
}

/* The text is not copied. */
static void add_point(const struct kit_telling *t, struct told_list *list,
                      const char *text)
{
    *LIST_ADD(t->w->arena, &list->items) =
        (struct told_point){.label = "", .text = text};
}

/* As many as a card has room for; the slip tells all. */
static void add_cloths(const struct kit_telling *t, struct told_list *list,
                       size_t line)
{
    enum { CLOTHS_MOST = 14 };
    const struct kits_line *of = &t->kits->lines[line];
    const size_t count = of->contents.count;
    const size_t told = count > CLOTHS_MOST ? CLOTHS_MOST - 1 : count;
    for (size_t i = 0; i < told; i++)
        add_point(t, list, cloth_text(t, &of->contents.items[i]));
    if (told < count)
        add_point(t, list,
                  say(t->w->arena, t->w->phrases, "kit.card-more", "count",
                      say_count(t->w->arena, count - told), NULL));
}

/* What is no cloth stands below: it is the same in most kits. */
static void add_things(const struct kit_telling *t, struct told_list *list,
                       size_t line)
{
    const struct kit_holding things = kit_things_held(t, line);
    for (size_t i = 0; i < things.items.count; i++) {
        const struct kit_held *held = &things.items.items[i];
        const char *text =
            held->count == 1
                ? held->what
                : arena_printf(t->w->arena, "%zu\u00a0\u00d7\u00a0%s",
                               held->count, held->what);
        add_point(t, list, text);
    }
}

/* In the order in which a card is read: the title, the figure, what is in
 * it, what is not, and the price last. */
struct contents tell_kit_card(const struct wording *w, const struct kits *kits,
                              size_t line)
{
    const struct kit_telling t = {w, kits};
    const struct kit_facts *facts = kits->lines[line].facts;
    const struct rational factor =
        length_factor(facts->units, kits->order->units);
    const struct texts none = {.items = {0}};
    struct contents contents = {.items = {0}};
    add_title(w, &contents, facts->title,
              say(w->arena, w->phrases, "kit.slip-lead", "quilt",
                  facts->quilt_name, "colorway", facts->colorway_name, "size",
                  kit_size(&t, rational_mul(facts->width, factor),
                           rational_mul(facts->height, factor)),
                  NULL));
    add_figure(w, &contents, PART_PICTURE,
               (struct told_figure){.drawing = DRAWING_KIT,
                                    .kit = facts,
                                    .caption = "",
                                    .told = kit_line_name(&t, line)});
    add_heading(w, &contents, PART_SLIP,
                say(w->arena, w->phrases, "kit.card-holds", NULL));
    struct told_list *list = add_list(w, &contents, PART_SLIP, &none);
    add_cloths(&t, list, line);
    add_things(&t, list, line);
    const struct texts parts = kit_told_parts(&t, line);
    add_list(w, &contents, PART_HELD, &parts);
    const struct rational price = kits->lines[line].asked->price;
    add_paragraph(w, &contents, PART_PRICE,
                  rational_known(price) ? kit_money(&t, price) : "");
    return contents;
}
