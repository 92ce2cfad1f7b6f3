/** Invented, and as varied as real work: what the screens are looked at with. */
import type { BoardTable, CircuitForm, CircuitView, CircuitsView, JobView, LookView, OriginView, ReadingsView, RecallView, SettleQuestion, SignOffView, TesterLine, TesterView } from '../src/host';

export const testers: TesterLine[] = [
  { id: 't1', name: 'Tester A', serial: '1001', state: { level: 'done', words: 'Proved to 3 Mar 2027' }, invented: true },
  { id: 't2', name: 'Tester B', serial: '1002', state: { level: 'look', words: 'Not proved: no verification on record' }, invented: true },
  { id: 't3', name: 'Tester C', serial: '1003', state: { level: 'look', words: 'Verification lapsed 2 months ago' }, invented: true },
  { id: 't4', name: 'Tester D', serial: '1004', state: { level: 'stop', words: 'Barred: failed at 1 MΩ on 20 Nov 2026' }, invented: true },
];

const set = {
  name: { id: 'iec-60364-6-2016', version: 1, sha256: 'a'.repeat(64) },
  title: 'IEC 60364-6:2016, Table 6A',
  scope: 'Low-voltage installations',
  source: 'IEC 60364-6:2016, seen',
  hash_short: 'aaaa aaaa',
  own: false,
};

export const sets = [set, { ...set, name: { ...set.name, id: 'older', sha256: 'b'.repeat(64) }, title: 'Older generation, 0.5 MΩ at 230 V', hash_short: 'bbbb bbbb' }];

export const job: JobView = {
  id: 'j1',
  name: 'Harbour workshop',
  place: 'Pier 4',
  demo: true,
  from_file: false,
  signed: [
    { level: 'remark', words: 'Signed as No. 1 by B. Reviewer, 25 Nov 2026, 16:05' },
    { level: 'look', words: '2 entries after sign-off' },
  ],
  limit_set: set,
  value_policy: 'guarded',
  tester_policy: 'usual',
    quick_check_days: null,
  rules_words: 'Guarded by the tester’s uncertainty; a verification is taken as usual',
  people: [
    { id: 'p1', name: 'A. Recorder', role: 'electrician' },
    { id: 'p2', name: 'B. Reviewer', role: 'reviewer' },
  ],
  me: 'p1',
  cautions_confirmed: true,
  boards: [
    { id: 'b1', name: 'Board DB-1, ground floor', summary: '22 circuits, 66 of 66 readings', sign: 'done', look: 0, stop: 0, done: 66, of: 66, people: ['p1'], people_words: 'for A. Recorder' },
    { id: 'b2', name: 'Board DB-2, workshop', summary: '12 circuits, 30 of 54 readings', sign: 'look', look: 3, stop: 0, done: 30, of: 54, people: [], people_words: null },
    { id: 'b3', name: 'Board DB-3, motors', summary: '27 circuits, 0 of 180 readings', sign: 'todo', look: 0, stop: 0, done: 0, of: 180, people: [], people_words: null },
  ],
  testers,
  look: 5,
  stop: 1,
  look_words: '1 stop, 5 to look at, 2 not tested',
  whereabouts: 'On this device: 96 readings only here',
  in_doubt: [],
  to_settle: 2,
  to_settle_words: '2 things to settle',
};

export const form: CircuitForm = {
  reference: '',
  description: '',
  nominal: '230',
  current: 'ac',
  to_earth: '',
  measure: 'none',
  felv_supply: '',
  conductors: 'single_phase',
  loads: 'out',
  joined_to_earth: false,
  spd_stays: false,
  item: null,
  location: null,
  notes: '',
};

export const follows = {
  test_voltage: '500 V d.c.',
  minimum: '1.0 MΩ',
  source: 'IEC 60364-6:2016, Table 6A, seen',
  pairs: ['L–N', 'L–PE', 'N–PE'],
  readings: 3,
  words: '500 V, 1.0 MΩ, 3 readings',
};

const NAMES = ['Lights, hall', 'Lights, workshop', 'Sockets, north wall', 'Sockets, east wall', 'Oven', 'Water heater', 'Compressor', 'Lathe', 'Garden lights, SELV side', 'Door drive', 'Charger', 'Spare'];

