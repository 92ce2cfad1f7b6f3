import type { CircuitId, Comparator, DraftView, GridView, GroupForm, Indication, NotTestedReason, ReadBack, RunView, Saved, SlotId, SlotView, Undone } from '../src/host';

interface Row {
  id: CircuitId;
  reference: string;
  description: string;
  volts: number;
  slots: SlotView[];
}

const PAIRS = ['L1–L2', 'L1–PE', 'L2–PE', 'L1–N', 'N–PE'];
const VOLTS = [250, 500, 1000].map((volts) => ({ volts, words: `${volts} V` }));
const REASONS: [NotTestedReason, string][] = [
  ['live', 'Circuit live'],
  ['no_access', 'No access'],
  ['load_connected', 'Load connected'],
  ['joined', 'Joined with another conductor'],
  ['not_present', 'Not present'],
  ['other', 'Other'],
];
const LABEL = { k: 'kΩ', m: 'MΩ', g: 'GΩ' } as const;
const NOTCHES = ['1 kΩ', '10 kΩ', '100 kΩ', '1 MΩ', '10 MΩ', '100 MΩ', '1 GΩ', '10 GΩ'].map((label, n) => ({ at: n / 7, label }));

const row = (n: number, description: string, volts: number): Row => ({
  id: `c${n}`,
  reference: String(n),
  description,
  volts,
  slots: PAIRS.map((name, at) => ({ id: `c${n}-${at}`, name, spoken: name, sign: 'todo', shown: null, asked: n === 9 && at === 0 })),
});

/** Imitates the flow of a run, not its judgement: its sentences are canned. */
export class FakeRun {
  #rows = [row(7, 'Sockets, east wall', 500), row(8, 'Oven', 500), row(9, 'Garden lights, SELV side', 250)];
  #slot: SlotId | null = 'c7-0';
  #set = 500;
  #tester: string | null = 't1';
  #group: CircuitId[] = [];
  #draft = { text: '', comparator: 'exact' as Comparator };
  #saved: (ReadBack & { before: SlotView; typed: { text: string; comparator: Comparator } })[] = [];

  open(slot?: SlotId | null, circuit?: CircuitId | null): RunView {
    if (slot) this.#slot = slot;
    if (circuit) this.#slot = `${circuit}-0`;
    this.#draft = { text: '', comparator: 'exact' };
    return this.view();
  }

  draft(text: string, comparator: Comparator): DraftView {
    this.#draft = { text, comparator };
    const value = Number(text);
    const at = (exponent: number) => Math.min(1, Math.max(0, (Math.log10(value) + exponent - 3) / 7));
    const ruler = value > 0 ? ([['k', 3], ['m', 6], ['g', 9]] as const).map(([unit, e]) => ({ unit, at: at(e) })) : [];
    return { text, comparator, shown: text, refused: null, ruler };
  }

