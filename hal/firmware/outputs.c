/*
 * Pin levels and duties, and the state they amount to. Timer1 gives 8-bit PWM at 490 Hz for pump
 * and lamp. At 0 and at full duty the timer is disconnected and the pin held, so that "off" has no
 * residual pulse. The pins are read back: what they do not obey is found here. gate.c, the only
 * caller of outputs_drive(), decides which outputs act; registers.c sets the timer up.
 */
#include "outputs.h"

#include <avr/io.h>
#include <util/atomic.h>

#include "pins.h"
#include "protocol.h"

#define FIRST_PIN_OF_PORT_B 8

#define SET_LEVEL(NAME, high) \
    do { \
        if (high) NAME##_PORT |= _BV(NAME##_BIT); \
        else NAME##_PORT &= (uint8_t)~_BV(NAME##_BIT); \
    } while (0)

/* The compare value is written before the timer takes the pin, which never drives an older duty. */
#define SET_DUTY(NAME, duty) \
    do { \
        NAME##_COMPARE = (duty); \
        SET_LEVEL(NAME, (duty) == FULL_DUTY); \
        if ((duty) == 0 || (duty) == FULL_DUTY) TCCR1A &= (uint8_t)~NAME##_CONNECT; \
        else TCCR1A |= NAME##_CONNECT; \
    } while (0)

void outputs_drive(const struct outputs *asked)
{
    SET_DUTY(PUMP_DRIVE, asked->pump);
    SET_LEVEL(VENT_CLOSE, !(asked->flags & FLAG_VENT_OPEN));
    SET_LEVEL(LAMP_ENABLE, asked->flags & FLAG_LAMP_ENABLED);
    SET_DUTY(LAMP_DRIVE, asked->lamp);
    SET_LEVEL(SELECTOR_PRESSURE, asked->flags & FLAG_SELECTOR_PRESSURE);
}

/* A level that the pin must show; a duty in between is compared in the timer. */
#define LEVEL_OBEYED(NAME, high) (!(NAME##_IN & _BV(NAME##_BIT)) == !(high))
#define DUTY_OBEYED(NAME, duty) \
    ((duty) == 0 || (duty) == FULL_DUTY \
         ? !(TCCR1A & NAME##_CONNECT) && LEVEL_OBEYED(NAME, duty) \
         : (TCCR1A & NAME##_CONNECT) == NAME##_CONNECT && NAME##_COMPARE == (duty))

bool outputs_obeyed(const struct outputs *driven)
{
    return DUTY_OBEYED(PUMP_DRIVE, driven->pump) && DUTY_OBEYED(LAMP_DRIVE, driven->lamp) &&
           LEVEL_OBEYED(VENT_CLOSE, !(driven->flags & FLAG_VENT_OPEN)) &&
           LEVEL_OBEYED(LAMP_ENABLE, driven->flags & FLAG_LAMP_ENABLED) &&
           LEVEL_OBEYED(SELECTOR_PRESSURE, driven->flags & FLAG_SELECTOR_PRESSURE);
}

bool outputs_lamp_on(const struct outputs *outputs)
{
    return (outputs->flags & FLAG_LAMP_ENABLED) && outputs->lamp > 0;
}

bool outputs_are_safe(const struct outputs *outputs)
{
    return outputs->pump == 0 && (outputs->flags & FLAG_VENT_OPEN) && !(outputs->flags & FLAG_LAMP_ENABLED) && outputs->lamp == 0;
}

void outputs_signal(uint8_t pin, bool high)
{
    const bool onB = pin >= FIRST_PIN_OF_PORT_B;
    volatile uint8_t *port = onB ? &PORTB : &PORTD;
    const uint8_t mask = (uint8_t)_BV(onB ? pin - FIRST_PIN_OF_PORT_B : pin);
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        if (high) *port |= mask;
        else *port &= (uint8_t)~mask;
    }
}
