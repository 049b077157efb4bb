/*
 * The first instructions after a reset, before C is set up: all actuator pins low and driven, the
 * reset's cause kept, the watchdog off until main() starts it with its own time.
 * Decides nothing; protection.c judges the cause.
 */
#include "boot.h"

#include <avr/io.h>
#include <avr/wdt.h>

#include "pins.h"

/* Outside .bss, which is cleared after this has run. */
static uint8_t resetCause __attribute__((section(".noinit")));

void boot_first(void) __attribute__((naked, used, section(".init3")));

void boot_first(void)
{
    PORTB &= (uint8_t)~ACTUATOR_MASK_B;
    PORTD &= (uint8_t)~ACTUATOR_MASK_D;
    DDRB |= ACTUATOR_MASK_B;
    DDRD |= ACTUATOR_MASK_D;
    resetCause = MCUSR;
    /* The watchdog cannot be switched off while its reset flag stands. */
    MCUSR = 0;
    wdt_disable();
}

bool boot_after_watchdog(void)
{
    return resetCause & _BV(WDRF);
}
