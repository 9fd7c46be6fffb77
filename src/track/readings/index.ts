export {
  compareOnes,
  EVIDENCE_KINDS,
  type CompareOptions,
  type EvidenceKind,
  type OneComparison,
  type OneReading,
} from './compare.js';
