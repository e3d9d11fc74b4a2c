/* What a quilt is sewn from: its pieces, and each entry of its steps with what
 * it is made of. Parts are numbers here, so that no name is needed to compare
 * them. Read next: read_cloths.c. */
#include <stdlib.h>
#include <string.h>

#include "name_table.h"
#include "reader.h"

/* ---- pieces ---- */

/* Sizes are exact numbers of the pattern's unit; without one, a piece could
 * not be compared at all. */
static void read_pieces(struct reader *reader, const json_t *pieces,
                        struct revision_quilt *quilt)
{
    for (size_t i = 0; i < json_array_size(pieces) && reader->problem == NULL;
         i++) {
        const json_t *from = json_array_get(pieces, i);
        note_thing(reader);
        struct revision_piece *piece = LIST_ADD(reader->arena, &quilt->pieces);
        piece->label = data_needed(reader, from, "label");
        piece->fabric = data_fabric(reader, from, "fabric");
        data_size(reader, from, "cut", &piece->width, &piece->height);
        data_size(reader, from, "finished", &piece->finished_width,
                  &piece->finished_height);
        piece->count = data_count(reader, from, "count");
        piece->border = data_count(reader, from, "border");
        piece->from_each = data_count(reader, from, "fromEach");
        piece->from_each += piece->from_each == 0;
        piece->shape = data_text(reader, from, "shape");
        if (!rational_known(piece->width) || !rational_known(piece->height))
            note_flaw(reader, "a piece has no size");
    }
}

/* What each piece is for is told with the cloth that it is cut from. */
static void read_purposes(struct reader *reader, const json_t *colorways,
                          struct revision_quilt *quilt)
{
    const json_t *cloths = data_list(
        reader, json_array_get(colorways, 0), "cloths");
    struct name_table purposes = {0};
    LIST(const char *) texts = {0};
    for (size_t i = 0; i < json_array_size(cloths); i++) {
        const json_t *items =
            data_list(reader, json_array_get(cloths, i), "items");
        for (size_t k = 0; k < json_array_size(items); k++) {
            const json_t *item = json_array_get(items, k);
            name_table_add(reader->arena, &purposes,
                           data_text(reader, item, "label"), texts.count);
            *LIST_ADD(reader->arena, &texts) = data_text(reader, item, "for");
        }
    }
    for (size_t i = 0; i < quilt->pieces.count; i++) {
        struct revision_piece *piece = &quilt->pieces.items[i];
        size_t found;
        piece->purpose = "";
        if (name_table_find(&purposes, piece->label, &found))
            piece->purpose = texts.items[found];
    }
}

/* The binding is cut, too. Older data do not say of which cloth. */
static void read_binding(struct reader *reader, const json_t *colorways,
                         struct revision_quilt *quilt)
{
    const json_t *binding =
        json_object_get(json_array_get(colorways, 0), "binding");
    if (binding == NULL || json_object_get(binding, "fabric") == NULL)
        return;
    *LIST_ADD(reader->arena, &quilt->pieces) = (struct revision_piece){
        .label = "",
        .purpose = "",
        .fabric = data_fabric(reader, binding, "fabric"),
        .width = data_length(reader, binding, "stripWidth"),
        .height = rational_whole(0),
        .finished_width = rational_unknown(),
        .finished_height = rational_unknown(),
        .from_each = 1,
        .shape = "",
        .count = data_count(reader, binding, "strips"),
        .strip = true};
}

/* ---- cloth ---- */

/* "3/2", "3/2+6√2": up to a comma or a blank. */
static bool coordinate(const char **at, struct rational *value)
{
    const size_t length = strcspn(*at, ", ");
    *value = rational_read(*at, length);
    *at += length;
    return rational_known(*value);
}

struct vertex_list {
    struct vertex *items;
    size_t count, capacity;
};

/* "night 0/1,0/1 2/1,0/1 2/1,2/1": a word, which comes back, and places. NULL
 * where it is none of that. */
static const char *read_places(struct reader *reader, const char *text,
                               struct vertex_list *points)
{
    const size_t word = strcspn(text, " ");
    const char *at = text + word;
    while (*at == ' ') {
        struct vertex point;
        at++;
        if (!coordinate(&at, &point.x) || *at++ != ',' ||
            !coordinate(&at, &point.y))
            return NULL;
        *LIST_ADD(reader->arena, points) = point;
    }
    return *at == '\0' ? arena_copy(reader->arena, text, word) : NULL;
}

