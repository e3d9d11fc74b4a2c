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

/* To be said before output takes its place: from here on it would be wrong to
 * end for want of memory in a thread of a library's, which lives on beside the
 * work. Such a thread waits for the process to end, some seconds at most. */
void output_takes_its_place(void);

/* To be said when the work is done: whatever asks for memory from here on, as
 * the process ends, changes nothing. It ends with `status`. */
void work_is_done(int status);

/* ensures: whether the system would give that many bytes at this moment. They
 * are not kept, so it is a hint for a better message and no promise. */
bool memory_to_be_had(size_t bytes);

#endif
