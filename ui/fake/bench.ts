import type { BenchesView, BenchResultView, BenchView, CompareView, DriftView, PlanChoices, PlanView, PlotView, ReferencesView } from '../src/host';

const value = {
  nominal: '1 MΩ',
  stated: '1.0002 MΩ',
  within_percent: '0.1',
  within: '',
  stated_as: 'expanded' as const,
  k: '2',
  drift_percent: '',
  voltage_coefficient: '1',
  stated_at: '500',
  temperature_coefficient: '',
  rated_voltage: '1000',
  resolution: '',
};

export const references: ReferencesView = {
  references: [
    {
      id: 'r1',
      title: 'Box 1, decade box, serial number B 1',
      lines: ['Certificate C-1', '1.0 MΩ: 1.0002 MΩ, U = 0.1 % (k = 2), up to 1000 V'],
      state: { level: 'done', words: 'Certificate in date until 1 May 2027' },
      form: { kind: 'decade_box', name: 'Box 1', serial: 'B 1', certificate: 'C-1', valid_until: '1 May 2027', input_resistance: '', values: [value] },
    },
    {
      id: 'r2',
      title: 'Probe, high-voltage probe, serial number P 1',
      lines: ['No certificate number', 'Loads the tester with 1.0 GΩ'],
      state: { level: 'look', words: 'No last day on its certificate: it never counts as in date' },
      form: { kind: 'high_voltage_probe', name: 'Probe', serial: 'P 1', certificate: '', valid_until: '', input_resistance: '1 GΩ', values: [{ ...value, nominal: '1500 V' }] },
    },
  ],
  kinds: [{ id: 'decade_box', words: 'decade box' }, { id: 'high_voltage_probe', words: 'high-voltage probe' }],
  stated_as: [{ id: 'expanded', words: 'U with its k' }, { id: 'tolerance', words: 'A tolerance' }],
  fresh: { kind: 'resistor', name: '', serial: '', certificate: '', valid_until: '', input_resistance: '', values: [{ ...value, nominal: '' }] },
  done: null,
};

const point = {
  test_voltage_v: '500',
  item: { what: 'indication' as const, resistor: { reference: 'r1', nominal_ohm: '1000000' } },
  repeats: 3,
  supply: 'nominal' as const,
  position: 'reference' as const,
};

const choices: PlanChoices = {
  volts: [{ id: '500', words: '500 V' }],
  what: [{ id: 'indication', words: 'Indication at a known resistance' }],
  resistors: [{ resistor: point.item.resistor, words: '1.0 MΩ of Box 1' }],
  supplies: [{ id: 'nominal', words: 'Nominal supply' }],
  positions: [{ id: 'reference', words: 'Reference position' }],
  warmths: [{ id: 'reference', words: 'Reference temperature, 23 °C' }, { id: 'warm', words: 'Warm end of the rated temperature, 35 °C' }],
};

export const benches: BenchesView = {
  tester: 't1',
  title: 'Tester A, serial number 1001',
  runs: [{ id: 'b1', title: '25 Nov 2026 10:00, A. Recorder', state: { level: 'remark', words: '12 of 45' } }],
  references: references.references,
  editions: [{ id: 'iec-61557-2-2019', words: 'IEC 61557-2:2019' }],
  rules: [{ id: 'simple', words: 'Simple acceptance' }],
};

export const plan: PlanView = {
  points: [{ point, group: '500 V', title: '1.0 MΩ of Box 1', detail: '3 times' }],
  decisions: ['1.0 MΩ at 500 V'],
  missing: ['No current meter at hand: currents are not tested'],
  choices,
};

export const bench: BenchView = {
  id: 'b1',
  tester: 't1',
  title: 'Tester A, serial number 1001',
  lines: ['Judged by IEC 61557-2:2019', 'Simple acceptance: up to what is permitted conforms', 'By A. Recorder, begun 25 Nov 2026 10:00'],
  closed: null,
  series: 'as_found',
  series_words: 'As found, before the adjustment',
  adjusted: true,
  look: [{ item: 'case', words: 'Case whole', answer: 'not_looked' }],
  answers: [{ id: 'yes', words: 'Yes' }, { id: 'not_looked', words: 'Not looked' }],
  mark: '',
  temperature: '23',
  plan: [point],
  choices,
  steps: [
    { id: 's1', group: '500 V', title: 'Leads together', detail: '', sign: 'done', done: 1, of: 1, shown: [{ id: 'm1', words: '0.00 MΩ', withdrawn: null }, { id: 'm0', words: '0.30 MΩ', withdrawn: 'withdrawn: leads apart' }] },
    { id: 's2', group: '500 V', title: '1.0 MΩ of Box 1', detail: 'Lowest battery voltage', sign: 'todo', done: 0, of: 3, shown: [] },
  ],
  progress: '1 of 4',
  current: 's2',
  pad: {
    heading: 'Tester at 500 V: connect 1.0 MΩ of Box 1',
    asks: 'What does the tester show? · 1 of 3',
    keys: [{ key: 'k', label: 'kΩ' }, { key: 'm', label: 'MΩ' }, { key: 'g', label: 'GΩ' }],
    most_digits: 5,
    over_range: { label: '> 999 MΩ', ready: true },
    ruler_notches: [],
    draft: { text: '', comparator: 'exact', shown: '', refused: null, ruler: [] },
    meters: [{ id: 'r2', words: 'Probe, high-voltage probe, serial number P 1' }],
    meter: 'r2',
    meter_words: 'Across the resistor',
    hint: '1.0 MΩ with the 1.0 GΩ of Probe across it is 0.999 MΩ',
  },
  last: { title: 'Leads together', shown: '0.00 MΩ', said: { level: 'done', words: '1 of 1' }, announce: 'Leads together 0.00 MΩ 1 of 1' },
  can_undo: true,
};

