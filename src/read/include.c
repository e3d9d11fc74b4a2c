/* Shared files: what one of them holds stands in the pattern behind the element
 * that includes it, as if it were written there. Each file comes in once. Ends
 * with all files in the source of the run, so that a trial of a change reads
 * none of them again. Read next: read.c. */
#include "reader.h"

#include <string.h>

#include "buffer.h"
#include "named_file.h"

static const struct file_kind SHARED = {
    .attribute = ATTR_HREF,
    .code = DIAG_INCLUDE,
    .thing = "shared file",
    .kinds = "an XML file whose root is `shared`",
    .too_large = "is too large",
    .smaller = "a pattern and all that it includes hold 16 MiB at most",
    .from = "file"};

/* The same for an order, which takes its stock from elsewhere. */
static const struct file_kind SHELF = {
    .attribute = ATTR_HREF,
    .code = DIAG_INCLUDE,
    .thing = "shelf",
    .kinds = "an XML file whose root is `shelf`",
    .too_large = "is too large",
    .smaller = "an order and all that it includes hold 16 MiB at most",
    .from = "file"};

static const struct file_kind *kind_of(const struct source_reader *all)
{
    return all->root == ELEMENT_ORDER ? &SHELF : &SHARED;
}

static struct opened *add_file(struct source_reader *all, const char *path,
                               const struct source_part *part)
{
    struct opened *file = ARENA_NEW(all->run->arena, struct opened);
    file->path = path;
    file->part = *part;
    *LIST_ADD(all->run->arena, &all->files) = file;
    return file;
}

struct opened *open_first(struct source_reader *all)
{
    const struct source *source = all->run->source;
    return add_file(all, source->name + source_folder_length(source),
                    &source->parts.items[0]);
}

void note_include(struct run *run, struct diagnostic *d,
                  const struct opened *file)
{
    if (file->by != NULL)
        diag_note(run, d, file->href, "the file is included here");
}

/* The file of that path, or NULL where it has not come in yet. */
static const struct opened *opened_at(const struct source_reader *all,
                                      const char *path)
{
    for (size_t i = 0; i < all->files.count; i++)
        if (strcmp(all->files.items[i]->path, path) == 0)
            return all->files.items[i];
    return NULL;
}

static size_t depth_of(const struct opened *file)
{
    size_t depth = 0;
    for (; file->by != NULL; file = file->by)
        depth++;
    return depth;
}

/* Is `file` the one, or included by it on any way? */
static bool lies_in(const struct opened *file, const struct opened *other)
{
    while (file != NULL && file != other)
        file = file->by;
    return file != NULL;
}

/* "`a.xml` includes `b.xml`, which includes `c.xml`". */
static void add_chain(struct arena *arena, struct buffer *text,
                      const struct opened *first, const struct opened *last)
{
    if (last != first)
        add_chain(arena, text, first, last->by);
    buffer_text(text, quoted(arena, last->path));
    buffer_text(text, last == first ? " includes " : ", which includes ");
}

/* `again` is `from` itself, or includes it. */
static void report_circle(struct run *run, const struct opened *from,
                          const struct opened *again, const struct value *href)
{
    const char *name = quoted(run->arena, again->path);
    struct diagnostic *d = diag_report(run, DIAG_INCLUDE, href->span,
                                       "%s is included in itself", name);
    for (const struct opened *file = from; file != again; file = file->by)
        diag_note(run, d, file->href, "%s is included here",
                  quoted(run->arena, file->path));
    struct buffer chain = buffer_in(run->arena);
    add_chain(run->arena, &chain, again, from);
    diag_note(run, d, (struct span){0, 0}, "%s%s", buffer_string(&chain), name);
    diag_help(run, d, "leave out one `include` of these files");
}

/* One file names it twice. Where two do, each names what it needs, and it comes
 * in for both. */
static void report_twice(struct run *run, const struct opened *first,
                         const struct element *include,
                         const struct value *href)
{
    struct diagnostic *d =
        diag_report(run, DIAG_INCLUDE, href->span, "%s is included already",
                    quoted(run->arena, first->path));
    diag_note(run, d, first->href, "the first time");
    diag_mend(run, d, element_span(run->source, include), "",
              "delete this `include`");
    mark_unsound(include->parent);
}

