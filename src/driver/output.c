/* All that the program says on its two streams. Text goes through here and is
 * escaped here: names and paths can hold what a terminal would act on, or what
 * turns the order of letters. */
#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "buffer.h"
#include "character.h"
#include "driver.h"

/* A full disk shows when the stream is flushed, not before. */
int write_bytes(const char *bytes, size_t length)
{
    errno = 0;
    if (fwrite(bytes, 1, length, stdout) == length && fflush(stdout) == 0)
        return STATUS_CLEAN;
    fprintf(stderr, "seamwright: standard output: cannot write: %s\n",
            strerror(errno));
    return STATUS_FILES;
}

/* Line ends are ours; all else that is not seen is told as U+XXXX. */
struct buffer shown_text(struct arena *arena, const char *text)
{
    struct buffer out = buffer_in(arena);
    const size_t length = strlen(text);
    for (size_t at = 0; at < length;) {
        const struct character c = character_at(text + at, length - at);
        if (c.code == '\n' && !c.malformed)
            buffer_char(&out, '\n');
        else
            add_shown(&out, text + at, c);
        at += c.size;
    }
    return out;
}

int write_text(const char *text)
{
    struct arena *arena = arena_create();
    const struct buffer out = shown_text(arena, text);
    const int status = write_bytes(buffer_string(&out), out.length);
    arena_destroy(arena);
    return status;
}

void complain(const char *format, ...)
{
    struct arena *arena = arena_create();
    va_list arguments;
    va_start(arguments, format);
    const char *text = arena_vprintf(arena, format, arguments);
    va_end(arguments);
    const struct buffer out = shown_text(arena, text);
    fwrite(buffer_string(&out), 1, out.length, stderr);
    arena_destroy(arena);
}

/* What is printed is made before, so that nothing can be wanting when the files
 * are there. That print can fail, too. */
int write_folder(struct arena *arena, const char *folder,
                 const struct output_file *files, size_t count,
                 const char *sums)
{
    struct buffer told = buffer_in(arena);
    buffer_printf(&told, "%s: %zu files\n", folder, count);
    for (size_t i = 0; i < count; i++)
        buffer_printf(&told, "  %s\n", files[i].name);
    buffer_printf(&told, "%s", sums);
    const struct buffer shown = shown_text(arena, buffer_string(&told));
    const char *problem = NULL;
    if (files_replace_folder(arena, folder, files, count, &problem))
        return write_bytes(shown.bytes, shown.length);
    complain("seamwright: %s\n", problem);
    return STATUS_FILES;
}

/* /dev/null takes the number, opened for the other direction: reading from
 * standard input or writing to the others then fails as it would have. */
void hold_streams(void)
{
    for (int stream = STDIN_FILENO; stream <= STDERR_FILENO; stream++)
        if (fcntl(stream, F_GETFD) < 0 && errno == EBADF)
            (void)!open("/dev/null",
                        stream == STDIN_FILENO ? O_WRONLY : O_RDONLY);
}
