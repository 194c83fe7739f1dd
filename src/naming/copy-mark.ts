// What systems and browsers add to the name of a copy: "x copy 2", "x - Copy (2)", "x (1)", "x(1)", "x (copy)"; in
// English, German, French, Italian and Spanish. Common practice, no source.
const MARK =
  /(?:[ _-]+(?:copy|kopie|copie|copia)(?: ?\(?\d{1,3}\)?)?| ?\((?:\d{1,3}|copy|kopie|copie|copia)\))+$/i

/**
 * Splits the mark of a copy off a file name without its extension; null when there is none, or nothing before it.
 * "Abara-Ngozi copy 2" is "Abara-Ngozi" and " copy 2".
 */
export function copyMark(stem: string): { readonly name: string; readonly mark: string } | null {
  const mark = MARK.exec(stem)?.[0]
  if (mark === undefined || mark === stem) return null
  return { name: stem.slice(0, -mark.length), mark }
}
