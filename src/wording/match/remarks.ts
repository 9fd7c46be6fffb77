import type { BarNumber, Bpm, Confidence, Layer, LoudnessUnits, Seconds, SectionFunction } from '../../units/index.js';

/** Which of the two records. */
export type Deck = 'a' | 'b';

/** How two keys stand to each other. */
export const KEY_RELATIONS = ['same', 'relative', 'fifth', 'parallel', 'other'] as const;
export type KeyRelation = (typeof KEY_RELATIONS)[number];

/** What a plan can rest on. */
export type PlanSubject = 'tempo' | 'beat' | 'downbeat' | 'phrase' | 'section';

/**
 * Why a plan is good or what stands against it: kinds and parameters, of which `sayMatch` makes sentences. Bars are
 * those of the record named; `bars` alone are bars of A.
 */
export type MatchRemark =
  | { readonly kind: 'phrase-on-phrase'; readonly barA: BarNumber; readonly barB: BarNumber }
  | { readonly kind: 'group-on-phrase'; readonly barA: BarNumber; readonly barB: BarNumber; readonly phraseBar: number }
  | {
      readonly kind: 'moments-meet';
      readonly functionA: SectionFunction | 'end' | 'start';
      readonly functionB: SectionFunction | 'end' | 'start';
      readonly barA: BarNumber;
      readonly barB: BarNumber;
    }
  | { readonly kind: 'phrases-agree'; readonly agree: number; readonly of: number }
  | { readonly kind: 'bass-free'; readonly bars: number }
  | {
      readonly kind: 'layer-clash';
      readonly layer: Layer;
      readonly fromA: BarNumber;
      readonly toA: BarNumber;
      readonly bars: number;
      /** What to do: hold B's bass back, take A's bass out, or nothing but choose another plan. */
      readonly remedy: 'cut-b' | 'cut-a' | 'none';
    }
  | {
      /** One of the two may be there, which is not sure. */
      readonly kind: 'layer-may-clash';
      readonly layer: Layer;
      readonly fromA: BarNumber;
      readonly toA: BarNumber;
      readonly bars: number;
    }
  | { readonly kind: 'layer-unjudged'; readonly layer: Layer; readonly bars: number }
  | { readonly kind: 'tempo-change'; readonly deck: Deck; readonly percent: number; readonly semitones: number }
  | { readonly kind: 'tempo-ratio'; readonly ratio: number; readonly bpmA: Bpm; readonly bpmB: Bpm }
  | {
      readonly kind: 'key';
      readonly relation: KeyRelation;
      readonly fifths: number;
      readonly cents: number;
      readonly locked: boolean;
    }
  | { readonly kind: 'key-unknown'; readonly deck: Deck }
  | { readonly kind: 'louder'; readonly deck: Deck; readonly lu: LoudnessUnits }
  | { readonly kind: 'loudness-unknown'; readonly deck: Deck }
  | {
      readonly kind: 'ones-apart';
      readonly fromA: BarNumber;
      readonly toA: BarNumber;
      /** By how many beats B's one comes after A's one. */
      readonly beats: number;
    }
  | {
      readonly kind: 'irregular-in-overlap';
      readonly deck: Deck;
      readonly sentence: string;
      readonly bar: BarNumber;
      readonly effect: 'none' | 'phrases-part' | 'ones-part' | 'absorbed' | 'nudge';
    }
  | { readonly kind: 'no-irregularity' }
  | { readonly kind: 'avoids-irregularity'; readonly deck: Deck; readonly bar: BarNumber }
  | { readonly kind: 'drifts'; readonly deck: Deck; readonly milliseconds: number }
  | { readonly kind: 'early-in-a'; readonly time: Seconds }
  | { readonly kind: 'late-in-b'; readonly bar: BarNumber }
  | { readonly kind: 'tempo-out-of-range'; readonly percent: number; readonly range: number }
  | { readonly kind: 'metres-differ'; readonly a: number; readonly b: number }
  | { readonly kind: 'no-common-phrase' }
  | {
      /** In place of `confidence` where that is low. */
      readonly kind: 'start-unsure';
      readonly value: Confidence;
      readonly deck: Deck;
      readonly subject: PlanSubject;
      /** Number of the best plan that rests on surer answers, from 1; `null` where there is none. */
      readonly surer: number | null;
    }
  | {
      readonly kind: 'confidence';
      readonly value: Confidence;
      readonly deck: Deck;
      readonly subject: PlanSubject;
    };
