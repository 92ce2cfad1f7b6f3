import {
  call,
  Refusal,
  type BoardId,
  type CircuitId,
  type Comparator,
  type DraftView,
  type Indication,
  type LeadEnd,
  type LeadIndication,
  type Loads,
  type NotTestedReason,
  type ReducedReason,
  type RunView,
  type Saved,
  type Sentence,
  type SlotId,
  type Stage,
  type TesterId,
} from '../../host';
import { feel } from '../../host/feel';
import { calm } from '../../parts/level';
import { t } from '../../words';
import { Drafts } from '../../parts/pad/drafts';
import { NOTHING, press, type Press, type Typed } from '../../parts/pad/pad';

/** No test is quicker, and a double tap must not record the next pair. */
const DEAD_MS = 800;
/** How long a new circuit is announced; its over-range key is armed only then. */
const ANNOUNCE_MS = 2000;

/** One board's recording loop. Holds what is typed and what the core last said; the record itself is the core's. */
export class Run {
  view = $state<RunView>();
  typed = $state<Typed>(NOTHING);
  /** The core's view of what is typed; behind the echo by one answer at most. */
  draft = $state<DraftView>();
  refused = $state<string | null>(null);
  dead = $state(false);
  announced = $state<string | null>(null);
  failure = $state<string | null>(null);
  /** The person goes on with no tester chosen: each reading then waits for one before it can be signed. */
  withoutTester = $state(false);

