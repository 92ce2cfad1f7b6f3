import type { Operations, Settings } from '../src/host';
import { FakeRun } from './run';

type Answers = { [Op in keyof Operations]?: (input: Operations[Op]['input']) => Operations[Op]['output'] };

let settings: Settings = { theme: 'system', hand: 'right', gloves: false };
const run = new FakeRun();

const answers: Answers = {
  place: () => ({ hash: null }),
  set_place: () => null,
  settings: () => settings,
  set_settings: (next) => (settings = next),
  run: ({ slot }) => run.open(slot),
  draft: ({ text, comparator }) => run.draft(text, comparator),
  save_reading: ({ slot, indication }) => run.save(slot, indication),
  mark_not_tested: ({ slot }) => run.notTested(slot),
  undo_reading: () => run.undo(),
  set_volts: ({ volts }) => run.setVolts(volts),
  choose_tester: () => run.view(),
};

export function answer(operation: string, input: unknown): unknown {
  const known = answers[operation as keyof Operations] as ((input: unknown) => unknown) | undefined;
  if (!known) throw { code: 'unknown', words: `The invented host does not know ${operation}` };
  return known(input);
}
