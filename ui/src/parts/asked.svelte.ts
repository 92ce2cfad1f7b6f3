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
