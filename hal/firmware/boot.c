/*
 * The first instructions after a reset, before C is set up: drive all actuator pins low, save the
 * reset cause, stop the watchdog until main() starts it with its own timeout, and march through the
 * whole RAM. Also the trap for interrupts that nothing asked for, which ends in such a reset. It
 * decides which trips a reset is a cause for.
 */
#include "boot.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/wdt.h>

#include "march.h"
#include "pins.h"

/* Three within ten seconds each are a loop. A reset from outside, by a host that opens the port, is
 * not counted. */
#define LOOP_RESTARTS 3
#define MOST_RESTARTS 15
#define RESTARTS_MASK 0x0F
#define TRAPPED 0x80
#define CAUSES (_BV(PORF) | _BV(EXTRF) | _BV(BORF) | _BV(WDRF))

/* What is known across a reset: restarts in a row, and whether a trap led to this one. Kept twice;
 * after power-up it holds anything. Outside .bss, which is cleared after this code. */
static uint8_t across[2] __attribute__((section(".noinit")));

/* While the march runs, only registers of the chip can hold anything. */
#define RESET_CAUSE GPIOR0
#define WAS_ACROSS GPIOR1
#define RAM_FAULT GPIOR2

static inline __attribute__((always_inline)) void pins_low(void)
{
    TCCR1A = 0;
    PORTB &= (uint8_t)~ACTUATOR_MASK_B;
    PORTD &= (uint8_t)~ACTUATOR_MASK_D;
    DDRB |= ACTUATOR_MASK_B;
    DDRD |= ACTUATOR_MASK_D;
}

static inline __attribute__((always_inline)) void keep_across(uint8_t value)
{
    across[0] = value;
    across[1] = (uint8_t)~value;
}

void boot_first(void) __attribute__((naked, used, section(".init3")));

void boot_first(void)
{
    pins_low();
    RESET_CAUSE = MCUSR;
    /* The watchdog cannot be disabled while its reset flag is set. */
    MCUSR = 0;
    wdt_disable();
    WAS_ACROSS = (across[0] ^ across[1]) == 0xFF ? across[0] : 0;
    RAM_FAULT = !march_sound((volatile uint8_t *)RAMSTART, (volatile uint8_t *)(RAMEND + 1));
    const uint8_t was = WAS_ACROSS;
    const bool counts = !(RESET_CAUSE & _BV(EXTRF));
    keep_across(counts && (was & RESTARTS_MASK) < MOST_RESTARTS ? (uint8_t)((was & RESTARTS_MASK) + 1) : was & RESTARTS_MASK);
}

ISR(BADISR_vect)
{
    pins_low();
    keep_across((uint8_t)((across[0] & RESTARTS_MASK) | TRAPPED));
    wdt_enable(WDTO_15MS);
    for (;;) {}
}

trip_set boot_causes(void)
{
    const uint8_t cause = RESET_CAUSE & CAUSES;
    trip_set causes = 0;
    if (RAM_FAULT) causes |= TRIP(MEMORY);
    if (cause & _BV(WDRF)) causes |= TRIP(WATCHDOG);
    /* A bootloader that hides the cause, or a program that ran to its own beginning. */
    if (cause == 0) causes |= TRIP(RESTART_UNKNOWN);
    if (WAS_ACROSS & TRAPPED) causes |= TRIP(PROGRAM);
    if ((WAS_ACROSS & RESTARTS_MASK) >= LOOP_RESTARTS) causes |= TRIP(RESTART_LOOP);
    return causes;
}

void boot_forget_restarts(void)
{
    keep_across(0);
}
