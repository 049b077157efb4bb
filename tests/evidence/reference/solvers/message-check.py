"""CRC-16/XMODEM by the standard library; see message-check.md."""

from binascii import crc_hqx

MESSAGES = {
    "outputsSafe": "11 01 00 02 00 00 00 00",
    "outputsBusy": "11 2C 02 05 00 01 48 01",
    "limits": "12 56 05 56 00 10 1C 74 03 18 01",
}


def cases():
    return {
        "digits": crc_hqx(b"123456789", 0),
        "letter": crc_hqx(b"A", 0),
        **{name: crc_hqx(bytes.fromhex(message), 0) for name, message in MESSAGES.items()},
    }
