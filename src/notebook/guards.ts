import { SCHEMA_VERSION, type TrackAnalysis } from '../track/index.js';

/** Whether a value looks like an analysis; its own makers have checked the rest. */
export function isAnalysis(value: unknown): value is TrackAnalysis {
  if (value === null || typeof value !== 'object') return false;
  const { schemaVersion, source, phrases, bars } = value as Partial<TrackAnalysis>;
  return schemaVersion === SCHEMA_VERSION && source !== undefined && Array.isArray(phrases) && Array.isArray(bars);
}
