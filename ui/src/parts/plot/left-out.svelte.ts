import type { MeasuredId } from '../../host';

/** Points left out of the plots of a screen; the judgement knows nothing of it. */
export class LeftOut {
  measured = $state.raw<MeasuredId[]>([]);

  show(points: MeasuredId[], inView: boolean) {
    const rest = this.measured.filter((one) => !points.includes(one));
    this.measured = inView ? rest : [...rest, ...points];
  }
}
