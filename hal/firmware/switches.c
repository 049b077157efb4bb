/*
 * The three safety switches. Each contact is closed to ground while all is well, and registers.c keeps
 * the pull-up on. An open contact and a broken wire therefore both read as the unsafe position.
 * protection.c decides what an open switch leads to.
 */
#include "switches.h"

#include <avr/io.h>

#include "pins.h"
#include "protocol.h"

uint8_t switches_read(void)
{
    uint8_t switches = 0;
    if (!(SHIELD_SWITCH_IN & _BV(SHIELD_SWITCH_BIT))) switches |= SWITCH_SHIELD_CLOSED;
    if (OVER_PRESSURE_SWITCH_IN & _BV(OVER_PRESSURE_SWITCH_BIT)) switches |= SWITCH_OVER_PRESSURE_TRIPPED;
    if (EMERGENCY_STOP_IN & _BV(EMERGENCY_STOP_BIT)) switches |= SWITCH_EMERGENCY_STOP_PRESSED;
    return switches;
}
