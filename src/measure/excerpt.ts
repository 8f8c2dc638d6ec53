/** A text shortened for quoting in an answer; what was sent may be of any length. */
export function excerpt(text: string, most = 40): string {
  return text.length > most ? `${text.slice(0, most)}…` : text
}
