import { call } from './host';

/** Where the person is, as the page's hash, so that a killed web view comes back to the same place. */
export interface Route {
  screen: string;
  /** The job, board or tester of the screen. */
  id: string;
  /** A slot or step within it. */
  at: string | null;
}

export const route = $state<Route>(parse(window.location.hash));

export function parse(hash: string): Route {
  const [screen, id, at] = hash.replace(/^#\/?/, '').split('/').map(decodeURIComponent);
  return { screen: screen || 'jobs', id: id ?? '', at: at ?? null };
}

export function go(hash: string): void {
  window.location.hash = hash;
}

/** Goes somewhere without leaving a step behind for the way back. */
export function replace(hash: string): void {
  window.location.replace(hash);
}

/** Follows the hash, and tells the core of each place. Starts at the place the core remembers. */
export async function follow(told: (failure: unknown) => void): Promise<void> {
  if (window.location.hash === '') {
    const { hash } = await call('place', {});
    if (hash) replace(hash);
  }
  const moved = () => {
    Object.assign(route, parse(window.location.hash));
    call('set_place', { hash: window.location.hash }).catch(told);
  };
  window.addEventListener('hashchange', moved);
  moved();
}
