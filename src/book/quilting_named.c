/* Names of the figures of quilting, and those that no page shows: gaps, areas,
 * the stage that is its own map. Read next: quilting.c. */
#include "quilting_figure.h"

/* ---- names ---- */

/* "quilting-ditch" */
const char *stage_figure(struct booklet *booklet, enum quilting_stage stage)
{
    return arena_printf(booklet->wording.arena, "quilting-%s",
                        quilting_stage_name(stage));
}

/* "quilting-area-a", "quilting-area-a-sequence" */
const char *area_figure(struct booklet *booklet,
                        const struct quilted_kind *kind, bool sequence)
{
    return arena_printf(booklet->wording.arena, "quilting-area-%s%s",
                        kind->letter, sequence ? "-sequence" : "");
}

/* ---- figures alone ---- */

/* Points: the longer side. */
enum { ALONE = 360 };

/* As large as a screen shows it well; the booklet tells the largest in words.
 */
void name_gaps_figure(struct booklet *booklet)
{
    const struct cutplan *plan = booklet->plan;
    if (plan->quilting == NULL || plan->quilting->told == NULL)
        return;
    name_quilting_figure(
        booklet, "quilting-gaps", title_of_gaps(&booklet->wording),
        quilting_gaps(&booklet->wording, &booklet->flow.canvas, plan->quilting,
                      plan->colorway, ALONE, ALONE));
}

/* A plan of one stage shows it as its map. */
static void name_only_stage(struct booklet *booklet)
{
    const struct quilting_plan *plan = booklet->plan->quilting;
    enum quilting_stage only;
    if (quilting_stages(plan, &only) != 1)
        return;
    if (quilting_way_is_long(plan, only))
        name_quilting_figure(
            booklet, "quilting", title_of_quilting(&booklet->wording),
            quilting_map(&booklet->flow.canvas, plan, booklet->plan->colorway,
                         ALONE, ALONE));
    else
        name_quilting_figure(booklet, stage_figure(booklet, only),
                             title_of_stage(&booklet->wording, only),
                             quilting_stage(&booklet->flow.canvas, plan,
                                            booklet->plan->colorway, only,
                                            ALONE, ALONE));
}

/* Pages show paths instead, which are drawn on the same area; but for those
 * that are plain. */
void name_area_figures(struct booklet *booklet)
{
    const struct quilting_plan *plan = booklet->plan->quilting;
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct colorway *colorway = booklet->plan->colorway;
    if (plan != NULL)
        name_only_stage(booklet);
    for (size_t i = 0; plan != NULL && i < plan->kinds.count; i++) {
        const struct quilted_kind *kind = &plan->kinds.items[i];
        name_quilting_figure(
            booklet, area_figure(booklet, kind, false),
            title_of_area(&booklet->wording, kind, false),
            quilting_area(canvas, plan, colorway, i, ALONE, ALONE));
        if (kind->sequences.count > 0 && quilting_path_plain(kind))
            name_quilting_figure(
                booklet, area_figure(booklet, kind, true),
                title_of_area(&booklet->wording, kind, true),
                quilting_sequence(canvas, plan, colorway, i, ALONE, ALONE));
    }
}