const plot = (title: string, testers: string[]): PlotView => ({
  title,
  x: { words: 'Known resistance', from: 5, to: 8, ticks: [{ at: 6, words: '1.0 MΩ' }, { at: 7, words: '10 MΩ' }] },
  y: { words: 'Error, % of the known resistance', from: -10, to: 10, ticks: [{ at: -5, words: '−5 %' }, { at: 5, words: '+5 %' }] },
  bands: [{ series: 0, samples: [{ x: 5, low: -7, high: 7 }, { x: 8, low: -3, high: 3 }] }],
  lines: [{ words: 'most, open circuit', corners: [{ x: 5, y: 4 }, { x: 8, y: 4 }] }],
  series: testers.map((words, at) => ({
    letter: String.fromCharCode(65 + at),
    words,
    points: [
      { measured: ['m2'], x: 6, y: -2, half: 0.5, beyond: null, level: 'done', words: '1.0 MΩ: error −2 %, U 0.5 %' },
      { measured: ['m3'], x: 7.5, y: 40, half: 0, beyond: 'over-range', level: 'look', words: '30 MΩ: over-range' },
    ],
  })),
});

export const result: BenchResultView = {
  bench: 'b1',
  tester: 't1',
  title: 'Tester A, serial number 1001',
  lines: bench.lines,
  remarks: [{ level: 'look', words: 'The certificate of Probe had lapsed: what rests on it is conditional at most' }],
  voltages: [
    {
      volts: '500',
      series: 'as_found',
      title: '500 V',
      holds: { level: 'done', words: '500 V: indications hold from 10 MΩ to 100 MΩ' },
      intervals: ['From 10 MΩ: 1.0 MΩ does not conform. To 100 MΩ: nothing was tested beyond'],
      conforms: { level: 'look', words: 'Does not conform to IEC 61557-2:2019: rated current' },
      requirements: [{ level: 'look', words: 'rated current: 0.62 mA, at least 1 mA asked (IEC 61557-2:2019, read in a published page)' }],
      points: [
        {
          measured: ['m2'],
          known: '1.0 MΩ',
          detail: '',
          shown: ['0.88 MΩ', '0.89 MΩ'],
          error: '−0.12 MΩ',
          error_percent: '−12 %',
          expanded: '2 kΩ',
          permitted: '±46.4 kΩ',
          decision: { level: 'look', words: 'does not conform' },
          remarks: ['Nothing was repeated at this test voltage'],
          budget: [{ input: 'Box 1, 1.0 MΩ, certificate', estimate: '1.0 MΩ', shape: 'normal', standard: '0.5 kΩ', sensitivity: '1', contribution: '0.5 kΩ', dof: '∞' }],
          sum: [{ label: 'U = k · u', value: '2 kΩ' }],
          in_view: true,
        },
      ],
      loads: [
        {
          title: 'Rated load',
          detail: '',
          load: '0.5 MΩ',
          voltage: '310 V ± 0.6 V',
          current: '0.62 mA ± 0.001 mA',
          decision: { level: 'look', words: 'does not conform' },
          remarks: [],
          budget: [],
          sum: [],
        },
      ],
      leads: [{ level: 'done', words: 'Leads together: 0.00 MΩ' }],
      operating: ['1.0 MΩ: A −12 %, E1 not tested, E2 not tested, E3 not tested: B is 12 % at least'],
      error_plot: plot('Error at 500 V, with U; the band is what the card permits', ['Tester A, serial number 1001']),
      load_plot: plot('Output voltage at 500 V against load, with U', ['500 V']),
    },
  ],
  close: { closed: { level: 'done', words: 'Bench verification of 25 Nov 2026 by A. Recorder' }, suggested: '25 Nov 2027', suggestion: 'By its interval of 12 months: 25 Nov 2027', not_tested: ['500 V: operating uncertainty: not tested'], look: bench.look, answers: bench.answers, mark: '', mark_needed: false },
};

export const drift: DriftView = {
  tester: 't1',
  title: 'Tester A, serial number 1001',
  plots: [
    {
      title: '500 V, 1.0 MΩ',
      plot: plot('Error at 500 V, 1.0 MΩ, over the verifications', ['']),
      rows: [{ when: '25 Nov 2025', error: '−1 %', expanded: '0.5 %', adjusted: 'adjusted afterwards' }],
      said: 'No line: fewer than three verifications on different days since an adjustment',
    },
  ],
};

export const compare: CompareView = {
  runs: [{ id: 'b1', words: 'Tester A, serial number 1001, 25 Nov 2026' }],
  chosen: [{ id: 'A', words: 'Tester A, serial number 1001, 25 Nov 2026' }, { id: 'B', words: 'Tester B, serial number 1002, 24 Nov 2026' }],
  voltages: [
    {
      title: '500 V',
      plot: plot('Error at 500 V, with U; the band is what the card permits', ['Tester A', 'Tester B']),
      load_plot: plot('Output voltage against load at 500 V', ['Tester A', 'Tester B']),
      rows: [{ known: '1.0 MΩ', measured: ['m1'], in_view: true, cells: [{ words: '−12 % ± 0.5 %, does not conform', level: 'look' }, { words: '', level: null }] }],
      answers: [{ level: 'done', words: 'A: 500 V: indications hold from 10 MΩ to 100 MΩ' }],
    },
  ],
};
