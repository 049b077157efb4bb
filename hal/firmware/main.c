/*
 * Starts the modules and runs the main loop: bytes from the host, reports, answers, display, slices
 * of the self-tests.
 * Nothing here waits. Protection does not depend on this loop, because tick.c runs it by interrupt.
 * The watchdog is reset only after the tick has run, so that it detects both a stuck loop and a
 * stuck tick.
 */
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>
#include <avr/wdt.h>

#include "adc.h"
#include "answers.h"
#include "buttons.h"
#include "display.h"
#include "gate.h"
#include "limits.h"
#include "parser.h"
#include "pins_firmata.h"
#include "protection.h"
#include "registers.h"
#include "reports.h"
#include "selftest.h"
#include "serial.h"
#include "tick.h"
#include "twi.h"
#include "unit.h"

/* Bounded, so that a flood of bytes does not delay the tick's work. */
#define BYTES_A_PASS 16

static uint32_t lastTickMs;

static void start(void)
{
    selftest_start();
    limits_restore();
    protection_start();
    (void)registers_hold();
    gate_start();
    pins_reset();
    answers_ask(ANSWER_VERSION);
    answers_ask(ANSWER_FIRMWARE);
    wdt_reset();
    sei();
}

static void once_a_tick(uint32_t nowMs)
{
    wdt_reset();
    buttons_tick(adc_counts(BUTTONS_SCAN));
    reports_tick(nowMs);
    display_tick(nowMs);
    selftest_slice();
}

static void take_bytes(void)
{
    uint8_t byte;
    for (uint8_t i = 0; i < BYTES_A_PASS && serial_take(&byte); i++) parser_byte(byte);
}

/* Most interrupts, above all the converter's, leave no work here: sleep on. The test runs with
 * interrupts off. sei() takes effect after the next instruction, so an interrupt between test
 * and sleep ends the sleep instead of being missed. */
static void sleep_until_work(void)
{
    for (;;) {
        cli();
        if (serial_waiting() || tick_now_ms() != lastTickMs) break;
        sleep_enable();
        sei();
        sleep_cpu();
        sleep_disable();
    }
    sei();
}

int main(void)
{
    start();
    for (;;) {
        take_bytes();
        const uint32_t nowMs = tick_now_ms();
        if (nowMs != lastTickMs) {
            lastTickMs = nowMs;
            once_a_tick(nowMs);
        }
        unit_poll();
        answers_poll();
        twi_poll(nowMs);
        sleep_until_work();
    }
}
