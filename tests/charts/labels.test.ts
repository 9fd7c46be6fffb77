import { parseExpression } from 'vega';
import { describe, expect, it } from 'vitest';
import { labelOf } from '../../src/charts/labels.js';

describe('labels of an axis', () => {
  it.each([
    ['quotes and code', `" onmouseover="x" + datum.value] + '${'$'}{x}\\`],
    ['line ends that end a string', 'Slack\u2028Water\u2029again\u0085end\r\n'],
    ['other alphabets and faces', 'Ψαράς – Đêm – 渡し船 🚢'],
  ])('are an expression that can be read, with %s', (_, text) => {
    expect(() => parseExpression(labelOf({ '1.5': text }))).not.toThrow();
  });

  it('give each value its own', () => {
    const code = labelOf({ '1.5': 'Night “Ferry”', 2: 'b' }).replace('datum.value', '"1.5"');
    const literal = JSON.parse(code.replace(/\["1\.5"\]$/, '')) as Record<string, string>;
    expect(literal['1.5']).toBe('Night “Ferry”');
  });
});
