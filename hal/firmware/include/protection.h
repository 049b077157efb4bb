#ifndef PROTECTION_H
#define PROTECTION_H

#include "adc.h"
#include "outputs.h"
#include "trips.h"

void protection_start(void);

/* From the tick interrupt, with what is requested, what the pins do, and what the self-tests have
 * found. `scan` is null when the converter has completed none since the last tick. */
void protection_tick(uint8_t switches, const struct scan *scan, const struct outputs *wanted, const struct outputs *acting, trip_set found);

/* Trips for a cause found between two ticks. Call with interrupts off, or from an interrupt. */
void protection_raise(trip_set causes);

/* Trips in force. Call with interrupts off, or from an interrupt. */
trip_set protection_trips(void);

/* Clears every trip whose cause is gone. */
void protection_clear(void);

#endif
