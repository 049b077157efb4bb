/*
 * The line to the host: a ring buffer in each direction, moved by the UART's interrupts, so that no
 * caller waits for the line. Indices wrap with their type. registers.c sets the line up. This
 * file does not interpret the bytes.
 */
#include "serial.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <util/atomic.h>

#define TRANSMIT_SIZE 256
#define RECEIVE_SIZE 128
#define RECEIVE_MASK (RECEIVE_SIZE - 1)

static uint8_t transmitRing[TRANSMIT_SIZE];
static volatile uint8_t transmitHead, transmitTail;
static uint8_t receiveRing[RECEIVE_SIZE];
static volatile uint8_t receiveHead, receiveTail;

ISR(USART_RX_vect)
{
    const bool broken = UCSR0A & _BV(FE0);
    const uint8_t byte = UDR0;
    const uint8_t next = (receiveHead + 1) & RECEIVE_MASK;
    /* A broken byte, or one without room, is dropped; the message's check reveals it. */
    if (broken || next == receiveTail) return;
    receiveRing[receiveHead] = byte;
    receiveHead = next;
}

/* Enabled only while the ring holds a byte: each run writes one and so clears the flag. */
ISR(USART_UDRE_vect)
{
    UDR0 = transmitRing[transmitTail++];
    if (transmitTail == transmitHead) UCSR0B &= (uint8_t)~_BV(UDRIE0);
}

bool serial_waiting(void)
{
    return receiveHead != receiveTail;
}

bool serial_take(uint8_t *byte)
{
    if (!serial_waiting()) return false;
    *byte = receiveRing[receiveTail];
    receiveTail = (receiveTail + 1) & RECEIVE_MASK;
    return true;
}

uint8_t serial_room(void)
{
    return (uint8_t)(TRANSMIT_SIZE - 1 - (uint8_t)(transmitHead - transmitTail));
}

void serial_put(uint8_t byte)
{
    if (serial_room() == 0) return;
    transmitRing[transmitHead] = byte;
    /* The receiver's bits are written back unchanged, which leaves received bytes alone. */
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        transmitHead++;
        UCSR0B |= _BV(UDRIE0);
    }
}
