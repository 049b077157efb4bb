/** `meniscus ports`: the serial ports that the operating system reports, one per line. */
import { listPorts, type Port } from '../../../hal/firmata/ports.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import { print, printError } from '../terminal/print.ts';

export async function portsCommand(): Promise<number> {
  try {
    print(portLines(await listPorts()));
    return EXIT.completed;
  } catch (error) {
    printError(`The serial ports could not be listed: ${String(error)}\n`);
    return EXIT.fault;
  }
}

function portLines(ports: readonly Port[]): string {
  if (ports.length === 0) return 'No serial ports. Plug the board in and try again.\n';
  const width = Math.max(...ports.map(({ path }) => path.length));
  return ports
    .map(({ path, manufacturer, vendorId, looksLikeBoard }) => {
      const about = [looksLikeBoard ? 'may be a board' : 'no sign of a board', manufacturer];
      if (vendorId !== null) about.push(`vendor ${vendorId}`);
      return `${path.padEnd(width)}  ${about.filter((part) => part !== null).join(', ')}\n`;
    })
    .join('');
}
