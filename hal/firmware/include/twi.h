#ifndef TWI_H
#define TWI_H

#include <stdbool.h>
#include <stdint.h>

/* Most bytes of one write, the address apart. */
#define TWI_LONGEST 32

enum twi_owner { TWI_FOR_HOST, TWI_FOR_DISPLAY };
enum twi_result { TWI_PENDING, TWI_DONE, TWI_NO_ANSWER };

void twi_start(void);

/* Queues one write; false when the queue has no room for it. */
bool twi_write(uint8_t address, const uint8_t *bytes, uint8_t count, enum twi_owner owner);

/* What became of the display's latest write. */
enum twi_result twi_display_result(void);

/* Once a pass of the main loop: begins the next write when the bus is free. */
void twi_poll(uint32_t nowMs);

#endif
