/** Whether the focused control uses this key itself: Space on a button, arrows on a slider or a choice. */
export function ownsKey({ target, key }: KeyboardEvent): boolean {
  if (!(target instanceof Element)) return false;
  if (target.matches('input'))
    return /^(Arrow|Home|End|Page)/.test(key) || (key === ' ' && target.matches('[type=radio]'));
  return (key === ' ' || key === 'Enter') && target.matches('button, summary, a[href], [role=button]');
}
