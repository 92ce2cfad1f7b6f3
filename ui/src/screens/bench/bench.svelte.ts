import {
  call,
  Refusal,
  type BenchId,
  type BenchKey,
  type BenchView,
  type Comparator,
  type DraftView,
  type Series,
  type StepId,
} from '../../host';
import { feel } from '../../host/feel';
import { calm } from '../../parts/level';
import { Drafts } from '../../parts/pad/drafts';
import { NOTHING, press, type Press, type Typed } from '../../parts/pad/pad';
import { t } from '../../words';

/** As on Run: a double tap must not measure the next point. */
const DEAD_MS = 800;

/** The keys that end digits. */
type SavingKey = Exclude<BenchKey, 'over_range' | 'line_positive' | 'earth_positive'>;

/** One run at the bench. Holds what is typed and what the core last said; the record itself is the core's. */
export class Bench {
  view = $state<BenchView>();
  typed = $state<Typed>(NOTHING);
  draft = $state<DraftView>();
  refused = $state<string | null>(null);
  dead = $state(false);
  failure = $state<string | null>(null);

  #bench: BenchId;
  #saving = false;
  #drafts = new Drafts<StepId>(
    (step, typed) => call('bench_draft', { bench: this.#bench, step, ...typed }),
    (answer) => (this.draft = answer),
    (failure) => this.#failed(failure),
  );
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(bench: BenchId) {
    this.#bench = bench;
  }

  /** Opens the run where it was left, or jumps to a step. */
  async open(step: StepId | null = null): Promise<void> {
    await this.#drafts.settled();
    await this.attempt(() => call('bench', { bench: this.#bench, step }));
  }

  /** Any act that answers with a new view of the run. */
  async attempt(act: () => Promise<BenchView>): Promise<boolean> {
    try {
      this.show(await act());
      return true;
    } catch (failure) {
      this.#failed(failure);
      return false;
    }
  }

  show(view: BenchView): void {
    this.view = view;
    this.draft = view.pad?.draft;
    this.typed = { text: view.pad?.draft.text ?? '', comparator: view.pad?.draft.comparator ?? 'exact' };
    this.refused = null;
    this.failure = null;
  }

  press(pressed: Press): void {
    const step = this.view?.current;
    const most = this.view?.pad?.most_digits;
    if (!step || !most || this.#saving) return;
    const after = press(this.typed, pressed, most);
    if (after.kind === 'refused') return this.#refuse(t(after.why, { shown: this.shown }));
    if (after.kind !== 'typed') return;
    this.typed = after.typed;
    this.refused = null;
    feel('accepted');
    this.#drafts.send(step, after.typed);
  }

  /** A key that saves what is typed. */
  save(key: SavingKey): void {
    // Any unit will do to ask whether the digits are complete: the key's own is the core's to read.
    const after = press(this.typed, { key: 'unit', unit: 'm' });
    if (after.kind === 'refused') return this.#refuse(t(after.why, { shown: this.shown }));
    void this.#measure(key, this.typed);
  }

  overRange(): void {
    const after = press(this.typed, { key: 'over-range' });
    if (after.kind === 'refused') return this.#refuse(t(after.why, { shown: this.shown }));
    if (!this.view?.pad?.over_range?.ready) return this.#refuse(t('refused-no-over-range'));
    void this.#measure('over_range', NOTHING);
  }

  polarity(key: 'line_positive' | 'earth_positive'): void {
    void this.#measure(key, NOTHING);
  }

  /** Enter saves nothing: which unit was meant is the one thing it cannot know. */
  pressEnter(): void {
    this.#refuse(t('bench-refused-enter'));
  }

  async undo(): Promise<void> {
    if (this.#saving) return this.#refuse(t('refused-too-soon'));
    await this.#drafts.settled();
    await this.attempt(() => call('undo_measured', { bench: this.#bench }));
  }

  async skip(): Promise<void> {
    const step = this.view?.current;
    if (step) await this.attempt(() => call('skip_step', { bench: this.#bench, step }));
  }

  async setMeter(meter: string | null): Promise<void> {
    const step = this.view?.current;
    if (step) await this.attempt(() => call('set_meter', { bench: this.#bench, step, meter }));
  }

  setSeries(series: Series): Promise<boolean> {
    return this.attempt(() => call('set_series', { bench: this.#bench, series }));
  }

  /** What stands on the entry line: the core's form where it has answered for this very text. */
  get shown(): string {
    const same = this.draft?.text === this.typed.text && this.draft.comparator === this.typed.comparator;
    return same && this.draft ? this.draft.shown : this.typed.text;
  }

  get comparator(): Comparator {
    return this.typed.comparator;
  }

  close(): void {
    clearTimeout(this.#timer);
  }

  async #measure(key: BenchKey, typed: Typed): Promise<void> {
    const step = this.view?.current;
    if (!step) return;
    if (this.dead || this.#saving) return this.#refuse(t('refused-too-soon'));
    this.#saving = true;
    try {
      await this.#drafts.settled();
      this.show(await call('measure', { bench: this.#bench, step, key, ...typed }));
      const said = this.view?.last?.said.level;
      feel(said && !calm(said) ? 'look' : 'accepted');
      this.#rest();
    } catch (failure) {
      this.#failed(failure);
    } finally {
      this.#saving = false;
    }
  }

  #rest(): void {
    this.dead = true;
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => (this.dead = false), DEAD_MS);
  }

  #refuse(words: string): void {
    this.refused = words;
    feel('refused');
  }

  #failed(failure: unknown): void {
    const words = failure instanceof Error ? failure.message : String(failure);
    const refusal = failure instanceof Refusal && ['refused', 'no_meter', 'no_over_range'].includes(failure.code);
    if (refusal) this.#refuse(words);
    else this.failure = words;
  }
}
