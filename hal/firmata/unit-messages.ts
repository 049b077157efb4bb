/**
 * Passes the unit's own messages to the firmata-io instance whose line carried them. firmata-io
 * keeps one table of sysex handlers for the whole process and throws on a second entry. One handler
 * is therefore entered once and finds the receiver by instance.
 */
import type firmata from 'firmata-io';
import { UNIT_SYSEX } from './protocol.ts';

type Firmata = firmata.Firmata;
export type Receive = (message: readonly number[]) => void;

const receivers = new WeakMap<Firmata, Receive>();
const table = { entered: false };

/** Receives until the returned function is called. */
export function receiveUnitMessages(io: Firmata, receive: Receive): () => void {
  if (!table.entered) {
    io.sysexResponse(UNIT_SYSEX, function (data) {
      receivers.get(this)?.(data);
    });
    table.entered = true;
  }
  receivers.set(io, receive);
  return () => receivers.delete(io);
}
