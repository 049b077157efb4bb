/** People, link and clocks. */
import { AT_START, one, type Row } from './row.ts';

/** One tick: the next one after the moment. */
const SHORT = { lastsS: 0.08 } as const;
const START = { begins: 'at-power-up' } as const;

export const PEOPLE_ROWS: readonly Row[] = [
  {
    id: 'hands-idle',
    title: 'YES, and the work of this step is not done',
    faults: [one('hands-idle', undefined, { lastsS: 10 })],
    phases: [
      'close-seal',
      'connect-hose',
      'charge-injector',
      'injector-off',
      'cover-fill',
      'place-lamp-fill',
      'uncover-fill',
      'fill-pit',
      'cover-film',
      'place-lamp',
      'scrape',
    ],
  },
  {
    id: 'says-all-well',
    title: 'all is called well that is not, after a worn pump filled nothing',
    faults: [one('says-all-well'), one('hose-kinked', 0)],
    phases: ['evacuate', 'vacuum-dwell', 'pressure-dwell', 'ask-clear'],
  },
  {
    id: 'film-left-off',
    title: 'film left off',
    faults: [one('film-left-off')],
    phases: ['cover-fill', 'cover-film'],
  },
  {
    id: 'film-left-on',
    title: 'film left on at the pit, and at the scrape',
    faults: [one('film-left-on')],
    phases: ['uncover-fill', 'scrape'],
  },
  {
    id: 'yes-early',
    title: 'YES 0.4 s after each step is shown, before its work',
    faults: [one('yes-early', 0.4)],
    phases: ['self-test', 'vacuum-dwell', 'pressure-dwell', 'cover-film', 'cure'],
  },
  {
    id: 'yes-unread',
    title: 'YES 2 s after each step is shown, before its work',
    faults: [one('yes-early', 2)],
    phases: ['self-test', 'vacuum-dwell', 'pressure-dwell', 'cover-film', 'cure'],
  },
  {
    id: 'double-press',
    title: 'every press comes twice, 0.25 s apart',
    faults: [one('double-press', 0.25)],
    phases: ['self-test', 'vacuum-dwell', 'pressure-dwell', 'cover-film', 'cure'],
  },
  {
    id: 'walks-off',
    title: 'nobody is there any more',
    faults: [one('walks-off')],
    phases: ['charge-injector', 'vacuum-dwell', 'ask-bubbles', 'pressure-dwell', 'cure', 'scrape'],
  },
  {
    id: 'wrong-bottle',
    title: 'a resin that needs three times the dose',
    faults: [one('wrong-bottle', 3, START)],
    phases: AT_START,
  },
];

export const LINE_ROWS: readonly Row[] = [
  {
    id: 'link-mute',
    title: 'board mute for two seconds',
    faults: [one('link-mute', undefined, { lastsS: 2 })],
  },
  { id: 'link-dead', title: 'board mute for good', faults: [one('link-mute')] },
  { id: 'frame-late', title: 'one frame 0.4 s late', faults: [one('link-late', 0.4, SHORT)] },
  { id: 'frames-late', title: 'frames 0.19 s apart', faults: [one('link-late', 0.14)] },
  {
    id: 'message-spoilt',
    title: 'one message spoilt',
    faults: [one('link-spoilt', undefined, SHORT)],
  },
  { id: 'frames-missing', title: 'frames missing', faults: [one('link-gap', undefined, SHORT)] },
  {
    id: 'frames-repeated',
    title: 'every second frame repeated, for a second',
    faults: [one('frames-repeated', undefined, { lastsS: 1 })],
  },
  {
    id: 'frames-reordered',
    title: 'frames change places, for a second',
    faults: [one('frames-reordered', undefined, { lastsS: 1 })],
  },
  {
    id: 'board-restart',
    title: 'board restarts',
    faults: [one('board-restart', undefined, SHORT)],
  },
  {
    id: 'board-reset-loop',
    title: 'board restarts every second',
    faults: [one('board-reset-loop', 1)],
  },
  {
    id: 'board-clock-fast',
    title: 'board clock 1.34 times too fast',
    faults: [one('board-clock', 1.34)],
  },
  {
    id: 'board-clock-slow',
    title: 'board clock at three quarters',
    faults: [one('board-clock', 0.75)],
  },
  { id: 'board-clock-near', title: 'board clock 3 % too fast', faults: [one('board-clock', 1.03)] },
  { id: 'board-stall', title: 'board’s time stands still', faults: [one('board-stall')] },
  { id: 'converter-stall', title: 'converter stands still', faults: [one('converter-stall')] },
  { id: 'host-clock', title: 'host’s clock 5 % too fast', faults: [one('host-clock', 1.05)] },
  {
    id: 'host-clock-jump',
    title: 'host’s clock jumps by a minute',
    faults: [one('host-clock-jump', 60)],
  },
];
