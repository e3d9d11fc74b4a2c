/* owner: base
 *
 * Running out of memory. It ends the program with one line and status 3,
 * whoever asked: our own arena, or a library that would go on without a letter
 * of the page, tell it as a mistake of the source, or abort.
 */
#ifndef SEAMWRIGHT_SHORTAGE_H
#define SEAMWRIGHT_SHORTAGE_H

#include <stdbool.h>
#include <stddef.h>

/* Prints "seamwright: out of memory", with ": WORDS" behind it where there are
 * some (else NULL), and ends the process at once with status 3. Nothing is
 * allocated, flushed or cleared up: files that were begun are removed by who
 * waits for the process (driver/supervise.c). */
_Noreturn void end_out_of_memory(const char *words);

/* ensures: whether the system would give that many bytes at this moment. They
 * are not kept, so it is a hint for a better message and no promise. */
bool memory_to_be_had(size_t bytes);

#endif
