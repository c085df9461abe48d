import js from '@eslint/js';
import boundaries from 'eslint-plugin-boundaries';
import prettier from 'eslint-config-prettier';
import ts from 'typescript-eslint';

/** Imports run one way, from the top of this list down; a part may use itself and any part above it. */
const order = [
  'quantities',
  'signals',
  'circuit',
  'site',
  'knowledge',
  'diagnosis',
  'models',
  'dialogue',
  'wording',
  'session',
  'drill',
  'store',
  'faces',
  'commands',
];

const policies = order.map((type, i) => ({
  from: { element: { type } },
  allow: { to: { element: { type: order.slice(0, i + 1) } } },
}));

export default ts.config(
  { ignores: ['dist', 'node_modules'] },
  js.configs.recommended,
  ...ts.configs.strict,
  prettier,
  {
    files: ['**/*.{js,ts,tsx}'],
    languageOptions: { globals: { process: 'readonly', console: 'readonly', setImmediate: 'readonly' } },
  },
  {
    files: ['src/**/*.{ts,tsx}'],
    plugins: { boundaries },
    settings: {
      'boundaries/elements': order.map((type) => ({ type, pattern: `src/${type}` })),
      'import/resolver': { node: { extensions: ['.ts', '.tsx', '.js'] } },
    },
    rules: {
      'boundaries/dependencies': ['error', { default: 'disallow', policies }],
      'max-lines': ['warn', { max: 250 }],
    },
  },
  {
    // Nothing below the store reads a clock or draws an unseeded number.
    files: [
      'src/{quantities,signals,knowledge,circuit,site,diagnosis,models,dialogue,wording,session,drill}/**/*.{ts,tsx}',
    ],
    rules: {
      'no-restricted-properties': [
        'error',
        {
          object: 'Math',
          property: 'random',
          message: 'Draw from the seeded generator in src/diagnosis/draws.ts.',
        },
        { object: 'Date', property: 'now', message: 'The clock lives in src/store.' },
      ],
      'no-restricted-syntax': [
        'error',
        { selector: "NewExpression[callee.name='Date']", message: 'The clock lives in src/store.' },
      ],
    },
  },
);
