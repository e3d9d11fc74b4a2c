/* The data of a build become the facts of a revision. The only file that knows
 * the JSON library (jansson). What is missing in older data stays empty, and
 * `whole` says so; what is there and is none of what it should be is told.
 * Read next: read_steps.c. */
#include <jansson.h>
#include <string.h>

#include "diag.h"
#include "reader.h"

/* ---- values ---- */

/* Reading goes on with empty values, so that callers need no error path; the
 * first flaw is what is told, as others may come of it. */
void note_flaw(struct reader *reader, const char *words)
{
    if (reader->problem == NULL)
        reader->problem = words;
}

void note_id(struct reader *reader, struct name_table *table, const char *what,
             const char *id, size_t number)
{
    if (!name_table_add(reader->arena, table, id, number))
        note_flaw(reader, arena_printf(reader->arena, "two %ss have the id %s",
                                       what, quoted(reader->arena, id)));
}

void note_thing(struct reader *reader)
{
    if (++reader->things > THINGS_MOST)
        note_flaw(reader,
                  arena_printf(reader->arena,
                               "it has more than %d pieces and steps, which is "
                               "more than any pattern may have",
                               THINGS_MOST));
}

/* Copied into the arena, as the library's tree goes before the facts do. */
const char *data_text(struct reader *reader, const json_t *object,
                    const char *key)
{
    const json_t *value = json_object_get(object, key);
    if (value == NULL)
        return "";
    if (!json_is_string(value)) {
        note_flaw(reader, arena_printf(reader->arena, "`%s` is no text", key));
        return "";
    }
    return arena_copy(reader->arena, json_string_value(value),
                      json_string_length(value));
}

/* What stands for a name or a number that all data have. */
const char *data_needed(struct reader *reader, const json_t *object,
                        const char *key)
{
    if (json_object_get(object, key) == NULL)
        note_flaw(reader, arena_printf(reader->arena, "a `%s` is missing", key));
    return data_text(reader, object, key);
}

/* Never below 0 and never so large that sums of counts could overflow. */
size_t data_count(struct reader *reader, const json_t *object, const char *key)
{
    const json_t *value = json_object_get(object, key);
    if (value == NULL)
        return 0;
    if (!json_is_integer(value) || json_integer_value(value) < 0 ||
        json_integer_value(value) > INT32_MAX) {
        note_flaw(reader, arena_printf(reader->arena, "`%s` is no count", key));
        return 0;
    }
    return (size_t)json_integer_value(value);
}

/* A number with roots is told in full; what a ruler has of it stands beside it
 * and is not read. */
static struct rational data_root(struct reader *reader, const char *key,
                                 const char *text)
{
    const struct rational value = rational_read(text, strlen(text));
    if (!rational_known(value))
        note_flaw(reader, arena_printf(reader->arena, "`%s` is no length: %s", key,
                                  quoted(reader->arena, text)));
    return value;
}

/* Unknown where nothing is written. */
struct rational data_length(struct reader *reader, const json_t *object,
                          const char *key)
{
    return length_told(reader, key, data_text(reader, object, key));
}

/* 0 is a place. */
struct rational length_told(struct reader *reader, const char *key,
                            const char *text)
{
    if (text[0] == '\0')
        return rational_unknown();
    if (strcmp(text, "0") == 0)
        return rational_whole(0);
    if (strstr(text, "\u221a") != NULL)
        return data_root(reader, key, text);
    const bool below = text[0] == '-';
    const struct length_result result =
        length_parse(text + below, strlen(text + below), reader->revision->unit);
    if (result.fault != LENGTH_OK)
        note_flaw(reader, arena_printf(reader->arena, "`%s` is no length: %s", key,
                                  quoted(reader->arena, text)));
    return below ? rational_times(result.value, -1) : result.value;
}

/* An object that holds a width and a height. */
void data_size(struct reader *reader, const json_t *object, const char *key,
             struct rational *width, struct rational *height)
{
    const json_t *size = json_object_get(object, key);
    *width = data_length(reader, size, "width");
    *height = data_length(reader, size, "height");
}

/* What is there and no list is told; what is not there is an empty one. */
const json_t *data_list(struct reader *reader, const json_t *object,
                      const char *key)
{
    const json_t *value = json_object_get(object, key);
    if (value != NULL && !json_is_array(value)) {
        note_flaw(reader, arena_printf(reader->arena, "`%s` is no list", key));
        return NULL;
    }
    return value; /* NULL counts as an empty one */
}

/* The fabric of that id; NOWHERE, and told, for one that is not there. */
int data_fabric(struct reader *reader, const json_t *object, const char *key)
{
    const char *id = data_text(reader, object, key);
    size_t number;
    if (name_table_find(&reader->fabrics, id, &number))
        return (int)number;
    note_flaw(reader, arena_printf(reader->arena, "`%s` names no fabric: %s", key,
                              quoted(reader->arena, id)));
    return NOWHERE;
}

/* ---- all that an object says, as one text ---- */

/* Of keys whose values do not count in a comparison. */
static bool is_left_out(const char *const *without, const char *key)
{
    for (; without != NULL && *without != NULL; without++)
        if (strcmp(*without, key) == 0)
            return true;
    return false;
}

static void add_value(struct buffer *out, const json_t *value,
                      const char *const *without);

