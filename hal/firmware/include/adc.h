#ifndef ADC_H
#define ADC_H

#include <stdbool.h>
#include <stdint.h>

#include "pins.h"

/* Counts of every channel, all from one scan; indices are the *_SCAN numbers of pins.h. */
struct scan {
    uint32_t begunMs;
    uint16_t counts[SCAN_LENGTH];
};

void adc_start(void);

/* From the tick interrupt: begins the next scan. False when none has been completed since the last
 * call; then adc_latest() is an old one. */
bool adc_next_scan(uint32_t nowMs);

/* The latest complete scan; with interrupts off, or from one. */
const struct scan *adc_latest(void);

/* One channel of it; for the main loop. */
uint16_t adc_counts(uint8_t index);

#endif
