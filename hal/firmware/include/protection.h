#ifndef PROTECTION_H
#define PROTECTION_H

#include <stdint.h>

#include "adc.h"
#include "outputs.h"
#include "protocol.h"

#define TRIP(NAME) (1U << TRIP_##NAME)

void protection_start(void);

/* From the tick interrupt, with what is requested and what the pins do. `scan` is null when the
 * converter has completed none since the last tick. */
void protection_tick(uint8_t switches, const struct scan *scan, const struct outputs *wanted, const struct outputs *acting);

/* Trips in force, one bit each. Call with interrupts off, or from an interrupt. */
uint16_t protection_trips(void);

/* Clears every trip whose cause is gone. */
void protection_clear(void);

#endif
