/**
 * Writes pins.h and protocol.h into include/ of the current folder: the Makefile's `headers`
 * target, for use after the pin map or the protocol has changed. headers.ts decides what they hold.
 */
import { writeFileSync } from 'node:fs';
import { pinsHeader, protocolHeader } from './headers.ts';

writeFileSync('include/pins.h', pinsHeader());
writeFileSync('include/protocol.h', protocolHeader());
