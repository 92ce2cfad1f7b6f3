import { t } from '../words';

/** A tester by name and serial number, or that it has none. */
export const testerNamed = (tester: { name: string; serial: string }): string =>
  tester.serial === '' ? t('tester-unnumbered', { name: tester.name }) : t('tester-named', { name: tester.name, serial: tester.serial });
