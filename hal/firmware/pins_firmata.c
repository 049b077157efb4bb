/*
 * The pins as a Firmata host sees them: the modes of each, and plain writes. The wiring fixes the
 * purpose of a pin; a mode that does not fit is ignored. An actuator accepts plain writes only
 * after the host has set its mode: a message for a whole port, sent for the buzzer, must not open
 * the vent. Writes to actuators go to the gate, which has the last word.
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
static const uint8_t dutyPins[] PROGMEM = DUTY_PINS;

static const struct {
    uint8_t role;
    uint8_t mode;
    uint8_t resolution;
} fits[] PROGMEM = {
    {ROLE_SAFETY_SWITCH, MODE_INPUT, 1},
    {ROLE_SAFETY_SWITCH, MODE_PULLUP, 1},
    {ROLE_SIGNAL, MODE_OUTPUT, 1},
    {ROLE_ACTUATOR, MODE_OUTPUT, 1},
    {ROLE_ACTUATOR, MODE_PWM, 8},
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

static bool has_duty(uint8_t pin)
{
    for (uint8_t i = 0; i < sizeof dutyPins; i++) if (pgm_read_byte(&dutyPins[i]) == pin) return true;
    return false;
}

uint8_t pins_resolution(uint8_t pin, uint8_t mode)
{
    if (pin >= PIN_COUNT || (mode == MODE_PWM && !has_duty(pin))) return 0;
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
    /* Firmata has no mode for an output pin that the host does not control yet. */
    return role_of(pin) == ROLE_ACTUATOR && modes[pin] == NO_MODE ? MODE_OUTPUT : modes[pin];
}

/* Stores the request for an actuator in the outputs: a flag, possibly inverted, or a duty. */
static void set_actuator(struct outputs *asked, uint8_t pin, uint8_t duty)
{
    const bool high = duty > 0;
    switch (pin) {
    case PUMP_DRIVE_PIN: asked->pump = duty; return;
    case LAMP_DRIVE_PIN: asked->lamp = duty; return;
    case VENT_CLOSE_PIN: asked->flags = (asked->flags & (uint8_t)~FLAG_VENT_OPEN) | (high ? 0 : FLAG_VENT_OPEN); return;
    case LAMP_ENABLE_PIN: asked->flags = (asked->flags & (uint8_t)~FLAG_LAMP_ENABLED) | (high ? FLAG_LAMP_ENABLED : 0); return;
    case SELECTOR_PRESSURE_PIN: asked->flags = (asked->flags & (uint8_t)~FLAG_SELECTOR_PRESSURE) | (high ? FLAG_SELECTOR_PRESSURE : 0); return;
    }
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

/* True when `pin` is an actuator that accepts writes; its request is then in `asked`. */
static bool write_output(struct outputs *asked, uint8_t pin, bool high)
{
    if (pin >= PIN_COUNT || modes[pin] != MODE_OUTPUT) return false;
    if (role_of(pin) == ROLE_SIGNAL) {
        outputs_signal(pin, high);
        return false;
    }
    set_actuator(asked, pin, high ? FULL_DUTY : 0);
    return true;
}

void pins_write_level(uint8_t pin, bool high)
{
    struct outputs asked = wanted_now();
    if (write_output(&asked, pin, high)) gate_want(&asked);
}

void pins_write_port(uint8_t port, uint16_t levels)
{
    struct outputs asked = wanted_now();
    bool actuators = false;
    for (uint8_t bit = 0; bit < PINS_OF_PORT; bit++) {
        actuators |= write_output(&asked, port * PINS_OF_PORT + bit, (levels >> bit) & 1);
    }
    /* All pins of the port in one step, so that no unrequested state occurs in between. */
    if (actuators) gate_want(&asked);
}

void pins_write_duty(uint8_t pin, uint16_t duty)
{
    if (pin >= PIN_COUNT || modes[pin] != MODE_PWM) return;
    if (duty > FULL_DUTY) {
        gate_make_safe();
        unit_count_bad();
        return;
    }
    struct outputs asked = wanted_now();
    set_actuator(&asked, pin, duty);
    gate_want(&asked);
}