/* ensures: false, and *included the file that came in before; or true. A file
 * that is on its way has not come in. */
static bool is_new(struct source_reader *all, const struct opened *from,
                   const struct element *include, const struct value *href,
                   const char *path)
{
    const struct opened *again = opened_at(all, path);
    if (again == NULL)
        return true;
    if (lies_in(from, again)) {
        report_circle(all->run, from, again, href);
        all->incomplete = true;
    } else if (again->by == from) {
        report_twice(all->run, again, include, href);
    }
    return false;
}

static bool within_limits(struct source_reader *all, const struct opened *from,
                          struct span href)
{
    const bool deep = depth_of(from) + 1 > LIMIT_INCLUDED_DEPTH;
    if (!deep && all->files.count <= LIMIT_INCLUDED)
        return true;
    diag_report(all->run, DIAG_LIMIT, href, "more than %d shared files%s",
                deep ? LIMIT_INCLUDED_DEPTH : LIMIT_INCLUDED,
                deep ? " inside each other" : "");
    return false;
}

/* What is left of the limit of one source; what parts the files is no part of
 * them. */
static size_t bytes_left(const struct source *source)
{
    const size_t bytes = source->length - (source->parts.count - 1);
    return bytes < SOURCE_LIMIT_BYTES ? SOURCE_LIMIT_BYTES - bytes : 0;
}

/* ensures: the bytes at the path, in the source; or NULL. reports: a file that
 * cannot be read. */
static const struct source_part *
part_at(struct source_reader *all, const struct value *href, const char *path)
{
    struct run *run = all->run;
    const char *name = arena_printf(run->arena, "%.*s%s",
                                    (int)source_folder_length(run->source),
                                    run->source->name, path);
    for (size_t i = 1; i < run->source->parts.count; i++)
        if (strcmp(run->source->parts.items[i].name, name) == 0)
            return &run->source->parts.items[i];
    struct file_kind kind = *kind_of(all);
    kind.most_bytes = bytes_left(run->source);
    const struct file_content *file = read_file_at(run, &kind, href, path);
    if (file == NULL)
        return NULL;
    run->source =
        source_with(run->arena, run->source, name, file->bytes, file->length);
    return &run->source->parts.items[run->source->parts.count - 1];
}

/* In the place of the root that they had. */
static void put_behind(struct run *run, struct element *parent,
                       const struct element *shared)
{
    for (size_t i = 0; i < shared->children.count; i++) {
        shared->children.items[i]->parent = parent;
        *LIST_ADD(run->arena, &parent->children) = shared->children.items[i];
    }
    if (shared->faulty)
        mark_faulty(parent);
    else if (shared->unsound)
        mark_unsound(parent);
}

/* ensures: the root of the file that came in; or NULL, and that it lacks. */
static struct element *read_included(struct source_reader *all,
                                     const struct opened *from,
                                     const struct value *href, const char *path)
{
    struct run *run = all->run;
    const struct source_part *part =
        within_limits(all, from, href->span) ? part_at(all, href, path) : NULL;
    struct element *shared = NULL;
    if (part != NULL) {
        struct opened *file = add_file(all, path, part);
        file->by = from;
        file->href = href->span;
        if (prescan(run, file))
            shared = parse_elements(all, file);
    }
    all->incomplete |= shared == NULL;
    return shared;
}

/* The folder of a path, with its slash, or "". */
static const char *folder_of(struct arena *arena, const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash == NULL ? ""
                         : arena_copy(arena, path, (size_t)(slash + 1 - path));
}

void include_file(struct source_reader *all, const struct opened *from,
                  struct element *include)
{
    struct run *run = all->run;
    const struct value *href = value_of(include, ATTR_HREF);
    const char *path =
        href == NULL
            ? NULL
            : named_path(run, kind_of(all), href, folder_of(run->arena, from->path));
    if (path == NULL) {
        check_attributes(run, include);
        all->incomplete = true;
    } else if (is_new(all, from, include, href, path)) {
        const struct element *shared = read_included(all, from, href, path);
        if (shared != NULL)
            put_behind(run, include->parent, shared);
    }
}
