import { expect, it, vi } from 'vitest';
import { mix } from '../../src/practice/mix/mix.js';

vi.mock('node-web-audio-api', () => {
  throw Object.assign(new Error('libasound.so.2: cannot open shared object file'), { code: 'ERR_DLOPEN_FAILED' });
});

const strand = {
  sound: { left: Float32Array.of(1, 1), right: Float32Array.of(1, 1) },
  whole: [{ time: 0, level: 0.5 }],
};

it('mixes on where the native library cannot be loaded, and says so in one sentence', async () => {
  const { sound, notice } = await mix([strand], 2);
  expect(Array.from(sound.left)).toEqual([0.5, 0.5]);
  expect(notice).toMatch(/^[^.]*libasound\.so\.2[^.]*libasound2\)[^.]*\.$/);
});

it('refuses where the native mixer was asked for', async () => {
  await expect(mix([strand], 2, 'native')).rejects.toMatchObject({ code: 'missing-package' });
});
