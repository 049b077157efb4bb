/*
 * Messages sent without a query each time: our frames and Firmata's analogue reports at the
 * sampling interval, digital reports when an input changes. Nothing is sent before a host asks.
 * frame.c decides what a frame holds.
 */
#include "reports.h"

#include <avr/io.h>
#include <avr/pgmspace.h>
#include <util/atomic.h>

#include "adc.h"
#include "firmata.h"
#include "frame.h"
#include "message.h"
#include "pins.h"
#include "serial.h"

#define SHORTEST_INTERVAL_MS 10
#define LONGEST_INTERVAL_MS 1000
/* The interval that Firmata hosts expect unless they set one. */
#define FIRST_INTERVAL_MS 19
#define REPORT_BYTES 3
#define GROUP_MASK 0x7F
#define GROUP_BITS 7
#define PORT_TOTAL 3
#define SWITCH_PORT 0

static const uint8_t channels[SCAN_LENGTH] PROGMEM = SCAN_CHANNELS;

static uint16_t intervalMs = FIRST_INTERVAL_MS;
static uint32_t dueMs = FIRST_INTERVAL_MS;
static bool framesOn;
static uint8_t analogOn;
static uint8_t digitalOn;
static uint8_t digitalOwed;
static uint8_t switchesReported;

void reports_analog(uint8_t channel, bool on)
{
    if (channel >= ANALOGUE_INPUTS) return;
    const uint8_t bit = (uint8_t)_BV(channel);
    if (on) analogOn |= bit;
    else analogOn &= (uint8_t)~bit;
}

void reports_digital(uint8_t port, bool on)
{
    if (port >= PORT_TOTAL) return;
    const uint8_t bit = (uint8_t)_BV(port);
    if (on) digitalOn |= bit, digitalOwed |= bit;
    else digitalOn &= (uint8_t)~bit;
}

/* Shortens or lengthens the running interval; setting the same value again shifts nothing. */
static void set_interval(uint16_t newMs)
{
    dueMs += newMs - (uint32_t)intervalMs;
    intervalMs = newMs;
}

void reports_interval(uint16_t asked)
{
    if (asked < SHORTEST_INTERVAL_MS) asked = SHORTEST_INTERVAL_MS;
    if (asked > LONGEST_INTERVAL_MS) asked = LONGEST_INTERVAL_MS;
    set_interval(asked);
    framesOn = true;
}

void reports_stop(void)
{
    framesOn = false;
    analogOn = 0;
    digitalOn = 0;
    set_interval(FIRST_INTERVAL_MS);
}

static bool fits(uint8_t bytes)
{
    return serial_room() >= bytes + FRAME_RESERVE;
}

static void put_report(uint8_t command, uint16_t value)
{
    serial_put(command);
    serial_put(value & GROUP_MASK);
    serial_put((uint8_t)(value >> GROUP_BITS));
}

static void report_analog(const struct scan *scan)
{
    for (uint8_t i = 0; i < SCAN_LENGTH; i++) {
        const uint8_t channel = pgm_read_byte(&channels[i]);
        if ((analogOn & _BV(channel)) && fits(REPORT_BYTES)) put_report(FIRMATA_ANALOG_MESSAGE | channel, scan->counts[i]);
    }
}

/* Only the safety switches are inputs; a port without any reports zeros on request. */
static void report_digital(void)
{
    const uint8_t switches = PIND & SAFETY_SWITCH_MASK_D;
    if (switches != switchesReported) digitalOwed |= _BV(SWITCH_PORT);
    for (uint8_t port = 0; port < PORT_TOTAL; port++) {
        if (!(digitalOwed & digitalOn & _BV(port)) || !fits(REPORT_BYTES)) continue;
        digitalOwed &= (uint8_t)~_BV(port);
        put_report(FIRMATA_DIGITAL_MESSAGE | port, port == SWITCH_PORT ? switches : 0);
        if (port == SWITCH_PORT) switchesReported = switches;
    }
}

void reports_tick(uint32_t nowMs)
{
    if (digitalOn) report_digital();
    if ((int32_t)(nowMs - dueMs) < 0) return;
    dueMs += intervalMs;
    /* Already too late for that one: continue from now rather than send a burst. */
    if ((int32_t)(nowMs - dueMs) >= 0) dueMs = nowMs + intervalMs;
    struct scan scan;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { scan = *adc_latest(); }
    if (framesOn) frame_send(&scan);
    if (analogOn) report_analog(&scan);
}
