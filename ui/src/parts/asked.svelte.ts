import { came } from '../came.svelte';
import { Refusal, type Complaint } from '../host';

/** What one screen shows of the core: the last answer, and what the core said when it refused. */
export class Asked<View> {
  view = $state.raw<View>();
  trouble = $state.raw<unknown>(null);
  complaints = $state.raw<Complaint[]>([]);
  busy = $state(false);

  /** Asks and shows the answer; says whether there was one. What was shown before stays on a refusal. */
  async show(ask: () => Promise<View>): Promise<boolean> {
    return this.act(async () => {
      this.view = await ask();
    });
  }

  /** Shows an answer, and shows it anew whenever something comes that it may say. For use in an effect. */
  follow(ask: () => Promise<View>): void {
    if (came.at === this.#shown) return;
    const first = this.#shown === undefined;
    this.#shown = came.at;
    // What came by itself disturbs nobody: a refusal then is that of the next thing a person does.
    if (first) void this.show(ask);
    else ask().then((view) => (this.view = view), () => undefined);
  }

  #shown: number | undefined;

  /** Does something whose answer is not this screen's view. */
  async act(act: () => Promise<void>): Promise<boolean> {
    this.busy = true;
    try {
      await act();
      this.trouble = null;
      this.complaints = [];
      return true;
    } catch (failure) {
      this.complaints = failure instanceof Refusal ? failure.complaints : [];
      this.trouble = failure;
      return false;
    } finally {
      this.busy = false;
    }
  }

  /** What the core says of one field. */
  complaint(field: string): string | undefined {
    return this.complaints.find((complaint) => complaint.field === field)?.words;
  }
}
