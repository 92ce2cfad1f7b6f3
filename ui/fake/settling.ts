import type { Done, Settled, SettledLine, SettlingView } from '../src/host';
import { questions } from './data';

/** What waits to be settled, as far as the screen needs it. */
export class FakeSettling {
  #settled: string[] = [];

  view(): SettlingView {
    const open = questions.filter((one) => !this.#settled.includes(one.id));
    const words = open.length === 0 ? 'Nothing to settle' : `${open.length} to settle`;
    return { job: 'j1', name: 'Harbour workshop', words, questions: open, made: this.#made() };
  }

  #made(): SettledLine[] {
    const place = (id: string) => questions.find((one) => one.id === id)?.place ?? '';
    return this.#settled.map((id) => ({ words: place(id), by: 'A. Recorder, this device, 25 Nov 2026, 16:20', undo: id }));
  }

  settle(question: string, choice: string): Settled {
    const chosen = questions.find((one) => one.id === question)?.choices.find((one) => one.id === choice);
    this.#settled.push(question);
    return { done: { words: `Settled: ${chosen?.words ?? 'all readings stay'}`, undo: question }, view: this.view() };
  }

  undo(token: string): Done {
    this.#settled = token ? this.#settled.filter((id) => id !== token) : this.#settled.slice(0, -1);
    return { words: 'Taken back', undo: null };
  }
}
