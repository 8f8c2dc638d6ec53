import { crowdedLine } from '../network/crowded-line.ts'
import { roomOfLine } from '../network/room-of-line.ts'
import { line, medianUs } from './measuring.ts'

/** Cars moved along a large line, beside obstacles and other tracks. */
export async function room(): Promise<void> {
  console.log('\nThe room of three kinds of car, median')
  const work = roomOfLine(crowdedLine())
  line('5,000 elements, 200 obstacles', `${((await medianUs(work)) / 1000).toFixed(0)} ms`)
}
