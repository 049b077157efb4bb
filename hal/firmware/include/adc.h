#ifndef ADC_H
#define ADC_H

#include <stdbool.h>
#include <stdint.h>

#include "pins.h"

/* Counts of every channel from one scan, indexed by the *_SCAN numbers of pins.h. */
struct scan {
    uint32_t begunMs;
    uint16_t counts[SCAN_LENGTH];
};

void adc_start(void);

/* From the tick interrupt: begins the next scan. False when none has been completed since the
 * last call; adc_latest() is then stale. */
bool adc_next_scan(uint32_t nowMs);

/* The latest complete scan. Call with interrupts off, or from an interrupt. */
const struct scan *adc_latest(void);

/* One channel of the latest scan, for the main loop. */
uint16_t adc_counts(uint8_t index);

#endif
