/*
 * The 1 ms tick, and the work that it must do whatever the main loop does: start a scan of the
 * converter, run the self-tests, evaluate the protection, run the lease down, put outputs onto the
 * pins. Only the order is decided here. registers.c sets the timer up.
 */
#include "tick.h"

#include <avr/interrupt.h>
#include <util/atomic.h>

#include "adc.h"
#include "gate.h"
#include "protection.h"
#include "selftest.h"
#include "switches.h"
#include "twin.h"

/* The host's dose and dwells rest on this count, so it is kept twice. */
static uint32_t keptNowMs[2] = {0, UINT32_MAX};

ISR(TIMER2_COMPA_vect)
{
    trip_set found = TWIN_SOUND(keptNowMs) ? 0 : TRIP(MEMORY);
    keptNowMs[0]++;
    TWIN_CLOSE(keptNowMs);
    const bool scanArrived = adc_next_scan();
    /* The rest takes longer than the line can wait. No other interrupt touches what follows, and the
     * next tick is far away. */
    sei();
    found |= adc_causes() | selftest_tick(gate_acting());
    protection_tick(switches_read(), scanArrived ? adc_latest() : 0, gate_wanted(), gate_acting(), found);
    gate_tick();
}

uint32_t tick_now_ms(void)
{
    uint32_t now;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { now = keptNowMs[0]; }
    return now;
}
