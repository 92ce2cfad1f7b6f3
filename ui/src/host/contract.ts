/**
 * What the screens ask of the core, by operation. Quantities, dates and sentences arrive as text that is ready to show;
 * typed text leaves as it was typed.
 */
import type { Comparator, Unit } from '../screens/run/pad';

export type { Comparator, Unit };
export type Id = string;
export type Level = 'none' | 'look' | 'stop';
export type Sign = 'todo' | 'done' | 'look' | 'stop';

export interface Sentence {
  level: Level;
  words: string;
}

/** What cannot be taken as typed, and where. */
export interface Complaint {
  field: string;
  words: string;
}

export interface Named {
  id: Id;
  name: string;
}

export interface Choice {
  id: string;
  words: string;
}

export interface Said {
  words: string;
  undo?: string | null;
}

// --- Settings ---------------------------------------------------------------

export interface Settings {
  theme: 'system' | 'light' | 'dark' | 'sun';
  hand: 'left' | 'right';
  gloves: boolean;
}

// --- Jobs -------------------------------------------------------------------

export interface JobLine extends Named {
  place: string;
  demo: boolean;
  summary: string;
  look: number;
  stop: number;
}

export interface BoardLine extends Named {
  summary: string;
  sign: Sign;
  done: number;
  of: number;
}

export interface JobView extends Named {
  place: string;
  demo: boolean;
  where: string;
  limit_set: { id: string; version: string; title: string };
  value_policy: string;
  tester_policy: string;
  people: { id: Id; name: string; role: string }[];
  me: Id | null;
  cautions_confirmed: boolean;
  boards: BoardLine[];
  testers: (Named & { state: Sentence })[];
  look: number;
  look_words: string;
}

// --- Circuits ---------------------------------------------------------------

export interface CircuitForm {
  reference: string;
  description: string;
  nominal: string;
  current: string;
  to_earth: string;
  measure: string;
  felv_supply: string;
  conductors: string;
  loads: string;
  notes: string;
}

export interface Follows {
  test_voltage: string;
  minimum: string;
  source: string;
  pairs: string[];
  words: string;
}

export interface CircuitLine {
  id: Id;
  reference: string;
  description: string;
  electrical: string;
  form: CircuitForm;
  follows: Follows;
  sign: Sign;
  progress: string;
}

export interface CircuitsView {
  board: Named;
  job: Id;
  sum: string;
  circuits: CircuitLine[];
  kinds: { measures: Choice[]; conductors: Choice[]; currents: Choice[]; loads: Choice[] };
  /** The form a new circuit starts with. */
  fresh: CircuitForm;
}

export interface ImportPreview {
  rows: { line: number; reference: string; description: string; electrical: string; follows: string }[];
  complaints: { line: number; words: string }[];
  sum: string;
}

// --- Run --------------------------------------------------------------------

export interface RulerMark {
  unit: Unit | null;
  /** Place along the ruler, 0 to 1. */
  at: number;
}

export interface DraftView {
  text: string;
  comparator: Comparator;
  /** As it will be shown, with the decimal sign of the language. */
  shown: string;
  refused: string | null;
  ruler: RulerMark[];
}

export interface SlotLine {
  id: Id;
  name: string;
  sign: Sign;
  shown: string | null;
}

export interface ReadBack {
  slot: Id;
  /** `L2–N  487 MΩ` */
  words: string;
  judgement: Sentence;
  /** The whole of it, said once to a screen reader. */
  announce: string;
}

export interface RunView {
  job: Id;
  board: Named;
  voltage: string;
  announce: string | null;
  tester: { id: Id | null; words: string; level: Level };
  circuit: { id: Id; reference: string; description: string } | null;
  circuits: { id: Id; reference: string; description: string; sign: Sign; progress: string; slot: Id | null }[];
  slots: SlotLine[];
  slot: Id | null;
  progress: string;
  draft: DraftView;
  over_range: { label: string; ready: boolean };
  ask_volts: { words: string; volts: number; others: { volts: number; words: string }[] } | null;
  volts_choices: { volts: number; words: string }[];
  hint: string | null;
  read_back: ReadBack | null;
  can_undo: boolean;
  reasons: Choice[];
  notches: { at: number; label: string }[];
  ended: { words: string; lines: string[] } | null;
}

