import { onBackButtonPress } from '@tauri-apps/api/app';

/** Android's back button: closes what is open over the screen, else goes back; at the first screen it is the system's. */
export async function followBackButton(): Promise<void> {
  if (!/Android/.test(navigator.userAgent)) return;
  await onBackButtonPress(({ canGoBack }) => {
    const open = document.querySelector('dialog[open]');
    // The same event that Esc makes: whoever opened the dialog closes it.
    if (open) open.dispatchEvent(new Event('cancel', { cancelable: true }));
    else if (canGoBack) window.history.back();
    else window.location.hash = '#/jobs';
  });
}
