#include "folder_marker.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "buffer.h"

enum { MARKER_LIMIT_BYTES = 1024 * 1024 };

const char *marker_text(struct arena *arena, const struct output_file *files,
                        size_t count)
{
    struct buffer text = buffer_in(arena);
    for (size_t i = 0; i < count; i++) {
        buffer_text(&text, files[i].name);
        buffer_char(&text, '\n');
    }
    return buffer_string(&text);
}

/* What a marker says; `text` is NULL where there is none to be read. The
 * bytes come from the disk and are not trusted: names in them are compared,
 * and deleted only where they lead nowhere else. */
struct marker {
    const char *text;
    size_t length;
};

/* A marker that cannot be read in full counts as none, so that in doubt the
 * folder stays. A marker cut short lists less, which is on the safe side. */
static struct marker read_open(struct arena *arena, int file)
{
    struct marker none = {NULL, 0};
    struct stat about;
    if (fstat(file, &about) != 0 || !S_ISREG(about.st_mode) ||
        about.st_size > MARKER_LIMIT_BYTES)
        return none;
    const size_t size = (size_t)about.st_size;
    char *text = arena_alloc(arena, size + 1);
    size_t length = 0;
    while (length < size) {
        const ssize_t got = read(file, text + length, size - length);
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0)
            return none;
        if (got == 0)
            break;
        length += (size_t)got;
    }
    return (struct marker){text, length};
}

/* A link or a FIFO of that name is nobody's marker, and is not waited for. */
static struct marker read_marker(struct arena *arena, int folder)
{
    const int file =
        openat(folder, FOLDER_MARKER,
               O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY);
    if (file < 0)
        return (struct marker){NULL, 0};
    const struct marker marker = read_open(arena, file);
    close(file);
    return marker;
}

/* Takes the first line off `rest`. ensures: false where there is none. */
static bool take_line(struct marker *rest, struct marker *line)
{
    if (rest->text == NULL || rest->length == 0)
        return false;
    const char *end = memchr(rest->text, '\n', rest->length);
    *line = *rest;
    if (end != NULL)
        line->length = (size_t)(end - rest->text);
    const size_t used = line->length + (end != NULL);
    rest->text += used;
    rest->length -= used;
    return true;
}

/* By the whole line: a name that begins like a listed one is another. */
static bool lists(struct marker marker, const char *name)
{
    const size_t length = strlen(name);
    struct marker line;
    while (take_line(&marker, &line)) {
        if (line.length == length && memcmp(line.text, name, length) == 0)
            return true;
    }
    return false;
}

/* A name from a folder may hold anything; what is not plain is shown as "?",
 * so that it cannot steer a terminal. */
static const char *shown(struct arena *arena, const char *name)
{
    char *text = arena_copy(arena, name, strlen(name));
    for (char *c = text; *c != '\0'; c++) {
        if (*c < ' ' || *c > '~' || *c == '`')
            *c = '?';
    }
    return text;
}

/* Folders inside are never ours: the sets that we write are flat. */
static bool is_folder(int folder, const char *name)
{
    struct stat about;
    return fstatat(folder, name, &about, AT_SYMLINK_NOFOLLOW) == 0 &&
           S_ISDIR(about.st_mode);
}

/* ensures: NULL where the entry is the marker or listed in it; else the words
 * for the user, which tell what to do. */
static const char *entry_objection(struct arena *arena, int folder,
                                   struct marker marker, const char *name)
{
    const bool is_marker = strcmp(name, FOLDER_MARKER) == 0;
    if (marker.text == NULL)
        return arena_printf(arena,
                            "the folder holds other files, such as `%s`; "
                            "name a new or an empty folder",
                            shown(arena, name));
    if ((is_marker || lists(marker, name)) && !is_folder(folder, name))
        return NULL;
    return arena_printf(arena,
                        "`%s` in the folder was not written by seamwright; "
                        "move it elsewhere first",
                        shown(arena, name));
}

static bool is_dots(const char *name)
{
    return strcmp(name, ".") == 0 || strcmp(name, "..") == 0;
}

/* The first entry, by name, that objects: the same message on every run, as
 * the order in which a folder is read is up to the file system. The marker is
 * read first: a build at the same time deletes it last, so that whatever is
 * still met here has its line there. */
static const char *first_objection(struct arena *arena, int folder,
                                   DIR *entries)
{
    const struct marker marker = read_marker(arena, folder);
    const char *objection = NULL;
    const char *first = NULL;
    const struct dirent *entry;
    while ((errno = 0, entry = readdir(entries)) != NULL) {
        if (is_dots(entry->d_name))
            continue;
        if (first != NULL && strcmp(entry->d_name, first) >= 0)
            continue;
        const char *found =
            entry_objection(arena, folder, marker, entry->d_name);
        if (found == NULL)
            continue;
        objection = found;
        first = arena_copy(arena, entry->d_name, strlen(entry->d_name));
    }
    if (errno != 0)
        return arena_printf(arena, "%s", strerror(errno));
    return objection;
}

DIR *marker_entries(int folder)
{
    /* A descriptor of its own: closedir closes it. */
    const int again = openat(folder, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    DIR *entries = again < 0 ? NULL : fdopendir(again);
    if (entries == NULL && again >= 0) {
        const int error = errno;
        close(again);
        errno = error;
    }
    return entries;
}

const char *marker_objection_in(struct arena *arena, int folder, DIR *entries)
{
    rewinddir(entries);
    return first_objection(arena, folder, entries);
}

const char *marker_objection(struct arena *arena, int folder)
{
    DIR *entries = marker_entries(folder);
    if (entries == NULL)
        return arena_printf(arena, "%s", strerror(errno));
    const char *objection = marker_objection_in(arena, folder, entries);
    closedir(entries);
    return objection;
}

/* A file that will not go is left, and the marker with it (one that cannot be
 * read, too): the folder then lies
 * beside the new one under its hidden name, until the next build tries again.
 */
void marker_delete_files(struct arena *arena, int folder)
{
    struct marker rest = read_marker(arena, folder);
    struct marker line;
    bool all = rest.text != NULL;
    while (take_line(&rest, &line)) {
        const char *name = arena_copy(arena, line.text, line.length);
        if (strchr(name, '/') == NULL && !is_dots(name))
            all &= unlinkat(folder, name, 0) == 0 || errno == ENOENT;
    }
    if (all)
        unlinkat(folder, FOLDER_MARKER, 0);
}
