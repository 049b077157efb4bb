/*
 * The envelope of the unit's own messages: fields in seven-bit groups and the CRC-16/XMODEM of all
 * bytes from the kind to the last field. The sender decides which fields a message has.
 */
#include "message.h"

#include <util/crc16.h>

#include "serial.h"

#define GROUP_BITS 7
#define GROUP_MASK 0x7F

static uint16_t check;

static void put_groups(uint32_t value, uint8_t groups, bool checked)
{
    for (; groups > 0; groups--, value >>= GROUP_BITS) {
        const uint8_t byte = value & GROUP_MASK;
        if (checked) check = _crc_xmodem_update(check, byte);
        serial_put(byte);
    }
}

void message_begin(uint8_t kind)
{
    serial_put(SYSEX_START);
    serial_put(UNIT_SYSEX);
    check = 0;
    put_groups(kind, 1, true);
}

void message_field(uint32_t value, uint8_t groups)
{
    put_groups(value, groups, true);
}

void message_end(void)
{
    put_groups(check, CHECK_GROUPS, false);
    serial_put(SYSEX_END);
}

uint16_t message_read(const uint8_t *bytes, uint8_t groups)
{
    uint16_t value = 0;
    while (groups > 0) value = (uint16_t)(value << GROUP_BITS) | bytes[--groups];
    return value;
}

bool message_check(const uint8_t *bytes, uint8_t length)
{
    if (length <= CHECK_GROUPS) return false;
    const uint8_t checked = (uint8_t)(length - CHECK_GROUPS);
    uint16_t crc = 0;
    for (uint8_t i = 0; i < checked; i++) crc = _crc_xmodem_update(crc, bytes[i]);
    /* The third group holds two bits of the check; its other bits must be zero. */
    if (bytes[checked + 2] >> 2) return false;
    return message_read(bytes + checked, CHECK_GROUPS) == crc;
}
