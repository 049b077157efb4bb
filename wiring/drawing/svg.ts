/**
 * Shapes to SVG text, black on white, sizes in millimetres of A4 landscape. It decides only line
 * widths.
 */
import { FONT_MM, GRID_MM, type Point, type Shape } from './shapes.ts';
import { PAPER_MM } from './sheet.ts';

const LINE_MM = 0.3;
const HEAVY_MM = 0.7;

const mm = (units: number): string => String(Math.round(units * GRID_MM * 100) / 100);
const pair = ([x, y]: Point): string => `${mm(x)},${mm(y)}`;
const escaped = (words: string): string =>
  words.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

function element(shape: Shape): string {
  const fill = 'filled' in shape && shape.filled ? ' fill="black"' : '';
  switch (shape.kind) {
    case 'line': {
      const heavy = shape.heavy ? ` stroke-width="${HEAVY_MM}"` : '';
      return `<polyline points="${shape.points.map(pair).join(' ')}"${fill}${heavy}/>`;
    }
    case 'circle':
      return `<circle cx="${mm(shape.at[0])}" cy="${mm(shape.at[1])}" r="${mm(shape.radius)}"${fill || ' fill="white"'}/>`;
    case 'text': {
      const bold = shape.bold ? ' font-weight="bold"' : '';
      const size = shape.sizeMm === undefined ? '' : ` font-size="${shape.sizeMm}"`;
      return `<text x="${mm(shape.at[0])}" y="${mm(shape.at[1])}" text-anchor="${shape.anchor}"${bold}${size}>${escaped(shape.text)}</text>`;
    }
  }
}

/** Several elements per line keep the files short. */
const PER_ROW = 3;
const inRows = (elements: readonly string[]): readonly string[] =>
  elements.flatMap((_, index) =>
    index % PER_ROW === 0 ? [elements.slice(index, index + PER_ROW).join('')] : [],
  );

export function svgOf(title: string, shapes: readonly Shape[]): string {
  const { width, height } = PAPER_MM;
  const lines = shapes.filter(({ kind }) => kind !== 'text').map(element);
  const texts = shapes.filter(({ kind }) => kind === 'text').map(element);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}">`,
    `<title>${escaped(title)}</title>`,
    `<rect width="${width}" height="${height}" fill="white"/>`,
    `<g fill="none" stroke="black" stroke-width="${LINE_MM}" stroke-linejoin="round">`,
    ...inRows(lines),
    '</g>',
    `<g fill="black" font-family="'DejaVu Sans Mono', 'Liberation Mono', monospace" font-size="${FONT_MM}">`,
    ...inRows(texts),
    '</g>',
    '</svg>',
    '',
  ].join('\n');
}
