/**
 * Lists the serial ports, tells which look like a board, and selects one when the user names none:
 * the only candidate, or none. It never guesses between two and never opens a port.
 */
import { SerialPort } from 'serialport';
import { type Outcome, refuse } from './errors.ts';

export interface Port {
  readonly path: string;
  readonly manufacturer: string | null;
  /** USB vendor, four hexadecimal digits as the operating system reports them. */
  readonly vendorId: string | null;
  readonly looksLikeBoard: boolean;
}

/** What the operating system reports about a port. */
export interface ListedPort {
  readonly path: string;
  readonly manufacturer?: string | undefined;
  readonly vendorId?: string | undefined;
}

/** Names that operating systems give to USB ports; a built-in port has no vendor. */
const USB_NAME = /ttyUSB|ttyACM|usbserial|usbmodem/i;

export function describePort({ path, manufacturer, vendorId }: ListedPort): Port {
  return {
    path,
    manufacturer: manufacturer ?? null,
    vendorId: vendorId ?? null,
    looksLikeBoard: vendorId !== undefined || USB_NAME.test(path),
  };
}

export async function listPorts(
  list: () => Promise<readonly ListedPort[]> = SerialPort.list,
): Promise<readonly Port[]> {
  return (await list()).map(describePort);
}

export function choosePort(ports: readonly Port[]): Outcome<string> {
  const candidates = ports.filter(({ looksLikeBoard }) => looksLikeBoard);
  const [only] = candidates;
  if (only === undefined) return refuse('port-none', listed('Ports found', ports));
  if (candidates.length > 1) return refuse('port-several', listed('Candidates', candidates));
  return { ok: true, value: only.path };
}

/** The port of this name; for `auto`, the only one that looks like a board. */
export async function portNamed(wanted: string): Promise<Outcome<string>> {
  return wanted === 'auto' ? choosePort(await listPorts()) : { ok: true, value: wanted };
}

function listed(title: string, ports: readonly Port[]): string {
  const words = ports.map(({ path, manufacturer, vendorId }) => {
    const known = [manufacturer, vendorId === null ? null : `vendor ${vendorId}`];
    const about = known.filter((part) => part !== null).join(', ');
    return about === '' ? path : `${path} (${about})`;
  });
  return `${title}: ${words.length === 0 ? 'none' : words.join('; ')}.`;
}
