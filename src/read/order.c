/* An order of kits, read by the same tables as a pattern: near names, places
 * and mends are told alike. It may include what lies on a shelf. Read next:
 * kit/resolve.c. */
#include "reader.h"

#include <string.h>

/* Behind blanks, declarations and comments, which may stand before a root. */
static const char *first_tag(const char *at)
{
    if (strncmp(at, "\xEF\xBB\xBF", 3) == 0)
        at += 3;
    for (;;) {
        at += strspn(at, " \t\r\n");
        const bool comment = strncmp(at, "<!--", 4) == 0;
        if (!comment && strncmp(at, "<?", 2) != 0)
            return at;
        const char *end = strstr(at + 2, comment ? "-->" : "?>");
        if (end == NULL)
            return "";
        at = end + (comment ? 3 : 2);
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
