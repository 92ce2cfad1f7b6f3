import { isTauri } from '@tauri-apps/api/core';
import type { OperationName } from '.';

/** What somebody is at a hub. */
export type Role = 'recorder' | 'reviewer' | 'office';

/** What the hub tells a page of its session. */
export interface Login {
  name: string;
  role: Role;
  role_words: string;
  /** The operations that are not this role's to ask for. */
  not: string[];
  /** Said with every request: the hub's own pages alone know it. */
  page: string;
}

/** A phone that is kept in step with the hub. */
export interface Phone {
  device: string;
  name: string;
  words: string;
  alone: string | null;
  /** What a revoked one wrote beyond what the hub had, which waits to be accepted. */
  held: string | null;
  waiting: number;
  revoked: boolean;
}

/** What enrols one phone: the QR code is an SVG picture of both. */
export interface EnrolCode {
  address: string;
  code: string;
  qr: string;
}

let login: Login | null = null;
/** Asks who is there once more. */
let ask: () => Promise<void> = () => Promise.reject(new Error('nobody asks who is there'));
/** The way back that is being gone: what was asked meanwhile waits for it too. */
let back: Promise<void> | null = null;

/** Whether these screens came from a hub, which asks who is there. */
export const fromHub = (): boolean => !isTauri();

/** Who is logged in; nobody where these screens are an app's own. */
export const loggedIn = (): Login | null => login;

/** Whether an operation may be asked for: in an app any, at a hub what the login's role is for. The hub holds to it by itself. */
export const may = (operation: OperationName): boolean => !login?.not.includes(operation);

/** Says what asks who is there when a session has ended. */
export function whenEnded(asks: () => Promise<void>): void {
  ask = asks;
}

/**
 * Asks the hub; rejects with what it refuses, in the shape of an operation's failure. When the session has ended, nothing
 * was done: it asks again after a login.
 */
export async function post(path: string, asked: unknown): Promise<unknown> {
  try {
    return await send(path, asked);
  } catch (refused) {
    if (!login || !isRefusal(refused, 'not_logged_in')) throw refused;
    back ??= comeBack(login.name).finally(() => (back = null));
    await back;
    return send(path, asked);
  }
}

/** Goes on in the session of this browser; false if there is none. */
export async function goOn(): Promise<boolean> {
  try {
    await opened('/session', {});
    return true;
  } catch (refused) {
    if (isRefusal(refused, 'not_logged_in')) return false;
    throw refused;
  }
}

export const logIn = (name: string, password: string): Promise<void> => opened('/login', { name, password });

/** Sets a password with the code of a link; the first of all says their name with it. */
export const setFirst = (code: string, name: string, password: string): Promise<void> => opened('/first', { code, name, password });

/** Another password for whoever is logged in. */
export async function changePassword(old: string, next: string): Promise<void> {
  login = (await post('/password', { old, new: next })) as Login;
}

export async function logOut(): Promise<void> {
  await send('/logout', {});
  login = null;
}

/** Another tab may have logged in already. What is on the screen is one person's: for another one it is drawn anew. */
async function comeBack(name: string): Promise<void> {
  if (!(await goOn())) await ask();
  if (login?.name === name) return;
  window.location.reload();
  await new Promise(() => undefined);
}

export const phones = (): Promise<Phone[]> => post('/phones', {}) as Promise<Phone[]>;

export const enrolCode = (): Promise<EnrolCode> => post('/phones/code', {}) as Promise<EnrolCode>;

export const revokePhone = (device: string): Promise<Phone[]> => post('/phones/revoke', { device }) as Promise<Phone[]>;

export const acceptPhone = (device: string): Promise<Phone[]> => post('/phones/accept', { device }) as Promise<Phone[]>;

/** Throws away what waits of a phone, if that is still as much as was shown. */
export const dropHeld = ({ device, waiting }: Phone): Promise<Phone[]> => post('/phones/drop', { device, waiting }) as Promise<Phone[]>;

async function opened(path: string, asked: unknown): Promise<void> {
  login = (await send(path, asked)) as Login;
}

async function send(path: string, asked: unknown): Promise<unknown> {
  const headers = { 'content-type': 'application/json', 'x-provenohm-page': login?.page ?? '' };
  const answer = await fetch(path, { method: 'POST', headers, body: JSON.stringify(asked) });
  const told: unknown = await answer.json();
  if (!answer.ok) throw told;
  return told;
}

function isRefusal(refused: unknown, code: string): boolean {
  return typeof refused === 'object' && refused !== null && 'code' in refused && refused.code === code;
}
