/* The date that all files of a run bear, where the environment states one. In a
 * file of its own: who only selects what is made links no writer of files. */
#include <stdlib.h>

#include "render.h"
#include "selection.h"

bool date_holds(struct arena *arena)
{
    if (render_date_holds())
        return true;
    complain("seamwright: SOURCE_DATE_EPOCH is %s, not seconds since 1970 "
             "(a whole number, up to the year 9999)\n",
             quoted(arena, getenv("SOURCE_DATE_EPOCH")));
    return false;
}
