/* The whole solved model as JSON. For programs that go on from here: names are
 * stable, new ones may come, `version` counts what breaks. Lengths are texts,
 * as fractions have no exact number in JSON. The manual describes each key.
 * Read next: json_writer.c. */
#include <string.h>

#include "content.h"
#include "json_cloth.h"
#include "quilting_json.h"
#include "render.h"
#include "wording.h"

/* What the walk over the model carries. */
struct model {
    struct json json;
    const struct cutplans *plans;
    const struct design *design;
    struct wording wording;
    const struct booklet_pages *pages; /* of the booklets; or NULL */
    size_t page_count;
    const size_t *positions; /* of heaps among a quilt's steps, from 1 */
};

/* Without a unit: the pattern says which. */
static void length(struct model *model, const char *key, struct rational value)
{
    json_length(&model->json, key, value, model->design->pattern->units);
}

/* Width first, as everywhere. */
static void size(struct model *model, const char *key, struct rational width,
                 struct rational height)
{
    json_open(&model->json, key, '{');
    length(model, "width", width);
    length(model, "height", height);
    json_close(&model->json, '}');
}

/* Facts that are missing are empty texts, so that every key is always there. */
static void write_pattern(struct model *model)
{
    const struct design *design = model->design;
    struct json *json = &model->json;
    json_open(json, "pattern", '{');
    json_text(json, "id", design->id);
    json_text(json, "title", design->title);
    json_text(json, "units", length_unit_name(design->pattern->units));
    length(model, "seam", design->pattern->seam);
    length(model, "cuttingStep", design->pattern->cutting_step);
    length(model, "allowance", design->pattern->allowance);
    json_text(json, "designer", design->designer);
    json_text(json, "publisher", design->publisher);
    json_text(json, "revision", design->revision);
    json_text(json, "date", design->date);
    json_text(json, "skill", design->skill);
    json_text(json, "summary", plain_words(json->out.arena, design->summary));
    json_text(json, "looks", looks_digest(json->out.arena, design));
    json_close(json, '}');
    /* Letters are those of labels: "A1" is a piece of the first fabric. */
    json_open(json, "fabrics", '[');
    for (size_t i = 0; i < design->fabrics.count; i++) {
        json_open(json, NULL, '{');
        json_text(json, "id", design->fabrics.items[i].id);
        json_text(json, "letter", fabric_letter(json->out.arena, (int)i));
        json_text(json, "name", design->fabrics.items[i].name);
        json_flag(json, "oneWay", design->fabrics.items[i].one_way);
        json_close(json, '}');
    }
    json_close(json, ']');
}

/* Of what is cut from a strip along slanted lines. */
static const char *shape_name(enum patch_shape shape)
{
    switch (shape) {
    case PATCH_WHOLE:
    case PATCH_HALVED:
    case PATCH_QUARTERED:
        break; /* not cut from a strip along a ruler's line */
    case PATCH_TRIANGLE:
        return "triangle";
    case PATCH_DIAMOND_RIGHT:
        return "diamond-right";
    case PATCH_DIAMOND_LEFT:
        return "diamond-left";
    case PATCH_HALF_HEXAGON:
        return "half-hexagon";
    case PATCH_END_LEFT:
        return "end-left";
    case PATCH_END_RIGHT:
        return "end-right";
    case PATCH_STAR_DIAMOND:
        return "star-diamond";
    }
    return "";
}

/* Cut, unfinished and finished sizes side by side, so that nobody has to know
 * the seam. */
static void write_pieces(struct model *model, const struct sewn_quilt *quilt)
{
    struct json *json = &model->json;
    json_open(json, "pieces", '[');
    const struct rational seams =
        rational_times(model->design->pattern->seam, 2);
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        /* Heaps that are sewn are told as steps. */
        if (heap->technique != TECHNIQUE_CUT || heap->count == 0)
            continue;
        json_open(json, NULL, '{');
        json_text(json, "label", heap->of.cut.label);
        json_text(json, "fabric",
                  model->design->fabrics.items[heap->of.cut.fabric].id);
        size(model, "cut", heap->of.cut.width, heap->of.cut.height);
        size(model, "unfinished", rational_add(heap->width, seams),
             rational_add(heap->height, seams));
        size(model, "finished", heap->width, heap->height);
        json_number(json, "count", heap->count);
        /* Triangles: what is cut is a square for several. */
        if (heap->of.cut.shape == PATCH_HALVED ||
            heap->of.cut.shape == PATCH_QUARTERED)
            json_number(json, "fromEach", heap->yield);
        if (heap->of.cut.strip != NULL)
            json_text(json, "shape", shape_name(heap->of.cut.shape));
        /* A strip may come from one that is joined of several. */
        if (heap->of.cut.border > 0)
            json_number(json, "border", heap->of.cut.border);
        json_close(json, '}');
    }
    json_close(json, ']');
}

