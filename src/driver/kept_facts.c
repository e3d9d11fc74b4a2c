/* Facts of patterns beside the output of `kit`, so that a source that has not
 * changed is not planned again. A record holds what it was made from, a digest
 * of all that, and a digest of itself: one bit that is off, and the pattern is
 * compiled anew. GLib counts the digests (SHA-256).
 *
 *     seamwright-facts VERSION
 *     DIGEST-OF-FILES DIGEST-OF-FACTS LENGTH FILES
 *     the name of each file, from the folder of the pattern, one a line
 *     LENGTH bytes of facts
 */
#include <glib.h>
#include <stdlib.h>
#include <string.h>

#include "buffer.h"
#include "files.h"
#include "kitting.h"

static const char head[] = "seamwright-facts " SEAMWRIGHT_VERSION "\n";

enum { DIGEST_LENGTH = 64, FILES_MOST = 1000 };

/* One pattern. */
struct record {
    const char *name;         /* as the order writes it */
    const char *digest;       /* of its files */
    LIST(const char *) files; /* the pattern first */
    const char *facts;        /* as text */
    size_t length;
    bool current; /* asked for or made in this run */
};

struct kept_facts {
    struct arena *arena;
    LIST(struct record) records;
};

/* ---- digests ---- */

/* Ends the sum: GLib gives its text only as long as that lives. */
static const char *digest_of(struct arena *arena, GChecksum *sum)
{
    const char *digest =
        arena_copy(arena, g_checksum_get_string(sum), DIGEST_LENGTH);
    g_checksum_free(sum);
    return digest;
}

/* The lengths keep the end of one file from being taken for the start of the
 * next. */
static void add_file(GChecksum *sum, const char *bytes, size_t length)
{
    const guint64 size = length;
    g_checksum_update(sum, (const guchar *)&size, sizeof size);
    g_checksum_update(sum, (const guchar *)bytes, (gssize)length);
}

/* Begins with the version: another one may plan otherwise. */
static GChecksum *new_sum(void)
{
    GChecksum *sum = g_checksum_new(G_CHECKSUM_SHA256);
    g_checksum_update(sum, (const guchar *)head, sizeof head);
    return sum;
}

/* Of a record itself, for damage on the disk. */
static const char *digest_of_text(struct arena *arena, const char *bytes,
                                  size_t length)
{
    GChecksum *sum = new_sum();
    add_file(sum, bytes, length);
    return digest_of(arena, sum);
}

/* ---- reading ---- */

/* Up to the end of the line. ensures: NULL where there is none. */
static const char *next_line(struct arena *arena, const char **at,
                             const char *end)
{
    const char *stop = memchr(*at, '\n', (size_t)(end - *at));
    if (stop == NULL)
        return NULL;
    const char *line = arena_copy(arena, *at, (size_t)(stop - *at));
    *at = stop + 1;
    return line;
}

/* "DIGEST DIGEST LENGTH FILES". ensures: false where it is none. */
static bool read_numbers(const char *line, size_t *length, size_t *files)
{
    const char *at = line + 2 * (DIGEST_LENGTH + 1);
    if (strlen(line) < 2 * (DIGEST_LENGTH + 1) || line[DIGEST_LENGTH] != ' ')
        return false;
    char *behind;
    *length = strtoul(at, &behind, 10);
    if (behind == at || *behind != ' ')
        return false;
    at = behind + 1;
    *files = strtoul(at, &behind, 10);
    return behind != at && *behind == '\0' && *files >= 1 &&
           *files <= FILES_MOST;
}

/* ensures: false where the rest cannot be read. */
static bool read_record(struct kept_facts *kept, const char **at,
                        const char *end)
{
    struct arena *arena = kept->arena;
    struct record record = {.current = false};
    size_t files;
    const char *line = next_line(arena, at, end);
    if (line == NULL || !read_numbers(line, &record.length, &files))
        return false;
    record.name = next_line(arena, at, end);
    for (size_t i = 0; record.name != NULL && i < files; i++) {
        const char *file = next_line(arena, at, end);
        if (file == NULL)
            return false;
        *LIST_ADD(arena, &record.files) = file;
    }
    if (record.name == NULL || record.length > (size_t)(end - *at))
        return false;
    record.digest = arena_copy(arena, line, DIGEST_LENGTH);
    record.facts = arena_copy(arena, *at, record.length);
    *at += record.length;
    const char *wanted =
        arena_copy(arena, line + DIGEST_LENGTH + 1, DIGEST_LENGTH);
    if (strcmp(digest_of_text(arena, record.facts, record.length), wanted) != 0)
        return false;
    *LIST_ADD(arena, &kept->records) = record;
    return true;
}

