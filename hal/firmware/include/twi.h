#ifndef TWI_H
#define TWI_H

#include <stdbool.h>
#include <stdint.h>

#define TWI_CLOCK_HZ 100000UL

/* Maximum bytes of one write, without the address. */
#define TWI_LONGEST 32

enum twi_owner { TWI_FOR_HOST, TWI_FOR_DISPLAY };
enum twi_result { TWI_PENDING, TWI_DONE, TWI_NO_ANSWER };

/* Queues one write; false when the queue has no room for it. */
bool twi_write(uint8_t address, const uint8_t *bytes, uint8_t count, enum twi_owner owner);

/* Result of the display's latest write. */
enum twi_result twi_display_result(void);

/* Call once a pass of the main loop: begins the next write when the bus is free. */
void twi_poll(uint32_t nowMs);

#endif
