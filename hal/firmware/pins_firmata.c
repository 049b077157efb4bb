/*
 * The pins as a Firmata host sees them: the modes of each, and plain writes. The wiring fixes the
 * purpose of a pin; a mode that does not fit is ignored. Plain writes reach only the status lamp
 * and the buzzer. Actuators have no mode and obey only the unit's own messages, which carry a check
 * and a number: a plain write to one is counted as a bad message. In a message for a whole port,
 * sent for a signal, their bits are passed over.
 */
#include "pins_firmata.h"

#include <avr/io.h>
#include <avr/pgmspace.h>
#include <util/atomic.h>

#include "firmata.h"
#include "gate.h"
#include "pins.h"
#include "protocol.h"
#include "unit.h"

#define PINS_OF_PORT 8

enum role { ROLE_SERIAL, ROLE_SAFETY_SWITCH, ROLE_SIGNAL, ROLE_ACTUATOR, ROLE_ANALOGUE, ROLE_BUS };

static const uint8_t roles[PIN_COUNT] PROGMEM = PIN_ROLES;

static const struct {
    uint8_t role;
    uint8_t mode;
    uint8_t resolution;
} fits[] PROGMEM = {
    {ROLE_SAFETY_SWITCH, MODE_INPUT, 1},
    {ROLE_SAFETY_SWITCH, MODE_PULLUP, 1},
    {ROLE_SIGNAL, MODE_OUTPUT, 1},
    {ROLE_ANALOGUE, MODE_ANALOG, 10},
    {ROLE_BUS, MODE_I2C, 1},
};

static const uint8_t firstModes[] PROGMEM = {
    [ROLE_SERIAL] = NO_MODE,
    [ROLE_SAFETY_SWITCH] = MODE_PULLUP,
    [ROLE_SIGNAL] = MODE_OUTPUT,
    [ROLE_ACTUATOR] = NO_MODE,
    [ROLE_ANALOGUE] = MODE_ANALOG,
    [ROLE_BUS] = MODE_I2C,
};

static uint8_t modes[PIN_COUNT];

static uint8_t role_of(uint8_t pin)
{
    return pgm_read_byte(&roles[pin]);
}

uint8_t pins_resolution(uint8_t pin, uint8_t mode)
{
    if (pin >= PIN_COUNT) return 0;
    const uint8_t role = role_of(pin);
    for (uint8_t i = 0; i < sizeof fits / sizeof fits[0]; i++) {
        if (pgm_read_byte(&fits[i].role) == role && pgm_read_byte(&fits[i].mode) == mode)
            return pgm_read_byte(&fits[i].resolution);
    }
    return 0;
}

void pins_reset(void)
{
    for (uint8_t pin = 0; pin < PIN_COUNT; pin++) modes[pin] = pgm_read_byte(&firstModes[role_of(pin)]);
}

void pins_set_mode(uint8_t pin, uint8_t mode)
{
    if (pins_resolution(pin, mode) > 0) modes[pin] = mode;
}

uint8_t pins_mode(uint8_t pin)
{
    /* Firmata has no mode for an output pin that no host controls by itself. */
    return role_of(pin) == ROLE_ACTUATOR && modes[pin] == NO_MODE ? MODE_OUTPUT : modes[pin];
}

static struct outputs wanted_now(void)
{
    struct outputs wanted;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { wanted = *gate_wanted(); }
    return wanted;
}

uint8_t pins_state(uint8_t pin)
{
    const struct outputs wanted = wanted_now();
    switch (pin) {
    case PUMP_DRIVE_PIN: return wanted.pump;
    case LAMP_DRIVE_PIN: return wanted.lamp;
    case VENT_CLOSE_PIN: return !(wanted.flags & FLAG_VENT_OPEN);
    case LAMP_ENABLE_PIN: return !!(wanted.flags & FLAG_LAMP_ENABLED);
    case SELECTOR_PRESSURE_PIN: return !!(wanted.flags & FLAG_SELECTOR_PRESSURE);
    }
    if (role_of(pin) == ROLE_SIGNAL) return !!((pin < PINS_OF_PORT ? PORTD >> pin : PORTB >> (pin - PINS_OF_PORT)) & 1);
    return role_of(pin) == ROLE_SAFETY_SWITCH;
}

static void write_signal(uint8_t pin, bool high)
{
    if (pin < PIN_COUNT && role_of(pin) == ROLE_SIGNAL && modes[pin] == MODE_OUTPUT) outputs_signal(pin, high);
}

static void count_if_actuator(uint8_t pin)
{
    if (pin < PIN_COUNT && role_of(pin) == ROLE_ACTUATOR) unit_count_bad();
}

void pins_write_level(uint8_t pin, bool high)
{
    count_if_actuator(pin);
    write_signal(pin, high);
}

void pins_write_port(uint8_t port, uint16_t levels)
{
    for (uint8_t bit = 0; bit < PINS_OF_PORT; bit++) write_signal((uint8_t)(port * PINS_OF_PORT + bit), (levels >> bit) & 1);
}

void pins_refuse_duty(uint8_t pin)
{
    count_if_actuator(pin);
}
