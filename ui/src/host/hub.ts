import { isTauri } from '@tauri-apps/api/core';

/** What the hub tells a page of its session. */
interface Session {
  name: string;
  page: string;
}

/** A phone that is kept in step with the hub. */
export interface Phone {
  device: string;
  name: string;
  words: string;
  alone: string | null;
  revoked: boolean;
}

/** What enrols one phone: the QR code is an SVG picture of both. */
export interface EnrolCode {
  address: string;
  code: string;
  qr: string;
}

/** Said with every request: the hub's own pages alone know it. */
let page = '';

/** Whether these screens came from a hub, which asks who is there. */
export const fromHub = (): boolean => !isTauri();

/** Asks the hub; rejects with what it refuses, in the shape of an operation's failure. */
export async function post(path: string, asked: unknown): Promise<unknown> {
  const headers = { 'content-type': 'application/json', 'x-provenohm-page': page };
  const answer = await fetch(path, { method: 'POST', headers, body: JSON.stringify(asked) });
  const told: unknown = await answer.json();
  if (!answer.ok) throw told;
  return told;
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

/** Sets the first password of the hub, with the code of its link. */
export const setFirst = (code: string, name: string, password: string): Promise<void> => opened('/first', { code, name, password });

export async function logOut(): Promise<void> {
  await post('/logout', {});
  page = '';
}

export const phones = (): Promise<Phone[]> => post('/phones', {}) as Promise<Phone[]>;

export const enrolCode = (): Promise<EnrolCode> => post('/phones/code', {}) as Promise<EnrolCode>;

export const revokePhone = (device: string): Promise<Phone[]> => post('/phones/revoke', { device }) as Promise<Phone[]>;

async function opened(path: string, asked: unknown): Promise<void> {
  page = ((await post(path, asked)) as Session).page;
}

function isRefusal(refused: unknown, code: string): boolean {
  return typeof refused === 'object' && refused !== null && 'code' in refused && refused.code === code;
}
