/*
 * Scans all analogue inputs once a tick: the converter's interrupt chains the channels, 104 us
 * each. The two buffers are exchanged only between scans, so that no reader mixes two scans.
 * protection.c and the host decide whether counts are plausible.
 */
#include "adc.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/pgmspace.h>
#include <util/atomic.h>

static const uint8_t channels[SCAN_LENGTH] PROGMEM = SCAN_CHANNELS;

static struct scan scans[2];
static uint8_t filling;
/* SCAN_LENGTH once the scan being filled is complete. */
static uint8_t next = SCAN_LENGTH;
static bool any;

static void convert(uint8_t index)
{
    /* Reference: the sensors' supply (AVCC), so that its drift cancels out. */
    ADMUX = _BV(REFS0) | pgm_read_byte(&channels[index]);
    ADCSRA |= _BV(ADSC);
}

void adc_start(void)
{
    /* Clock 125 kHz: a conversion of 13 clocks takes 104 us at full resolution. */
    ADCSRA = _BV(ADEN) | _BV(ADIE) | _BV(ADPS2) | _BV(ADPS1) | _BV(ADPS0);
}

ISR(ADC_vect)
{
    scans[filling].counts[next++] = ADC;
    if (next < SCAN_LENGTH) convert(next);
}

bool adc_next_scan(uint32_t nowMs)
{
    const bool complete = next == SCAN_LENGTH;
    const bool arrived = complete && any;
    if (!complete) return false;
    filling ^= 1;
    scans[filling].begunMs = nowMs;
    next = 0;
    any = true;
    convert(0);
    return arrived;
}

const struct scan *adc_latest(void)
{
    return &scans[filling ^ 1];
}

uint16_t adc_counts(uint8_t index)
{
    uint16_t counts;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { counts = adc_latest()->counts[index]; }
    return counts;
}
