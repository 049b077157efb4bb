#ifndef GATE_H
#define GATE_H

#include <stdbool.h>

#include "outputs.h"

/* Asks for outputs and renews the lease. They act from now on as far as the protection lets them. */
void gate_want(const struct outputs *asked);

/* Safe at once; the lease ends. */
void gate_make_safe(void);

/* From the tick interrupt: the lease runs down, and the pins follow wishes and trips. */
void gate_tick(void);

/* What is asked for, and what the pins do. Steady only with interrupts off, or from one. */
const struct outputs *gate_wanted(void);
const struct outputs *gate_acting(void);
bool gate_leased(void);

#endif
