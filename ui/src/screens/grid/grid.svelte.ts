import { tick } from 'svelte';
import {
  call,
  Refusal,
  type BoardId,
  type GridCell,
  type GridView,
  type Indication,
  type ReplaceReason,
  type RunView,
  type SlotId,
  type TesterId,
  type UnitKey,
} from '../../host';
import { NOTHING, press, type Press, type Typed } from '../../parts/pad/pad';
import { t } from '../../words';

/** A figure that takes the place of one that stands there: it needs a reason. */
export interface Replacing {
  cell: GridCell;
  typed: Typed;
  unit: UnitKey;
}

/**
 * A board's grid: which cell is typed into, and what is typed. Saving is Run's own operation, with the tester in hand,
 * how it is set and the person as Run has them; nothing here makes more than one reading.
 */
export class Grid {
  view = $state.raw<GridView>();
  /** The tester in hand and how it is set, as Run shows them for the cell that is typed into. */
  run = $state.raw<RunView>();
  editing = $state<SlotId | null>(null);
  typed = $state.raw<Typed>(NOTHING);
  replacing = $state.raw<Replacing | null>(null);
  /** Said once, politely: what was saved, or why it was not. */
  said = $state('');
  trouble = $state.raw<unknown>(null);
  withoutTester = $state(false);
  /** The board's readings as a table: a clipboard takes only what is at hand. */
  table = '';

  #board: BoardId;
  #saving = false;
  /** Run's answer for the cell that is typed into. */
  #seated: Promise<boolean> = Promise.resolve(true);

  constructor(board: BoardId) {
    this.#board = board;
  }

  async open(): Promise<void> {
    await this.load();
    await this.#seat();
  }