/* What comes behind a damaged record is not looked at; those patterns are
 * compiled. */
struct kept_facts *kept_facts_open(struct arena *arena, const char *folder)
{
    struct kept_facts *kept = ARENA_NEW(arena, struct kept_facts);
    kept->arena = arena;
    const struct file_content file =
        file_read_below(arena, folder, KEPT_FACTS_NAME, SOURCE_LIMIT_BYTES);
    if (file.fault != FILE_OK || strncmp(file.bytes, head, strlen(head)) != 0)
        return kept;
    const char *at = file.bytes + strlen(head);
    const char *end = file.bytes + file.length;
    while (at < end && read_record(kept, &at, end))
        ;
    return kept;
}

/* The files as they are now. ensures: NULL where one cannot be read. */
static const char *digest_now(struct arena *arena, const struct record *record,
                              const char *path)
{
    const char *slash = strrchr(path, '/');
    const char *folder =
        slash == NULL ? "."
                      : arena_copy(arena, path, (size_t)(slash + 1 - path));
    GChecksum *sum = new_sum();
    for (size_t i = 0; i < record->files.count; i++) {
        const char *name = record->files.items[i];
        const struct file_content file =
            name[0] == '/' || strstr(name, "..") != NULL
                ? (struct file_content){.fault = FILE_UNREADABLE}
                : file_read_below(arena, folder, name, SOURCE_LIMIT_BYTES);
        if (file.fault != FILE_OK) {
            g_checksum_free(sum);
            return NULL;
        }
        add_file(sum, name, strlen(name));
        add_file(sum, file.bytes, file.length);
    }
    return digest_of(arena, sum);
}

/* A file that changed, went or became a link makes another digest, or none. */
const struct kit_facts_list *kept_facts_find(struct kept_facts *kept,
                                             const char *name, const char *path)
{
    for (size_t i = 0; i < kept->records.count; i++) {
        struct record *record = &kept->records.items[i];
        if (strcmp(record->name, name) != 0)
            continue;
        struct arena *scratch = arena_create();
        const char *now = digest_now(scratch, record, path);
        const bool same = now != NULL && strcmp(now, record->digest) == 0;
        arena_destroy(scratch);
        const char *at = record->facts;
        struct kit_facts_list *facts =
            same ? kit_facts_read(kept->arena, &at, at + record->length) : NULL;
        record->current |= facts != NULL;
        return facts;
    }
    return NULL;
}

/* ---- writing ---- */

/* In the place of an older record of that pattern. Names count from its own
 * folder, so that both can move. */
void kept_facts_add(struct kept_facts *kept, const char *name,
                    const struct source *source,
                    const struct kit_facts_list *facts)
{
    struct arena *arena = kept->arena;
    GChecksum *sum = new_sum();
    struct record *record = NULL;
    for (size_t i = 0; i < kept->records.count && record == NULL; i++)
        if (strcmp(kept->records.items[i].name, name) == 0)
            record = &kept->records.items[i];
    if (record == NULL)
        record = LIST_ADD(arena, &kept->records);
    *record = (struct record){.name = name, .current = true};
    const struct source *unplaced = source_unplaced(arena, source);
    for (size_t i = 0; i < unplaced->parts.count; i++) {
        const struct source_part *part = &unplaced->parts.items[i];
        const char *file = arena_copy(arena, part->name, strlen(part->name));
        *LIST_ADD(arena, &record->files) = file;
        add_file(sum, file, strlen(file));
        add_file(sum, source->bytes + part->start, part->length);
    }
    record->digest = digest_of(arena, sum);
    record->facts = kit_facts_write(arena, facts);
    record->length = strlen(record->facts);
}

/* Patterns that this order has not are forgotten. */
const char *kept_facts_bytes(const struct kept_facts *kept)
{
    struct buffer out = buffer_in(kept->arena);
    buffer_text(&out, head);
    for (size_t i = 0; i < kept->records.count; i++) {
        const struct record *record = &kept->records.items[i];
        if (!record->current)
            continue;
        buffer_printf(
            &out, "%s %s %zu %zu\n%s\n", record->digest,
            digest_of_text(kept->arena, record->facts, record->length),
            record->length, record->files.count, record->name);
        for (size_t k = 0; k < record->files.count; k++)
            buffer_printf(&out, "%s\n", record->files.items[k]);
        buffer_add(&out, record->facts, record->length);
    }
    return buffer_string(&out);
}
