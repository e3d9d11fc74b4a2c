/* A target of the fuzzer: bytes in, and nothing may go wrong. Made with clang's
 * -fsanitize=fuzzer for `make fuzz`; with plain.c, which runs kept inputs, for
 * the tests. A broken promise ends in abort. */
#ifndef SEAMWRIGHT_TESTS_FUZZ_H
#define SEAMWRIGHT_TESTS_FUZZ_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include "arena.h"

/* What libFuzzer calls, once for each input. ensures: 0. */
int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length);

/* Not assert: it must hold in every build. */
#define MUST(truth)                                                    \
    do {                                                               \
        if (!(truth)) {                                                \
            fprintf(stderr, "%s:%d: not so: %s\n", __FILE__, __LINE__, \
                    #truth);                                           \
            abort();                                                   \
        }                                                              \
    } while (false)

#endif
