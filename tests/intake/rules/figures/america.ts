/** Figures of the texts for Canada and the United States, transcribed a second time. */
import { ALL, MARKS, type SetFigures } from './figures.ts';

export const AMERICA: Readonly<Record<string, SetFigures>> = {
  'ca-bc-mva-division-7': {
    figures: {
      'driver-area': 'driver-band 500, off 0 75 0 75',
      elsewhere: 'whole',
      'driver-marks': 'extentMm < 6 mm',
      'driver-cracks': 'type not crack',
      crack: 'longestLegMm < 300 mm',
      mark: 'extentMm < 40 mm',
      several: 'otherDamage not true',
    },
  },
  'ca-on-inspection': {
    figures: {
      'driver-swept': 'swept-half',
      swept: 'sweep',
      crack: 'longestLegMm < 50 mm',
      view: ALL,
    },
  },
  'ca-qc-c-24-2-r-32': {
    figures: {
      'under-mirror': 'under-mirror',
      'swept-less-borders': 'sweep, off 0 75 0 75',
      flakes: 'extentMm < 12 mm',
      'cracks-meet': 'cracksMeet not true',
    },
  },
  'ca-sk-inspection': {
    figures: { swept: 'sweep', chip: 'extentMm < 13 mm', crack: 'longestLegMm < 50 mm' },
  },
  'us-49-cfr-393-60-c': {
    // 10,001 lb.
    covers: 'all > 4536 commercial',
    figures: {
      'between-panels': 'divider 50',
      view: 'above-wheel, off 25 51 25 0',
      disc: 'extentMm < 19 mm',
      apart: 'otherDamageMm > 76 mm',
      'cracks-meet': 'cracksMeet not true',
    },
  },
  'us-md-29-02-01-11': {
    covers: 'all < 4536',
    figures: {
      // 8 by 5 in.
      acute: 'wheel 203.2 high 127 at swept-middle',
      critical: 'sweep',
      elsewhere: 'whole',
      'acute/rule': 'extentMm < 0.25 in',
      'critical/rule': 'extentMm < 0.5 in',
      'elsewhere/rule': 'extentMm < 0.75 in',
      several: 'otherDamage not true',
    },
  },
  'us-md-comar-11-22-02-20': {
    // 10,000 lb.
    covers: 'truck van > 4536',
    figures: {
      'driver-swept': 'driver-half, sweep',
      swept: 'sweep',
      'driver-side': 'driver-half',
      chips: 'extentMm < 0.5 in',
      'driver-cracks': 'type not crack',
      'edge-cracks': 'edgeReached not true',
    },
  },
  'us-mo-11-csr-50-2-270': {
    figures: {
      'driver-view': 'driver-half',
      elsewhere: 'whole',
      crack: 'longestLegMm < 3 in',
      mark: 'extentMm < 2 in',
      'driver-marks': MARKS,
    },
  },
  'us-ny-inspection': {
    // Under 18,001 lb, under 15 seats.
    covers: 'all < 8164 seats 15',
    figures: { swept: 'sweep', crack: 'longestLegMm < 11 in', star: 'extentMm < 3 in' },
  },
  'us-rolags': {
    outOfForce: ['ANSI/NWRA/ROLAGS 001-2014', null],
    figures: {
      // 12 in.
      'primary-view': 'wheel 304.8, sweep',
      bullseye: 'extentMm < 25 mm',
      'half-moon': 'extentMm < 25 mm',
      star: 'extentMm < 75 mm',
      combination: 'bodyMm < 50 mm',
      'surface-pit': 'extentMm > 3 mm',
      'crack-first-edition': 'longestLegMm < 356 mm',
      'crack-later': 'longestLegMm < 152 mm',
      pit: 'pitMm < 9.5 mm',
      'long-cracks': 'cracksMeet not true',
      edges: 'edgesReached < 1 edges',
      'stress-crack': 'impactPoint not false',
      'inner-ply': 'innerPlyTouched not true',
      interlayer: 'interlayerTouched not true',
      contamination: 'contamination not stays',
      'feature-camera': 'cameraField not true',
      'feature-heater': 'heatedField not true',
      'feature-head-up-display': 'headUpDisplay not true',
      'feature-antenna': 'antenna not true',
      'view-size': 'extentMm < 25 mm',
      'view-pit': 'pitMm < 5 mm',
      'view-neighbour': 'earlierRepairMm > 100 mm',
      'view-display': 'headUpDisplay not true',
    },
  },
  'us-ut-r714-160': {
    covers: 'car',
    // A border of 6 in.
    figures: { acute: 'off 152.4 152.4 152.4 152.4', 'acute/rule': 'extentMm < 1 in' },
  },
  'us-va-19vac30-70-580': {
    figures: {
      // The lowest 3 in.
      'above-3-in': 'off 0 0 0 76.2',
      mark: 'extentMm < 1.5 in',
      'mark-sources-differ': 'extentMm < 1 in',
      legs: 'longestLegMm < 1.5 in',
      cracks: 'longestLegMm < 1.5 in',
    },
  },
  'us-wv-inspection': {
    figures: {
      // 8.5 by 11 in, whichever way up, in the centre of the driver's wiped area.
      acute: 'wheel 215.9 high 215.9 at swept-middle, swept-half 215.9 high 215.9 at swept-middle',
      'acute-by-wheel': 'wheel 279.4 high 279.4 at swept-middle',
      'acute-by-half': 'swept-half 279.4 high 279.4 at swept-middle',
      critical: 'sweep',
      elsewhere: 'whole',
      'acute/rule': ALL,
      'acute-perhaps': ALL,
      'critical-length': 'longestLegMm < 3 in',
      'critical-diameter': 'extentMm < 1.5 in',
      'elsewhere-length': 'longestLegMm < 6 in',
      'elsewhere-diameter': 'extentMm < 1.5 in',
    },
  },
};