const circuits: CircuitView[] = NAMES.map((description, at) => {
  const three = at === 6 || at === 7;
  return {
    id: `c${at + 1}`,
    reference: String(at + 1),
    description,
    form: { ...form, reference: String(at + 1), description },
    electrical: three ? '400 V a.c., three-phase with N' : at === 8 ? '24 V a.c., SELV' : '230 V a.c., single-phase',
    follows: three ? { ...follows, words: '500 V, 1.0 MΩ, 10 readings' } : at === 8 ? { ...follows, words: '250 V, 0.5 MΩ, 2 readings' } : follows,
    done: at < 5 ? 3 : 0,
    of: three ? 10 : 3,
    sign: at === 3 ? 'look' : at < 5 ? 'done' : 'todo',
    conflict: null,
  };
});

const choices = {
  measures: [
    { id: 'none', words: 'none of these' },
    { id: 'selv', words: 'SELV' },
    { id: 'pelv', words: 'PELV' },
    { id: 'felv', words: 'FELV' },
    { id: 'separation', words: 'electrical separation' },
  ],
  conductors: [
    { id: 'single_phase', words: 'L, N, PE' },
    { id: 'three_phase_n', words: 'L1, L2, L3, N, PE' },
  ],
  currents: [
    { id: 'ac', words: 'a.c.' },
    { id: 'dc', words: 'd.c.' },
  ],
  loads: [
    { id: 'out', words: 'disconnected' },
    { id: 'connected', words: 'connected' },
  ],
  items: [],
  locations: [],
};

export const circuitsView: CircuitsView = {
  job: 'j1',
  board: 'b2',
  name: 'Board DB-2, workshop',
  sum: '54 readings for 12 circuits',
  circuits,
  removed: [{ id: 'c99', words: '13 Old heater' }],
  choices,
  next: form,
};

const PAIRS = ['L–N', 'L–PE', 'N–PE', 'L1–L2', 'L2–L3', 'L1–L3', 'L1–PE', 'L2–PE', 'L3–PE'];

const table: BoardTable = {
  id: 'b2',
  name: 'Board DB-2, workshop',
  words: '3 things to look at, 1 blocks a sign-off · 1 accepted with a reason · 1 new reading asked for',
  pairs: PAIRS,
  rows: circuits.map((circuit, at) => ({
    circuit: circuit.id,
    reference: circuit.reference,
    description: circuit.description,
    cells: (circuit.of === 10 ? PAIRS.slice(2) : PAIRS.slice(0, 3)).map((pair, of) => ({
      slot: `${circuit.id}-${of}`,
      pair,
      sign: at > 4 ? 'todo' : at === 3 && of === 1 ? 'look' : 'done',
      shown: at > 4 ? null : at === 3 && of === 1 ? '0.98 MΩ' : of === 0 ? '> 999 MΩ' : `${487 - 13 * at} MΩ`,
      accepted: at === 1 && of === 1,
      asked: at === 3 && of === 1,
    })),
  })),
};

export const look: LookView = {
  job: 'j1',
  words: '1 stop, 3 to look at. 96 readings in all',
  as_of: 'As of 25 Nov 2026, 16:20, fingerprint 3f2a 91c0 77de 5b10',
  lacking: [],
  stop: 1,
  look: 3,
  accepted: 1,
  asked: 1,
  not_tested: 1,
  all: 96,
  items: [
    { key: '1', board: 'b2', circuit: 'c5', slot: 'c5-1', reading: 'r1', place: 'DB-2 · 5 Oven · L–PE', shown: '12.4 MΩ', level: 'stop', sentences: [{ level: 'stop', words: 'Tester D is barred: it failed at 1 MΩ on 20 Nov 2026' }], accepted: null, accepted_before: null, asked: null },
    { key: '2', board: 'b2', circuit: 'c4', slot: 'c4-1', reading: 'r2', place: 'DB-2 · 4 Sockets, east wall · L–PE', shown: '0.98 MΩ', level: 'look', sentences: [{ level: 'look', words: 'Below 1.0 MΩ, the limit set for this job' }, { level: 'remark', words: 'Taken at 500 V with Tester A' }], accepted: null, accepted_before: null, asked: 'B. Reviewer asks for a new reading: far below its neighbours' },
    { key: '3', board: 'b2', circuit: 'c2', slot: 'c2-0', reading: 'r3', place: 'DB-2 · 2 Lights, workshop · L–N', shown: '> 999 MΩ', level: 'look', sentences: [{ level: 'look', words: 'Tester B is not proved: no verification on record' }], accepted: null, accepted_before: null, asked: null },
    { key: '4', board: 'b2', circuit: 'c7', slot: 'c7-2', reading: null, place: 'DB-2 · 7 Compressor · L1–PE', shown: null, level: 'look', sentences: [{ level: 'look', words: 'Not tested: no access' }], accepted: null, accepted_before: null, asked: null },
    { key: '5', board: 'b2', circuit: 'c2', slot: 'c2-1', reading: 'r5', place: 'DB-2 · 2 Lights, workshop · L–PE', shown: '4.2 MΩ', level: 'look', sentences: [{ level: 'look', words: 'far below the median of 12 like pairs on this board: 400 MΩ' }], accepted: 'Accepted by B. Reviewer (25 Nov 2026, 16:05): an old heating cable', accepted_before: null, asked: null },
  ],
  boards: [table],
};

