import js from '@eslint/js';
import globals from 'globals';
import tseslint from 'typescript-eslint';

export default tseslint.config(
  { ignores: ['dist/**', 'node_modules/**', 'demo/**'] },
  js.configs.recommended,
  ...tseslint.configs.recommendedTypeChecked,
  {
    languageOptions: { parserOptions: { project: './tsconfig.json', tsconfigRootDir: import.meta.dirname }, globals: globals.node },
    rules: {
      'no-console': 'error',
      'no-restricted-properties': ['error', { object: 'process', property: 'exit', message: 'The library never ends the process; only cli/ sets an exit code.' }],
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
    },
  },
  {
    files: ['src/player/browser/**/*.ts', 'tests/player/browser/**/*.ts'],
    languageOptions: { parserOptions: { project: './src/player/browser/tsconfig.json' }, globals: globals.browser },
  },
  { files: ['**/*.mjs'], ...tseslint.configs.disableTypeChecked },
  { files: ['src/cli/**', 'src/setup/**', 'tests/**'], rules: { 'no-console': 'off' } },
);
