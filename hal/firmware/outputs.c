/*
 * Levels and duties on the pins, and what a set of them amounts to. Timer1 gives 8-bit PWM at
 * 490 Hz for pump and lamp; at 0 and at full duty the timer is disconnected and the pin held, so
 * that "off" has no residual pulse.
 * Which outputs may act is decided in gate.c, the only caller of outputs_drive().
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

/* The compare value is written before the timer takes the pin: it never drives an older duty. */
#define SET_DUTY(NAME, duty) \
    do { \
        NAME##_COMPARE = (duty); \
        SET_LEVEL(NAME, (duty) == FULL_DUTY); \
        if ((duty) == 0 || (duty) == FULL_DUTY) TCCR1A &= (uint8_t)~NAME##_CONNECT; \
        else TCCR1A |= NAME##_CONNECT; \
    } while (0)

void outputs_start(void)
{
    DDRB |= SIGNAL_MASK_B;
    DDRD |= SIGNAL_MASK_D;
    /* Phase-correct, 8 bits, prescaler 64. */
    TCCR1A = _BV(WGM10);
    TCCR1B = _BV(CS11) | _BV(CS10);
}

void outputs_drive(const struct outputs *asked)
{
    SET_DUTY(PUMP_DRIVE, asked->pump);
    SET_LEVEL(VENT_CLOSE, !(asked->flags & FLAG_VENT_OPEN));
    SET_LEVEL(LAMP_ENABLE, asked->flags & FLAG_LAMP_ENABLED);
    SET_DUTY(LAMP_DRIVE, asked->lamp);
    SET_LEVEL(SELECTOR_PRESSURE, asked->flags & FLAG_SELECTOR_PRESSURE);
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
    const uint8_t mask = _BV(onB ? pin - FIRST_PIN_OF_PORT_B : pin);
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        if (high) *port |= mask;
        else *port &= (uint8_t)~mask;
    }
}
