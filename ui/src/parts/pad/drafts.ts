import type { DraftView } from '../../host';
import type { Typed } from './pad';

type Send<Place> = (place: Place, typed: Typed) => Promise<DraftView>;

/**
 * Carries half-typed text to the core with each key, one call at a time and always the newest last, so that the core
 * ends with what stands on the screen whatever order answers come in. The echo on the screen waits for none of it.
 */
export class Drafts<Place> {
  #next: { place: Place; typed: Typed } | undefined;
  #running: Promise<void> | undefined;

  constructor(
    private carry: Send<Place>,
    private answered: (answer: DraftView) => void,
    private failed: (failure: unknown) => void,
  ) {}

  send(place: Place, typed: Typed): void {
    this.#next = { place, typed };
    this.#running ??= this.#run().finally(() => (this.#running = undefined));
  }

  /** Resolves once the core has everything that was typed. */
  async settled(): Promise<void> {
    await this.#running;
  }

  async #run(): Promise<void> {
    while (this.#next) {
      const { place, typed } = this.#next;
      this.#next = undefined;
      try {
        const answer = await this.carry(place, typed);
        // A newer key is waiting: this answer speaks of text that is no longer on the line.
        if (!this.#next) this.answered(answer);
      } catch (failure) {
        this.failed(failure);
      }
    }
  }
}
