export { gridOf } from '../track/index.js';
