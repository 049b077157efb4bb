/**
 * The state of the simulated unit's physics and its surroundings: what there is and how it begins.
 * `plant.ts` steps it.
 */
import { type AirState, createAir } from './air/air.ts';
import type { Foot } from './air/foot.ts';
import { type BreakState, createBreakState } from './break/break.ts';
import { createInjectorState, type InjectorState } from './break/injector.ts';
import type { MoistureState } from './break/moisture.ts';
import { type CureState, createCureState } from './light/cure.ts';
import { createLampState, type LampState } from './light/lamp.ts';
import { createOpenResinState, type OpenResinState } from './light/open-resin.ts';
import { createLaminate, type Laminate, type PaneSurroundings, roomAt } from './pane/laminate.ts';
import type { Conditions, Setup } from './setup.ts';
import type { World } from './world.ts';

export const SUPPLY_V = 12.6;

export interface Place {
  readonly atmospherePa: number;
  readonly world: World;
  /** Light on fill and pit, as a share of the light on the lamp's axis. */
  readonly lit: Lit;
}

export interface Lit {
  readonly fillRatio: number;
  readonly pitRatio: number;
  /** Where the lamp is moved along a crack; null where it stands over the pit. */
  readonly row?: LitRow | null;
}

export interface LitRow {
  /** By field, and by the field over which the lamp stands: light on the least lit of its resin. */
  readonly fieldRatios: readonly (readonly number[])[];
  readonly pitRatios: readonly number[];
}

const ON_THE_AXIS: Lit = { fillRatio: 1, pitRatio: 1 };

export interface PlantState {
  /** Steps since the start: an integer, so that time accumulates no rounding errors. */
  step: number;
  supplyV: number;
  bubbling: boolean;
  readonly air: AirState;
  readonly filling: BreakState;
  readonly moisture: MoistureState;
  readonly resin: InjectorState;
  readonly lamp: LampState;
  pane: Laminate;
  readonly surroundings: PaneSurroundings;
  readonly openResin: OpenResinState;
  /** The fill, where it is lit least; and pit resin, which is absent before the pit is made. */
  readonly cure: CureState;
  /** The fill in the fields after the first. */
  readonly laterCures: readonly CureState[];
  readonly pit: CureState;
  /**
   * The fill had set when the pit was made, and lies below it; otherwise both are one body of
   * resin.
   */
  fillBelowPit: boolean;
  /** Light of the lamp that reached the resin of each portion, under its film. */
  readonly resinDose: { fillJPerM2: number; readonly laterJPerM2: number[]; pitJPerM2: number };
  readonly setup: Setup;
  /** Step up to which pane and resin have been advanced, and the lamp's dose there. */
  slowStep: number;
  slowDoseJPerM2: number;
  /** State of the air's ledger when moisture was last stepped. */
  inflowMol: number;
  /** Vapour and gas released so far, and the initial amount: for the balance. */
  givenOffMol: number;
  readonly startMol: number;
  readonly startBreakMol: number;
  readonly startSinkK: number;
}

export function createPlace(
  atmospherePa: number,
  world: World,
  { fillRatio, pitRatio, row = null }: Lit = ON_THE_AXIS,
): Place {
  return { atmospherePa, world, lit: { fillRatio, pitRatio, row } };
}

export function createPlantState(place: Place, airK: number, glassK: number): PlantState {
  const { atmospherePa, world } = place;
  const air = createAir(world.air, atmospherePa, airK, world.gas);
  const laterFields = place.lit.row?.fieldRatios.slice(1) ?? [];
  const filling = createBreakState(world.break, atmospherePa, airK);
  return {
    step: 0,
    supplyV: SUPPLY_V,
    bubbling: false,
    air,
    filling,
    resin: createInjectorState(),
    moisture: { waterMol: 0, vapourMol: 0, outgasMol: 0 },
    lamp: createLampState(airK),
    pane: createLaminate(world.pane, glassK),
    surroundings: roomAt(airK),
    openResin: createOpenResinState(),
    cure: createCureState(),
    laterCures: laterFields.map(createCureState),
    pit: createCureState(),
    fillBelowPit: false,
    resinDose: { fillJPerM2: 0, laterJPerM2: laterFields.map(() => 0), pitJPerM2: 0 },
    setup: {
      sealed: false,
      hoseOn: false,
      plugged: false,
      charged: false,
      recharges: 0,
      lifts: 0,
      injectorAt: 0,
      lampAt: 0,
      injectorOff: false,
      pitFilled: false,
      filmOn: false,
      shieldClosed: false,
      hallAirK: null,
      stopPressed: false,
      switchPumped: false,
      bath: null,
    },
    slowStep: 0,
    slowDoseJPerM2: 0,
    inflowMol: 0,
    givenOffMol: 0,
    startMol: gasMol({ air, filling }, place),
    startBreakMol: breakMol(filling, place, ({ trappedMol }) => trappedMol),
    startSinkK: airK,
  };
}

/** The part of a crack under the injector; undefined for a break that is filled from one place. */
export const partUnder = (
  { setup: { injectorAt } }: Pick<PlantState, 'setup'>,
  { world }: Pick<Place, 'world'>,
): number | undefined => (world.break.inTurn === true ? injectorAt : undefined);

/** Sum over all gaps of a break, weighted by their count. */
export function breakMol(
  { gaps }: BreakState,
  { world }: Place,
  of: (gap: BreakState['gaps'][number]) => number,
): number {
  return gaps.reduce((sum, gap, i) => sum + (world.break.gaps[i]?.count ?? 0) * of(gap), 0);
}

/** Gas in unit and break, dissolved gas included, mol. */
export const gasMol = ({ air, filling }: Pick<PlantState, 'air' | 'filling'>, place: Place) =>
  air.manifoldMol +
  air.injectorMol +
  breakMol(filling, place, ({ trappedMol, dissolvedMol }) => trappedMol + dissolvedMol);

/** Resin in the gaps of the break, m3. */
export function breakResinM3({ gaps }: BreakState, { world }: Place): number {
  return gaps.reduce((sum, { resinM3 }, i) => sum + (world.break.gaps[i]?.count ?? 0) * resinM3, 0);
}

/**
 * Resin and gas have the temperature of the outer ply, half-way from its face to the interlayer.
 */
export const breakK = ({ pane }: PlantState): number => (pane.outerK + pane.interlayerK) / 2;

/** The foot as it is clamped; null while it does not stand on the glass. */
export function clampedFoot(
  { sealed }: Setup,
  { foot }: World,
  { injectorLifted, clampN }: Conditions,
): Foot | null {
  if (!sealed || injectorLifted) return null;
  return clampN === null ? foot : { ...foot, clampN };
}
