import { describe, expect, it } from 'vitest';
import { hitScore, irregularityHits, layerHits } from '../../src/evaluation/index.js';

describe('hits', () => {
  it('want the same kind at the same time', () => {
    const planted = [{ kind: 'added-bars', time: 60 }, { kind: 'drift', time: 0 }] as const; // prettier-ignore
    const found = [{ kind: 'added-bars', time: 60.4 }, { kind: 'odd-phrase', time: 0 }, { kind: 'added-bars', time: 90 }] as const; // prettier-ignore
    expect(irregularityHits(planted, found, 1)).toEqual({ planted: 2, found: 3, hits: 1 });
    expect(irregularityHits(planted, found, 0.1).hits).toBe(0);
  });

  it('want the same layer to do the same', () => {
    const kick = { layer: 'kick', time: 8 } as const;
    expect(layerHits([{ ...kick, change: 'enters' }], [{ ...kick, change: 'leaves' }], 1).hits).toBe(0);
    expect(layerHits([{ ...kick, change: 'enters' }], [{ ...kick, change: 'enters', time: 8.5 }], 1).hits).toBe(1);
  });

  it('are perfect when there was nothing and nothing was found, and 0 when something was invented', () => {
    expect(hitScore({ planted: 0, found: 0, hits: 0 }).f).toBe(1);
    expect(hitScore({ planted: 0, found: 2, hits: 0 }).f).toBe(0);
    expect(hitScore({ planted: 2, found: 2, hits: 1 }).f).toBe(0.5);
  });
});
