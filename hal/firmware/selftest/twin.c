/*
 * Compares and renews state that is kept twice, the second time inverted, so that one changed bit,
 * or a memory wiped to one value, shows at the next look. The owner of the state decides what
 * follows from a mismatch.
 */
#include "twin.h"

bool twin_sound(const void *kept, uint8_t bytesOfOne)
{
    const uint8_t *plain = kept;
    const uint8_t *inverse = plain + bytesOfOne;
    uint8_t wrong = 0;
    for (; bytesOfOne > 0; bytesOfOne--) wrong |= (uint8_t)~(*plain++ ^ *inverse++);
    return wrong == 0;
}

void twin_close(void *kept, uint8_t bytesOfOne)
{
    const uint8_t *plain = kept;
    uint8_t *inverse = (uint8_t *)kept + bytesOfOne;
    for (; bytesOfOne > 0; bytesOfOne--) *inverse++ = (uint8_t)~*plain++;
}
