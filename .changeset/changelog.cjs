/** Entries as they are written, and nothing beside: no hashes, no names. */
module.exports = {
  getReleaseLine: ({ summary }) => {
    const [first, ...rest] = summary.trim().split('\n');
    return [`- ${first}`, ...rest.map((line) => `  ${line}`.trimEnd())].join('\n');
  },
  getDependencyReleaseLine: () => '',
};
