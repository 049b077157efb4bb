#ifndef PROTECTION_H
#define PROTECTION_H

#include <stdint.h>

#include "adc.h"
#include "outputs.h"
#include "protocol.h"

#define TRIP(NAME) (1U << TRIP_##NAME)

void protection_start(void);

/* From the tick interrupt, with what is asked for and what the pins do. `scan` is null when the converter gave none since the last tick. */
void protection_tick(uint8_t switches, const struct scan *scan, const struct outputs *wanted, const struct outputs *acting);

/* Trips in force, a bit each; with interrupts off, or from one. */
uint16_t protection_trips(void);

/* Clears every trip whose cause is gone. */
void protection_clear(void);

#endif
