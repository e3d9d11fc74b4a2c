/* Backing, layers and binding: what comes after the top, as steps that go on
 * with the numbers of the others. Each is left out where the source does not
 * ask for it. Read next: contents.c. */
#include "contents.h"
#include "trade.h"

/* ---- what the steps share ---- */

/* Behind the last of the steps that are sewn; `count` steps of finishing come
 * before. */
static size_t next_step(const struct wording *w, size_t count)
{
    size_t last = 0;
    for (size_t i = 0; i < w->quilt->heaps.count; i++)
        if (w->quilt->heaps.items[i].step > last)
            last = w->quilt->heaps.items[i].step;
    return last + 1 + count;
}

static void add_frame(const struct wording *w, struct told_work *work,
                      enum drawing_kind drawing, const char *caption,
                      const char *told)
{
    *LIST_ADD(w->arena, &work->frames) = (struct told_figure){
        .drawing = drawing, .caption = caption, .told = told};
}

/* ---- backing ---- */

/* Wider than seams of the top, as the trade has it; the number stands in
 * trade.c. */
static const char *backing_seam(const struct wording *w)
{
    return word_length_unit(
        w, trade_length(TRADE_BACKING_SEAM, w->design->pattern->units));
}

/* How many seams join the panels, for the words that go with the number. */
static const char *panel_seams(const struct wording *w,
                               const struct backing_plan *backing)
{
    return say_count(w->arena, backing->panels - 1);
}

/* Panels that were cut with the pieces have labels. */
static const char *together_text(const struct wording *w,
                                 const struct backing_plan *backing)
{
    const char *const *labels = backing->labels;
    const char *both = labels[0] == NULL   ? labels[1]
                       : labels[1] == NULL ? labels[0]
                                           : arena_printf(w->arena, "%s, %s",
                                                          labels[0], labels[1]);
    if (backing->panels == 1)
        return say(w->arena, w->phrases, "backing.together-one", "label", both,
                   NULL);
    return say(w->arena, w->phrases,
               backing->seams_vertical ? "backing.together-down"
                                       : "backing.together-across",
               "count", say_count(w->arena, backing->panels), "labels", both,
               "seams", panel_seams(w, backing), "seam", backing_seam(w),
               NULL);
}

/* The size, and what it is larger than the top, which lies there with its
 * seam allowances: panels are cut as long as the backing, so that squaring them
 * up takes of that. */
static const char *trim_text(const struct wording *w,
                             const struct backing_plan *backing)
{
    const struct rational spare =
        rational_sub(rational_div(rational_sub(backing->width, w->quilt->width),
                                  rational_whole(2)),
                     w->design->pattern->seam);
    return say(w->arena, w->phrases,
               rational_sign(spare) > 0 ? "backing.spare" : "backing.trim",
               "size", word_size_unit(w, backing->width, backing->height),
               "spare", word_length_unit(w, spare), NULL);
}

/* The seam of a backing is half an inch, whatever the pattern's seam: it is
 * pressed open and carries weight (published practice; cut/cut.c counts it).
 * One panel needs no seam, so its selvages may stay until it is trimmed. */
static const char *panels_text(const struct wording *w,
                               const struct backing_plan *backing)
{
    const char *length = word_length_unit(w, backing->panel_length);
    const char *text =
        backing->together ? together_text(w, backing)
        : backing->panels == 1
            ? say(w->arena, w->phrases, "backing.one", "length", length, NULL)
            : say(w->arena, w->phrases,
                  backing->seams_vertical ? "backing.down" : "backing.across",
                  "count", say_count(w->arena, backing->panels), "length",
                  length, "seams", panel_seams(w, backing), "seam",
                  backing_seam(w), NULL);
    text = word_then(w, text, trim_text(w, backing));
    return backing->one_way
               ? word_then(w, text,
                           say(w->arena, w->phrases, "backing.print", "count",
                               say_count(w->arena, backing->panels), NULL))
               : text;
}

/* The figure in words, for those who do not see it. */
static const char *panels_told(const struct wording *w,
                               const struct backing_plan *backing)
{
    return say(w->arena, w->phrases,
               backing->panels == 1      ? "backing.told-one"
               : backing->seams_vertical ? "backing.told-down"
                                         : "backing.told-across",
               "count", say_count(w->arena, backing->panels), "seams",
               panel_seams(w, backing), NULL);
}

