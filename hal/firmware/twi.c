/*
 * Writes on the two-wire bus at 100 kHz, queued and sent by interrupt, so that no caller waits for
 * the bus. An unacknowledged write is abandoned; a hung bus is released after 20 ms. There are no
 * reads, because no device on this bus has anything to report.
 */
#include "twi.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <util/atomic.h>
#include <util/twi.h>

#define CLOCK_HZ 100000UL
#define QUEUE_SIZE 64
#define QUEUE_MASK (QUEUE_SIZE - 1)
#define HEADER_BYTES 2
#define OWNER_DISPLAY 0x80
#define ADDRESS_MASK 0x7F
#define HUNG_AFTER_MS 20

/* Entries: owner and address, count, bytes. Only the main loop moves the head. */
static uint8_t queue[QUEUE_SIZE];
static uint8_t head;
static volatile uint8_t tail;

static volatile bool busy;
static uint8_t header;
static uint8_t left;
static uint32_t begunMs;
static volatile enum twi_result displayResult = TWI_DONE;

void twi_start(void)
{
    TWBR = (F_CPU / CLOCK_HZ - 16) / 2;
}

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
    put((address & ADDRESS_MASK) | (owner == TWI_FOR_DISPLAY ? OWNER_DISPLAY : 0));
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

void twi_poll(uint32_t nowMs)
{
    if (busy) {
        if (nowMs - begunMs < HUNG_AFTER_MS) return;
        ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
        {
            TWCR = 0;
            finish(TWI_NO_ANSWER);
        }
        return;
    }
    if (head == tail || (TWCR & _BV(TWSTO))) return;
    header = take();
    left = take();
    begunMs = nowMs;
    busy = true;
    TWCR = _BV(TWINT) | _BV(TWSTA) | _BV(TWEN) | _BV(TWIE);
}
