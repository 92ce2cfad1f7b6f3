import { beforeEach, describe, expect, it } from 'vitest';
import { gridKeys } from '../src/parts/grid';

const focused = () => document.activeElement?.textContent;

function press(key: string, more: KeyboardEventInit = {}): void {
  document.activeElement?.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true, ...more }));
}

beforeEach(() => {
  document.body.innerHTML = `<table><tbody>
    <tr><td><button>a1</button></td><td><button>a2</button></td><td><button>a3</button></td></tr>
    <tr><td><button>b1</button></td><td><button disabled>b2</button></td><td><button>b3</button></td></tr>
    <tr><td><button>c1</button></td></tr>
  </tbody></table>`;
  gridKeys(document.querySelector('table')!);
});

describe('a table of readings', () => {
  it('is one Tab stop', () => {
    const stops = () => [...document.querySelectorAll('button:not(:disabled)')].filter((one) => (one as HTMLElement).tabIndex === 0);
    expect(stops().map((one) => one.textContent)).toEqual(['a1']);
    document.querySelectorAll('button')[5]?.focus();
    expect(stops().map((one) => one.textContent)).toEqual(['b3']);
  });

  it('is walked by arrows, and stops at its edges', () => {
    document.querySelector('button')?.focus();
    const walk: [string, string][] = [
      ['ArrowRight', 'a2'],
      ['ArrowRight', 'a3'],
      ['ArrowRight', 'a3'],
      ['Home', 'a1'],
      ['End', 'a3'],
      ['ArrowDown', 'b3'],
      ['ArrowDown', 'c1'],
      ['ArrowDown', 'c1'],
      ['PageUp', 'a1'],
      ['PageDown', 'c1'],
      ['ArrowLeft', 'c1'],
    ];
    for (const [key, expected] of walk) {
      press(key);
      expect(focused()).toBe(expected);
    }
    press('Home', { ctrlKey: true });
    expect(focused()).toBe('a1');
    press('End', { ctrlKey: true });
    expect(focused()).toBe('c1');
  });
});