  /** What stands on the board now. */
  load(): Promise<boolean> {
    return this.#attempt(async () => {
      const [view, copied] = await Promise.all([call('grid', { board: this.#board }), call('copy_out', { board: this.#board, what: 'readings' })]);
      this.view = view;
      this.table = copied.text;
    });
  }

  cell(slot: SlotId | undefined): GridCell | undefined {
    return this.#cells().find((cell) => cell.slot === slot);
  }

  /** Opens a cell: with what stands there, or for something new. */
  edit(cell: GridCell, typed: Typed = { text: cell.holds?.text ?? '', comparator: cell.holds?.comparator ?? 'exact' }): void {
    if (cell.closed) return this.refuse(cell.closed);
    this.editing = cell.slot;
    this.typed = typed;
    this.said = '';
    this.#seated = this.#seat(cell.slot);
  }

  /** Leaves a cell; what was typed is not saved, and that is said. */
  drop(): void {
    const held = this.cell(this.editing ?? undefined)?.holds;
    const { text } = this.typed;
    this.editing = null;
    this.typed = NOTHING;
    if (text !== '' && text !== held?.text) this.said = t('grid-not-saved', { typed: text });
  }

  /** Leaves a cell, which keeps the focus. */
  async leave(): Promise<void> {
    const slot = this.editing;
    this.drop();
    if (slot) await focus(slot);
  }

  /** A key of the pad on a cell. */
  press(cell: GridCell, pressed: Press): void {
    if (this.#saving) return;
    const open = this.editing === cell.slot;
    const after = press(open ? this.typed : NOTHING, pressed);
    switch (after.kind) {
      case 'refused':
        return this.refuse(t(after.why, { shown: this.typed.text }));
      case 'typed':
        if (!open) return this.edit(cell, after.typed);
        this.typed = after.typed;
        this.said = '';
        return;
      case 'save':
        return void this.#save(cell, after.typed, after.unit);
      case 'save-over-range':
        return void this.#overRange(cell);
    }
  }

  refuse(words: string): void {
    this.said = words;
  }

  /** The figure that waits for its reason takes the place of the one that stands there. */
  async replace(why: ReplaceReason): Promise<void> {
    const { replacing, view } = this;
    this.replacing = null;
    if (!replacing?.cell.holds || !view) return;
    const { cell, typed, unit } = replacing;
    const { reading } = replacing.cell.holds;
    await this.#saved(cell.slot, async () => {
      const done = await call('replace_reading', { job: view.job, reading, ...typed, unit, why });
      return { said: done.words, next: this.#openAfter(cell.slot) };
    });
  }

  async undo(): Promise<void> {
    this.editing = null;
    await this.#saved(null, async () => {
      const { words, run } = await call('undo_reading', { board: this.#board });
      this.run = run;
      return { said: words, next: run.slot ?? undefined };
    });
  }

  setVolts(volts: number): Promise<void> {
    return this.#hand(() => call('set_volts', { board: this.#board, volts }));
  }

  chooseTester(tester: TesterId): Promise<void> {
    return this.#hand(() => call('choose_tester', { board: this.#board, tester }));
  }

  get testerFirst(): boolean {
    return this.run?.tester.id === null && !this.withoutTester;
  }

  /** The cell that is typed into has the focus again, or else the one it was on. */
  async back(): Promise<void> {
    if (this.editing) await focus(this.editing);
  }

  async #hand(act: () => Promise<RunView>): Promise<void> {
    await this.#attempt(async () => {
      this.run = await act();
    });
    await this.back();
  }

  #seat(slot?: SlotId): Promise<boolean> {
    return this.#attempt(async () => {
      this.run = await call('run', { board: this.#board, slot: slot ?? null });
    });
  }

  /** Whether it is said with which tester, and how it is set, for this very cell. */
  async #ready(): Promise<boolean> {
    if (!(await this.#seated) || !this.run) return false;
    if (this.testerFirst) this.refuse(t('grid-tester-first'));
    else if (this.run.ask_volts) this.refuse(t('grid-volts-first'));
    else return true;
    return false;
  }

  async #save(cell: GridCell, typed: Typed, unit: UnitKey): Promise<void> {
    // What stands there was taken with its own tester and voltage, and keeps them.
    if (cell.holds) this.replacing = { cell, typed, unit };
    else if (await this.#ready()) await this.#record(cell, { typed: { ...typed, unit } });
  }

  async #overRange(cell: GridCell): Promise<void> {
    if (cell.closed) return this.refuse(cell.closed);
    if (cell.holds) return this.refuse(t('grid-over-held'));
    this.#seated = this.#seat(cell.slot);
    if (!(await this.#ready())) return;
    if (!this.run?.over_range.ready) return this.refuse(t('refused-no-over-range'));
    // Digits that an undo brought back there are not what is saved.
    await call('draft', { board: this.#board, slot: cell.slot, ...NOTHING });
    await this.#record(cell, 'over_range');
  }

  #record(cell: GridCell, indication: Indication): Promise<void> {
    return this.#saved(cell.slot, async () => {
      const { saved, run } = await call('save_reading', { board: this.#board, slot: cell.slot, indication });
      this.run = run;
      return { said: saved.announce, next: run.slot ?? cell.slot };
    });
  }

  /** One act that changes the record; then the focus is on the cell that comes next. */
  async #saved(slot: SlotId | null, act: () => Promise<{ said: string; next: SlotId | undefined }>): Promise<void> {
    if (this.#saving) return;
    this.#saving = true;
    let next: SlotId | null = slot;
    try {
      const done = await act();
      next = done.next ?? slot;
      await this.load();
      this.editing = null;
      this.typed = NOTHING;
      this.trouble = null;
      this.said = done.said;
    } catch (failure) {
      // What was typed stays there.
      this.#failed(failure);
    } finally {
      this.#saving = false;
    }
    if (next) await focus(next);
  }

  #cells(): GridCell[] {
    return this.view?.rows.flatMap((row) => row.cells) ?? [];
  }

  /** The next cell that waits for a reading, round the board. */
  #openAfter(slot: SlotId): SlotId | undefined {
    const cells = this.#cells();
    const at = cells.findIndex((cell) => cell.slot === slot);
    return [...cells.slice(at + 1), ...cells.slice(0, at)].find((cell) => cell.open)?.slot;
  }

  async #attempt(act: () => Promise<void>): Promise<boolean> {
    try {
      await act();
      this.trouble = null;
      return true;
    } catch (failure) {
      this.#failed(failure);
      return false;
    }
  }

  #failed(failure: unknown): void {
    if (failure instanceof Refusal && failure.code === 'refused') this.said = failure.message;
    else this.trouble = failure;
  }
}

/** To the cell of a slot, once it is drawn. */
async function focus(slot: SlotId): Promise<void> {
  await tick();
  const cells = [...document.querySelectorAll<HTMLElement>('[data-slot]')];
  cells.find((cell) => cell.dataset.slot === slot)?.focus();
}
