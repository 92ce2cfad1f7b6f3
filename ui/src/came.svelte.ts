import { call } from './host';

/** Changes whenever something came that screens may not show yet: from another person at the hub, or from the office. */
export const came = $state({ at: 0 });

/** Asks for it as often as the core says, while the page is seen. */
export function watch(): void {
  const ask = async () => {
    let again = 5000;
    if (document.visibilityState === 'visible') {
      try {
        const pulse = await call('pulse', {});
        came.at = pulse.at;
        again = pulse.again;
      } catch {
        // The next thing a person does says why, and it is asked again.
      }
    }
    setTimeout(ask, again);
  };
  void ask();
}
