/** A QR code (ISO/IEC 18004) as a drawing: one path of dark squares on white, four squares of margin. */
import { create } from 'qrcode';

const MARGIN = 4;

export function qrSvg(text: string): string {
  const { modules } = create(text, { errorCorrectionLevel: 'M' });
  const side = modules.size + 2 * MARGIN;
  const dark: string[] = [];
  for (let row = 0; row < modules.size; row++) {
    for (let column = 0; column < modules.size; column++) {
      if (modules.get(row, column) === 0) continue;
      dark.push(`M${column + MARGIN} ${row + MARGIN}h1v1h-1z`);
    }
  }
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${side} ${side}" shape-rendering="crispEdges"><path d="M0 0h${side}v${side}h-${side}z" fill="#fff"/><path d="${dark.join('')}" fill="#000"/></svg>`;
}