  save(slot: SlotId, indication: Indication): Saved {
    const shown =
      indication === 'over_range'
        ? '> 999 MΩ'
        : `${{ exact: '', more_than: '> ', less_than: '< ' }[indication.typed.comparator]}${indication.typed.text} ${LABEL[indication.typed.unit]}`;
    const low = indication !== 'over_range' && indication.typed.unit === 'k';
    return this.#put(slot, shown, low ? 'look' : 'done', {
      level: low ? 'look' : 'done',
      words: low ? 'Below 1.0 MΩ, the limit set for this job' : 'meets 1.0 MΩ at 500 V',
    });
  }

  notTested(slot: SlotId): Saved {
    return this.#put(slot, 'not tested', 'look', { level: 'look', words: 'Not tested: no access' });
  }

  undo(): Undone {
    const last = this.#saved.pop();
    if (!last) throw { code: 'refused', words: 'Nothing of yours to take back', complaints: [], detail: null };
    Object.assign(this.#find(last.slot).slot, last.before);
    this.#slot = last.slot;
    this.#draft = last.typed;
    return { run: this.view(), words: `Took back ${last.shown}` };
  }

  /** As if no tester were chosen, for tests. */
  forgetTester(): void {
    this.#tester = null;
    this.#set = 0;
  }

  chooseTester(tester: string): RunView {
    this.#tester = tester;
    return this.view();
  }

  setVolts(volts: number): RunView {
    this.#set = volts;
    return this.view();
  }

  /** The same board as a grid. */
  grid(): GridView {
    const rows = this.#rows.map((one) => ({
      circuit: one.id,
      reference: one.reference,
      description: one.description,
      cells: one.slots.map((slot) => ({
        slot: slot.id,
        pair: slot.name,
        sign: slot.sign,
        shown: slot.shown,
        asked: slot.asked,
        open: slot.sign === 'todo',
        holds: slot.shown ? { reading: `r-${slot.id}`, text: '487', comparator: 'exact' as Comparator } : null,
        closed: null,
      })),
    }));
    return { job: 'j1', board: 'b2', name: 'Board DB-2', words: '15 to read', stage: 'before', stage_words: 'Before equipment is connected', pairs: PAIRS, rows };
  }

  view(): RunView {
    const now = this.#slot ? this.#find(this.#slot) : null;
    const last = this.#saved.at(-1);
    const wanted = now?.row.volts ?? this.#set;
    const slots = now?.row.slots ?? [];
    return {
      job: 'j1',
      job_name: 'Harbour workshop',
      board: 'b2',
      board_name: 'Board DB-2',
      cautions_confirmed: true,
      stage: 'before',
      stage_words: 'Before equipment is connected',
      voltage: `${this.#set} V`,
      volts: this.#set,
      volts_choices: VOLTS,
      announce: now ? `Now circuit ${now.row.reference} · ${now.row.description}` : null,
      ahead: this.#ahead(),
      tester: this.#tester
        ? { id: this.#tester, words: 'Tester A · proved to 3 Mar 2027', level: 'done' }
        : { id: null, words: 'No tester chosen', level: 'stop' },
      circuit: now && { id: now.row.id, reference: now.row.reference, description: now.row.description, position: '7 of 12', notes: '' },
      circuits: this.#rows.map((one) => ({
        id: one.id,
        reference: one.reference,
        description: one.description,
        sign: one.slots.every((slot) => slot.sign !== 'todo') ? 'done' : 'todo',
        slot: one.slots[0]?.id ?? null,
        progress: progress(one.slots),
        asked: one.slots.some((slot) => slot.asked),
      })),
      slots,
      slot: this.#slot,
      progress: progress(slots),
      draft: this.draft(this.#draft.text, this.#draft.comparator),
      over_range: { label: '> 999 MΩ', ready: true },
      ask_volts:
        wanted === this.#set ? null : { words: `Tester set to ${wanted} V`, volts: wanted, others: VOLTS },
      asked: now?.slot.asked ? 'B. Reviewer asks for a new reading: far below its neighbours' : null,
      hint: 'From 1.06 MΩ this tester proves 1.0 MΩ',
      read_back: last ?? null,
      can_undo: last !== undefined,
      not_tested_reasons: REASONS.map(([id, words]) => ({ id, words })),
      lead_check: { level: 'remark', words: 'Leads not checked today' },
      joined: false,
      group: this.#group.length > 1 ? { circuits: this.#group, slot: 'group', words: this.#groupName() } : null,
      conditions: { loads: 'out', n_isolated: null, reduced: null, words: 'Loads disconnected', reduced_reasons: [] },
      note: null,
      ruler_notches: NOTCHES,
      ended: now
        ? null
        : { words: 'All 15 pairs of Board DB-2 are recorded', lines: [{ level: 'done', words: '13 meet their limit' }, { level: 'look', words: '2 to look at' }] },
    };
  }

  groupForm(circuits: CircuitId[]): GroupForm {
    const first = this.#rows.find((one) => circuits.includes(one.id));
    return {
      board: 'b2',
      circuits: this.#rows.map((one) => ({
        id: one.id,
        reference: one.reference,
        description: one.description,
        chosen: circuits.includes(one.id),
        why_not: first && one.volts !== first.volts ? `asks for ${one.volts} V, circuit ${first.reference} for ${first.volts} V` : null,
      })),
      ready: circuits.length > 1,
      words: circuits.length > 1 ? 'all lives of 7, 8 – PE: 500 V, 1.0 MΩ' : 'Choose two or more circuits of this board',
      own: ['8 Lights: By itself it has at least 20 MΩ; the two readings do not differ enough for an upper figure (1.50 MΩ with it, 1.55 MΩ without it, by ±(3 % + 2 digits))'],
    };
  }

  startGroup(circuits: CircuitId[]): RunView {
    this.#group = circuits;
    return this.view();
  }

  #groupName(): string {
    const members = this.#rows.filter((one) => this.#group.includes(one.id));
    return `all lives of ${members.map((one) => one.reference).join(', ')} – PE`;
  }

  #ahead(): string | null {
    const at = this.#rows.findIndex((one) => one.slots.some((slot) => slot.id === this.#slot));
    const next = this.#rows[at + 1];
    return next && next.volts !== this.#rows[at]?.volts ? `${next.volts} V from circuit ${next.reference} on` : null;
  }

  #put(id: SlotId, shown: string, sign: 'done' | 'look', judgement: ReadBack['judgement']): Saved {
    const { row, slot } = this.#find(id);
    const typed = this.#draft;
    const saved = { reading: `r-${id}`, slot: id, pair: slot.name, shown, judgement, sentences: [judgement], announce: `Saved ${shown} for ${slot.name}. ${judgement.words}` };
    this.#saved.push({ ...saved, before: { ...slot }, typed });
    Object.assign(slot, { sign, shown, asked: false });
    this.#draft = { text: '', comparator: 'exact' };
    const open = this.#rows.flatMap((one) => one.slots).filter((one) => one.sign === 'todo');
    const next = row.slots.find((one) => one.sign === 'todo') ?? open[0];
    this.#slot = next?.id ?? null;
    return { saved, moved: !next ? 'end' : row.slots.includes(next) ? 'pair' : 'circuit', run: this.view() };
  }

  #find(id: SlotId): { row: Row; slot: SlotView } {
    for (const one of this.#rows) {
      const slot = one.slots.find((candidate) => candidate.id === id);
      if (slot) return { row: one, slot };
    }
    throw { code: 'unknown', words: `No slot ${id}`, complaints: [], detail: null };
  }
}

function progress(slots: SlotView[]): string {
  return `${slots.filter((slot) => slot.sign !== 'todo').length} of ${slots.length}`;
}
