/* Registers of the ATmega328P that the fuzzed sources name, as variables of chip.c. */
#ifndef AVR_IO_H
#define AVR_IO_H

#include <stdint.h>

#define _BV(bit) (1 << (bit))

extern volatile uint8_t PORTB, PORTC, PORTD, PINB, PINC, PIND, DDRC;
extern volatile uint8_t TCCR1A, ADMUX, ADCSRA, UCSR0A, UCSR0B, UDR0, TWCR, TWDR, TWSR;
extern volatile uint16_t OCR1A, OCR1B, ADC;

/* Bit numbers of the data sheet. */
enum { COM1B1 = 5, COM1A1 = 7 };
enum { REFS0 = 6 };
enum { ADPS0 = 0, ADPS1 = 1, ADPS2 = 2, ADIE = 3, ADSC = 6, ADEN = 7 };
enum { FE0 = 4, UDRIE0 = 5 };
enum { TWIE = 0, TWEN = 2, TWSTO = 4, TWSTA = 5, TWINT = 7 };

#endif
