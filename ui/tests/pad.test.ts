import { describe, expect, it } from 'vitest';
import { NOTHING, press, pressOf, type Press, type Typed } from '../src/parts/pad/pad';

const KEYS: Press[] = [
  { key: 'digit', digit: '0' },
  { key: 'digit', digit: '7' },
  { key: 'dot' },
  { key: 'comparator' },
  { key: 'back' },
  { key: 'unit', unit: 'm' },
  { key: 'over-range' },
];

/** Every sequence of presses up to the length, each with the state it came from. */
function walk(length: number, visit: (before: Typed, pressed: Press) => Typed, typed: Typed = NOTHING): void {
  if (length === 0) return;
  for (const pressed of KEYS) walk(length - 1, visit, visit(typed, pressed));
}

const digits = (text: string) => text.replace('.', '').length;

describe('the keypad, over every sequence of six presses', () => {
  it('drops no digit in silence', () => {
    walk(6, (before, pressed) => {
      const after = press(before, pressed);
      if (pressed.key !== 'digit') return after.kind === 'typed' ? after.typed : NOTHING;
      if (after.kind === 'typed') expect(after.typed.text).toBe(before.text + pressed.digit);
      else expect(after).toMatchObject({ kind: 'refused', typed: before });
      return after.kind === 'typed' ? after.typed : before;
    });
  });

  it('saves only what is on the entry line, unchanged', () => {
    walk(6, (before, pressed) => {
      const after = press(before, pressed);
      if (after.kind === 'save') {
        expect(after.typed).toEqual(before);
        expect(before.text).toMatch(/^(0|[1-9]\d*|0\.\d+|[1-9]\d*\.\d+)$/);
        return NOTHING;
      }
      if (after.kind === 'save-over-range') {
        expect(before).toEqual(NOTHING);
        return NOTHING;
      }
      return after.typed;
    });
  });

  it('leaves what is typed alone when it refuses', () => {
    walk(6, (before, pressed) => {
      const after = press(before, pressed);
      if (after.kind === 'refused') expect(after.typed).toBe(before);
      return 'typed' in after && after.kind !== 'save' ? after.typed : NOTHING;
    });
  });
});

describe('taps', () => {
  const taps = (keys: string) => {
    let typed = NOTHING;
    let count = 0;
    for (const key of keys) {
      const pressed = pressOf(key);
      if (!pressed) throw new Error(`no key ${key}`);
      const after = press(typed, pressed);
      count += 1;
      if (after.kind === 'save' || after.kind === 'save-over-range') return count;
      typed = after.typed;
    }
    return undefined;
  };

  it.each(['487', '1.52', '0.05', '9', '12345', '>999'])('%s takes its characters and one more', (shown) => {
    expect(taps(`${shown}m`)).toBe(shown.length + 1);
  });

  it('over-range takes one', () => {
    expect(taps('o')).toBe(1);
  });
});

describe('what is refused', () => {
  const after = (keys: string) => {
    let typed = NOTHING;
    let last;
    for (const key of keys) {
      const pressed = pressOf(key);
      if (!pressed) throw new Error(`no key ${key}`);
      last = press(typed, pressed);
      typed = last.kind === 'typed' || last.kind === 'refused' ? last.typed : NOTHING;
    }
    return last;
  };

  it.each([
    ['m', 'refused-no-digits'],
    ['>m', 'refused-no-digits'],
    ['1.2.', 'refused-second-dot'],
    ['123456', 'refused-sixth-digit'],
    ['0.123456', 'refused-sixth-digit'],
    ['05', 'refused-digit-after-zero'],
    ['4.m', 'refused-open-dot'],
    ['487o', 'refused-clear-first'],
    ['>o', 'refused-clear-first'],
  ])('%s: %s', (keys, why) => {
    expect(after(keys)).toMatchObject({ kind: 'refused', why });
  });

  it('takes as many digits as the display shows', () => {
    const line: Typed = { text: '1.0002345', comparator: 'exact' };
    expect(press(line, { key: 'digit', digit: '6' }, 9)).toMatchObject({ typed: { text: '1.00023456' } });
    const full: Typed = { text: '1.00023456', comparator: 'exact' };
    expect(press(full, { key: 'digit', digit: '7' }, 9)).toMatchObject({ kind: 'refused', why: 'refused-tenth-digit' });
  });

  it('keeps trailing zeros, which show the resolution', () => {
    expect(after('1.20')).toMatchObject({ typed: { text: '1.20' } });
    expect(digits('1.20')).toBe(3);
  });

  it('puts a zero before a decimal sign that comes first', () => {
    expect(after('.')).toMatchObject({ typed: { text: '0.' } });
  });

  it('cycles the comparator', () => {
    const round = ['more_than', 'less_than', 'exact'];
    let typed = NOTHING;
    for (const comparator of round) {
      const next = press(typed, { key: 'comparator' });
      expect(next).toMatchObject({ kind: 'typed', typed: { comparator } });
      if (next.kind === 'typed') typed = next.typed;
    }
  });

  it('takes a sign of the keyboard as it is', () => {
    expect(after('<')).toMatchObject({ typed: { comparator: 'less_than' } });
    expect(after('>>')).toMatchObject({ typed: { comparator: 'more_than' } });
  });
});
