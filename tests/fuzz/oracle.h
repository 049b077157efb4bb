#ifndef ORACLE_H
#define ORACLE_H

#include <stdint.h>

/* CRC-16/XMODEM, written a second time. */
uint16_t oracle_check(const uint8_t *bytes, unsigned count);

void oracle_start(void);
/* After every tick, and with every byte that the board sends. */
void oracle_tick(void);
void oracle_sent(uint8_t byte);

/* How many were accepted in all runs; an input that reaches none proves nothing. */
struct tally {
    unsigned long outputs, limits, resets, sent;
};
extern struct tally tally;

#endif
