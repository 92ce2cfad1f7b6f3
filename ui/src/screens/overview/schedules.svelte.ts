import { call, type JobId, type OverviewJob, type ScheduleFormat, type Written } from '../../host';

/** What became of one job's schedule; neither: it waits, is being written, or was not begun. */
export interface Line {
  job: JobId;
  name: string;
  written?: Written;
  trouble?: unknown;
}

/** Schedules of many jobs, written one after the other. One that fails stops no other. */
export class Schedules {
  lines = $state.raw<Line[]>([]);
  /** The place of the one being written, from 0. */
  writing = $state<number | null>(null);
  /** No other is begun. */
  stopping = $state(false);

  readonly current = $derived(this.writing === null ? undefined : this.lines[this.writing]);
  readonly written = $derived(this.lines.filter((line) => line.written).length);
  readonly files = $derived(this.lines.flatMap((line) => line.written?.files ?? []));
  readonly failed = $derived(this.lines.filter((line) => line.trouble !== undefined).length);

  async write(jobs: OverviewJob[], format: ScheduleFormat): Promise<void> {
    if (this.writing !== null) return;
    this.lines = jobs.map(({ id, name }) => ({ job: id, name }));
    this.stopping = false;
    for (const [at, { id, name }] of jobs.entries()) {
      if (this.stopping) break;
      this.writing = at;
      try {
        this.#became(at, { job: id, name, written: await call('make_schedule', { job: id, format, as_signed: null }) });
      } catch (trouble) {
        this.#became(at, { job: id, name, trouble });
      }
    }
    this.writing = null;
  }

  /** Stops before the next job; the one being written is written. */
  stop(): void {
    this.stopping = true;
  }

  #became(at: number, line: Line): void {
    this.lines = this.lines.map((one, place) => (place === at ? line : one));
  }
}
