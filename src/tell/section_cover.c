/* The cover: who made the pattern, what the quilt looks like, how large it is,
 * in which cloth. Read next: section_glance.c. */
#include "contents.h"
#include "words.h"

const char *word_printing(const struct wording *w)
{
    const struct design *design = w->design;
    if (design->revision[0] == '\0')
        return design->date;
    return design->date[0] == '\0'
               ? say(w->arena, w->phrases, "page.revision", "revision",
                     design->revision, NULL)
               : say(w->arena, w->phrases, "page.revision-date", "revision",
                     design->revision, "date", design->date, NULL);
}

/* The quilt in one colorway. What is told is for those who cannot see it (WCAG
 * 2.1, 1.1.1); what the quilt is like, the summary tells. */
static struct told_figure quilt_figure(const struct wording *w,
                                       const struct colorway *colorway)
{
    const struct sewn_quilt *quilt = w->quilt;
    return (struct told_figure){
        .drawing = DRAWING_QUILT,
        .quilt = quilt,
        .colorway = colorway,
        .caption = colorway->name,
        .told = say(w->arena, w->phrases, "figure.whole", "quilt",
                    quilt->definition->name, "colorway", colorway->name, "size",
                    word_size_unit(w, quilt->width, quilt->height), NULL)};
}

/* The photo takes the place of the drawing, which then stands beside the facts.
 */
static void add_picture(const struct wording *w, struct contents *contents,
                        const struct cutplan *plan)
{
    const bool photo = w->design->photo != NULL;
    if (photo)
        add_figure(w, contents, PART_PICTURE,
                   (struct told_figure){
                       .drawing = DRAWING_PHOTO,
                       .caption = "",
                       .told = say(w->arena, w->phrases, "cover.photo", NULL)});
    add_figure(w, contents, photo ? PART_FACTS : PART_PICTURE,
               quilt_figure(w, plan->colorway))
        ->caption = "";
}

/* What a buyer asks first: the finished size, how hard it is, what is sewn. */
static void add_facts(const struct wording *w, struct contents *contents)
{
    const struct sewn_quilt *quilt = w->quilt;
    const struct texts blocks = blocks_made(w), used = techniques_used(w);
    add_paragraph(w, contents, PART_FACTS,
                  say(w->arena, w->phrases, "cover.size", "quilt",
                      quilt->definition->name, "size",
                      word_size_unit(w, quilt->width, quilt->height), NULL));
    if (blocks.items.count > 0)
        add_paragraph(w, contents, PART_FACTS, texts_listed(w, &blocks));
    if (w->design->skill[0] != '\0')
        add_paragraph(w, contents, PART_FACTS, skill_text(w));
    if (used.items.count > 0)
        add_paragraph(w, contents, PART_FACTS,
                      say(w->arena, w->phrases, "cover.techniques", "list",
                          texts_listed(w, &used), NULL));
}

/* One colorway has no others to be compared with: its cloths are told. */
static void add_colorways(const struct wording *w, struct contents *contents,
                          const struct cutplan *plan)
{
    const struct design *design = w->design;
    const struct texts none = {.items = {0}};
    for (size_t i = 0;
         design->colorways.count > 1 && i < design->colorways.count; i++)
        add_figure(w, contents, PART_COLORWAYS,
                   quilt_figure(w, &design->colorways.items[i]));
    if (design->colorways.count > 1)
        return;
    struct told_list *list = add_list(w, contents, PART_COLORWAYS, &none);
    for (size_t i = 0; i < design->fabrics.count; i++)
        *LIST_ADD(w->arena, &list->items) = (struct told_point){
            fabric_letter(w->arena, (int)i), plan->colorway->bolts[i].name,
            plan->colorway, (int)i, SIGN_NONE};
}

/* Title, designer and facts; the picture is the cloth that the steps make, so
 * that the cover cannot show another quilt. */
struct contents tell_cover(const struct wording *w, const struct cutplan *plan)
{
    struct contents contents = {.items = {0}};
    const struct design *design = w->design;
    const char *summary = word_words(w, plan->colorway, design->summary, NULL);
    if (design->designer[0] != '\0')
        add_paragraph(w, &contents, PART_DESIGNER, design->designer);
    if (design->publisher[0] != '\0')
        add_paragraph(w, &contents, PART_PUBLISHER, design->publisher);
    add_title(w, &contents, design->title, summary);
    add_picture(w, &contents, plan);
    add_facts(w, &contents);
    add_colorways(w, &contents, plan);
    if (word_printing(w)[0] != '\0')
        add_paragraph(w, &contents, PART_PRINTING, word_printing(w));
    return contents;
}