static void write_action(struct model *model, const struct heap *heap,
                         const struct action *action)
{
    const struct operation *operation = action->operation;
    struct json *json = &model->json;
    json_open(json, NULL, '{');
    json_text(json, "kind", operation->name);
    if (operation->draws_line)
        json_text(json, "line", line_name(action->line));
    if (operation->at_corner)
        json_text(json, "at", corner_name(action->at));
    write_pressed(json, action);
    write_seams(json, action);
    json_text(json, "press", word_press(&model->wording, NULL, heap, action));
    json_text(json, "text", word_action(&model->wording, heap, action));
    json_close(json, '}');
}

/* Where each part lies, finished, in the place of the whole. */
static void write_inputs(struct model *model, const struct heap *heap)
{
    struct json *json = &model->json;
    json_open(json, "parts", '[');
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const struct input *input = &heap->inputs.items[i];
        json_open(json, NULL, '{');
        json_text(json, "part", word_part(&model->wording, input->heap));
        /* What is sewn has no name that tells it from all others. */
        if (model->positions[input->heap] > 0)
            json_number(json, "step", model->positions[input->heap]);
        json_number(json, "turn", input->turn * 90);
        if (input->slanted)
            json_flag(json, "slanted", true);
        length(model, "x", input->x);
        length(model, "y", input->y);
        json_close(json, '}');
    }
    json_close(json, ']');
}

/* Of what has no name, the cast of the unit or block that it is a part of. */
static void write_cast(struct model *model, const struct heap *heap)
{
    struct json *json = &model->json;
    const struct design *design = model->design;
    const struct cast *cast =
        heap->named != NULL ? heap->named_cast : heap->cast;
    if (cast == NULL)
        return;
    json_open(json, "cast", '{');
    json_text(json, "of", cast->definition->id);
    json_open(json, "roles", '[');
    for (size_t i = 0; i < cast->definition->role_count; i++) {
        json_open(json, NULL, '{');
        json_text(json, "role",
                  design->roles.items[cast->definition->first_role + i].id);
        json_text(json, "fabric", design->fabrics.items[cast->fabrics[i]].id);
        json_close(json, '}');
    }
    json_close(json, ']');
    json_close(json, '}');
}

/* Numbers are those of the booklet. */
static void write_step(struct model *model, const struct sewn_quilt *quilt,
                       size_t index)
{
    struct json *json = &model->json;
    const struct heap *heap = &quilt->heaps.items[index];
    const struct rational seams =
        rational_times(model->design->pattern->seam, 2);
    json_open(json, NULL, '{');
    json_number(json, "number", heap->step);
    json_text(json, "makes", word_heap(&model->wording, index));
    json_text(json, "part", word_part(&model->wording, index));
    const size_t whole = heap_whole(quilt, index);
    if (whole != index)
        json_text(json, "within", word_heap(&model->wording, whole));
    /* Only what the source names has an id. */
    if (heap->named != NULL) {
        json_text(json, "id", heap->named->id);
        json_text(json, "name", heap->named->name);
    }
    write_cast(model, heap);
    json_flag(json, "mirrored",
              heap->named != NULL ? heap->named_mirror : heap->mirror);
    json_number(json, "count", heap->count);
    size(model, "unfinished", rational_add(heap->width, seams),
         rational_add(heap->height, seams));
    size(model, "finished", heap->width, heap->height);
    write_inputs(model, heap);
    json_open(json, "actions", '[');
    for (size_t i = 0; i < heap->actions.count; i++)
        write_action(model, heap, &heap->actions.items[i]);
    json_close(json, ']');
    write_says(json, heap);
    write_result(json, model->design, heap->cloth);
    write_faces(json, &model->wording, heap->cloth);
    json_close(json, '}');
}

/* `count` is of pieces, as everywhere; segments are count over stack. A piece
 * that was turned lies with its sides swapped. */
