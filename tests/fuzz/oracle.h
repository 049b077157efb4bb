#ifndef ORACLE_H
#define ORACLE_H

#include <stdint.h>

/* CRC-16/XMODEM, written a second time. */
uint16_t oracle_check(const uint8_t *bytes, unsigned count);

void oracle_start(void);
/* After every tick, with every byte that the board sends, with every status of the display's bus. */
void oracle_tick(void);
void oracle_sent(uint8_t byte);
void oracle_bus(uint8_t status);

/* How many were accepted in all runs; an input that reaches none proves nothing. */
struct tally {
    unsigned long outputs, limits, resets, sent;
};
extern struct tally tally;

#endif
