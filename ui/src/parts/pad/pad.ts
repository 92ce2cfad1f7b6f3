/** The keypad's text, as a state machine without a screen: what each press makes of what is typed. */

import type { Comparator, UnitKey } from '../../host';

export interface Typed {
  /** Digits with at most one `.`, as on the tester's display; empty before the first key. */
  text: string;
  comparator: Comparator;
}

export type Press =
  | { key: 'digit'; digit: string }
  | { key: 'dot' }
  /** The pad's one key goes round; a keyboard has a key for each sign. */
  | { key: 'comparator'; set?: Comparator }
  | { key: 'back' }
  | { key: 'unit'; unit: UnitKey }
  | { key: 'over-range' };

/** Why a press changed nothing; each is a message of the catalogue. */
export type Refused =
  | 'refused-no-digits'
  | 'refused-second-dot'
  | 'refused-sixth-digit'
  | 'refused-tenth-digit'
  | 'refused-digit-after-zero'
  | 'refused-open-dot'
  | 'refused-clear-first'
  | 'refused-nothing-to-clear';

export type Outcome =
  | { kind: 'typed'; typed: Typed }
  | { kind: 'refused'; typed: Typed; why: Refused }
  | { kind: 'save'; typed: Typed; unit: UnitKey }
  | { kind: 'save-over-range' };

export const NOTHING: Typed = { text: '', comparator: 'exact' };

/** No display of an insulation tester shows more. */
const ON_A_TESTER = 5;

const NEXT_COMPARATOR: Record<Comparator, Comparator> = {
  exact: 'more_than',
  more_than: 'less_than',
  less_than: 'exact',
};

/** What a press makes of it, where a display shows `most` digits: a meter at the bench shows more than a tester. */
export function press(typed: Typed, pressed: Press, most = ON_A_TESTER): Outcome {
  switch (pressed.key) {
    case 'digit':
      return digit(typed, pressed.digit, most);
    case 'dot':
      if (typed.text.includes('.')) return refuse(typed, 'refused-second-dot');
      // Never a naked decimal sign: a `.` that is overlooked is a reading out by a power of ten.
      return type(typed, typed.text === '' ? '0.' : `${typed.text}.`);
    case 'comparator':
      return { kind: 'typed', typed: { ...typed, comparator: pressed.set ?? NEXT_COMPARATOR[typed.comparator] } };
    case 'back':
      if (typed.text !== '') return type(typed, typed.text.slice(0, -1));
      if (typed.comparator !== 'exact') return { kind: 'typed', typed: NOTHING };
      return refuse(typed, 'refused-nothing-to-clear');
    case 'unit':
      if (typed.text === '') return refuse(typed, 'refused-no-digits');
      if (typed.text.endsWith('.')) return refuse(typed, 'refused-open-dot');
      return { kind: 'save', typed, unit: pressed.unit };
    case 'over-range':
      if (typed.text !== '' || typed.comparator !== 'exact') return refuse(typed, 'refused-clear-first');
      return { kind: 'save-over-range' };
  }
}

function digit(typed: Typed, digit: string, most: number): Outcome {
  // `05` is far more often `0.5` with the sign missed than five: ask for the sign rather than record tenfold.
  if (typed.text === '0') return refuse(typed, 'refused-digit-after-zero');
  if (digitsOf(typed.text) >= most) {
    return refuse(typed, most > ON_A_TESTER ? 'refused-tenth-digit' : 'refused-sixth-digit');
  }
  return type(typed, typed.text + digit);
}

/** The zero before a decimal sign does not count. */
function digitsOf(text: string): number {
  return text.replace(/^0\./, '').replace('.', '').length;
}

function type(typed: Typed, text: string): Outcome {
  return { kind: 'typed', typed: { ...typed, text } };
}

function refuse(typed: Typed, why: Refused): Outcome {
  return { kind: 'refused', typed, why };
}

/** Hardware keys of the same meaning; `undefined` for a key the pad has no use for. */
export function pressOf(key: string): Press | undefined {
  if (/^[0-9]$/.test(key)) return { key: 'digit', digit: key };
  switch (key) {
    case '.':
    case ',':
      return { key: 'dot' };
    case '>':
      return { key: 'comparator', set: 'more_than' };
    case '<':
      return { key: 'comparator', set: 'less_than' };
    case 'Backspace':
      return { key: 'back' };
    case 'k':
    case 'm':
    case 'g':
      return { key: 'unit', unit: key };
    case 'K':
    case 'M':
    case 'G':
      return { key: 'unit', unit: key.toLowerCase() as UnitKey };
    case 'o':
    case 'O':
      return { key: 'over-range' };
    default:
      return undefined;
  }
}
