/* Looking up embedded files by name. */
#include "templates.h"

#include <stdlib.h>
#include <string.h>

#include "templates_table.h"

static int compare_name(const void *name, const void *file)
{
    return strcmp(name, ((const struct template_file *)file)->name);
}

const struct template_file *template_find(const char *name)
{
    return bsearch(name, template_table, template_count,
                   sizeof template_table[0], compare_name);
}

const struct template_file *template_all(size_t *count)
{
    *count = template_count;
    return template_table;
}
