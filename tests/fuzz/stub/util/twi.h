#ifndef UTIL_TWI_H
#define UTIL_TWI_H

#define TW_STATUS (TWSR & 0xF8)
#define TW_WRITE 0
#define TW_START 0x08
#define TW_MT_SLA_ACK 0x18
#define TW_MT_SLA_NACK 0x20
#define TW_MT_DATA_ACK 0x28

#endif
