/**
 * Makes room for a keyboard on the screen: web views shrink only what is seen, not the page. What lies under it is told
 * to the styles as `--keyboard`, and the field in use is brought back into sight.
 */
export function makeRoomForKeyboard(): () => void {
  const seen = window.visualViewport;
  if (!seen) return () => undefined;

  const settle = () => {
    const covered = Math.max(0, window.innerHeight - seen.height - seen.offsetTop);
    document.documentElement.style.setProperty('--keyboard', `${covered}px`);
    if (covered > 0) document.activeElement?.scrollIntoView({ block: 'nearest' });
  };
  seen.addEventListener('resize', settle);
  return () => seen.removeEventListener('resize', settle);
}
