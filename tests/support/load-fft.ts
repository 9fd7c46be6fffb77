import { loadFft } from '../../src/signal/index.js';

// Tests begin front ends without waiting; the program waits in `listen`.
await loadFft();
