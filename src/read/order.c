/* An order of kits, read by the same tables as a pattern: near names, places
 * and mends are told alike. It may include what lies on a shelf. Read next:
 * kit/resolve.c. */
#include "reader.h"

#include <string.h>

/* Behind a document type, which is told where the file is parsed; it may have a
 * list in brackets, and texts in which such signs count for nothing.
 * ensures: NULL where it has no end. */
static const char *behind_doctype(const char *at)
{
    for (bool listed = false; *at != '\0'; at++) {
        if (*at == '"' || *at == '\'') {
            at = strchr(at + 1, *at);
            if (at == NULL)
                return NULL;
        } else if (*at == '[' || *at == ']') {
            listed = *at == '[';
        } else if (*at == '>' && !listed) {
            return at + 1;
        }
    }
    return NULL;
}

/* ensures: behind the comment, declaration or document type that begins here;
 * `at` itself where a tag does; NULL where it has no end. */
static const char *behind_one(const char *at)
{
    if (strncmp(at, "<!DOCTYPE", 9) == 0)
        return behind_doctype(at);
    const bool comment = strncmp(at, "<!--", 4) == 0;
    if (!comment && strncmp(at, "<?", 2) != 0)
        return at;
    const char *end = strstr(at + 2, comment ? "-->" : "?>");
    return end == NULL ? NULL : end + (comment ? 3 : 2);
}

/* Behind blanks and all that may stand before a root. */
static const char *first_tag(const char *at)
{
    if (strncmp(at, "\xEF\xBB\xBF", 3) == 0)
        at += 3;
    for (;;) {
        at += strspn(at, " \t\r\n");
        const char *behind = behind_one(at);
        if (behind == at)
            return at;
        if (behind == NULL)
            return "";
        at = behind;
    }
}

/* Looks at the bytes alone, since it decides how they are parsed. A prefix of a
 * namespace before the name changes nothing. */
bool is_order(const struct source *source)
{
    const char *tag = first_tag(source->bytes);
    if (*tag != '<')
        return false;
    const size_t length = strcspn(++tag, " \t\r\n/>");
    const char *colon = memchr(tag, ':', length);
    const char *name = colon == NULL ? tag : colon + 1;
    const char *wanted = element_name(ELEMENT_ORDER);
    return (size_t)(tag + length - name) == strlen(wanted) &&
           strncmp(name, wanted, strlen(wanted)) == 0;
}

/* Units are those of the root, found before its lengths are read. */
const struct element *read_order(struct run *run)
{
    struct source_reader all = {
        .run = run, .root = ELEMENT_ORDER, .units = UNIT_IN};
    const struct opened *file = open_first(&all);
    struct element *root =
        prescan(run, file) ? parse_elements(&all, file) : NULL;
    /* What lacks would be missed everywhere. */
    if (root == NULL || all.incomplete)
        return NULL;
    check_structure(run, root);
    return root;
}
