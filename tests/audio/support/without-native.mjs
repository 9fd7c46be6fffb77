/** The decoding process on a machine where the native decoder's system library is missing. */
import { register } from 'node:module';

const hook = `
  export async function resolve(specifier, context, next) {
    if (specifier === 'node-web-audio-api') {
      const error = new Error('libasound.so.2: cannot open shared object file: No such file or directory');
      error.code = 'ERR_DLOPEN_FAILED';
      throw error;
    }
    return next(specifier, context);
  }`;
register(`data:text/javascript,${encodeURIComponent(hook)}`);
await import('../../../src/audio/decoder/worker.mjs');
