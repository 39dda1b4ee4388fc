/** The date on this machine's clock, `YYYY-MM-DD`. */
export function localToday(now: Date = new Date()): string {
  const two = (value: number) => String(value).padStart(2, '0');
  return `${String(now.getFullYear()).padStart(4, '0')}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
