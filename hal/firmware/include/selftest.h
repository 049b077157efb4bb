#ifndef SELFTEST_H
#define SELFTEST_H

#include <stdbool.h>

#include "outputs.h"
#include "trips.h"

/* After the start of C and before interrupts are on: the whole flash, and the stack's canary. */
void selftest_start(void);

/* From the tick interrupt, with what the pins should do: the trips whose cause is seen now. */
trip_set selftest_tick(const struct outputs *driven);

/* From the main loop, once a tick: the next slices of flash and RAM. */
void selftest_slice(void);

#endif