export type Indication = { typed: { text: string; comparator: Comparator; unit: Unit } } | 'over_range';

export interface Saved {
  saved: ReadBack;
  moved: 'pair' | 'circuit' | 'end';
  run: RunView;
}

export interface LeadCheckForm {
  shorted: { words: string; choices: Choice[] };
  open: { words: string; choices: Choice[] };
}

// --- Testers ----------------------------------------------------------------

export interface RangeForm {
  from: string;
  to: string;
  resolution: string;
  percent: string;
  digits: string;
}

export interface CardLineForm {
  volts: string;
  over_range: string;
  leads_shorted: string;
  ranges: RangeForm[];
}

export interface TesterForm {
  name: string;
  serial: string;
  owner: string;
  lines: CardLineForm[];
}

export interface StatementForm {
  volts: string;
  as_found: string;
  as_left: string;
  conforms: string;
  edition: string;
  holds: { from: string; to: string }[];
  operating_percent: string;
}

export interface VerificationForm {
  date: string;
  valid_until: string;
  kind: string;
  by: string;
  certificate: string;
  adjusted: boolean;
  statements: StatementForm[];
}

export interface TesterLine extends Named {
  serial: string;
  state: Sentence;
}

export interface TesterView extends Named {
  serial: string;
  form: TesterForm;
  card: string[];
  state: Sentence[];
  verifications: { id: Id; title: string; lines: string[]; level: Level; recorded: string; withdrawn: string | null }[];
  fresh_verification: VerificationForm;
  choices: { kinds: Choice[]; found: Choice[]; conforms: Choice[] };
}

// --- Review -----------------------------------------------------------------

export interface LookItem {
  slot: Id;
  board: Id;
  place: string;
  shown: string;
  level: Level;
  sentences: string[];
}

export interface BoardTable extends Named {
  rows: {
    circuit: Id;
    reference: string;
    description: string;
    cells: { slot: Id; pair: string; sign: Sign; shown: string }[];
  }[];
}

export interface LookView {
  words: string;
  items: LookItem[];
  not_tested: LookItem[];
  boards: BoardTable[];
}

export interface Facts {
  label: string;
  value: string;
}

export interface Origin {
  place: string;
  shown: string;
  judgement: Sentence[];
  limit: string;
  source: string;
  facts: Facts[];
  earlier: { shown: string; what: string; facts: Facts[] }[];
}

export interface ReadingLine {
  reading: Id;
  place: string;
  shown: string;
  tester: string;
  volts: string;
  time: string;
  level: Level;
}

// --- The whole --------------------------------------------------------------

export interface Operations {
  catalogue: { input: { locale: string | null }; output: { locale: string; ftl: string } };
  place: { input: Record<string, never>; output: { hash: string | null } };
  set_place: { input: { hash: string }; output: unknown };
  settings: { input: Record<string, never>; output: Settings };
  set_settings: { input: Settings; output: Settings };

  run: { input: { board: Id; slot: Id | null }; output: RunView };
  draft: { input: { slot: Id; text: string; comparator: Comparator }; output: DraftView };
  save_reading: { input: { slot: Id; indication: Indication }; output: Saved };
  mark_not_tested: { input: { slot: Id; reason: string; words: string | null }; output: Saved };
  undo_reading: { input: { board: Id }; output: { run: RunView; words: string } };
  note: { input: { slot: Id; text: string }; output: Said };
  choose_tester: { input: { board: Id; tester: Id }; output: RunView };
  lead_check_form: { input: { board: Id }; output: LeadCheckForm };
  record_lead_check: { input: { board: Id; leads: 'shorted' | 'open'; choice: string }; output: { words: string; run: RunView } };
  origin: { input: { slot: Id }; output: Origin };
  testers: { input: Record<string, never>; output: { testers: TesterLine[] } };
  set_volts: { input: { board: Id; volts: number }; output: RunView };
}
