import { refusal } from '.';
import { post } from './hub';

/** A token for scripts or a calendar, in words. */
export interface TokenLine {
  token: string;
  name: string;
  words: string;
}

/** All of them, and what one can open. */
export interface Tokens {
  tokens: TokenLine[];
  scopes: { id: string; words: string }[];
  /** The token that was just made, told this once. */
  secret: string | null;
  /** Of one for the calendar: the address to subscribe to. */
  address: string | null;
}

export const tokens = (): Promise<Tokens> => ask('/tokens', {});

export const makeToken = (name: string, scope: string, days: number): Promise<Tokens> => ask('/tokens/make', { name, scope, days });

export const dropToken = (token: string): Promise<Tokens> => ask('/tokens/drop', { token });

async function ask(path: string, asked: unknown): Promise<Tokens> {
  try {
    return (await post(path, asked)) as Tokens;
  } catch (failure) {
    throw refusal(failure);
  }
}
