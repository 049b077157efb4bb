/**
 * The damage itself at any scale: ring, part of a ring, legs, the course of a crack, pit. Sizes are
 * as stated. Directions and courses are not on the sheet and follow a fixed pattern, which the
 * drawing states. The same figure is used on the pane and magnified.
 */
import type { IntakeSheet } from '../sheet/intake-sheet.ts';
import { arcPath, linePath, ringPath } from './cut-path.ts';
import type { Point } from './frame.ts';
import type { Box } from './text-box.ts';

type Damage = IntakeSheet['damage'];

interface Props {
  readonly damage: Damage;
  readonly at: Point;
  readonly unitsPerMm: number;
  readonly line: number;
  /** Direction in which a crack runs, radians. */
  readonly along: number;
  /** Nothing is drawn beyond the pane. */
  readonly within?: Box;
}

export const INK = '#000000';

const known = (mm: number | 'unknown', otherwise: number): number =>
  mm === 'unknown' ? otherwise : mm;

export function DamageFigure(props: Props) {
  const { damage, at, unitsPerMm, within } = props;
  const pit = known(damage.pitMm, 0) * unitsPerMm;
  return (
    <g stroke={INK} stroke-width={props.line} fill="none" stroke-linecap="round">
      <Shape {...props} />
      {pit > 0 && <path d={ringPath(at, pit / 2, within)} fill={INK} stroke="none" />}
    </g>
  );
}

function Shape(props: Props) {
  const { damage, at, unitsPerMm, within } = props;
  const radius = (known(damage.diameterMm, 0) * unitsPerMm) / 2;
  switch (damage.type) {
    case 'bullseye':
      return <path d={ringPath(at, radius, within)} />;
    case 'half-moon':
      return <path d={arcPath(at, radius, HALF_MOON, within)} />;
    case 'star-break':
      return <Legs {...props} />;
    case 'combination-break': {
      const body = known(damage.bodyMm, known(damage.diameterMm, 0) / 2) * unitsPerMm;
      return (
        <g>
          <path d={ringPath(at, body / 2, within)} />
          <Legs {...props} />
        </g>
      );
    }
    case 'crack':
      return <Course {...props} />;
    case 'surface-pit':
      return null;
    case 'unknown':
      return <path d={ringPath(at, Math.max(radius, 2), within)} stroke-dasharray="2 2" />;
  }
}

/** A little more than half of the ring, open below. */
const HALF_MOON = [Math.PI - 0.2, 2 * Math.PI + 0.2] as const;

/**
 * Tips of the legs from the centre of the pit: the longest as stated, the opposite one such that
 * the overall width is right.
 */
function legTipsMm({ legs, longestLegMm, diameterMm, pitMm }: Damage): readonly number[] {
  const count = known(legs, 0);
  const widthMm = known(diameterMm, 2 * known(longestLegMm, 0));
  const longest = Math.min(known(longestLegMm, widthMm / 2) + known(pitMm, 0) / 2, widthMm);
  const second = Math.max(widthMm - longest, 0);
  const rest = 0.75 * Math.min(second, longest);
  const opposite = Math.floor(count / 2);
  return Array.from({ length: count }, (_, leg) =>
    leg === 0 ? longest : leg === opposite ? second : rest,
  );
}

/** From the centre of the pit to the left and right end of the measured width. */
export function endsMm(damage: Damage): readonly [number, number] {
  const widthMm = known(damage.type === 'crack' ? damage.longestLegMm : damage.diameterMm, 0);
  const legged = damage.type === 'star-break' || damage.type === 'combination-break';
  const [longest] = legged ? legTipsMm(damage) : [];
  return longest === undefined ? [widthMm / 2, widthMm / 2] : [widthMm - longest, longest];
}

function Legs({ damage, at, unitsPerMm, within }: Props) {
  const tips = legTipsMm(damage);
  const opposite = Math.floor(tips.length / 2);
  return (
    <g>
      {tips.map((tipMm, leg) => {
        // The two legs across which the width is measured lie on one horizontal line.
        const turn = leg === opposite && leg > 0 ? 0.5 : leg / tips.length;
        const points = legPoints(at, 2 * Math.PI * turn, tipMm * unitsPerMm);
        const key = `${leg}`;
        return <path key={key} d={linePath(points, within)} />;
      })}
    </g>
  );
}

const LEG_STEPS = 8;

/** Slightly bent, as real legs are. */
function legPoints(at: Point, angle: number, tip: number): readonly Point[] {
  return Array.from({ length: LEG_STEPS + 1 }, (_, step) => {
    const part = step / LEG_STEPS;
    const aside = 0.16 * tip * part * (1 - part);
    return {
      x: at.x + part * tip * Math.cos(angle) - aside * Math.sin(angle),
      y: at.y + part * tip * Math.sin(angle) + aside * Math.cos(angle),
    };
  });
}

const WAVES = 24;

/** From end to end along its length; the real course is not on the sheet. */
function Course({ damage, at, unitsPerMm, along, within }: Props) {
  const length = known(damage.longestLegMm, known(damage.diameterMm, 0)) * unitsPerMm;
  const points = Array.from({ length: WAVES + 1 }, (_, step): Point => {
    const part = step / WAVES - 0.5;
    const aside = 0.02 * length * Math.sin(3 * Math.PI * part) * Math.cos(7 * part);
    return {
      x: at.x + part * length * Math.cos(along) - aside * Math.sin(along),
      y: at.y + part * length * Math.sin(along) + aside * Math.cos(along),
    };
  });
  return <path d={linePath(points, within)} />;
}
