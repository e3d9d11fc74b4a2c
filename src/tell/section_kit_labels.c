/* Labels of bags, and how a sheet of them is tried before it is printed. Read
 * next: section_scale.c, for the squares of the test. */
#include "kit_words.h"

/* The cloths of a kit, in the order of their letters; the same letter once. */
static void add_swatches(const struct kit_telling *t, struct told_label *label,
                         const struct kits_line *line)
{
    for (size_t i = 0; i < line->contents.count; i++) {
        const struct kits_content *content = &line->contents.items[i];
        if (content->part == PART_OF_TOP)
            *LIST_ADD(t->w->arena, &label->swatches) = (struct told_swatch){
                true, t->kits->cloths.items[content->cloth].color,
                content->letter};
    }
}

/* A bag inside the bag of a kit that is cut. */
static void add_bag(const struct kit_telling *t, struct told_labels *labels,
                    const struct told_label *kit,
                    const struct kits_content *content, const char *number,
                    const char *kits)
{
    const struct kits_cloth *cloth = &t->kits->cloths.items[content->cloth];
    struct arena *arena = t->w->arena;
    struct told_label *label = LIST_ADD(arena, &labels->items);
    *label = (struct told_label){
        .line = kit->line,
        .title = kit->title,
        .quilt = cloth->name,
        .bag = say(arena, t->w->phrases, "kit.label-pieces", "letter",
                   content->letter, "count",
                   say_count(arena, kit_pieces_of(content)), "number", number,
                   "kits", kits, NULL)};
    *LIST_ADD(arena, &label->swatches) =
        (struct told_swatch){true, cloth->color, content->letter};
}

/* Texts that all kits of a line share are made once. */
static void add_line(const struct kit_telling *t, struct told_labels *labels,
                     size_t index)
{
    struct arena *arena = t->w->arena;
    const struct kits_line *line = &t->kits->lines[index];
    const char *kits = say_count(arena, line->asked->kits);
    struct told_label kit = {
        .line = index,
        .title = line->facts->title,
        .quilt = say(arena, t->w->phrases, "kit.label-quilt", "quilt",
                     line->facts->quilt_name, "colorway",
                     line->facts->colorway_name, NULL)};
    add_swatches(t, &kit, line);
    for (size_t i = 1; i <= line->asked->kits; i++) {
        const char *number = say_count(arena, i);
        kit.bag = say(arena, t->w->phrases, "kit.label-kit", "number", number,
                      "kits", kits, NULL);
        *LIST_ADD(arena, &labels->items) = kit;
        for (size_t k = 0; k < line->contents.count; k++)
            if (line->contents.items[k].bag.count > 0)
                add_bag(t, labels, &kit, &line->contents.items[k], number,
                        kits);
    }
}

/* Kit by kit, so that labels come off the sheet in the order of packing. */
struct told_labels tell_kit_labels(const struct wording *w,
                                   const struct kits *kits)
{
    const struct kit_telling t = {w, kits};
    struct told_labels labels = {.items = {0}};
    for (size_t i = 0; i < kits->order->lines.count; i++)
        add_line(&t, &labels, i);
    return labels;
}

/* "3 × 10 labels, 2⅝ × 1 in" */
static const char *sheet_text(const struct kit_telling *t)
{
    const struct order_labels *sheet = t->kits->order->labels;
    struct arena *arena = t->w->arena;
    const char *moved =
        rational_sign(sheet->offset_x) == 0 &&
                rational_sign(sheet->offset_y) == 0
            ? ""
            : say(arena, t->w->phrases, "kit.test-moved", "x",
                  kit_length(t, sheet->offset_x), "y",
                  kit_length(t, sheet->offset_y), NULL);
    const char *text = say(arena, t->w->phrases, "kit.test-sheet", "columns",
               say_count(arena, sheet->columns), "rows",
               say_count(arena, sheet->rows), "size",
               kit_size(t, sheet->width, sheet->height), "paper",
               say(arena, t->w->phrases,
                   sheet->a4 ? "kit.paper-a4" : "kit.paper-letter", NULL),
               "start", say_count(arena, sheet->start), NULL);
    return word_then(t->w, text, moved);
}

/* The squares are those of the booklet: whoever knows one test knows the
 * other. */
struct contents tell_kit_labels_test(const struct wording *w,
                                     const struct kits *kits)
{
    static const char *const keys[] = {"kit.test-print", "kit.test-hold",
                                       "kit.test-offset"};
    const struct kit_telling t = {w, kits};
    struct contents contents = {.items = {0}};
    struct texts texts = {.items = {0}};
    add_title(w, &contents, kit_paper_title(w, KIT_PAPER_LABELS_TEST),
              sheet_text(&t));
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        texts_add(w, &texts, say(w->arena, w->phrases, keys[i], NULL));
    add_list(w, &contents, PART_MAIN, &texts);
    add_squares(w, &contents);
    return contents;
}
