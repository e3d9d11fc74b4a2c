/* The table of all messages, one row each. It is made from the same list as
 * the enumeration, so that none can be left out. */
#include "diag.h"

#define ROW(code, name, level, summary) [code] = {name, level, summary},

static const struct diag_entry entries[] = {DIAG_CATALOGUE(ROW)};

const struct diag_entry *diag_entry(enum diag_code code)
{
    return &entries[code];
}