  #board: BoardId;
  #saving = false;
  #waiting: Press[] = [];
  #drafts = new Drafts<SlotId>(
    (slot, typed) => call('draft', { board: this.#board, slot, ...typed }),
    (answer) => this.#drafted(answer),
    (failure) => this.#failed(failure),
  );
  #timers = new Set<ReturnType<typeof setTimeout>>();

  constructor(board: BoardId) {
    this.#board = board;
  }

  /** Opens the board where it stands, or jumps to a pair or to a circuit's first open pair. */
  async open(to: { slot?: SlotId | null; circuit?: CircuitId | null } = {}): Promise<void> {
    await this.#drafts.settled();
    await this.attempt(() => call('run', { board: this.#board, ...to }));
  }

  /** Any act that answers with a new view of the run. */
  async attempt(act: () => Promise<RunView>): Promise<boolean> {
    try {
      this.show(await act());
      return true;
    } catch (failure) {
      this.#failed(failure);
      return false;
    }
  }

  show(view: RunView): void {
    this.view = view;
    this.draft = view.draft;
    this.typed = { text: view.draft.text, comparator: view.draft.comparator };
    this.refused = null;
    this.failure = null;
  }

  /**
   * Shows what others recorded on this board meanwhile. It disturbs nobody: not what is typed or being saved, nor the pair in
   * hand; a refusal is that of the next thing the person does.
   */
  async follow(): Promise<void> {
    const before = this.view;
    const idle = () => this.view === before && !this.#saving && this.typed.text === '' && this.#waiting.length === 0;
    if (!before || !idle()) return;
    const view = await call('run', { board: this.#board, slot: before.slot }).catch(() => before);
    if (idle()) this.view = view;
  }

  press(pressed: Press): void {
    if (this.#saving) {
      // Typed ahead of the answer: meant for the next pair, which is known only when the answer is here.
      if (pressed.key === 'unit' || pressed.key === 'over-range') this.#refuse(t('refused-too-soon'));
      else this.#waiting.push(pressed);
      return;
    }
    const view = this.view;
    if (!view?.slot || view.ask_volts) return;
    const saves = pressed.key === 'unit' || pressed.key === 'over-range';
    if (saves && (this.dead || (pressed.key === 'over-range' && this.announced))) {
      return this.#refuse(t('refused-too-soon'));
    }
    const after = press(this.typed, pressed);
    switch (after.kind) {
      case 'refused':
        return this.#refuse(t(after.why, { shown: this.shown }));
      case 'typed':
        this.typed = after.typed;
        this.refused = null;
        feel('accepted');
        return this.#drafts.send(view.slot, after.typed);
      case 'save':
        return void this.#save(view.slot, { typed: { ...after.typed, unit: after.unit } });
      case 'save-over-range':
        if (!view.over_range.ready) return this.#refuse(t('refused-no-over-range'));
        return void this.#save(view.slot, 'over_range');
    }
  }

  /** Enter saves nothing: which unit was meant is the one thing it cannot know. */
  pressEnter(): void {
    this.#refuse(t('refused-enter'));
  }

  async undo(): Promise<void> {
    if (this.#saving) return this.#refuse(t('refused-too-soon'));
    await this.attempt(async () => {
      await this.#drafts.settled();
      const answer = await call('undo_reading', { board: this.#board });
      this.announced = null;
      return answer.run;
    });
  }

  async notTested(reason: NotTestedReason, words: string): Promise<void> {
    const slot = this.view?.slot;
    if (slot) await this.#saved(() => call('mark_not_tested', { board: this.#board, slot, reason, words }));
  }

  note(text: string): Promise<boolean> {
    const slot = this.view?.slot;
    return this.attempt(() => (slot ? call('set_note', { board: this.#board, slot, text }) : call('run', { board: this.#board })));
  }

  async chooseTester(tester: TesterId): Promise<void> {
    await this.attempt(() => call('choose_tester', { board: this.#board, tester }));
  }

  /** Said on the key that stands where over-range stands: a double tap on either must not press the other. */
  async setVolts(volts: number): Promise<void> {
    if (this.dead) return this.#refuse(t('refused-too-soon'));
    if (await this.attempt(() => call('set_volts', { board: this.#board, volts }))) this.#rest();
  }

  async setStage(stage: Stage): Promise<void> {
    await this.attempt(() => call('set_stage', { board: this.#board, stage }));
  }

  async setConditions(conditions: { loads: Loads; n_isolated: boolean | null; reduced: ReducedReason | null }): Promise<void> {
    await this.attempt(() => call('set_conditions', { board: this.#board, ...conditions }));
  }

  async setJoined(joined: boolean): Promise<void> {
    const circuit = this.view?.circuit?.id;
    if (circuit) await this.attempt(() => call('set_joined', { circuit, joined }));
  }

  /** Tests circuits together: all their lives joined, against earth. */
  startGroup(circuits: CircuitId[]): Promise<boolean> {
    return this.attempt(() => call('start_group', { board: this.#board, circuits }));
  }

  stopGroup(): Promise<boolean> {
    return this.attempt(() => call('stop_group', { board: this.#board }));
  }

  /** What the check says, or nothing where it could not be recorded. */
  async leadCheck(leads: LeadEnd, indication: LeadIndication): Promise<Sentence | null> {
    let said: Sentence | null = null;
    await this.attempt(async () => {
      const answer = await call('record_lead_check', { board: this.#board, leads, indication });
      said = answer.said;
      return answer.run;
    });
    return said;
  }

  /** A tester is chosen before it is said how it is set. */
  get testerFirst(): boolean {
    return this.view?.tester.id === null && !this.withoutTester;
  }

  /** What stands on the entry line: the core's form where it has answered for this very text. */
  get shown(): string {
    if (this.draft && this.draft.text === this.typed.text && this.draft.comparator === this.typed.comparator) {
      return this.draft.shown;
    }
    return this.typed.text;
  }

  get comparator(): Comparator {
    return this.typed.comparator;
  }

  close(): void {
    for (const timer of this.#timers) clearTimeout(timer);
  }

  #save(slot: SlotId, indication: Indication): Promise<void> {
    return this.#saved(() => call('save_reading', { board: this.#board, slot, indication }));
  }

  async #saved(act: () => Promise<Saved>): Promise<void> {
    this.#saving = true;
    try {
      await this.#drafts.settled();
      const answer = await act();
      this.#saving = false;
      this.show(answer.run);
      this.#rest();
      if (answer.moved === 'circuit') this.#announce(answer.run.announce);
      feel(answer.moved === 'circuit' ? 'moved' : calm(answer.saved.judgement.level) ? 'accepted' : 'look');
      const waiting = this.#waiting.splice(0);
      for (const pressed of waiting) this.press(pressed);
    } catch (failure) {
      // What was typed ahead was meant for a pair that never came; the words on the screen say why.
      this.#waiting = [];
      this.#saving = false;
      this.#failed(failure);
    }
  }

  #rest(): void {
    this.dead = true;
    this.#after(DEAD_MS, () => (this.dead = false));
  }

  #announce(words: string | null): void {
    this.announced = words;
    this.#after(ANNOUNCE_MS, () => (this.announced = null));
  }

  #after(ms: number, act: () => void): void {
    const timer = setTimeout(() => {
      this.#timers.delete(timer);
      act();
    }, ms);
    this.#timers.add(timer);
  }

  #drafted(answer: DraftView): void {
    this.draft = answer;
  }

  #refuse(words: string): void {
    this.refused = words;
    feel('refused');
  }

  #failed(failure: unknown): void {
    const words = failure instanceof Error ? failure.message : String(failure);
    if (failure instanceof Refusal && failure.code === 'refused') this.#refuse(words);
    else this.failure = words;
  }
}
