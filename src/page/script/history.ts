import type { Snapshot } from './element-rows.ts'

const MOST_STEPS = 200

/** What a table was before each change and after those taken back. */
export class TableHistory {
  private present: Snapshot
  private readonly past: Snapshot[] = []
  private future: Snapshot[] = []

  constructor(present: Snapshot) {
    this.present = present
  }

  /** Notes a table as it is now, if that is a change. */
  note(now: Snapshot): void {
    if (JSON.stringify(now) === JSON.stringify(this.present)) return
    this.past.push(this.present)
    if (this.past.length > MOST_STEPS) this.past.shift()
    this.present = now
    this.future = []
  }

  get canUndo(): boolean {
    return this.past.length > 0
  }

  get canRedo(): boolean {
    return this.future.length > 0
  }

  undo(): Snapshot | null {
    const before = this.past.pop()
    if (!before) return null
    this.future.push(this.present)
    this.present = before
    return before
  }

  redo(): Snapshot | null {
    const after = this.future.pop()
    if (!after) return null
    this.past.push(this.present)
    this.present = after
    return after
  }
}
