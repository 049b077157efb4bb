#ifndef TWIN_H
#define TWIN_H

#include <stdbool.h>
#include <stdint.h>

/* State that protection rests on is kept twice: `kept[0]` as it is, `kept[1]` inverted. Check before
 * a change, close after it, both with interrupts off or in an interrupt. */
bool twin_sound(const void *kept, uint8_t bytesOfOne);
void twin_close(void *kept, uint8_t bytesOfOne);

#define TWIN_SOUND(kept) twin_sound((kept), sizeof (kept)[0])
#define TWIN_CLOSE(kept) twin_close((kept), sizeof (kept)[0])

#endif