const lines = [
  { label: 'Who', value: 'A. Recorder, electrician' },
  { label: 'Tester', value: 'Tester A, serial 1001, proved to 3 Mar 2027' },
  { label: 'When', value: '25 Nov 2026, 10:42' },
  { label: 'Test voltage', value: '500 V' },
  { label: 'Conditions', value: 'Loads disconnected, before equipment is connected' },
];

export const origin: OriginView = {
  place: 'DB-2 · 4 Sockets, east wall · L–PE',
  visits: ['25 Nov 2025: 480 MΩ; now 620 MΩ, 1.3 times that'],
  current: [{ id: 'r2', shown: '0.98 MΩ', what: null, judgement: [{ level: 'look', words: 'Below 1.0 MΩ, the limit set for this job' }, { level: 'done', words: 'Tester A was proved at 500 V from 0.5 MΩ to 1 GΩ' }], lines, changeable: true }],
  earlier: [{ id: 'r0', shown: '0.31 MΩ', what: 'Replaced: repaired, tested again', judgement: [{ level: 'look', words: 'Below 1.0 MΩ' }], lines: lines.slice(0, 3), changeable: false }],
  not_tested: null,
  acceptable: true,
  review: [{ entry: 'e1', what: 'request', words: 'B. Reviewer asks for a new reading (25 Nov 2026, 16:05): far below its neighbours', holds: true }],
  limit: '1.0 MΩ at 500 V',
  source: 'IEC 60364-6:2016, Table 6A, seen',
  note: null,
};

export const readings: ReadingsView = {
  rows: Array.from({ length: 30 }, (_, at) => ({
    reading: `r${at}`,
    board: 'b2',
    slot: `s${at}`,
    place: `DB-2 · ${1 + (at % 12)} ${NAMES[at % 12]} · ${PAIRS[at % 3]}`,
    shown: at % 3 === 0 ? '> 999 MΩ' : `${487 - at} MΩ`,
    tester: at % 4 === 3 ? 'Tester B' : 'Tester A',
    volts: '500 V',
    time: `25 Nov 2026, 10:${10 + at}`,
    level: at % 7 === 3 ? 'look' : 'done',
  })),
  testers: testers.map(({ id, name }) => ({ id, words: name })),
  volts: [250, 500, 1000].map((volts) => ({ volts, words: `${volts} V` })),
};

