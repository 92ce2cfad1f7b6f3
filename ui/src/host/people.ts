import { refusal } from '.';
import { post, type Role } from './hub';

/** One account of the hub. */
export interface AccountLine {
  person: string;
  name: string;
  role: Role;
  /** Whether there is a login, or a link for one, in words. */
  standing: string;
  /** Whether there is something to take away. */
  may_come_in: boolean;
}

/** Everybody, and the roles to choose from. */
export interface People {
  people: AccountLine[];
  roles: { id: Role; words: string }[];
  /** The code of the link that was just made: told this once. */
  code: string | null;
}

/** What was done with accounts, latest first. */
export interface AuditPage {
  lines: { number: number; at: string; words: string }[];
  more: boolean;
}

export const people = (): Promise<People> => ask('/people', {});

export const invite = (name: string, role: Role): Promise<People> => ask('/people/invite', { name, role });

export const newLink = (person: string): Promise<People> => ask('/people/link', { person });

export const setRole = (person: string, role: Role): Promise<People> => ask('/people/role', { person, role });

export const takeAway = (person: string): Promise<People> => ask('/people/take-away', { person });

export const audit = (before: number | null): Promise<AuditPage> => ask('/people/audit', { before });

/** The link that a code is told in; the name in it is only shown. */
export const linkOf = (code: string, name: string): string => `${window.location.origin}/#/first/${code}/${encodeURIComponent(name)}`;

async function ask<T>(path: string, asked: unknown): Promise<T> {
  try {
    return (await post(path, asked)) as T;
  } catch (failure) {
    throw refusal(failure);
  }
}
