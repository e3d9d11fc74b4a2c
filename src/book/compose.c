/* The booklet stage: one sewn quilt and its cutting plan become pages. The
 * order of the sections is the order of the work. May assume a plan that holds;
 * nothing is reported any more. Read next: section.h, then flow.c. */
#include "compose.h"

#include "section.h"

/* Revision and date tell two printings apart; either may be missing. */
static const char *foot_text(const struct booklet *booklet)
{
    const struct design *design = booklet->design;
    struct arena *arena = booklet->wording.arena;
    if (design->revision[0] == '\0')
        return design->date;
    const struct phrases *phrases = booklet->wording.phrases;
    return design->date[0] == '\0'
               ? say(arena, phrases, "page.revision", "revision",
                     design->revision, NULL)
               : say(arena, phrases, "page.revision-date", "revision",
                     design->revision, "date", design->date, NULL);
}

/* ensures: a book whose pages need nothing but drawing; it points into design
 * and plan, which must outlive it. */
struct book *compose_book(struct arena *arena, struct typeset *typeset,
                          const struct design *design,
                          const struct cutplan *plan, bool a4)
{
    struct book *book = ARENA_NEW(arena, struct book);
    /* ISO 216 A4 and US letter, in points. */
    book->width = a4 ? 595.276 : 612.0;
    book->height = a4 ? 841.890 : 792.0;
    book->title =
        arena_printf(arena, "%s, %s, %s", design->title,
                     plan->quilt->definition->name, plan->colorway->name);
    book->author = design->designer;
    book->subject = design->summary;
    book->language = "en";
    book->date = design->date[0] == '\0' ? NULL : design->date;
    struct booklet booklet = {.flow = flow_for(arena, typeset, book),
                              .wording = {arena, design, plan->quilt, true,
                                          phrases_load(arena, "en")},
                              .design = design,
                              .quilt = plan->quilt,
                              .plan = plan};
    booklet.flow.running_left = arena_printf(arena, "%s: %s", design->title,
                                             plan->quilt->definition->name);
    booklet.flow.running_right = plan->colorway->name;
    booklet.flow.foot = foot_text(&booklet);
    section_cover(&booklet);
    section_materials(&booklet);
    section_cutting(&booklet);
    section_steps(&booklet);
    section_finishing(&booklet);
    flow_finish(&booklet.flow);
    return book;
}
