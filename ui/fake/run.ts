import type { Comparator, DraftView, Id, Indication, ReadBack, RunView, Saved, SlotLine } from '../src/host';

interface Row {
  id: Id;
  reference: string;
  description: string;
  volts: number;
  slots: SlotLine[];
}

const PAIRS = ['L1–L2', 'L1–PE', 'L2–PE', 'L1–N', 'N–PE'];
const LABEL = { k: 'kΩ', m: 'MΩ', g: 'GΩ' } as const;
const NOTCHES = ['1 kΩ', '', '', '1 MΩ', '', '', '1 GΩ', ''].map((label, n) => ({ at: n / 7, label }));

const row = (n: number, description: string, volts: number): Row => ({
  id: `c${n}`,
  reference: String(n),
  description,
  volts,
  slots: PAIRS.map((name, at) => ({ id: `c${n}-${at}`, name, sign: 'todo', shown: null })),
});

/** Imitates the flow of a run, not its judgement: its sentences are canned. */
export class FakeRun {
  #rows = [row(7, 'Sockets, east wall', 500), row(8, 'Oven', 500), row(9, 'Garden lights, SELV side', 250)];
  #slot: Id | null = 'c7-0';
  #set = 500;
  #draft = { text: '', comparator: 'exact' as Comparator };
  #saved: (ReadBack & { before: SlotLine; typed: { text: string; comparator: Comparator } })[] = [];

  open(slot: Id | null): RunView {
    if (slot) this.#slot = slot;
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

  save(slot: Id, indication: Indication): Saved {
    const shown =
      indication === 'over_range'
        ? '> 999 MΩ'
        : `${{ exact: '', more_than: '> ', less_than: '< ' }[indication.typed.comparator]}${indication.typed.text} ${LABEL[indication.typed.unit]}`;
    const low = indication !== 'over_range' && indication.typed.unit === 'k';
    return this.#put(slot, shown, low ? 'look' : 'done', {
      level: low ? 'look' : 'none',
      words: low ? 'Below 1.0 MΩ, the limit set for this job' : 'meets 1.0 MΩ at 500 V',
    });
  }

  notTested(slot: Id): Saved {
    return this.#put(slot, 'not tested', 'look', { level: 'look', words: 'Not tested: no access' });
  }

  undo(): { run: RunView; words: string } {
    const last = this.#saved.pop();
    if (!last) throw { code: 'refused', words: 'Nothing of yours to take back' };
    Object.assign(this.#find(last.slot).slot, last.before);
    this.#slot = last.slot;
    this.#draft = last.typed;
    return { run: this.view(), words: `Took back ${last.words}` };
  }

  setVolts(volts: number): RunView {
    this.#set = volts;
    return this.view();
  }

  view(): RunView {
    const now = this.#slot ? this.#find(this.#slot) : null;
    const last = this.#saved.at(-1);
    const wanted = now?.row.volts ?? this.#set;
    const slots = now?.row.slots ?? [];
    return {
      job: 'j1',
      board: { id: 'b2', name: 'Board DB-2' },
      voltage: `${this.#set} V`,
      announce: now ? `Now circuit ${now.row.reference} · ${now.row.description}` : null,
      tester: { id: 't1', words: 'Tester A · proved to 3 Mar 2027', level: 'none' },
      circuit: now && { id: now.row.id, reference: now.row.reference, description: now.row.description },
      circuits: this.#rows.map((one) => ({
        id: one.id,
        reference: one.reference,
        description: one.description,
        sign: one.slots.every((slot) => slot.sign !== 'todo') ? 'done' : 'todo',
        progress: progress(one.slots),
        slot: one.slots[0]?.id ?? null,
      })),
      slots,
      slot: this.#slot,
      progress: progress(slots),
      draft: this.draft(this.#draft.text, this.#draft.comparator),
      over_range: { label: '> 999 MΩ', ready: true },
      ask_volts:
        wanted === this.#set
          ? null
          : { words: `Tester set to ${wanted} V`, volts: wanted, others: [250, 500, 1000].map((volts) => ({ volts, words: `${volts} V` })) },
      volts_choices: [250, 500, 1000].map((volts) => ({ volts, words: `${volts} V` })),
      hint: 'From 1.06 MΩ this tester proves 1.0 MΩ',
      read_back: last ?? null,
      can_undo: last !== undefined,
      reasons: ['Circuit live', 'No access', 'Load connected', 'Joined', 'Not present', 'Other'].map((words, id) => ({ id: String(id), words })),
      notches: NOTCHES,
      ended: now ? null : { words: 'All 15 pairs of Board DB-2 are recorded', lines: ['13 meet their limit', '2 to look at'] },
    };
  }

  #put(id: Id, shown: string, sign: 'done' | 'look', judgement: ReadBack['judgement']): Saved {
    const { row, slot } = this.#find(id);
    const typed = this.#draft;
    const words = `${slot.name}   ${shown}`;
    const saved = { slot: id, words, judgement, announce: `Saved ${shown} for ${slot.name}. ${judgement.words}` };
    this.#saved.push({ ...saved, before: { ...slot }, typed });
    Object.assign(slot, { sign, shown });
    this.#draft = { text: '', comparator: 'exact' };
    const open = this.#rows.flatMap((one) => one.slots).filter((one) => one.sign === 'todo');
    const next = row.slots.find((one) => one.sign === 'todo') ?? open[0];
    this.#slot = next?.id ?? null;
    return { saved, moved: !next ? 'end' : row.slots.includes(next) ? 'pair' : 'circuit', run: this.view() };
  }

  #find(id: Id): { row: Row; slot: SlotLine } {
    for (const one of this.#rows) {
      const slot = one.slots.find((candidate) => candidate.id === id);
      if (slot) return { row: one, slot };
    }
    throw { code: 'unknown', words: `No slot ${id}` };
  }
}

function progress(slots: SlotLine[]): string {
  return `${slots.filter((slot) => slot.sign !== 'todo').length} of ${slots.length}`;
}
