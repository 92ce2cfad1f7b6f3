import type { JobId, ReadyPlace } from '../host';

/** Where a line of what a paper will say leads. */
export function hashOf(job: JobId, to: ReadyPlace): string {
  switch (to.kind) {
    case 'look':
      return `#/look/${job}`;
    case 'run':
      return `#/run/${to.board}`;
    case 'testers':
      return `#/testers/${job}`;
    case 'job':
      return `#/job/${job}`;
    case 'sign_off':
      return `#/signoff/${job}`;
  }
}
