/** Figures of the texts for Europe and the Eurasian Economic Union, transcribed a second time. */
import { ALL, MARKS, type SetFigures } from './figures.ts';

/** The conditions that hold for every mass. */
const GERMAN = {
  crater: 'pitMm < 5 mm',
  cracks: 'longestLegMm < 50 mm',
  'under-the-seal': 'edgesReached < 0 edges',
  'inner-ply': 'innerPlyTouched not true',
  interlayer: 'interlayerTouched not true',
  dry: 'moisture not damp wet',
  clean: 'contamination not can-be-removed stays',
};

export const EUROPE: Readonly<Record<string, SetFigures>> = {
  'at-57a-2019': {
    figures: {
      'field-a': 'driver-half',
      outside: 'whole',
      'field-a/rule': ALL,
      crack: 'longestLegMm < 150 mm',
      marks: MARKS,
    },
  },
  'ch-vts-2019': {
    figures: {
      'driver-field': 'driver-half',
      'driver-field/rule': ALL,
      coin: 'extentMm < 27.4 mm',
      edge: 'edgeReached not true',
    },
  },
  'de-verkehrsblatt-1986': {
    covers: 'all < 3500',
    figures: {
      'far-field': 'seat 290, wheel 290, sweep',
      'far-field-by-seat': 'seat 290, sweep',
      'far-field-by-wheel': 'wheel 290, sweep',
      'far-field/rule': ALL,
      'far-field-perhaps': ALL,
      ...GERMAN,
    },
  },
  'de-verkehrsblatt-1986-over-3500kg': {
    covers: 'all > 3500',
    figures: {
      'strip-by-seat': 'seat 290',
      'strip-by-wheel': 'wheel 290',
      'far-field-perhaps': ALL,
      ...GERMAN,
    },
  },
  'eaeu-tr-cu-018-2011': {
    figures: {
      'driver-swept': 'swept-half',
      crack: 'type not crack',
      star: 'type not star-break combination-break',
    },
  },
  'fr-controle-technique-2018': {
    figures: { swept: 'sweep', impact: 'extentMm < 30 mm', crack: 'extentMm < 300 mm' },
  },
  'gb-bs-au-242a-1998': {
    outOfForce: ['BS AU 242b:2022', '2023-03'],
    figures: {
      'zone-a': 'wheel 290, sweep',
      'zone-b': 'swept-half',
      'zone-c': 'sweep',
      'zone-d': 'whole',
      'zone-a/rule': 'extentMm < 10 mm',
      'zone-b/rule': 'extentMm < 15 mm',
      'zone-c/rule': 'extentMm < 25 mm',
      'zone-d/rule': 'extentMm < 40 mm',
      'earlier-repair': 'earlierRepairMm > 100 mm',
      'other-damage': 'otherDamageMm > 100 mm',
      cracks: 'type not crack',
    },
  },
  'gb-bs-au-242b-2022': {
    covers: 'all < 3500',
    figures: {
      'zone-a': 'wheel 400, below-sweep-top',
      'zone-b': 'whole',
      'zone-a/rule': 'extentMm < 20 mm',
      'zone-b/rule': 'extentMm < 40 mm',
      assistance: 'cameraField not true',
    },
  },
  'gb-bs-au-242b-2022-over-3500kg': {
    covers: 'all > 3500',
    figures: {
      'zone-a': 'wheel 500, below-sweep-top',
      'zone-b': 'whole',
      'zone-a/rule': 'extentMm < 20 mm',
      'zone-b/rule': 'extentMm < 40 mm',
      assistance: 'cameraField not true',
    },
  },
  'gb-mot-over-3500kg': {
    covers: 'car van truck bus other > 3500',
    figures: {
      'zone-a': 'wheel 350, sweep',
      swept: 'sweep',
      'zone-a/rule': 'extentMm < 10 mm',
      'swept/rule': 'extentMm < 40 mm',
    },
  },
  'gb-mot-up-to-3500kg': {
    covers: 'car van truck bus other < 3500',
    figures: {
      'zone-a': 'wheel 290, sweep',
      swept: 'sweep',
      'zone-a/rule': 'extentMm < 10 mm',
      'swept/rule': 'extentMm < 40 mm',
    },
  },
  'ie-nct': {
    covers: 'car',
    figures: {
      'zone-a': 'swept-half',
      swept: 'sweep',
      'zone-a/rule': 'extentMm < 10 mm',
      'swept/rule': 'extentMm < 40 mm',
      several: 'otherDamage not true',
    },
  },
  'nl-rdw-2005': {
    covers: 'all < 3500',
    figures: {
      'direct-field': 'wheel 300',
      outside: 'whole',
      'direct-field/rule': 'extentMm < 20 mm',
      'outside/rule': 'extentMm < 50 mm',
      'cracks-meet': 'cracksMeet not true',
    },
  },
  'nl-rdw-2005-over-3500kg': {
    covers: 'all > 3500',
    figures: {
      'direct-field': 'wheel 400 high 400 at seat-line',
      'indirect-field': 'across wheel 400 high 400 at seat-line',
      edge: 'whole',
      'direct-field/rule': 'extentMm < 20 mm',
      outside: 'extentMm < 50 mm',
      'cracks-meet': 'cracksMeet not true',
    },
  },
  'se-besiktning': {
    figures: {
      'before-driver': 'driver-half',
      'passenger-side': 'whole',
      crack: 'type not crack',
      chip: 'extentMm < 10 mm',
      several: 'otherDamage not true',
    },
  },
  'ua-gstu-3649-97': { figures: { swept: 'sweep', crack: 'longestLegMm < 50 mm' } },
};
