/** All commands, loaded when the first is run, so that `--help` and the language server do not wait for the engine. */
export { check } from './check.js';
export { explain } from './explain.js';
export { explainCell, readPlace } from './explainCell.js';
export { format } from './format.js';
export { init } from './init.js';
export { Misuse } from './io.js';
export { loads } from './loads.js';
export { logImport } from './logImport.js';
export { plan } from './plan.js';
export { review } from './review.js';
export { roster } from './roster.js';
export { share } from './share.js';
export { watch } from './watch.js';
