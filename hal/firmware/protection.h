#ifndef PROTECTION_H
#define PROTECTION_H

#include <stdint.h>

#include "adc.h"
#include "outputs.h"
#include "protocol.h"

#define TRIP(NAME) (1U << TRIP_##NAME)

/* What a trip stops. Everything: safe as a whole, selector included. */
#define STOPS_ALL (TRIP(EMERGENCY_STOP) | TRIP(WATCHDOG) | TRIP(SETTINGS))
#define STOPS_PRESSURE (TRIP(OVER_PRESSURE_SWITCH) | TRIP(PRESSURE_CEILING) | TRIP(PRESSURE_SENSOR))
#define STOPS_LAMP (TRIP(SHIELD) | TRIP(HEAT_SINK) | TRIP(LAMP_TIME))

void protection_start(void);

/* From the tick interrupt. `scan` is null when the converter gave none since the last tick. */
void protection_tick(uint8_t switches, const struct scan *scan, const struct outputs *wanted, const struct outputs *acting);

/* Trips in force, a bit each; with interrupts off, or from one. */
uint16_t protection_trips(void);

/* Clears every trip whose cause is gone. */
void protection_clear(void);

#endif