/* Keys come in the order of the file, which is ours. */
static void add_object(struct buffer *out, const json_t *object,
                       const char *const *without)
{
    const char *key;
    json_t *value;
    buffer_char(out, '{');
    json_object_foreach((json_t *)(uintptr_t)object, key, value)
    {
        if (is_left_out(without, key))
            continue;
        buffer_printf(out, "%s:", key);
        add_value(out, value, without);
    }
    buffer_char(out, '}');
}

/* Each value ends with a sign of its own, so that two different trees never
 * give one text. Depth is bounded by the reader of JSON. */
static void add_value(struct buffer *out, const json_t *value,
                      const char *const *without)
{
    if (json_is_object(value)) {
        add_object(out, value, without);
    } else if (json_is_array(value)) {
        for (size_t i = 0; i < json_array_size(value); i++)
            add_value(out, json_array_get(value, i), without);
    } else if (json_is_string(value)) {
        buffer_json(out, json_string_value(value));
    } else if (json_is_integer(value)) {
        buffer_printf(out, "%lld", (long long)json_integer_value(value));
    } else {
        buffer_text(out, json_is_true(value) ? "true" : "false");
    }
    buffer_char(out, ';');
}

/* Nothing gives "", which differs from an object without keys. */
const char *data_all(struct reader *reader, const json_t *value,
                   const char *const *without)
{
    struct buffer out = buffer_in(reader->arena);
    if (value != NULL)
        add_value(&out, value, without);
    return buffer_string(&out);
}

/* ---- the pattern ---- */

/* Texts that older data have not are empty, and `whole` is false then: empty is
 * no change of a text there. */
static void read_about(struct reader *reader, const json_t *pattern)
{
    struct revision *revision = reader->revision;
    const char *units = data_text(reader, pattern, "units");
    revision->unit = strcmp(units, "cm") == 0 ? UNIT_CM : UNIT_IN;
    revision->id = data_needed(reader, pattern, "id");
    revision->title = data_needed(reader, pattern, "title");
    revision->designer = data_text(reader, pattern, "designer");
    revision->publisher = data_text(reader, pattern, "publisher");
    revision->revision = data_text(reader, pattern, "revision");
    revision->date = data_text(reader, pattern, "date");
    revision->skill = data_text(reader, pattern, "skill");
    revision->summary = data_text(reader, pattern, "summary");
    revision->looks = data_text(reader, pattern, "looks");
    revision->allowance = data_text(reader, pattern, "allowance");
    revision->cutting_step = data_text(reader, pattern, "cuttingStep");
    revision->whole &= revision->looks[0] != '\0';
}

/* In the order of the source, by which letters and labels go. */
static void read_fabrics(struct reader *reader, const json_t *fabrics)
{
    for (size_t i = 0; i < json_array_size(fabrics); i++) {
        const json_t *fabric = json_array_get(fabrics, i);
        *LIST_ADD(reader->arena, &reader->revision->fabrics) =
            (struct revision_fabric){
                data_needed(reader, fabric, "id"),
                data_text(reader, fabric, "letter"),
                data_text(reader, fabric, "name"),
                json_is_true(json_object_get(fabric, "oneWay"))};
        note_id(reader, &reader->fabrics, "fabric",
                reader->revision->fabrics.items[i].id, i);
    }
}

/* ensures: the version, or a problem. Only what this program wrote, or an
 * earlier one, is data of a pattern. */
static void read_version(struct reader *reader, const json_t *root)
{
    const json_t *version = json_object_get(root, "version");
    enum { NEWEST = 2 };
    if (!json_is_integer(version) ||
        !json_is_object(json_object_get(root, "pattern")) ||
        !json_is_array(json_object_get(root, "quilts"))) {
        note_flaw(reader, "it is JSON, but not the data of a pattern, which has "
                     "`version`, `pattern` and `quilts`");
        return;
    }
    reader->revision->version = (long)json_integer_value(version);
    if (reader->revision->version < 1 || reader->revision->version > NEWEST)
        note_flaw(reader,
             arena_printf(reader->arena,
                          "it is data of version %ld; this program knows "
                          "versions 1 and %d",
                          reader->revision->version, NEWEST));
    reader->revision->whole = reader->revision->version == NEWEST;
}

/* Of the first version only words are read: its steps are numbered otherwise. */
static void read_root(struct reader *reader, const json_t *root)
{
    read_version(reader, root);
    if (reader->problem != NULL)
        return;
    read_about(reader, json_object_get(root, "pattern"));
    read_fabrics(reader, data_list(reader, root, "fabrics"));
    const json_t *quilts = json_object_get(root, "quilts");
    for (size_t i = 0; i < json_array_size(quilts) && reader->problem == NULL;
         i++)
        read_quilt(reader, json_array_get(quilts, i));
}

/* A key that stands twice is refused: which of the two counts is for nobody to
 * guess. The tree lives only as long as it is read. */
struct revision *read_revision(struct arena *arena, const char *bytes,
                               size_t length, const char **problem)
{
    json_error_t error;
    struct reader reader = {.arena = arena,
                            .revision = ARENA_NEW(arena, struct revision)};
    json_t *root =
        json_loadb(bytes, length, JSON_REJECT_DUPLICATES, &error);
    if (root == NULL)
        reader.problem =
            arena_printf(arena, "it is no JSON: line %d, column %d: %s",
                         error.line, error.column, error.text);
    else
        read_root(&reader, root);
    json_decref(root);
    *problem = reader.problem;
    return reader.problem == NULL ? reader.revision : NULL;
}
