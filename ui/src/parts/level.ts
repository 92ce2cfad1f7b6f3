import type { Level, Sign } from '../host';

/** Whether a level asks for no sign beside its words. */
export function calm(level: Level): boolean {
  return signOf(level) === null;
}

/** The sign that stands beside a sentence: only what has to be looked at or settled gets one. */
export function signOf(level: Level): Extract<Sign, 'look' | 'stop'> | null {
  return level === 'look' || level === 'stop' ? level : null;
}
