import { MediaQuery } from 'svelte/reactivity';

/** Room for a list beside the pad. */
export const roomy = new MediaQuery('(min-width: 48rem) and (min-height: 600px)');
/** A phone on its side: the pad stands beside all else. */
export const low = new MediaQuery('(min-width: 37.5rem) and (max-height: 599px)');
/** Too low for a row of acts over the pad: undo moves beside the read-back, the others above the entry. */
export const lowUpright = new MediaQuery('(max-height: 699px)');
