/** A day of the calendar as ISO 8601 writes it, for example 2030-06-30; 2030-02-31 is none. */
export function isDay(word: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(word)) return false;
  const day = new Date(`${word}T00:00:00Z`);
  return !Number.isNaN(day.getTime()) && day.toISOString().slice(0, 10) === word;
}
