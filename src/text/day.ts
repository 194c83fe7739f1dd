/** Whether a text is a day of the calendar, written as 2027-03-31 (ISO 8601). */
export function isDay(text: string): boolean {
  const day = /^\d{4}-\d{2}-\d{2}$/.test(text) ? new Date(`${text}T00:00:00Z`) : null
  return day !== null && !Number.isNaN(day.getTime()) && day.toISOString().startsWith(text)
}
