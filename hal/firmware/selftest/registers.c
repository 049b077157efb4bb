/*
 * The set-up of the chip: what each register must hold while the program runs. The same list sets
 * the chip up and is held against it in every tick, so that a changed bit lives for one tick at
 * most. Levels and duties are compared by outputs.c, the converter's channel by adc.c.
 */
#include "registers.h"

#include <avr/io.h>
#include <avr/sleep.h>
#include <avr/wdt.h>

#include "adc.h"
#include "pins.h"
#include "protocol.h"
#include "twi.h"

#define TICKS_PER_S 1000UL
#define TICK_PRESCALER 64UL
#define WATCHDOG_RUNS (_BV(WDE) | _BV(WDP2)) /* 250 ms */
#define WATCHDOG_MASK (_BV(WDIE) | _BV(WDE) | _BV(WDP3) | _BV(WDP2) | _BV(WDP1) | _BV(WDP0))
/* Double speed, rounded. */
#define BAUD_DIVIDER ((F_CPU + BAUD_RATE * 4UL) / (BAUD_RATE * 8UL) - 1)

#define HOLD(REGISTER, MASK, VALUE) \
    do { \
        const uint8_t held = REGISTER; \
        if ((held & (MASK)) != (VALUE)) { \
            REGISTER = (uint8_t)((held & (uint8_t)~(MASK)) | (VALUE)); \
            asExpected = false; \
        } \
    } while (0)

bool registers_hold(void)
{
    bool asExpected = true;
    /* All clocks run at full speed, and no peripheral is off. */
    if (CLKPR != 0) {
        CLKPR = _BV(CLKPCE);
        CLKPR = 0;
        asExpected = false;
    }
    HOLD(PRR, 0xFF, 0);
    HOLD(GTCCR, 0xFF, 0);
    HOLD(SMCR, (uint8_t)~_BV(SE), SLEEP_MODE_IDLE);
    /* Pull-ups on, interrupt vectors in the application. */
    HOLD(MCUCR, _BV(PUD) | _BV(IVSEL), 0);
    if ((WDTCSR & WATCHDOG_MASK) != WATCHDOG_RUNS) {
        wdt_enable(WDTO_250MS);
        asExpected = false;
    }
    /* Pins: the crystal's, the line's and the bus's own belong to them. */
    HOLD(DDRB, 0x3F, ACTUATOR_MASK_B | SIGNAL_MASK_B);
    HOLD(DDRC, 0x0F, 0);
    HOLD(DDRD, 0xFC, ACTUATOR_MASK_D | SIGNAL_MASK_D);
    HOLD(PORTD, SAFETY_SWITCH_MASK_D, SAFETY_SWITCH_MASK_D);
    /* Timer 2 gives the tick, timer 1 the duties: phase-correct, 8 bits, 490 Hz. */
    HOLD(ASSR, 0xFF, 0);
    HOLD(TCCR2A, 0xFF, _BV(WGM21));
    HOLD(TCCR2B, 0xFF, _BV(CS22));
    HOLD(OCR2A, 0xFF, F_CPU / TICK_PRESCALER / TICKS_PER_S - 1);
    HOLD(TCCR1A, (uint8_t)~(PUMP_DRIVE_CONNECT | LAMP_DRIVE_CONNECT), _BV(WGM10));
    HOLD(TCCR1B, 0xFF, _BV(CS11) | _BV(CS10));
    /* Interrupts: the tick, the converter, the line and the bus, no others. */
    HOLD(TIMSK0, 0xFF, 0);
    HOLD(TIMSK1, 0xFF, 0);
    HOLD(TIMSK2, 0xFF, _BV(OCIE2A));
    HOLD(EIMSK, 0xFF, 0);
    HOLD(PCICR, 0xFF, 0);
    HOLD(SPCR, 0xFF, 0);
    HOLD(ACSR, _BV(ACIE), 0);
    HOLD(ADCSRA, (uint8_t)~(_BV(ADSC) | _BV(ADIF)), CONVERTER_RUNS);
    HOLD(ADCSRB, 0xFF, 0);
    HOLD(UBRR0L, 0xFF, BAUD_DIVIDER & 0xFF);
    HOLD(UBRR0H, 0x0F, BAUD_DIVIDER >> 8);
    HOLD(UCSR0A, _BV(U2X0) | _BV(MPCM0), _BV(U2X0));
    HOLD(UCSR0C, 0xFF, _BV(UCSZ01) | _BV(UCSZ00));
    HOLD(UCSR0B, (uint8_t)~(_BV(UDRIE0) | _BV(RXB80) | _BV(TXB80)), _BV(RXEN0) | _BV(TXEN0) | _BV(RXCIE0));
    HOLD(TWBR, 0xFF, (F_CPU / TWI_CLOCK_HZ - 16) / 2);
    HOLD(TWSR, _BV(TWPS1) | _BV(TWPS0), 0);
    return asExpected;
}
