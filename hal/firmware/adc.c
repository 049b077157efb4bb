/*
 * Scans all analogue inputs once a tick: the converter's interrupt chains the channels, 104 us
 * each, and ends with the chip's own reference, whose first conversion is thrown away while the
 * input settles. The two buffers are exchanged only between scans, so that no reader mixes two
 * scans. It decides whether the converter works; protection.c and the host decide whether counts
 * are plausible. registers.c sets the converter up.
 */
#include "adc.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/pgmspace.h>
#include <util/atomic.h>

/* Reference: the sensors' supply (AVCC), so that its drift cancels out. */
#define AGAINST_SUPPLY _BV(REFS0)
#define OWN_REFERENCE 14
#define CONVERSIONS (SCAN_LENGTH + 2)
/* Ticks without a scan after which the converter is switched off and on. */
#define STALLED_TICKS 3

static const uint8_t channels[SCAN_LENGTH] PROGMEM = SCAN_CHANNELS;

static struct scan scans[2];
static uint8_t filling;
/* CONVERSIONS once the scan being filled is complete. */
static uint8_t next = CONVERSIONS;
static bool begun;
static bool misled;
static uint8_t ticksWithout;
static uint16_t reference = (REFERENCE_LIVE_LOWEST + REFERENCE_LIVE_HIGHEST) / 2;

static uint8_t input_of(uint8_t index)
{
    return AGAINST_SUPPLY | (index < SCAN_LENGTH ? pgm_read_byte(&channels[index]) : OWN_REFERENCE);
}

static void convert(uint8_t index)
{
    ADMUX = input_of(index);
    ADCSRA |= _BV(ADSC);
}

ISR(ADC_vect)
{
    const uint16_t counts = ADC;
    /* An interrupt that nothing is due for, or counts of another input than was asked for. */
    if (next >= CONVERSIONS) return;
    if (ADMUX != input_of(next)) misled = true;
    if (next < SCAN_LENGTH) scans[filling & 1].counts[next] = counts;
    else if (next == CONVERSIONS - 1) reference = counts;
    if (++next < CONVERSIONS) convert(next);
}

static void begin_scan(void)
{
    begun = true;
    next = 0;
    misled = false;
    convert(0);
}

/* Ends a conversion that does not end by itself. No sensor and no button gives the counts that stay:
 * they read as broken wires. */
static void lose_scans(void)
{
    for (uint8_t i = 0; i < SCAN_LENGTH; i++) scans[0].counts[i] = scans[1].counts[i] = ABSENT_COUNTS;
    ADCSRA = 0;
    ADCSRA = CONVERTER_RUNS;
}

bool adc_next_scan(void)
{
    const bool complete = next == CONVERSIONS;
    const bool arrived = complete && begun && !misled;
    if (arrived) {
        filling = (filling ^ 1) & 1;
        ticksWithout = 0;
    } else if (begun && ticksWithout < UINT8_MAX) {
        ticksWithout++;
    }
    if (!complete && ticksWithout < STALLED_TICKS) return false;
    if (!complete) lose_scans();
    begin_scan();
    return arrived;
}

trip_set adc_causes(void)
{
    const bool sound = ticksWithout == 0 && reference >= REFERENCE_LIVE_LOWEST && reference <= REFERENCE_LIVE_HIGHEST;
    return sound ? 0 : TRIP(CONVERTER);
}

const struct scan *adc_latest(void)
{
    return &scans[(filling ^ 1) & 1];
}

uint16_t adc_counts(uint8_t index)
{
    uint16_t counts;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { counts = adc_latest()->counts[index]; }
    return counts;
}