static void write_cuts(struct model *model, const struct fabric_plan *plan,
                       const char *name, const struct strip_cut *cuts,
                       size_t count)
{
    struct json *json = &model->json;
    json_open(json, name, '[');
    for (size_t k = 0; k < count; k++) {
        json_open(json, NULL, '{');
        json_text(json, "label", plan->items.items[cuts[k].item].label);
        json_number(json, "count", cuts[k].count * cuts[k].stack);
        json_number(json, "stack", cuts[k].stack);
        size(model, "lies", cuts[k].along, cuts[k].across);
        json_close(json, '}');
    }
    json_close(json, ']');
}

/* The same strips that text and drawing tell. `last` is there only where the
 * last strip is cut otherwise: then one strip less has the cuts of all. */
static void write_strips(struct model *model, const struct fabric_plan *plan,
                         const struct strip *strips, size_t count)
{
    struct json *json = &model->json;
    json_open(json, "strips", '[');
    for (size_t i = 0; i < count; i++) {
        const struct strip *strip = &strips[i];
        json_open(json, NULL, '{');
        length(model, "height", strip->height);
        json_number(json, "repeat", strip->repeat);
        length(model, "used", strip->used);
        write_cuts(model, plan, "cuts", strip->cuts.items, strip->cuts.count);
        if (strip->last.count > 0)
            write_cuts(model, plan, "last", strip->last.items,
                       strip->last.count);
        json_close(json, '}');
    }
    json_close(json, ']');
}

/* Sheets as they are bought, lengthwise cloth, and what stays beside it. */
static void write_sheets(struct model *model, const struct fabric_plan *plan)
{
    static const char *const kinds[] = {"bought", "lengthwise", "rest"};
    struct json *json = &model->json;
    json_open(json, "sheets", '[');
    for (size_t i = 0; i < plan->sheets.count; i++) {
        const struct sheet *sheet = &plan->sheets.items[i];
        json_open(json, NULL, '{');
        json_text(json, "kind", kinds[sheet->kind]);
        size(model, "size", sheet->width, sheet->height);
        json_text(json, "run", sheet->down ? "down" : "across");
        json_number(json, "repeat", sheet->repeat);
        write_strips(model, plan, sheet->strips.items, sheet->strips.count);
        json_close(json, '}');
    }
    json_close(json, ']');
}

/* All that is cut of a cloth: pieces, borders, binding. */
static void write_items(struct model *model, const struct fabric_plan *plan)
{
    struct json *json = &model->json;
    json_open(json, "items", '[');
    for (size_t i = 0; i < plan->items.count; i++) {
        const struct cut_item *item = &plan->items.items[i];
        json_open(json, NULL, '{');
        json_text(json, "label", item->label);
        json_text(json, "for", word_purpose(&model->wording, item));
        length(model, "width", item->width);
        length(model, "height", item->height);
        json_number(json, "count", item->count);
        json_flag(json, "joined", item->joined);
        json_close(json, '}');
    }
    json_close(json, ']');
}

/* As it is written in a source: two digits for each part. */
static const char *color_text(struct arena *arena, const struct bolt *bolt)
{
    return arena_printf(arena, "#%02x%02x%02x", (int)(bolt->red * 255 + 0.5),
                        (int)(bolt->green * 255 + 0.5),
                        (int)(bolt->blue * 255 + 0.5));
}

/* The choice of sold=. */
static const char *sold_word(enum sold_as sold)
{
    static const char *const words[] = {
        "yardage",         "fat-quarter",      "fat-eighth",
        "ten-inch-square", "five-inch-square", "strip"};
    return words[sold];
}

/* In what it is sold: sheets are counted, yardage is a text with its unit. */
static void write_cloth(struct model *model, const struct fabric_plan *plan)
{
    struct json *json = &model->json;
    json_open(json, NULL, '{');
    json_text(json, "fabric", model->design->fabrics.items[plan->fabric].id);
    json_text(json, "name", plan->bolt->name);
    json_text(json, "code", plan->bolt->code);
    length(model, "width", plan->bolt->width);
    json_text(json, "color", color_text(json->out.arena, plan->bolt));
    if (rational_known(plan->bolt->price))
        json_text(json, "price",
                  rational_decimal(json->out.arena, plan->bolt->price, 2));
    json_text(json, "sold", sold_word(plan->bolt->sold));
    json_text(json, "amount", word_amount(&model->wording, plan));
    if (plan->bolt->sold != SOLD_YARDAGE)
        json_number(json, "count", plan->bought_sheets);
    else
        length(model, "bought", plan->bought);
    length(model, "stripsTogether", plan->cut_height);
    write_items(model, plan);
    write_strips(model, plan, plan->strips.items, plan->strips.count);
    write_sheets(model, plan);
    json_close(json, '}');
}

