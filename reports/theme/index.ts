export { THEME_VERSION, themeJsonSchema, themeSchema, type ThemeData } from './schema.js';
export { styleOf, type Style } from './style.js';
export { readTheme } from './read.js';
