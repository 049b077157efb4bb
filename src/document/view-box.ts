/** The size of a drawing in its own units, taken from its viewBox. */
export interface ViewBox {
  readonly width: number;
  readonly height: number;
}

/** Two to one where a drawing states no size. */
const UNSTATED: ViewBox = { width: 200, height: 100 };

export function viewBoxOf(svg: string): ViewBox {
  const stated = /^[^>]*\sviewBox="([^"]*)"/.exec(svg)?.[1];
  const [, , width = 0, height = 0] = (stated ?? '')
    .trim()
    .split(/[\s,]+/)
    .map(Number);
  return width > 0 && height > 0 ? { width, height } : UNSTATED;
}