export const tester: TesterView = {
  id: 't1',
  invented: true,
  identity: { name: 'Tester A', serial: '1001', model: 'Invented model' },
  card: {
    voltages: [250, 500, 1000].map((volts) => ({
      volts: String(volts),
      over_range: volts === 1000 ? '2 GΩ' : '999 MΩ',
      operating_percent: '',
      ranges: [{ from: '0.05 MΩ', to: '999 MΩ', resolution: '0.01 MΩ', percent: '3', digits: '2' }],
    })),
    conforms: true,
    shorted_up_to: '',
    interval_months: '',
    ranging: null,
  },
  card_words: ['250 V: 0.05 MΩ to 999 MΩ, ±(3 % + 2 digits), over-range above 999 MΩ', '500 V: 0.05 MΩ to 999 MΩ, ±(3 % + 2 digits), over-range above 999 MΩ', '1000 V: 0.05 MΩ to 2 GΩ, ±(3 % + 2 digits), over-range above 2 GΩ'],
  state: [
    { level: 'done', words: '250 V: proved to 3 Mar 2027' },
    { level: 'done', words: '500 V: proved to 3 Mar 2027' },
    { level: 'look', words: '1000 V: not proved, not named by any verification' },
  ],
  fresh: {
    date: '',
    time: '',
    valid_until: '',
    kind: 'calibration',
    by: '',
    certificate: '',
    adjusted: false,
    failed_on_the_whole: false,
    findings: [250, 500, 1000].map((volts) => ({ volts: String(volts), as_found: 'not_stated', as_left: 'not_stated', conforms: 'not_stated', edition: '', holds: [], operating_percent: '' })),
  },
  choices: {
    kinds: [
      { id: 'calibration', words: 'Calibration by a laboratory' },
      { id: 'bench', words: 'Check at a bench' },
    ],
    outcomes: [
      { id: 'good', words: 'good' },
      { id: 'not_stated', words: 'not stated' },
    ],
    conforms: [
      { id: 'yes', words: 'yes' },
      { id: 'not_stated', words: 'the certificate does not say' },
    ],
  },
  verifications: [
    {
      id: 'v1',
      title: '3 Mar 2026 · calibration · Invented Laboratory',
      lines: ['250 V: good, indications hold from 0.5 MΩ to 1 GΩ, conforms', '500 V: good, indications hold from 0.5 MΩ to 1 GΩ, conforms'],
      level: 'done',
      recorded: 'Recorded 4 Mar 2026 by A. Recorder',
      withdrawn: null,
      form: { date: '3 Mar 2026', time: '', valid_until: '3 Mar 2027', kind: 'calibration', by: 'Invented Laboratory', certificate: 'X-1', adjusted: false, failed_on_the_whole: false, findings: [] },
    },
  ],
  checks: [
    { entry: { kind: 'quick_check', id: 'q1' }, title: 'Quick check of 20 Nov 2026 08:00 at 500 V: not as expected', lines: ['1.0 MΩ shown as 1.12 MΩ, beyond the accuracy of the card'], level: 'stop', withdrawn: null },
  ],
  due: { level: 'done', words: 'Next verification by 3 Mar 2027' },
  proposal: ['Its own history proposes 12 months, as advice', '3 Mar 2026: held, no figures, kept: 12 months'],
  interval: 'Verified every 12 months',
  in_doubt: { level: 'look', words: '2 readings in doubt, 1 not resolved' },
  words: null,
};

export const recall: RecallView = {
  tester: 't1',
  name: 'Tester A',
  serial: '1001',
  candidates: [],
  words: '2 readings in doubt, 1 resolved',
  counts: { all: 2, resolved: 1, test_again: 1, cannot_be_judged: 0, still_clears: 1 },
  causes: [{ title: 'Quick check of 20 Nov 2026 08:00 at 500 V: not as expected', lines: ['1.0 MΩ shown as 1.12 MΩ, beyond the accuracy of the card'], readings: 2 }],
  jobs: [
    {
      job: 'j1',
      name: 'Harbour workshop',
      place: 'Pier 4',
      invented: true,
      people: ['A. Recorder, recorder'],
      signed: [],
      counts: { all: 2, resolved: 1, test_again: 1, cannot_be_judged: 0, still_clears: 1 },
      boards: [
        {
          board: 'b1',
          name: 'DB-1',
          lines: [
            { reading: 'r1', circuit: 'c1', slot: 's1', circuit_name: '1 Lights', pair: 'L–PE', shown: '1.12 MΩ', volts: '500 V', time: '19 Nov 2026 10:00', class: 'test_again', class_words: 'test again', words: 'no longer certain, test again: may be as low as 0.986 MΩ', remark: 'with the error found on 20 Nov 2026; it may have differed before', because: { level: 'look', words: 'Tester A: in doubt, a later quick check (20 Nov 2026 08:00) did not hold' }, resolved: null },
            { reading: 'r2', circuit: 'c2', slot: 's2', circuit_name: '2 Sockets', pair: 'L–N', shown: '50.0 MΩ', volts: '500 V', time: '19 Nov 2026 10:02', class: 'still_clears', class_words: 'still clears the limit', words: 'still clears 1.0 MΩ: at least 47.8 MΩ with the error found', remark: 'with the error found on 20 Nov 2026; it may have differed before', because: { level: 'look', words: 'Tester A: in doubt, a later quick check (20 Nov 2026 08:00) did not hold' }, resolved: 'A. Recorder on 21 Nov 2026 09:00: the circuit was taken out' },
          ],
        },
      ],
    },
  ],
  said: null,
  undo: null,
};

