import type { Operations, Settings } from '../src/host';
import * as atBench from './bench';
import * as data from './data';
import * as many from './overview';
import { FakeRun } from './run';
import { FakeSettling } from './settling';

type Answers = { [Op in keyof Operations]?: (input: Operations[Op]['input']) => Operations[Op]['output'] };

let settings: Settings = { theme: 'system', hand: 'right', gloves: false, locale: 'en' };
const locales = [{ id: 'en', words: 'English' }];
let run = new FakeRun();
const settling = new FakeSettling();

const answers: Answers = {
  pulse: () => ({ at: 0, again: 5000 }),
  place: () => ({ hash: null }),
  set_place: () => ({}),
  settings: () => ({ settings, locales }),
  set_settings: (next) => ({ settings: (settings = next), locales }),
  run: ({ board, slot, circuit }) => {
    // A board nobody has recorded on, for tests.
    if (board === 'fresh') run = new FakeRun();
    if (board === 'no-tester') run.forgetTester();
    return run.open(slot, circuit);
  },
  draft: ({ text, comparator }) => run.draft(text, comparator),
  save_reading: ({ slot, indication }) => run.save(slot, indication),
  mark_not_tested: ({ slot }) => run.notTested(slot),
  undo_reading: () => run.undo(),
  set_volts: ({ volts }) => run.setVolts(volts),
  choose_tester: ({ tester }) => run.chooseTester(tester),
  group_form: ({ circuits }) => run.groupForm(circuits),
  start_group: ({ circuits }) => run.startGroup(circuits),
  stop_group: () => run.startGroup([]),
  set_note: () => run.view(),
  record_lead_check: () => ({ said: { level: 'done', words: 'Leads shorted: near zero, good' }, run: run.view() }),
  jobs: () => ({
    jobs: [
      { id: 'j1', name: 'Harbour workshop', place: 'Pier 4', demo: true, summary: '3 boards, 61 circuits, 96 of 300 readings', look: 5, stop: 1, in_doubt: null },
      { id: 'j2', name: 'School annexe', place: 'North Road', demo: false, summary: '1 board, 8 circuits, 24 of 24 readings', look: 0, stop: 0, in_doubt: null },
    ],
  }),
  overview: () => many.overview,
  unproved: () => many.unproved,
  job: () => data.job,
  set_board_people: () => data.job,
  limit_sets: () => ({ sets: data.sets }),
  circuits: () => data.circuitsView,
  move_circuit: ({ circuit, by }) => data.moved(circuit, by),
  copy_out: ({ what }) => ({ text: what === 'circuits' ? 'reference\tdescription\n1\tLights' : 'Circuit\tComparator\tDigits\tUnit\n1\texact\t487\tMΩ' }),
  check_circuit: () => ({ complaints: [], follows: data.follows }),
  remove_circuit: () => ({ view: data.circuitsView, words: 'Removed circuit 12 and 3 readings', undo: 'u1' }),
  preview_circuits: () => ({
    rows: [{ line: 2, reference: '1', description: 'Lights', electrical: '230 V a.c., single-phase', follows: '500 V, 1.0 MΩ, 3 readings' }],
    complaints: [{ line: 3, words: 'SELV ends at 50 V a.c.: 60 V cannot be SELV' }],
    sum: '2 rows: 1 circuit, 1 line that cannot be taken',
  }),
  grid: () => run.grid(),
  replace_reading: ({ text }) => ({ words: `Replaced by ${text} MΩ`, undo: 'u4' }),
  preview_readings: ({ text }) => ({
    rows: [{ line: 2, place: 'DB-2 · 7 Sockets · L1–PE', shown: '487 MΩ', volts: '500 V', tester: 'Tester A, serial number 1001', time: '25 Nov 2026, 10:42', person: 'A. Recorder', what: 'new' }],
    complaints: text.includes('wrong') ? [{ line: 3, words: 'Write the unit: kΩ, MΩ or GΩ' }] : [],
    sum: text.includes('wrong') ? 'In 2 = new 1 + same 0 + not taken 1' : 'In 1 = new 1 + same 0 + not taken 0',
    lines: text.includes('wrong') ? 2 : 1,
    new: 1,
    same: 0,
    not_taken: text.includes('wrong') ? 1 : 0,
  }),
  import_readings: () => ({ words: 'Took 1 reading from the table', undo: 'u5' }),
  testers: () => ({ testers: data.testers }),
  tester: () => data.tester,
  references: () => atBench.references,
  benches: () => atBench.benches,
  plan_bench: () => atBench.plan,
  bench: () => atBench.bench,
  bench_draft: () => atBench.bench.pad!.draft,
  measure: () => atBench.bench,
  bench_result: () => atBench.result,
  drift: () => atBench.drift,
  compare: () => atBench.compare,
  recall: () => data.recall,
  quick_check: () => ({
    tester: 't1',
    steps: ['Leads apart, press test: over-range is expected', 'Leads together, press test: near zero is expected', 'Each resistance of the check box, press test: within the accuracy of the card is expected'],
    volts: [{ id: '500', words: '500 V' }],
    form: { volts: '', points: [{ known: '1 MΩ', uncertainty_percent: '1', shown: '' }], open: '', shorted: '' },
    last: { level: 'remark', words: 'No quick check on record' },
  }),
  settling: () => settling.view(),
  settle: ({ question, choice }) => settling.settle(question, choice),
  undo: ({ token }) => settling.undo(token),
  look: () => data.look,
  origin: () => data.origin,
  ask_reading: () => ({ words: 'Asked for a new reading: DB-2 · 4 Sockets, east wall · L–PE', undo: 'u2' }),
  accept: () => ({ words: 'Accepted: DB-2 · 4 Sockets, east wall · L–PE', undo: 'u3' }),
  withdraw_review: () => ({ words: 'The request is withdrawn', undo: null }),
  readings: () => data.readings,
  schedule: () => ({
    job: 'j1',
    title: 'Schedule of insulation resistance',
    ready: [
      { said: { level: 'stop', words: 'Tester D is barred for 1 reading' }, to: { kind: 'look' } },
      { said: { level: 'look', words: '24 pairs of Board DB-2 are not tested' }, to: { kind: 'run', board: 'b2' } },
      { said: { level: 'remark', words: 'Not signed' }, to: { kind: 'sign_off' } },
    ],
    as_signed: [{ id: 'e2', words: 'Signed as No. 2 by B. Reviewer, 25 Nov 2026, 16:05' }],
    formats: [],
  }),
  sign_off_view: () => data.signOff,
  sign_off: () => data.signOff,
  withdraw_sign_off: () => data.signOff,
  after_sign_off: () => ({ lines: data.signOff.signed[0]?.later ?? [] }),
  verify_file: () => ({ holds: true, words: 'What was signed is as it was signed', lines: [{ level: 'remark', words: 'Signed as No. 2 by B. Reviewer, 25 Nov 2026, 16:05' }] }),
  preview_page: ({ page }) => ({
    page,
    pages: 3,
    png_base64: 'iVBORw0KGgoAAAANSUhEUgAAAAMAAAACCAAAAAC4HznGAAAADklEQVR4nGP4DwUM+BkAhPUR7z7yYaMAAAAASUVORK5CYII=',
    alt: 'Page 1: what is below, unproved or missing',
  }),
  make_schedule: ({ format }) => ({ files: [`/home/recorder/Provenohm/harbour-workshop.${format}`], words: 'The schedule was written' }),
  files_folder: () => ({ folder: '/home/recorder/Provenohm', usual: true }),
  set_files_folder: ({ folder }) => ({ folder: folder ?? '/home/recorder/Provenohm', usual: folder === null }),
  written_file: ({ path }) => ({ name: path.split('/').at(-1) ?? '', media_type: 'application/pdf', base64: 'JVBERg==' }),
  written_files: () => ({ name: 'files-20261125-160500.zip', media_type: 'application/zip', base64: 'UEsFBgAAAAAAAAAAAAAAAAAAAAAAAA==' }),
  set_record_aside: () => ({
    words: 'The damaged record is set aside as record-set-aside-2026-11-25-160500.sqlite in /home/recorder. Nothing of it was deleted',
    lines: ['412 entries of it are as they were written, and here again', 'Receive a bundle of each job from every device that has it: what they hold comes back'],
    files: ['/home/recorder/record-set-aside-2026-11-25-160500.sqlite'],
  }),
  long_work: () => ({ done: 1200, of: 5000 }),
  stop_long_work: () => ({ done: 1200, of: 5000 }),
  devices: () => ({
    lines: [
      { device: 'd1', key: '01', words: '0190a0c1 (this one) · A. Recorder · 120 entries', said: { level: 'done', words: 'Known to this job, which was begun on it' }, known: true },
      { device: 'd2', key: '02', words: '0190a0c2 · B. Recorder · 80 entries', said: { level: 'look', words: 'Not known to this job: nobody vouches for it' }, known: false },
    ],
    undo: null,
  }),
  vouch_for_device: () => ({
    lines: [
      { device: 'd1', key: '01', words: '0190a0c1 (this one) · A. Recorder · 120 entries', said: { level: 'done', words: 'Known to this job, which was begun on it' }, known: true },
      { device: 'd2', key: '02', words: '0190a0c2 · B. Recorder · 80 entries', said: { level: 'done', words: 'Known to this job: A. Recorder vouches for it' }, known: true },
    ],
    undo: 'vouched',
  }),
  handed: () => ({ lines: ['Not handed over yet', '3 readings of this device not handed over yet'] }),
  export_job: () => ({ files: ['/home/recorder/Provenohm/harbour-workshop.json'], words: 'The job file was written' }),
  cautions: () => ({ title: 'Cautions', points: data.cautions, confirmed: null }),
  confirm_cautions: () => ({ title: 'Cautions', points: data.cautions, confirmed: 'Confirmed by A. Recorder, 25 Nov 2026' }),
};

export function answer(operation: string, input: unknown): unknown {
  const known = answers[operation as keyof Operations] as ((input: unknown) => unknown) | undefined;
  if (!known) throw { code: 'unknown', words: `The invented host does not know ${operation}`, complaints: [], detail: null };
  return known(input);
}
