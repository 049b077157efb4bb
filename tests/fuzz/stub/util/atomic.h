#ifndef UTIL_ATOMIC_H
#define UTIL_ATOMIC_H

#define ATOMIC_BLOCK(kind) for (int once = 1; once; once = 0)

#endif
