export { renderDrill } from './page.js';
export { judge, scoreWords, type GivenAnswer, type Verdict } from './verdict.js';
