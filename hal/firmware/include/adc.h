#ifndef ADC_H
#define ADC_H

#include <stdbool.h>
#include <stdint.h>

#include "pins.h"
#include "trips.h"

/* Set-up of the converter. Clock 125 kHz: a conversion of 13 clocks takes 104 us at full
 * resolution. */
#define CONVERTER_RUNS (_BV(ADEN) | _BV(ADIE) | _BV(ADPS2) | _BV(ADPS1) | _BV(ADPS0))

/* What every channel reads while the converter gives nothing: full scale. */
#define ABSENT_COUNTS 1023

/* Counts of every channel from one scan, indexed by the *_SCAN numbers of pins.h. */
struct scan {
    uint16_t counts[SCAN_LENGTH];
};

/* From the tick interrupt: begins the next scan. False when none has been completed since the
 * last call; adc_latest() is then stale. */
bool adc_next_scan(void);

/* From the tick interrupt, after adc_next_scan(): the trip of a converter that does not work. */
trip_set adc_causes(void);

/* The latest complete scan. Call with interrupts off, or from an interrupt. */
const struct scan *adc_latest(void);

/* One channel of the latest scan, for the main loop. */
uint16_t adc_counts(uint8_t index);

#endif
