import type { WorkedPlan } from '../pages/worked-plan.ts'
import type { LengthsIn } from '../show-length.ts'
import type { FinishedCards } from './bench/finished-cards.ts'
import type { SheetLinks } from './sheet-links.ts'

/** What every sheet is made from. */
export interface SheetContext {
  readonly worked: WorkedPlan
  readonly lengthsIn: LengthsIn
  readonly links: SheetLinks
  /** The temperature of the rail as it was typed on the garden sheet; null where nothing was asked. */
  readonly railAt: string | null
  /** Of a plan that is saved as it is shown. */
  readonly finished?: FinishedCards | null
}
