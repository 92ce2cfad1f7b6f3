import { beforeEach, describe, expect, it, vi } from 'vitest';

const answers: { path: string; page: string; status: number; told: unknown }[] = [];
const login = (name: string, page: string) => ({ name, role: 'recorder', role_words: 'Recorder', not: [], page });
const ended = { code: 'not_logged_in', words: 'Log in first' };

/** A hub that knows one page at a time; nothing else is answered but as said. */
function hubOf(page: string, next: () => unknown = () => 'done') {
  vi.stubGlobal('fetch', (path: string, init: { headers: Record<string, string> }) => {
    const said = init.headers['x-provenohm-page'] ?? '';
    const told = path === '/login' ? login('A. Recorder', page) : path === '/session' || said !== page ? ended : next();
    const status = told === ended ? 401 : 200;
    answers.push({ path, page: said, status, told });
    return Promise.resolve({ ok: status === 200, json: () => Promise.resolve(told) });
  });
}

describe('a session of the hub that ends', () => {
  beforeEach(() => {
    answers.length = 0;
    vi.resetModules();
  });

  it('is asked about once, and everything asked meanwhile goes on after it', async () => {
    const hub = await import('../src/host/hub');
    hubOf('one');
    await hub.logIn('A. Recorder', 'correct horse');
    expect(await hub.post('/call', {})).toBe('done');
    hubOf('two');
    const asks = vi.fn(() => hub.logIn('A. Recorder', 'correct horse'));
    hub.whenEnded(asks);
    expect(await Promise.all([hub.post('/call', { a: 1 }), hub.post('/call', { b: 2 })])).toEqual(['done', 'done']);
    expect(asks).toHaveBeenCalledTimes(1);
    expect(answers.filter((one) => one.path === '/call').map((one) => one.status)).toEqual([200, 401, 401, 200, 200]);
  });

  it('is told as it is where nobody was logged in', async () => {
    const hub = await import('../src/host/hub');
    hubOf('one');
    await expect(hub.post('/call', {})).rejects.toBe(ended);
  });
});
