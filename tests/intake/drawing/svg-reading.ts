/** Reads a drawing back from its text, without the code that made it. */
import type { Box } from '../../../src/intake/drawing/text-box.ts';
import type { TextLine } from '../../../src/intake/drawing/text-line.ts';

export function textsOf(svg: string): readonly string[] {
  return [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text = '']) =>
    text.replace(/\s+/g, ' '),
  );
}

/** Each text with where and how large it is; turned ones as upright. */
export function textLinesOf(svg: string): readonly TextLine[] {
  return [...svg.matchAll(/(<text[^>]*>)([^<]*)<\/text>/g)].map(([, element = '', text = '']) => ({
    text,
    x: numberIn(element, 'x'),
    y: numberIn(element, 'y'),
    size: numberIn(element, 'font-size'),
    anchor: element.includes('"middle"') ? 'middle' : 'start',
    bold: element.includes('"bold"'),
    upright: element.includes('rotate('),
  }));
}

const numberIn = (element: string, name: string): number =>
  Number(new RegExp(` ${name}="([^"]*)"`).exec(element)?.[1] ?? Number.NaN);

/** What lines, rectangles, circles and paths cover; words are measured elsewhere. */
export function extentOf(svg: string): { readonly viewBox: Box; readonly drawn: Box } {
  const [x = 0, y = 0, width = 0, height = 0] = (/viewBox="([^"]*)"/.exec(svg)?.[1] ?? '')
    .split(' ')
    .map(Number);
  const points = [...svg.matchAll(/<(line|rect|circle|path) [^>]*>/g)].flatMap(
    ([element, name]) => {
      const of = (attribute: string) => numberIn(element, attribute);
      switch (name) {
        case 'line':
          return [
            [of('x1'), of('y1')],
            [of('x2'), of('y2')],
          ];
        case 'rect':
          return [
            [of('x'), of('y')],
            [of('x') + of('width'), of('y') + of('height')],
          ];
        case 'circle':
          return [
            [of('cx') - of('r'), of('cy') - of('r')],
            [of('cx') + of('r'), of('cy') + of('r')],
          ];
        default:
          return pathPoints(/ d="([^"]*)"/.exec(element)?.[1] ?? '');
      }
    },
  );
  const xs = points.map(([px = Number.NaN]) => px);
  const ys = points.map(([, py = Number.NaN]) => py);
  const left = Math.min(...xs);
  const top = Math.min(...ys);
  return {
    viewBox: { x, y, width, height },
    drawn: { x: left, y: top, width: Math.max(...xs) - left, height: Math.max(...ys) - top },
  };
}

/** Ends of the pieces; of an arc its ends alone. */
function pathPoints(d: string): readonly number[][] {
  return [...d.matchAll(/([MLA])([^MLAZ]*)/g)].map(([, , words = '']) =>
    words
      .trim()
      .split(/[\s,]+/)
      .slice(-2)
      .map(Number),
  );
}
