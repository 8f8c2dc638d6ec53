/** So many answers are kept: a large spreadsheet recalculates some thousand cells at once. */
const MOST_KEPT = 5_000

/** No spreadsheet asks with a longer address. */
const LONGEST_KEPT = 2_100

/** The answers given last, by what was asked. The oldest go first. */
export class AnswersKept<T> {
  private readonly answers = new Map<string, T>()

  get(asked: string): T | undefined {
    return this.answers.get(asked)
  }

  put(asked: string, answer: T): void {
    if (asked.length > LONGEST_KEPT || this.answers.has(asked)) return
    if (this.answers.size >= MOST_KEPT) this.answers.delete(this.answers.keys().next().value!)
    this.answers.set(asked, answer)
  }
}
