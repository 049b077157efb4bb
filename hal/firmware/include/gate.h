#ifndef GATE_H
#define GATE_H

#include <stdbool.h>

#include "outputs.h"

void gate_start(void);

/* Requests outputs and renews the lease, if their number is newer than the last one taken: false
 * for a repeated or reordered message. They act from now on as far as the protection allows. */
bool gate_want(const struct outputs *asked, uint16_t sequence);

/* Makes the outputs safe at once and ends the lease. */
void gate_make_safe(void);

/* From the tick interrupt: runs the lease down and sets the pins from requests and trips. */
void gate_tick(void);

/* What is requested, and what the pins do. Stable only with interrupts off, or in an interrupt. */
const struct outputs *gate_wanted(void);
const struct outputs *gate_acting(void);
bool gate_leased(void);

/* Number of the last outputs taken. Call with interrupts off, or from an interrupt. */
uint16_t gate_taken(void);

#endif
