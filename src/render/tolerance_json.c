/* What error the sewing forgives, as data. Lengths that are exact are texts, as
 * in pattern.json; what comes of chance is a text of six places. The manual
 * describes each key. */
#include <string.h>

#include "json_writer.h"
#include "quilting_json.h"
#include "render.h"
#include "tolerance.h"
#include "wording.h"

struct model {
    struct json json;
    struct wording w;
};

static const char *const seam_names[] = {"right", "yours", "narrow", "wide"};

/* No number of JSON: a text keeps its places in every program. */
static void number(struct json *json, const char *key, double value)
{
    json_text(json, key, decimal_text(json->out.arena, value, 6));
}

/* What may come with one seam. */
static void write_outcome(struct json *json, const char *key,
                          const struct outcome *outcome)
{
    json_open(json, key, '{');
    number(json, "expected", outcome->mean);
    number(json, "spread", outcome->spread);
    number(json, "within", outcome->within);
    json_close(json, '}');
}

/* Never a chance without its seam; a person's own only where it was measured.
 */
static void write_outcomes(struct json *json, const char *key,
                           const struct tolerance_report *report,
                           const struct outcomes *outcomes)
{
    json_open(json, key, '{');
    for (int c = SEAM_RIGHT; c < SEAM_CASES; c++)
        if (c != SEAM_OWN || report->own)
            write_outcome(json, seam_names[c], &outcomes->of[c]);
    write_outcome(json, "persons", &outcomes->persons);
    json_close(json, '}');
}

/* Against the pattern's seam. */
static void write_hand(struct json *json, const struct tolerance_report *report)
{
    const struct hand *hand = &report->right;
    json_open(json, "hand", '{');
    json_open(json, "offsets", '{');
    for (int c = SEAM_RIGHT; c < SEAM_CASES; c++)
        if (c != SEAM_OWN || report->own)
            number(json, seam_names[c], report->offsets[c]);
    json_close(json, '}');
    number(json, "seamSpread", hand->stitch);
    number(json, "cutSpread", hand->cut);
    number(json, "personsSpread", hand->persons);
    number(json, "fold", hand->fold);
    number(json, "foldOpen", hand->fold_open);
    number(json, "lineOff", hand->line);
    json_close(json, '}');
}

/* As the booklet numbers and names it. */
static void write_name(struct model *model, size_t heap)
{
    json_text(&model->json, "step", word_step(&model->w, heap));
    json_text(&model->json, "name", word_heap(&model->w, heap));
}

/* Of one row; what is less than a twentieth is left out. */
static void write_shares(struct model *model,
                         const struct tolerance_report *report, size_t row)
{
    struct json *json = &model->json;
    json_open(json, "shares", '[');
    for (size_t i = 0; i < report->shares.count; i++) {
        const struct tolerance_share *share = &report->shares.items[i];
        if (share->row != row)
            continue;
        json_open(json, NULL, '{');
        if (share->heap == NO_HEAP)
            json_text(json, "of", "cutting");
        else
            json_text(json, "step", word_step(&model->w, share->heap));
        number(json, "share", share->share);
        json_close(json, '}');
    }
    json_close(json, ']');
}

/* In the order of sewing. */
static void write_rows(struct model *model,
                       const struct tolerance_report *report)
{
    static const char *const sides[] = {"width", "height", "both"};
    struct json *json = &model->json;
    json_open(json, "sizes", '[');
    for (size_t i = 0; i < report->rows.count; i++) {
        const struct tolerance_row *row = &report->rows.items[i];
        json_open(json, NULL, '{');
        write_name(model, row->heap);
        json_text(json, "side", row->point ? "point" : sides[row->side]);
        number(json, "size", row->wanted);
        number(json, "bound", row->bound);
        number(json, "bySeam", row->slope);
        json_flag(json, "trimmed", row->trimmed);
        if (row->trimmed)
            number(json, "tooSmall", row->too_small);
        write_outcomes(json, "outcomes", report, &row->outcomes);
        if (!row->point) {
            number(json, "ownSeam", row->own_seam);
            write_shares(model, report, i);
        }
        json_close(json, '}');
    }
    json_close(json, ']');
}

/* Only those that pay. */
static void write_trims(struct model *model,
                        const struct tolerance_report *report)
{
    struct json *json = &model->json;
    json_open(json, "trims", '[');
    for (size_t i = 0; i < report->trims.count; i++) {
        json_open(json, NULL, '{');
        write_name(model, report->trims.items[i].heap);
        write_outcomes(json, "top", report, &report->trims.items[i].top);
        json_close(json, '}');
    }
    json_close(json, ']');
    json_flag(json, "allTrimsTried", !report->trims_left);
}

/* A unit's own way first, without a method. */
static void write_ways(struct model *model,
                       const struct tolerance_report *report)
{
    struct json *json = &model->json;
    json_open(json, "ways", '[');
    for (size_t i = 0; i < report->ways.count; i++) {
        const struct tolerance_way *way = &report->ways.items[i];
        json_open(json, NULL, '{');
        write_name(model, way->heap);
        if (way->method != NULL)
            json_text(json, "method", way->method);
        json_flag(json, "larger", way->larger);
        number(json, "bound", way->bound);
        write_outcomes(json, "outcomes", report, &way->outcomes);
        number(json, "clothMore", way->cloth);
        json_close(json, '}');
    }
    json_close(json, ']');
}

/* A report of its own for each quilt. */
static void write_quilt(struct model *model, struct rational strips)
{
    struct json *json = &model->json;
    const struct pattern *pattern = model->w.design->pattern;
    const struct tolerance_report *report =
        report_tolerance(json->out.arena, pattern, model->w.quilt, strips);
    json_open(json, NULL, '{');
    json_text(json, "id", model->w.quilt->definition->id);
    json_text(json, "name", model->w.quilt->definition->name);
    json_length(json, "strips", report->own ? strips : test_strips(pattern),
                pattern->units);
    write_hand(json, report);
    write_rows(model, report);
    write_trims(model, report);
    write_ways(model, report);
    json_number(json, "biasEdges", report->bias_edges);
    json_close(json, '}');
}

const char *render_tolerance_json(struct arena *arena, const struct sewn *sewn,
                                  const struct selection *selection,
                                  struct rational strips)
{
    struct model model = {.json = {.out = buffer_in(arena), .first = true},
                          .w = {arena, sewn->sized->design, NULL, false,
                                phrases_load(arena, "en")}};
    struct json *json = &model.json;
    json_open(json, NULL, '{');
    json_number(json, "version", 1);
    json_text(json, "unit", word_unit(&model.w));
    json_open(json, "quilts", '[');
    for (size_t i = 0; i < sewn->quilts.count; i++) {
        model.w.quilt = &sewn->quilts.items[i];
        if (selection->quilt == NULL ||
            strcmp(selection->quilt, model.w.quilt->definition->id) == 0)
            write_quilt(&model, strips);
    }
    json_close(json, ']');
    json_close(json, '}');
    buffer_char(&json->out, '\n');
    return buffer_string(&json->out);
}