/* The word names the fabric. */
static bool read_face(struct reader *reader, const char *text,
                      struct face *face)
{
    struct vertex_list points = {0};
    const char *fabric = read_places(reader, text, &points);
    size_t number;
    if (fabric == NULL || points.count < 3 ||
        !name_table_find(&reader->fabrics, fabric, &number))
        return false;
    *face = (struct face){.fabric = (int)number,
                          .points = points.items,
                          .count = points.count};
    return true;
}

/* As sewing has it, but without its seams: it is drawn and compared, never
 * sewn. NULL where the data have none. */
static const struct cloth *read_cloth(struct reader *reader,
                                      const json_t *faces,
                                      const struct revision_step *step)
{
    if (faces == NULL)
        return NULL;
    struct cloth *cloth = ARENA_NEW(reader->arena, struct cloth);
    cloth->width = step->width;
    cloth->height = step->height;
    for (size_t i = 0; i < json_array_size(faces); i++) {
        const char *text = json_string_value(json_array_get(faces, i));
        struct face face = {0};
        if (text == NULL || !read_face(reader, text, &face))
            note_flaw(reader, "`faces` holds what is no face");
        *LIST_ADD(reader->arena, &cloth->faces) = face;
    }
    return cloth;
}

/* ---- steps ---- */

/* Of older data, which do not number what is sewn: by its name. */
static int step_called(const struct revision_quilt *quilt, const char *name)
{
    for (size_t i = 0; i < quilt->steps.count; i++)
        if (strcmp(quilt->steps.items[i].part, name) == 0)
            return (int)i;
    return NOWHERE;
}

/* requires: the steps before this one are in the quilt. */
static void read_parts(struct reader *reader, const json_t *parts,
                       const struct name_table *labels,
                       const struct revision_quilt *quilt,
                       struct revision_step *step)
{
    for (size_t i = 0; i < json_array_size(parts); i++) {
        const json_t *from = json_array_get(parts, i);
        const char *name = data_text(reader, from, "part");
        const size_t place = data_count(reader, from, "step");
        size_t piece;
        struct revision_part part = {
            .name = name,
            .piece = NOWHERE,
            .step = NOWHERE,
            .turn = (long)data_count(reader, from, "turn"),
            .slanted = json_is_true(json_object_get(from, "slanted")),
            .x = data_length(reader, from, "x"),
            .y = data_length(reader, from, "y")};
        if (place > 0)
            part.step = (int)place - 1;
        else if (name_table_find(labels, name, &piece))
            part.piece = (int)piece;
        else
            part.step = step_called(quilt, name);
        /* A step is made of what was made before it. */
        if (part.piece == NOWHERE &&
            (part.step == NOWHERE || (size_t)part.step >= quilt->steps.count))
            note_flaw(reader, arena_printf(reader->arena,
                                      "nothing makes the part `%s`", name));
        *LIST_ADD(reader->arena, &step->parts) = part;
    }
}

/* "right left": one text that can be compared at once. */
static const char *joined_texts(struct reader *reader, const json_t *texts)
{
    struct buffer out = buffer_in(reader->arena);
    for (size_t i = 0; i < json_array_size(texts); i++) {
        const char *text = json_string_value(json_array_get(texts, i));
        buffer_printf(&out, "%s%s", i == 0 ? "" : " ",
                      text == NULL ? "" : text);
    }
    return buffer_string(&out);
}

/* Older data do not tell where seams lie. The word is the way that it goes. */
static void read_seams(struct reader *reader, const json_t *seams,
                       struct revision_action *action)
{
    for (size_t i = 0; i < json_array_size(seams); i++) {
        const char *text = json_string_value(json_array_get(seams, i));
        struct vertex_list ends = {0};
        const char *way =
            text == NULL ? NULL : read_places(reader, text, &ends);
        if (way == NULL || ends.count != 2) {
            note_flaw(reader, "`seams` holds what is no seam");
            return;
        }
        *LIST_ADD(reader->arena, &action->seams) =
            (struct revision_seam){way, ends.items[0], ends.items[1]};
    }
}

/* What hands do, in the order of the work; `press` and `text` are sentences of
 * the booklet and only told, never compared, as a language may change. */
