import { describe, expect, it } from 'vitest';
import { tempoCommand } from '../../src/player/index.js';

describe('tempoCommand', () => {
  it('gives a command that a shell takes as it is', () => {
    expect(tempoCommand('crate/under-the-pier.mp3', 87.004)).toBe(
      'barwise correct crate/under-the-pier.mp3 --tempo 87',
    );
    expect(tempoCommand("gull's cry.wav", 87.5)).toBe(`barwise correct 'gull'\\''s cry.wav' --tempo 87.5`);
    expect(tempoCommand('$(x);.wav', 87)).toBe(`barwise correct '$(x);.wav' --tempo 87`);
    expect(tempoCommand('-rf.wav', 87)).toBe(`barwise correct ./-rf.wav --tempo 87`);
  });
});
