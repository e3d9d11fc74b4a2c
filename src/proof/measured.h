/* What testers measure: their three strips, and each side that a step makes. */
#ifndef SEAMWRIGHT_PROOF_MEASURED_H
#define SEAMWRIGHT_PROOF_MEASURED_H

#include "claims.h"

/* Adds them behind all other claims. */
void claim_measures(const struct wording *w, struct claims *claims);

#endif
