#ifndef GATE_H
#define GATE_H

#include <stdbool.h>

#include "outputs.h"

/* Requests outputs and renews the lease. They act from now on as far as the protection allows. */
void gate_want(const struct outputs *asked);

/* Makes the outputs safe at once and ends the lease. */
void gate_make_safe(void);

/* From the tick interrupt: runs the lease down and sets the pins from requests and trips. */
void gate_tick(void);

/* What is requested, and what the pins do. Stable only with interrupts off, or in an interrupt. */
const struct outputs *gate_wanted(void);
const struct outputs *gate_acting(void);
bool gate_leased(void);

#endif
