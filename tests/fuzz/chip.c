/*
 * The chip around the firmware: registers, line, converter, display bus and time, as far as the
 * fuzzed sources can tell. Interrupts come only while the program sleeps: what a race between
 * interrupt and main loop does is not seen here. It decides what comes when; oracle.c decides what
 * the firmware may do then. Left out, and found sound: boot.c and the self-tests, which need the
 * real chip and run in the emulator.
 */
#include "chip.h"

#include <avr/io.h>
#include <setjmp.h>
#include <stdbool.h>
#include <util/twi.h>

#include "adc.h"
#include "boot.h"
#include "oracle.h"
#include "pins.h"
#include "registers.h"
#include "selftest.h"

#define LONGEST_RUN_MS 1500
/* The bus takes that long to send what its queue holds. */
#define AFTER_INPUT_MS 15
/* 250 kBd with ten bits a byte, and 100 kHz with nine. */
#define LINE_BYTES_A_MS 25
#define BUS_BYTES_A_MS 11
#define OWN_REFERENCE 14
#define REFERENCE_COUNTS 225
/* Every sensor reads something sound: atmosphere, cold glass, no button. */
static const uint16_t countsOfChannel[8] = {200, 30, 500, 892, 0, 0, 500, 700};

volatile uint8_t PORTB, PORTC, PORTD, PINB, PINC, PIND, DDRC;
volatile uint8_t TCCR1A, ADMUX, ADCSRA, UCSR0A, UCSR0B, UDR0, TWCR, TWDR, TWSR;
volatile uint16_t OCR1A, OCR1B, ADC;

int firmware_main(void);
void ADC_vect(void);
void TIMER2_COMPA_vect(void);
void TWI_vect(void);
void USART_RX_vect(void);
void USART_UDRE_vect(void);

unsigned shieldOpenMs, pressureSwitchOpenMs, stopPressedMs;

static jmp_buf powerOff;
static const uint8_t *line;
static size_t lineBytes, at;
static uint8_t surroundings, bytesAMs, quietMs, quietLeftMs;
static unsigned runMs, afterMs;

trip_set boot_causes(void) { return 0; }
void selftest_start(void) {}
void selftest_slice(void) {}
bool registers_hold(void) { return true; }
trip_set selftest_tick(const struct outputs *driven) { return outputs_obeyed(driven) ? 0 : TRIP(OUTPUT_PINS); }

static void bytes_come(void)
{
    if (quietLeftMs > 0) {
        quietLeftMs--;
        return;
    }
    for (unsigned i = 0; i < bytesAMs && at < lineBytes; i++) {
        UDR0 = line[at++];
        USART_RX_vect();
    }
    quietLeftMs = quietMs;
}

static void bytes_go(void)
{
    if (surroundings & HOST_DOES_NOT_READ) return;
    for (int i = 0; i < LINE_BYTES_A_MS && (UCSR0B & _BV(UDRIE0)); i++) {
        USART_UDRE_vect();
        oracle_sent(UDR0);
    }
}

static void converter_runs(void)
{
    if (surroundings & CONVERTER_STALLS && at > lineBytes / 2) return;
    while (ADCSRA & _BV(ADSC)) {
        const uint8_t channel = ADMUX & 15;
        ADC = channel == OWN_REFERENCE ? REFERENCE_COUNTS : countsOfChannel[channel & 7];
        ADCSRA &= (uint8_t)~_BV(ADSC);
        ADC_vect();
    }
}

static uint8_t next_bus_status(void)
{
    if (TWCR & _BV(TWSTA)) return TW_START;
    if (TWSR != TW_START) return TW_MT_DATA_ACK;
    return surroundings & DISPLAY_ABSENT ? TW_MT_SLA_NACK : TW_MT_SLA_ACK;
}

static void bus_runs(void)
{
    PINC = surroundings & BUS_HANGS ? 0 : _BV(DISPLAY_DATA_BIT) | _BV(DISPLAY_CLOCK_BIT);
    if (surroundings & BUS_HANGS) return;
    for (int i = 0; i < BUS_BYTES_A_MS; i++) {
        TWCR &= (uint8_t)~_BV(TWSTO);
        if (!(TWCR & _BV(TWINT)) || !(TWCR & _BV(TWIE))) return;
        TWSR = next_bus_status();
        oracle_bus(TWSR);
        TWI_vect();
    }
}

/* Contacts open in the second half of the input. */
static void pins_follow(void)
{
    const uint8_t now = at > lineBytes / 2 ? surroundings : 0;
    shieldOpenMs = now & SHIELD_OPENS ? shieldOpenMs + 1 : 0;
    pressureSwitchOpenMs = now & PRESSURE_SWITCH_OPENS ? pressureSwitchOpenMs + 1 : 0;
    stopPressedMs = now & STOP_PRESSED ? stopPressedMs + 1 : 0;
    uint8_t inputs = 0;
    if (shieldOpenMs) inputs |= _BV(SHIELD_SWITCH_BIT);
    if (pressureSwitchOpenMs) inputs |= _BV(OVER_PRESSURE_SWITCH_BIT);
    if (stopPressedMs) inputs |= _BV(EMERGENCY_STOP_BIT);
    PINB = PORTB;
    PIND = (uint8_t)((PORTD & ~SAFETY_SWITCH_MASK_D) | inputs);
}

/* One millisecond, of which the program sleeps through all that it can. */
void chip_sleep(void)
{
    if (at == lineBytes && afterMs++ == AFTER_INPUT_MS) longjmp(powerOff, 1);
    if (runMs++ == LONGEST_RUN_MS) longjmp(powerOff, 1);
    bytes_come();
    bytes_go();
    converter_runs();
    bus_runs();
    pins_follow();
    TIMER2_COMPA_vect();
    oracle_tick();
}

static void registers_at_reset(void)
{
    PORTB = PORTC = PORTD = DDRC = TCCR1A = ADMUX = UCSR0A = UCSR0B = UDR0 = TWCR = TWDR = TWSR = 0;
    OCR1A = OCR1B = ADC = 0;
    ADCSRA = CONVERTER_RUNS;
    shieldOpenMs = pressureSwitchOpenMs = stopPressedMs = 0;
}

void chip_run(const uint8_t *input, size_t size)
{
    if (size < HEADER_BYTES) return;
    bytesAMs = input[0] ? input[0] : 1;
    quietMs = input[1];
    surroundings = input[2];
    line = input + HEADER_BYTES;
    lineBytes = size - HEADER_BYTES;
    at = quietLeftMs = runMs = afterMs = 0;
    registers_at_reset();
    pins_follow();
    oracle_start();
    if (setjmp(powerOff) == 0) firmware_main();
}