/* What the source does not ask for is left out. */
static void write_layers(struct model *model, const struct cutplan *plan)
{
    struct json *json = &model->json;
    if (plan->backing.wanted) {
        json_open(json, "backing", '{');
        json_text(json, "fabric",
                  model->design->fabrics.items[plan->backing.fabric].id);
        size(model, "size", plan->backing.width, plan->backing.height);
        json_number(json, "panels", plan->backing.panels);
        length(model, "panelLength", plan->backing.panel_length);
        if (plan->backing.together)
            json_flag(json, "together", true);
        else
            json_text(json, "amount",
                      word_yardage(&model->wording, plan->backing.bought));
        json_close(json, '}');
    }
    /* Batting is bought by size, not by length. */
    if (plan->batting_wanted)
        size(model, "batting", plan->batting_width, plan->batting_height);
    if (plan->batting_wanted && rational_known(plan->batting_gap))
        length(model, "battingGap", plan->batting_gap);
    if (plan->binding.wanted) {
        json_open(json, "binding", '{');
        json_text(json, "fabric",
                  model->design->fabrics.items[plan->binding.fabric].id);
        length(model, "stripWidth", plan->binding.width);
        json_number(json, "strips", plan->binding.strips);
        length(model, "length", plan->binding.length);
        json_close(json, '}');
    }
}

/* Labels of the booklet's pages, by the place that links lead to. */
static const char *page_of(const struct booklet_pages *pages, const char *place)
{
    for (size_t i = 0; i < pages->places.count; i++)
        if (strcmp(pages->places.items[i].place, place) == 0)
            return pages->places.items[i].page;
    return NULL;
}

static void write_page(struct json *json, const char *key, const char *name,
                       size_t number, const char *page)
{
    if (page == NULL)
        return;
    json_open(json, NULL, '{');
    if (name != NULL)
        json_text(json, key, name);
    else
        json_number(json, key, number);
    json_text(json, "page", page);
    json_close(json, '}');
}

/* Where steps and cloths stand in the booklet; pieces are cut on the page of
 * their cloth. */
static void write_pages(struct model *model, const struct cutplan *plan)
{
    struct json *json = &model->json;
    struct arena *arena = json->out.arena;
    const struct booklet_pages *pages = NULL;
    for (size_t i = 0; i < model->page_count; i++)
        if (model->pages[i].plan == plan)
            pages = &model->pages[i];
    if (pages == NULL)
        return;
    size_t steps = 0;
    for (size_t i = 0; i < plan->quilt->heaps.count; i++)
        if (plan->quilt->heaps.items[i].step > steps)
            steps = plan->quilt->heaps.items[i].step;
    json_open(json, "pages", '{');
    json_open(json, "cloths", '[');
    for (size_t f = 0; f < model->design->fabrics.count; f++)
        write_page(json, "fabric", model->design->fabrics.items[f].id, 0,
                   page_of(pages, place_cloth(arena, (int)f)));
    json_close(json, ']');
    json_open(json, "steps", '[');
    for (size_t step = 1; step <= steps; step++)
        write_page(json, "number", NULL, step,
                   page_of(pages, place_step(arena, step)));
    json_close(json, ']');
    const char *layers = page_of(pages, place_layers());
    if (layers != NULL)
        json_text(json, "layers", layers);
    json_close(json, '}');
}

/* Only the plans of this quilt that are selected. */
static void write_colorways(struct model *model,
                            const struct selection *selection,
                            const struct sewn_quilt *quilt)
{
    struct json *json = &model->json;
    json_open(json, "colorways", '[');
    for (size_t i = 0; i < model->plans->items.count; i++) {
        const struct cutplan *plan = &model->plans->items.items[i];
        if (plan->quilt != quilt || !selected(selection, plan))
            continue;
        json_open(json, NULL, '{');
        json_text(json, "id", plan->colorway->id);
        json_text(json, "name", plan->colorway->name);
        json_open(json, "cloths", '[');
        for (size_t f = 0; f < model->design->fabrics.count; f++)
            if (plan->fabrics[f].items.count > 0)
                write_cloth(model, &plan->fabrics[f]);
        json_close(json, ']');
        write_layers(model, plan);
        write_pages(model, plan);
        json_close(json, '}');
    }
    json_close(json, ']');
}

