import { knock } from '#door';
import type { Operations } from './contract';

export type * from './contract';

/** What the core answers when it did not do what was asked. */
export interface Failure {
  /** Stable, for decisions in the screens. */
  code: string;
  /** For the person, from the catalogue. */
  words: string;
}

export class Refusal extends Error {
  readonly code: string;

  constructor(failure: Failure) {
    super(failure.words);
    this.code = failure.code;
  }
}

/** Asks the core for one operation; rejects with a `Refusal` whose message is ready to show. */
export async function call<Op extends keyof Operations>(
  operation: Op,
  input: Operations[Op]['input'],
): Promise<Operations[Op]['output']> {
  try {
    return (await knock(operation, input)) as Operations[Op]['output'];
  } catch (failure) {
    throw asRefusal(failure);
  }
}

function asRefusal(failure: unknown): Refusal {
  if (typeof failure === 'object' && failure !== null && 'code' in failure && 'words' in failure) {
    return new Refusal(failure as Failure);
  }
  return new Refusal({ code: 'unreachable', words: String(failure) });
}