/* ---- layers ---- */

/* What is taken: the cloth of the backing, the batting. */
static void add_layer_parts(const struct wording *w, struct told_work *work,
                            const struct cutplan *plan)
{
    if (plan->backing.wanted)
        *LIST_ADD(w->arena, &work->parts) = (struct told_entry){
            .picture = PICTURE_SWATCH,
            .fabric = plan->backing.fabric,
            .label = {say(w->arena, w->phrases, "backing.title", NULL), NULL,
                      NULL},
            .words = say(w->arena, w->phrases, "backing.part", "cloth",
                         plan->backing.bolt->name, "amount",
                         word_backing_amount(w, &plan->backing), NULL),
            .count = ""};
    if (plan->batting_wanted)
        *LIST_ADD(w->arena, &work->parts) = (struct told_entry){
            .label = {say(w->arena, w->phrases, "layers.part", NULL), NULL,
                      NULL},
            .words =
                word_bought_size(w, plan->batting_width, plan->batting_height),
            .count = ""};
}

/* By what the source asks for. */
static const char *layers_title(const struct wording *w,
                                const struct cutplan *plan)
{
    if (!plan->batting_wanted)
        return say(w->arena, w->phrases, "backing.title", NULL);
    return plan->backing.wanted
               ? say(w->arena, w->phrases, "backing.layers", NULL)
               : say(w->arena, w->phrases, "layers.title", NULL);
}

/* The batting's maker knows how far apart lines may be; so words defer to that.
 */
static void add_layers(const struct wording *w, struct contents *contents,
                       const struct cutplan *plan)
{
    struct told_work *work = add_work(w, contents, PART_LAYERS, next_step(w, 0),
                                      layers_title(w, plan));
    work->place = place_layers();
    add_layer_parts(w, work, plan);
    if (plan->backing.wanted)
        add_frame(w, work, DRAWING_BACKING, panels_text(w, &plan->backing),
                  panels_told(w, &plan->backing));
    if (!plan->batting_wanted)
        return;
    add_frame(w, work, DRAWING_LAYERS,
              say(w->arena, w->phrases, "layers.baste", NULL),
              say(w->arena, w->phrases, "layers.told", NULL));
    if (plan->quilting != NULL) /* has a section of its own */
        return;
    add_frame(w, work, DRAWING_QUILTING,
              rational_known(plan->batting_gap)
                  ? say(w->arena, w->phrases, "layers.quilt-gap", "gap",
                        word_length_unit(w, plan->batting_gap), NULL)
                  : say(w->arena, w->phrases, "layers.quilt", NULL),
              say(w->arena, w->phrases, "layers.told-quilt", NULL));
}

/* ---- binding ---- */

/* How long the loose ends are, and how much of a side stays open for them: what
 * the strips are planned to give beyond the edge, but not more than half of the
 * longest side. Both ends then reach over the open part together. */
static struct rational loose_end(const struct wording *w,
                                 const struct cutplan *plan)
{
    const struct rational side =
        rational_max(w->quilt->width, w->quilt->height);
    const struct rational half = rational_div(side, rational_whole(2));
    const struct rational tail = plan->binding.tail;
    if (rational_compare(tail, half) <= 0)
        return tail;
    return rational_floor(half) > 0 ? rational_whole(rational_floor(half))
                                    : half;
}

/* Its label leads to the cutting of its cloth. */
static void add_binding_part(const struct wording *w, struct told_work *work,
                             const struct cutplan *plan)
{
    const struct binding_plan *binding = &plan->binding;
    const char *fabric = w->design->fabrics.items[binding->fabric].name;
    *LIST_ADD(w->arena, &work->parts) = (struct told_entry){
        .picture = PICTURE_SWATCH,
        .fabric = binding->fabric,
        .label = {binding->labels, place_cloth(w->arena, binding->fabric),
                  say(w->arena, w->phrases, "link.cutting", "label",
                      binding->labels, "fabric", fabric, NULL)},
        .words = say(w->arena, w->phrases, "binding.part", "cloth",
                     plan->fabrics[binding->fabric].bolt->name, "count",
                     say_count(w->arena, binding->strips), "width",
                     word_length_unit(w, binding->width), "length",
                     word_length_unit(w, binding->length), NULL),
        .count = ""};
}

