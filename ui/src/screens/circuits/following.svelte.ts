import { call, type BoardId, type CircuitForm, type Complaint, type Follows } from '../../host';

/** What follows from a form as it stands, asked when the person moves on from a field. */
export class Following {
  follows = $state.raw<Follows | null>(null);
  complaints = $state.raw<Complaint[]>([]);
  trouble = $state.raw<unknown>(null);
  #asked = 0;

  async ask(board: BoardId, form: CircuitForm): Promise<void> {
    const turn = ++this.#asked;
    try {
      const answer = await call('check_circuit', { board, form });
      // An older question may be answered last.
      if (turn !== this.#asked) return;
      this.follows = answer.follows;
      this.complaints = answer.complaints;
      this.trouble = null;
    } catch (failure) {
      if (turn === this.#asked) this.trouble = failure;
    }
  }
}
