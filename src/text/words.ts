/**
 * Whether a text says something: it has a letter that shows.
 * @source UAX #44, Default_Ignorable_Code_Point: letters among them, such as U+3164, show nothing.
 */
export function hasWords(text: string): boolean {
  return /(?!\p{DI})\p{L}/u.test(text)
}
