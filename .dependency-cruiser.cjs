/** The one-way rule: a folder may import only folders to its left, and only through their door (index.ts). */
const ORDER = [
  'units', 'audio', 'signal', 'learned', 'rhythm', 'form', 'tonality', 'loudness', 'wording', 'track', 'arranger',
  'crate', 'matching', 'ladder', 'practice', 'charts', 'exchange', 'evaluation', 'player', 'notebook', 'cli',
];
const right = ORDER.map((folder, i) => ({
  name: `no-${folder}-to-the-right`,
  severity: 'error',
  comment: `src/${folder} may import only what stands left of it: ${ORDER.slice(0, i).join(', ') || 'nothing'}`,
  from: { path: `^src/${folder}/` },
  to: { path: `^(src/(${ORDER.slice(i + 1).join('|') || '$^'})/|reports/)`, ...(folder === 'cli' ? { pathNot: '^reports/index' } : {}) },
}));
module.exports = {
  forbidden: [
    ...right,
    {
      name: 'through-the-door',
      severity: 'error',
      comment: "A folder is imported through its index.ts; its other files are its own business.",
      from: { path: '^src/([^/]+)/' },
      to: { path: '^src/([^/]+)/', pathNot: ['^src/$1/', '^src/[^/]+/index\\.ts$'] },
    },
    {
      name: 'reports-on-the-public-api',
      severity: 'error',
      comment: 'Printed pieces stand on the public API and the ladder only.',
      from: { path: '^reports/' },
      to: { path: '^src/', pathNot: '^src/(index|ladder/index|wording/index|units/index|charts/index)\\.ts$' },
    },
    { name: 'no-circles', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'one-door-to-essentia',
      severity: 'error',
      comment: 'essentia.js is untyped and heavy: tonality/ alone loads it, its extractors inside a worker.',
      from: { pathNot: '^src/tonality/' },
      to: { path: 'essentia' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'require', 'node', 'default', 'types'] },
  },
};
