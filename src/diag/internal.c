/* The program's own faults, never told as if the user had erred. */
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include "diag.h"

enum { STATUS_OF_FAULT = 5 };

void internal_error(const char *format, ...)
{
    va_list arguments;
    fputs("seamwright: internal error: ", stderr);
    va_start(arguments, format);
    vfprintf(stderr, format, arguments);
    va_end(arguments);
    fputs("\nThis is a fault of seamwright, not of the pattern. "
          "Please report it with the source.\n",
          stderr);
    exit(STATUS_OF_FAULT);
}
