/** A text as it is quoted back to whoever sent it, which may be of any length. */
export function excerpt(text: string, most = 40): string {
  return text.length > most ? `${text.slice(0, most)}…` : text
}
