/*
 * Writes on the two-wire bus at 100 kHz, queued and sent by interrupt, so that no caller waits for
 * the bus. An unacknowledged write is abandoned. A bus that hangs is let go after 20 ms and clocked
 * free: a device that was interrupted in a byte holds the data line until it has seen the rest.
 * There are no reads, because no device on this bus has anything to report.
 */
#include "twi.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <util/atomic.h>
#include <util/delay.h>
#include <util/twi.h>

#include "pins.h"

#define QUEUE_SIZE 128
#define QUEUE_MASK (QUEUE_SIZE - 1)
#define HEADER_BYTES 2
#define OWNER_DISPLAY 0x80
#define ADDRESS_MASK 0x7F
#define HUNG_AFTER_MS 20
/* Eight bits and an acknowledgement, at half the bus's rate. */
#define RESCUE_CLOCKS 9
#define HALF_CLOCK_US 10

/* Entries: owner and address, count, bytes. Only the main loop moves the head. */
static uint8_t queue[QUEUE_SIZE];
static uint8_t head;
static volatile uint8_t tail;

static volatile bool busy;
static uint8_t header;
static uint8_t left;
static uint32_t begunMs;
static volatile enum twi_result displayResult = TWI_DONE;

static uint8_t take(void)
{
    const uint8_t byte = queue[tail];
    tail = (tail + 1) & QUEUE_MASK;
    return byte;
}

static void put(uint8_t byte)
{
    queue[head] = byte;
    head = (head + 1) & QUEUE_MASK;
}

bool twi_write(uint8_t address, const uint8_t *bytes, uint8_t count, enum twi_owner owner)
{
    const uint8_t used = (head - tail) & QUEUE_MASK;
    if (count > TWI_LONGEST || used + HEADER_BYTES + count >= QUEUE_SIZE) return false;
    put((uint8_t)((address & ADDRESS_MASK) | (owner == TWI_FOR_DISPLAY ? OWNER_DISPLAY : 0)));
    put(count);
    for (uint8_t i = 0; i < count; i++) put(bytes[i]);
    if (owner == TWI_FOR_DISPLAY) displayResult = TWI_PENDING;
    return true;
}

enum twi_result twi_display_result(void)
{
    return displayResult;
}

/* Call with interrupts off, or from an interrupt. */
static void finish(enum twi_result result)
{
    tail = (tail + left) & QUEUE_MASK;
    left = 0;
    busy = false;
    if (header & OWNER_DISPLAY) displayResult = result;
}

ISR(TWI_vect)
{
    switch (TW_STATUS) {
    case TW_START:
        TWDR = (uint8_t)(header << 1) | TW_WRITE;
        TWCR = _BV(TWINT) | _BV(TWEN) | _BV(TWIE);
        return;
    case TW_MT_SLA_ACK:
    case TW_MT_DATA_ACK:
        if (left > 0) {
            left--;
            TWDR = take();
            TWCR = _BV(TWINT) | _BV(TWEN) | _BV(TWIE);
            return;
        }
        finish(TWI_DONE);
        break;
    default:
        finish(TWI_NO_ANSWER);
    }
    TWCR = _BV(TWINT) | _BV(TWEN) | _BV(TWSTO);
}

/* Lines of the bus are pulled low or let go, never driven high. */
static void pull(uint8_t line, bool low)
{
    if (low) DDRC |= line;
    else DDRC &= (uint8_t)~line;
    _delay_us(HALF_CLOCK_US);
}

/* Takes 0.2 ms with interrupts on. Ends with a stop, which every device understands. */
static void clock_free(void)
{
    PORTC &= (uint8_t)~(_BV(DISPLAY_DATA_BIT) | _BV(DISPLAY_CLOCK_BIT));
    for (uint8_t i = 0; i < RESCUE_CLOCKS && !(PINC & _BV(DISPLAY_DATA_BIT)); i++) {
        pull(_BV(DISPLAY_CLOCK_BIT), true);
        pull(_BV(DISPLAY_CLOCK_BIT), false);
    }
    pull(_BV(DISPLAY_DATA_BIT), true);
    pull(_BV(DISPLAY_DATA_BIT), false);
}

static void rescue(void)
{
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        TWCR = 0;
        finish(TWI_NO_ANSWER);
    }
    clock_free();
}

void twi_poll(uint32_t nowMs)
{
    /* A stop that does not come to its end hangs like a write. */
    if (busy || (TWCR & _BV(TWSTO))) {
        if (nowMs - begunMs >= HUNG_AFTER_MS) rescue();
        return;
    }
    if (head == tail) return;
    header = take();
    left = take();
    begunMs = nowMs;
    busy = true;
    TWCR = _BV(TWINT) | _BV(TWSTA) | _BV(TWEN) | _BV(TWIE);
}
