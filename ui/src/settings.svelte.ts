import { call, type Choice, type Settings } from './host';

/** How this person likes the screen on this device. Kept by the core; only mirrored here. */
export const settings = $state<Settings>({ theme: 'system', hand: 'right', gloves: false, locale: 'en' });

/** The languages there are. */
export const locales = $state<Choice[]>([]);

export async function loadSettings(): Promise<void> {
  const view = await call('settings', {});
  Object.assign(settings, view.settings);
  locales.splice(0, locales.length, ...view.locales);
}

export async function changeSettings(change: Partial<Settings>): Promise<void> {
  // Shown at once and then as the core keeps it.
  Object.assign(settings, change);
  Object.assign(settings, (await call('set_settings', $state.snapshot(settings))).settings);
}

/** Puts the theme on the page, following the system where that was chosen. */
export function paint(): () => void {
  const dark = window.matchMedia('(prefers-color-scheme: dark)');
  const show = () => {
    const theme = settings.theme === 'system' ? (dark.matches ? 'dark' : 'light') : settings.theme;
    document.documentElement.dataset['theme'] = theme;
    document.documentElement.dataset['hand'] = settings.hand;
    document.documentElement.toggleAttribute('data-gloves', settings.gloves);
  };
  show();
  dark.addEventListener('change', show);
  return () => dark.removeEventListener('change', show);
}
