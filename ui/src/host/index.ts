import { knock } from '#door';
import type { Complaint, Failure, Operations } from './generated/operations';

export type * from './generated/operations';

/** The core did not do what was asked, and says so in words that are ready to show. */
export class Refusal extends Error {
  /** Stable, for decisions in the screens. */
  readonly code: string;
  /** What is wrong with which field of a form. */
  readonly complaints: Complaint[];
  /** Technical text to copy, where something broke. */
  readonly detail: string | null;

  constructor(failure: Failure) {
    super(failure.words);
    this.code = failure.code;
    this.complaints = failure.complaints;
    this.detail = failure.detail;
  }
}

export type OperationName = keyof Operations;

/** Asks the core for one operation; rejects with a `Refusal` whose message is ready to show. */
export async function call<Op extends OperationName>(
  operation: Op,
  input: Operations[Op]['input'],
): Promise<Operations[Op]['output']> {
  try {
    return (await knock(operation, input)) as Operations[Op]['output'];
  } catch (failure) {
    throw refusal(failure);
  }
}

/** What was refused, ready to show. */
export function refusal(failure: unknown): Refusal {
  if (typeof failure === 'object' && failure !== null && 'code' in failure && 'words' in failure) {
    return new Refusal(failure as Failure);
  }
  return new Refusal({ code: 'unreachable', words: String(failure), complaints: [], detail: null });
}
