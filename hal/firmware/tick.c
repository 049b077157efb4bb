/*
 * The 1 ms tick, and the work that it must do whatever the main loop does: start a scan of the
 * converter, evaluate the protection, run the lease down, put outputs onto the pins. Only the order
 * is decided here.
 */
#include "tick.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <util/atomic.h>

#include "adc.h"
#include "gate.h"
#include "protection.h"
#include "switches.h"

#define PRESCALER 64UL
#define TICKS_PER_S 1000UL

static volatile uint32_t nowMs;

void tick_start(void)
{
    TCCR2A = _BV(WGM21);
    OCR2A = F_CPU / PRESCALER / TICKS_PER_S - 1;
    TIMSK2 = _BV(OCIE2A);
    TCCR2B = _BV(CS22);
}

ISR(TIMER2_COMPA_vect)
{
    const uint32_t now = ++nowMs;
    const bool scanArrived = adc_next_scan(now);
    protection_tick(switches_read(), scanArrived ? adc_latest() : 0, gate_wanted(), gate_acting());
    gate_tick();
}

uint32_t tick_now_ms(void)
{
    uint32_t now;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { now = nowMs; }
    return now;
}
