/** Parts that only carry air; pump, valves, transmitter and switch are with the circuit. */
import { air, type PartType } from './part-type.ts';

export const AIR_TYPES = {
  reliefValve: {
    ...air(
      'relief 215 kPa',
      'mechanical relief valve, spring loaded, not adjustable without a tool',
      'opens at 215 kPa gauge, passes 2 l/min by 230',
      'demo',
      "Above the switch, below the dead head of a runaway pump; passes more than the pump delivers. On the pump's outlet, where there is never vacuum to draw air in through its seat.",
    ),
    normally: 'closed',
  },
  trap: air(
    'trap',
    'fluid trap, clear bowl',
    '20 ml, vacuum to 600 kPa',
    'demo',
    'Keeps resin out of valves, pump and transmitter.',
  ),
  injector: air(
    'injector',
    'injector with seal and hose',
    'chamber with hose about 30 ml',
    'demo',
    'Sits on the pit.',
  ),
  airFilter: air(
    'filter',
    'air filter and silencer',
    '40 µm',
    'demo',
    'Keeps glass dust out of pump and vent.',
  ),
  manifold: air(
    'manifold',
    'manifold block with six ports',
    '600 kPa',
    'demo',
    'Joins chamber, valves, transmitter and switch by short paths.',
  ),
} as const satisfies Readonly<Record<string, PartType>>;
