/* The steps: what each takes, what hands do, what comes of it. Read next:
 * section_finishing.c. */
#include "contents.h"

struct contents tell_sewing(const struct wording *w)
{
    struct contents contents = {.items = {0}};
    add_title(w, &contents, say(w->arena, w->phrases, "step.title", NULL),
              say(w->arena, w->phrases, "step.lead", "seam",
                  word_length_unit(w, w->design->pattern->seam), NULL));
    add_legend(w, &contents);
    return contents;
}