/* The same for all colorways of a quilt; NULL for none. */
static const struct quilting_plan *quilting_in(const struct cutplans *plans,
                                               const struct sewn_quilt *quilt)
{
    for (size_t i = 0; i < plans->items.count; i++)
        if (plans->items.items[i].quilt == quilt)
            return plans->items.items[i].quilting;
    return NULL;
}

/* ensures: by the index of a heap, where it stands in `steps`; 0 for none. */
static const size_t *step_positions(struct model *model,
                                    const struct sewn_quilt *quilt)
{
    size_t *positions =
        ARENA_ARRAY(model->json.out.arena, size_t, quilt->heaps.count);
    for (size_t i = 0, at = 0; i < quilt->heaps.count; i++)
        positions[i] = quilt->heaps.items[i].step > 0 ? ++at : 0;
    return positions;
}

/* A setting on point, as it was told. */
static void write_setting(struct model *model, const struct on_point *of)
{
    struct json *json = &model->json;
    if (of == NULL)
        return;
    json_open(json, "onPoint", '{');
    json_number(json, "across", of->across);
    json_number(json, "down", of->down);
    length(model, "float", of->excess);
    if (of->about.usable)
        size(model, "about", of->about.value, of->about.second);
    json_close(json, '}');
}

/* Words about heaps need their quilt. */
static void write_quilt(struct model *model, const struct selection *selection,
                        const struct sewn_quilt *quilt)
{
    struct json *json = &model->json;
    if (selection->quilt != NULL &&
        strcmp(selection->quilt, quilt->definition->id) != 0)
        return;
    model->wording.quilt = quilt;
    json_open(json, NULL, '{');
    json_text(json, "id", quilt->definition->id);
    json_text(json, "name", quilt->definition->name);
    size(model, "finished", quilt->width, quilt->height);
    write_setting(model, quilt->definition->root->on_point);
    write_result(json, model->design, quilt->cloth);
    write_pieces(model, quilt);
    /* Numbered as in the booklet; cut pieces are no steps. */
    model->positions = step_positions(model, quilt);
    json_open(json, "steps", '[');
    for (size_t i = 0; i < quilt->heaps.count; i++)
        if (quilt->heaps.items[i].step > 0)
            write_step(model, quilt, i);
    json_close(json, ']');
    write_colorways(model, selection, quilt);
    const struct quilting_plan *quilting = quilting_in(model->plans, quilt);
    if (quilting != NULL)
        write_quilting(json, &model->wording, quilting);
    json_close(json, '}');
}

/* The source is named without its folder: the same bytes wherever it lies. */
static void write_diagnostics(struct model *model, const struct run *run)
{
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(run, &sorted);
    const struct run unplaced = {.arena = run->arena,
                                 .source =
                                     source_unplaced(run->arena, run->source),
                                 .diagnostics = run->diagnostics};
    json_open(&model->json, "diagnostics", '[');
    for (size_t i = 0; i < count; i++)
        json_raw(&model->json, NULL, diag_json(&unplaced, sorted[i]));
    json_close(&model->json, ']');
}

/* Quilts in the order of the source. Diagnostics come last: who only wants to
 * know whether there are any can look at the end. */
const char *render_json_in(const struct run *run,
                           const struct cutplans *plans,
                           const struct selection *selection,
                           const char *language,
                           const struct booklet_pages *pages,
                           size_t page_count)
{
    struct model model = {.plans = plans,
                          .design = plans->sewn->sized->design,
                          .pages = pages,
                          .page_count = page_count};
    model.json.out = buffer_in(run->arena);
    model.json.first = true;
    model.wording = (struct wording){run->arena, model.design, NULL, false,
                                     phrases_load(run->arena, language)};
    json_open(&model.json, NULL, '{');
    json_number(&model.json, "version", 2);
    write_pattern(&model);
    json_open(&model.json, "quilts", '[');
    for (size_t i = 0; i < plans->sewn->quilts.count; i++)
        write_quilt(&model, selection, &plans->sewn->quilts.items[i]);
    json_close(&model.json, ']');
    write_diagnostics(&model, run);
    json_close(&model.json, '}');
    buffer_char(&model.json.out, '\n');
    return buffer_string(&model.json.out);
}

const char *render_json(const struct run *run, const struct cutplans *plans,
                        const struct selection *selection)
{
    return render_json_in(run, plans, selection, "en", NULL, 0);
}
