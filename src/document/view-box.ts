/** The size of a drawing in its own units, read off its viewBox. */
export interface ViewBox {
  readonly width: number;
  readonly height: number;
}

/** As wide as two to one where a drawing does not say. */
const UNSTATED: ViewBox = { width: 200, height: 100 };

export function viewBoxOf(svg: string): ViewBox {
  const stated = /^[^>]*\sviewBox="([^"]*)"/.exec(svg)?.[1];
  const [, , width = 0, height = 0] = (stated ?? '')
    .trim()
    .split(/[\s,]+/)
    .map(Number);
  return width > 0 && height > 0 ? { width, height } : UNSTATED;
}
