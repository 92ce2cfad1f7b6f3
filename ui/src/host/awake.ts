/** Keeps the screen awake while it is wanted. Where a web view cannot, the app's own window setting has to. */
export function stayAwake(): () => void {
  let lock: WakeLockSentinel | undefined;
  let wanted = true;

  const ask = () => {
    if (!wanted || document.visibilityState !== 'visible') return;
    // Optional in older web views, and refused on a low battery: the run goes on without it.
    (navigator as Partial<Navigator>).wakeLock?.request('screen').then(
      (got) => {
        if (wanted) lock = got;
        else void got.release();
      },
      () => undefined,
    );
  };
  // A lock is lost whenever the app is in the background.
  document.addEventListener('visibilitychange', ask);
  ask();
  return () => {
    wanted = false;
    document.removeEventListener('visibilitychange', ask);
    void lock?.release();
  };
}
