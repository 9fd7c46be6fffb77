/** Texts that somebody might put into a tag, by what they are after. */
export const TEXTS: Readonly<Record<string, string>> = {
  script: '<script>window.broken=1</script><img src=x onerror="window.broken=1">',
  attribute: `" onmouseover="window.broken=1" x="' autofocus onfocus='window.broken=1`,
  'end of a comment and of data': '--></script><svg/onload=window.broken=1>]]>',
  address: 'javascript:window.broken=1//',
  markdown:
    '[click](javascript:window.broken=1) ![x](https://example.invalid/x.png) `x` <details open ontoggle=window.broken=1>',
  formula: `=cmd|' /C calc'!A0`,
  'formula by plus': '+1+HYPERLINK("https://example.invalid")',
  'formula by at': '@SUM(1+9)*cmd',
  'formula by minus': '-2+3+cmd',
  'escape sequence': '\u001b[2J\u001b]0;broken\u0007\u001b]8;;https://example.invalid\u001b\\Slack',
  'eight-bit controls': 'Slack\u009b31m\u0090q\u009dWater',
  'carriage return and line feed': 'Slack\r\nbarwise: all tracks deleted\nWater',
  'other line ends': 'Slack\u2028Water\u2029again\u0085end\u000bof',
  'turned direction': 'Slack \u202eretaW\u202c \u2066x\u2069\u200f',
  'turned direction, read byte by byte': Buffer.from('Slack \u202eretaW', 'utf8').toString('latin1'),
  invisible: 'Sl\u200back\ufeff \u2060Water\u00ad',
  'path outwards': '../../../../broken/../etc/passwd',
  'path of another system': '..\\..\\broken\\C:\\x:y*?"<>|',
  yaml: 'a: [b, {c: !!js/function "function(){}"}]\n- &x *x # %YAML',
  'code in a template': '${globalThis.broken=1}`+(globalThis.broken=1)+`\\',
  'code in quotes': `'; globalThis.broken = 1; '\\"; globalThis.broken = 1; "`,
  shell: '$(touch broken) `touch broken` ; touch broken | touch broken & touch broken #',
  'format of print': '%s %n %x %1$s {0} {{7*7}} %00',
  long: 'Lock-keeper '.repeat(850),
  'names of a prototype': '__proto__',
  'no text at all': ' \u0000\u0000 ',
};

/** File names that somebody might choose: whatever this system allows between two slashes, without the ending. */
export const NAMES: readonly string[] = [
  '<script>window.broken=1<',
  '" onerror="window.broken=1" x="',
  '=cmd|calc!A0',
  '--help',
  '-o',
  '$(touch broken)`touch broken`;touch broken',
  'two\nlines\rand a return',
  '\u001b[2J\u001b]0;broken\u0007bell',
  'Slack \u202eretaW',
  'Slack\u009b31mWater',
  '...',
  'quote \' and " and ${globalThis.broken=1}',
  '%2e%2e%2fbroken',
  'con\\..\\broken',
  'W'.repeat(240),
];

/** Characters that steer a terminal, a line or the direction of reading, without the line feed and the tab. */
// eslint-disable-next-line no-control-regex
export const STEERING = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff]/;
