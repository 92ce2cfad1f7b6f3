import type { PlotAxis, PlotPoint, PlotTick } from '../../host';

/** A place on the picture for a value of an axis; `from` and `to` are where the axis ends lie, in pixels. */
export function scale(axis: PlotAxis, from: number, to: number): (value: number) => number {
  const width = axis.to - axis.from;
  return (value) => (width === 0 ? from : from + ((value - axis.from) / width) * (to - from));
}

/** As many ticks as have room for their labels, evenly taken. */
export function spaced(ticks: PlotTick[], room: number, each: number): PlotTick[] {
  const step = Math.max(1, Math.ceil((ticks.length * each) / Math.max(room, 1)));
  return ticks.filter((_, at) => at % step === 0);
}

/** Where a point that lies beyond the axis is drawn: at the edge, as an arrow. */
export function edgeOf(axis: PlotAxis, point: PlotPoint): 'above' | 'below' | null {
  if (point.y > axis.to) return 'above';
  if (point.y < axis.from) return 'below';
  return null;
}

/** The outline of a series' mark around 0, 0: shapes tell testers apart, before any colour. */
const SHAPES = [
  'M-5 0A5 5 0 1 0 5 0A5 5 0 1 0 -5 0Z',
  'M-5-5H5V5H-5Z',
  'M0-6.5L6 5H-6Z',
  'M0-7L6 0L0 7L-6 0Z',
  'M-6-2H-2V-6H2V-2H6V2H2V6H-2V2H-6Z',
  'M0 6.5L-6-5H6Z',
];

export function shapeOf(series: number): string {
  return SHAPES[series % SHAPES.length]!;
}

/** A mark that must be seen to be other than the rest: hollow while it asks for nothing. */
export const ARROW = { above: 'M0-6L6 4H-6Z', below: 'M0 6L6-4H-6Z' };
