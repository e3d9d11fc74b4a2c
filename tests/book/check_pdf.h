/* What programs that are not ours find in a booklet's PDF against the machine
 * rules of ISO 14289-1, and of its dashes: qpdf and jq, by the rules of
 * tests/render, and poppler. */
#ifndef SEAMWRIGHT_TESTS_CHECK_PDF_H
#define SEAMWRIGHT_TESTS_CHECK_PDF_H

#include <stdlib.h>
#include <unistd.h>

#include "pages.h"
#include "render.h"

/* What a command prints; its name would be told where it does not run. */
static inline const char *printed_by(struct arena *arena, const char *command)
{
    struct buffer text = buffer_in(arena);
    char line[400];
    FILE *pipe = popen(command, "r");
    if (pipe == NULL)
        return command;
    while (fgets(line, sizeof line, pipe) != NULL)
        buffer_printf(&text, "%s", line);
    if (pclose(pipe) != 0)
        buffer_printf(&text, "H0 failed: %s\n", command);
    return buffer_string(&text);
}

/* ensures: the path of the booklet's file; who asks unlinks it. */
static inline const char *written_pdf(const struct visit *visit)
{
    struct arena *arena = visit->all->arena;
    const struct rendered pdf =
        render_pdf(arena, visit->all->typeset, visit->book);
    const char *build = getenv("BUILD");
    char *path = (char *)arena_printf(arena, "%s/tests/rules-XXXXXX",
                                      build == NULL ? "build" : build);
    const int file = mkstemp(path);
    assert_null(pdf.problem);
    assert_true(file >= 0);
    assert_int_equal(write(file, pdf.bytes, pdf.length), (ssize_t)pdf.length);
    close(file);
    return path;
}

/* What the rules of a file say to the operators of the pages, which first go
 * through `change`, a command or "cat". */
static inline const char *told_of_pages(struct arena *arena, const char *path,
                                        const char *change, const char *rules)
{
    return printed_by(arena,
                      arena_printf(arena,
                                   "qpdf --qdf --normalize-content=y "
                                   "--object-streams=disable %s - 2>&1 | %s | "
                                   "LC_ALL=C awk -f tests/render/%s.awk",
                                   path, change, rules));
}

/* ensures: a line for each breach, "H4 a figure without words". */
static inline const char *pdf_report(const struct visit *visit)
{
    struct arena *arena = visit->all->arena;
    const char *path = written_pdf(visit);
    const char *structure =
        printed_by(arena, arena_printf(arena,
                                       "qpdf --json=2 %s 2>&1 | "
                                       "jq -rf tests/render/pdf_structure.jq",
                                       path));
    const char *marks = told_of_pages(arena, path, "cat", "pdf_marks");
    const char *dashes = told_of_pages(arena, path, "cat", "pdf_dashes");
    const char *fonts = printed_by(
        arena, arena_printf(arena,
                            "pdffonts %s | awk 'NR > 2 && ($(NF-4) != \"yes\" "
                            "|| $(NF-3) != \"yes\" || $(NF-2) != \"yes\") "
                            "{ print \"H9 \" $0 } END { if (NR < 4) "
                            "print \"H9 no fonts\" }'",
                            path));
    unlink(path);
    return arena_printf(arena, "%s%s%s%s", structure, marks, dashes, fonts);
}

/* Lines of a report that begin with "H4 "; with "H" and a number for "H". */
static inline int reported(const char *report, const char *rule)
{
    int count = 0;
    const size_t length = strlen(rule);
    for (const char *line = report; *line != '\0';) {
        count += strncmp(line, rule, length) == 0 &&
                 (length == 1 || line[length] == ' ');
        line += strcspn(line, "\n");
        line += *line == '\n';
    }
    return count;
}

#endif