static void read_actions(struct reader *reader, const json_t *actions,
                         struct revision_step *step)
{
    for (size_t i = 0; i < json_array_size(actions); i++) {
        const json_t *from = json_array_get(actions, i);
        struct revision_action action = {
            .kind = data_text(reader, from, "kind"),
            .line = data_text(reader, from, "line"),
            .at = data_text(reader, from, "at"),
            .pressed = joined_texts(reader, json_object_get(from, "pressed")),
            .press = data_text(reader, from, "press"),
            .text = data_text(reader, from, "text")};
        read_seams(reader, data_list(reader, from, "seams"), &action);
        *LIST_ADD(reader->arena, &step->actions) = action;
    }
}

/* The designer's words with this step. */
static void read_says(struct reader *reader, const json_t *says,
                      struct revision_step *step)
{
    for (size_t i = 0; i < json_array_size(says); i++) {
        const char *text = json_string_value(json_array_get(says, i));
        if (text == NULL)
            note_flaw(reader, "`says` holds what is no text");
        else
            *LIST_ADD(reader->arena, &step->says) =
                arena_copy(reader->arena, text, strlen(text));
    }
}

/* Older builds made digests that did not tell all cloths apart; theirs lack the
 * letter, and count as not told. */
static const char *read_result(struct reader *reader, const json_t *from)
{
    const char *result = data_text(reader, from, "result");
    return result[0] == 'm' ? result : "";
}

/* In the order of the data, in which each stands behind all that it is made of.
 * So a part that stands later, or nowhere, is a flaw, and what walks down a
 * step always ends. */
void read_steps(struct reader *reader, const json_t *steps,
                struct revision_quilt *quilt)
{
    struct name_table labels = {0};
    for (size_t i = 0; i < quilt->pieces.count; i++)
        name_table_add(reader->arena, &labels, quilt->pieces.items[i].label, i);
    for (size_t i = 0; i < json_array_size(steps) && reader->problem == NULL;
         i++) {
        const json_t *from = json_array_get(steps, i);
        note_thing(reader);
        struct revision_step step = {
            .number = data_count(reader, from, "number"),
            .count = data_count(reader, from, "count"),
            .makes = data_text(reader, from, "makes"),
            .part = data_text(reader, from, "part"),
            .id = data_text(reader, from, "id"),
            .name = data_text(reader, from, "name"),
            .cast = data_all(reader, json_object_get(from, "cast"), NULL),
            .mirrored = json_is_true(json_object_get(from, "mirrored")),
            .result = read_result(reader, from)};
        data_size(reader, from, "finished", &step.width, &step.height);
        read_parts(reader, data_list(reader, from, "parts"), &labels, quilt,
                   &step);
        read_actions(reader, data_list(reader, from, "actions"), &step);
        read_says(reader, data_list(reader, from, "says"), &step);
        step.cloth = read_cloth(reader, data_list(reader, from, "faces"), &step);
        reader->revision->whole &= step.result[0] != '\0';
        *LIST_ADD(reader->arena, &quilt->steps) = step;
    }
}

/* Of version 1 only names are read. A binding is a piece like others here,
 * since it is cut from cloth and may be cut too narrow. */
void read_quilt(struct reader *reader, const json_t *from)
{
    /* What names and colors quilting, beside where its lines lie. */
    static const char *const names[] = {"id",     "name",    "color",
                                        "thread", "threads", "letter",
                                        "fabric", NULL};
    struct revision_quilt quilt = {.id = data_needed(reader, from, "id"),
                                   .name = data_text(reader, from, "name"),
                                   .result = read_result(reader, from)};
    /* Names of fabrics are told once, for the pattern. */
    static const char *const fabrics[] = {"fabric", "shows", NULL};
    const json_t *quilting = json_object_get(from, "quilting");
    note_id(reader, &reader->quilts, "quilt", quilt.id,
            reader->revision->quilts.count);
    if (reader->revision->version > 1) {
        const json_t *colorways = data_list(reader, from, "colorways");
        data_size(reader, from, "finished", &quilt.width, &quilt.height);
        read_pieces(reader, data_list(reader, from, "pieces"), &quilt);
        read_purposes(reader, colorways, &quilt);
        read_binding(reader, colorways, &quilt);
        read_steps(reader, data_list(reader, from, "steps"), &quilt);
        read_colorways(reader, colorways, &quilt);
        quilt.quilting = data_all(reader, quilting, names);
        quilt.quilting_words = data_all(reader, quilting, fabrics);
        read_quilting(reader, quilting, &quilt);
    }
    *LIST_ADD(reader->arena, &reader->revision->quilts) = quilt;
}