/* From the strip to the first corner. One strip alone needs no join. */
static void add_strip_frames(const struct wording *w, struct told_work *work,
                             const struct cutplan *plan)
{
    const struct binding_plan *binding = &plan->binding;
    const char *seam = word_length_unit(w, w->design->pattern->seam);
    const char *tail = word_length_unit(w, loose_end(w, plan));
    if (binding->strips > 1)
        add_frame(w, work, DRAWING_BINDING_JOIN,
                  say(w->arena, w->phrases, "binding.join", "count",
                      say_count(w->arena, binding->strips), "seam", seam, NULL),
                  say(w->arena, w->phrases, "binding.told-join", NULL));
    add_frame(w, work, DRAWING_BINDING_FOLD,
              say(w->arena, w->phrases, "binding.fold", NULL),
              say(w->arena, w->phrases, "binding.told-fold", NULL));
    add_frame(w, work, DRAWING_BINDING_START,
              say(w->arena, w->phrases, "binding.start", "tail", tail, "seam",
                  seam, NULL),
              say(w->arena, w->phrases, "binding.told-start", NULL));
    *LIST_ADD(w->arena, &work->frames.items[work->frames.count - 1].labels) =
        tail;
    add_frame(w, work, DRAWING_BINDING_STOP,
              say(w->arena, w->phrases, "binding.stop", "seam", seam, NULL),
              say(w->arena, w->phrases, "binding.told-stop", NULL));
}

/* From the corner to the label. */
static void add_corner_frames(const struct wording *w, struct told_work *work,
                              const struct cutplan *plan)
{
    add_frame(w, work, DRAWING_BINDING_UP,
              say(w->arena, w->phrases, "binding.up", NULL),
              say(w->arena, w->phrases, "binding.told-up", NULL));
    add_frame(w, work, DRAWING_BINDING_DOWN,
              say(w->arena, w->phrases, "binding.down", NULL),
              say(w->arena, w->phrases, "binding.told-down", NULL));
    add_frame(w, work, DRAWING_BINDING_CLOSE,
              say(w->arena, w->phrases, "binding.close", "gap",
                  word_length_unit(w, loose_end(w, plan)), "width",
                  word_length_unit(w, plan->binding.width), NULL),
              say(w->arena, w->phrases, "binding.told-close", NULL));
    add_frame(w, work, DRAWING_BINDING_BACK,
              say(w->arena, w->phrases, "binding.back", NULL),
              say(w->arena, w->phrases, "binding.told-back", NULL));
    work->frames.items[work->frames.count - 1].result = true;
}

/* The note tells how the length comes about. */
static void add_binding(const struct wording *w, struct contents *contents,
                        const struct cutplan *plan, size_t number)
{
    const struct binding_plan *binding = &plan->binding;
    struct told_work *work =
        add_work(w, contents, PART_BINDING, number,
                 say(w->arena, w->phrases, "binding.title", NULL));
    work->place = place_binding();
    add_binding_part(w, work, plan);
    add_strip_frames(w, work, plan);
    add_corner_frames(w, work, plan);
    *LIST_ADD(w->arena, &work->after) = (struct told_note){
        say(w->arena, w->phrases, "binding.check", NULL),
        say(w->arena, w->phrases, "binding.length", "edge",
            word_length_unit(w, rational_sub(binding->length, binding->tail)),
            "length", word_length_unit(w, binding->length), NULL)};
}

/* Backing and layers, quilting where none is planned, binding, in the order of
 * the work. Steps go on with the numbers of sewing. */
struct contents tell_finishing(const struct wording *w,
                               const struct cutplan *plan)
{
    struct contents contents = {.items = {0}};
    const bool layers = plan->backing.wanted || plan->batting_wanted;
    if (layers || plan->binding.wanted)
        add_title(w, &contents,
                  say(w->arena, w->phrases, "finishing.title", NULL), "");
    if (layers)
        add_layers(w, &contents, plan);
    if (plan->binding.wanted && plan->quilting != NULL && layers &&
        !quilting_is_short(plan))
        add_title(w, &contents,
                  say(w->arena, w->phrases, "quilting.finishing", NULL), "");
    if (plan->binding.wanted)
        add_binding(w, &contents, plan, next_step(w, layers ? 1 : 0));
    return contents;
}
