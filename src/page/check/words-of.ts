const NUMBER = /^[-–−]?(?:\d+(?:\.\d*)?|\.\d+)$/
const FRACTION = /^[-–−]?(?:\d+-)?\d+\/\d+$/
const MIXED = / \d+\/\d+$/
const UNIT = /^(?:mm|cm|m|in|inch|inches|ft|feet|["'′″”’]+)$/i
/** 0 is no part of a mixed number. */
const WHOLE = /^[-–−]?0*[1-9]\d*$/
const REST = /^(\d+)\/(\d+)["'′″”’]*$/

/**
 * Splits a list of lengths. Line breaks, semicolons, and commas that are followed by a space always separate. Spaces do,
 * too, but a separate unit belongs to the number before it, and a fraction under 1 to a whole number other than 0 before
 * it: `1 3/16` is one length, `0 1/32 3/16` are three.
 */
export function wordsOf(text: string): string[] {
  return text.split(/[\n;]|,(?=\s|$)/).flatMap((part) => {
    const words: string[] = []
    for (const word of part.split(/\s+/).filter(Boolean)) {
      const before = words.at(-1)
      if (before !== undefined && (isUnitOf(word, before) || isRestOf(word, before)))
        words[words.length - 1] = `${before} ${word}`
      else words.push(word)
    }
    return words
  })
}

function isUnitOf(word: string, before: string): boolean {
  return UNIT.test(word) && (NUMBER.test(before) || FRACTION.test(before) || MIXED.test(before))
}

function isRestOf(word: string, before: string): boolean {
  const [, above, below] = REST.exec(word) ?? []
  return above !== undefined && Number(above) < Number(below) && WHOLE.test(before)
}