export const cautions = [
  'Test dead and isolated circuits only. Isolate and lock every source: second feeds, generators, batteries, photovoltaics, shared neutrals.',
  'Prove dead with a proving unit before connecting. The tester’s own lamp is no proof.',
  'Disconnect electronics, dimmers, drives, surge protectors, RCDs with electronics and emergency lighting.',
  'Warn others, also at the far end of the cable. Nobody touches the conductors during the test.',
  'Keep connected until discharged, and verify the discharge before touching. Long cables hold charge.',
];

/** The board with a circuit at another place. */
export function moved(circuit: string, by: number): CircuitsView {
  const circuits = [...circuitsView.circuits];
  const from = circuits.findIndex((one) => one.id === circuit);
  circuits.splice(from + by, 0, ...circuits.splice(from, 1));
  return { ...circuitsView, circuits };
}

export const signOff: SignOffView = {
  job: 'j1',
  title: 'Harbour workshop',
  counts: ['54 readings', '3 lines to look at', '1 pair not tested', '2 readings withdrawn, replaced or not chosen'],
  blocked: null,
  testers: [
    { words: 'Tester A, serial number 1001', state: { level: 'done', words: 'proved' }, verifications: ['Calibration of 3 Mar 2026 by A laboratory: good'] },
    { words: 'Tester C, serial number 1003', state: { level: 'look', words: 'lapsed' }, verifications: ['Calibration of 25 Sep 2025 by A laboratory: good'] },
  ],
  open: [
    { said: { level: 'look', words: '2 readings are below their limit' }, to: { kind: 'look' } },
    { said: { level: 'look', words: '1 pair is not tested' }, to: { kind: 'look' } },
  ],
  covers: 'This will be sign-off No. 3, over 412 entries on this device now, as of 25 Nov 2026, 16:20, fingerprint 3f2a 91c0 77de 5b10',
  button: 'Sign off 54 readings',
  signed: [
    {
      entry: 'e2',
      words: 'Signed as No. 2 by B. Reviewer, 25 Nov 2026, 16:05',
      since: [{ level: 'look', words: '2 entries after sign-off' }, { level: 'look', words: 'Since then 6 readings have come into doubt' }],
      later: ['A reading: DB-2 · 4 Sockets, east wall · L–PE, 120 MΩ · A. Recorder · 25 Nov 2026, 17:12', 'A verification of a tester · A. Laboratory · 2 Dec 2026, 09:00'],
      more: 3,
      stands: true,
    },
    {
      entry: 'e1',
      words: 'Signed as No. 1 by B. Reviewer, 25 Nov 2026, 15:20',
      since: [{ level: 'remark', words: 'Withdrawn by B. Reviewer, 25 Nov 2026, 15:31: circuit 3 was forgotten' }],
      later: [],
      more: 0,
      stands: false,
    },
  ],
};

/** One reading twice and one circuit named twice. */
export const questions: SettleQuestion[] = [
  {
    id: 'q1',
    asks: 'Two readings of one pair',
    place: 'Board DB-2, workshop · 7 Compressor · L1–PE',
    says: 'Both readings stay in the record. Choose the one for the schedule',
    choices: [
      { id: 'r1', words: '487 MΩ', lines: ['A. Recorder, this device', '25 Nov 2026, 10:42', 'Tester A, serial number 1001, 500 V'] },
      { id: 'r2', words: '> 999 MΩ', lines: ['B. Recorder, device 5f0a3c11', '25 Nov 2026, 14:03', 'Tester B, serial number 1002, 500 V'] },
    ],
    both: 'Keep all: each is printed, the least favourable speaks for the pair',
  },
  {
    id: 'q2',
    asks: 'Two names of one circuit',
    place: 'Board DB-2, workshop · 9 Oven',
    says: 'Both stay in the record. Choose the one that counts',
    choices: [
      { id: 'l1', words: '9 Oven', lines: ['A. Recorder, this device', '25 Nov 2026, 10:50'] },
      { id: 'l2', words: '9 Stove', lines: ['B. Recorder, device 5f0a3c11', '25 Nov 2026, 14:10'] },
    ],
    both: null,
  },
];
