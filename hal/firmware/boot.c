/*
 * The first instructions after a reset, before C is set up: drive all actuator pins low, save the
 * reset cause, and stop the watchdog until main() starts it with its own timeout. protection.c
 * judges the cause.
 */
#include "boot.h"

#include <avr/io.h>
#include <avr/wdt.h>

#include "pins.h"

/* Outside .bss, which is cleared after this code. */
static uint8_t resetCause __attribute__((section(".noinit")));

void boot_first(void) __attribute__((naked, used, section(".init3")));

void boot_first(void)
{
    PORTB &= (uint8_t)~ACTUATOR_MASK_B;
    PORTD &= (uint8_t)~ACTUATOR_MASK_D;
    DDRB |= ACTUATOR_MASK_B;
    DDRD |= ACTUATOR_MASK_D;
    resetCause = MCUSR;
    /* The watchdog cannot be disabled while its reset flag is set. */
    MCUSR = 0;
    wdt_disable();
}

bool boot_after_watchdog(void)
{
    return resetCause & _BV(WDRF);
}
