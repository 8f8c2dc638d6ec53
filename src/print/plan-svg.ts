import { planDrawing } from '../page/drawing/plan-drawing.ts'
import { planToDraw } from '../page/drawing/plan-to-draw.ts'
import { profileDrawing, profiledTrack } from '../page/drawing/profile.ts'
import { type Html, html } from '../page/html.ts'
import { unitsOf } from '../page/pages/units-of-plan.ts'
import { type LengthsIn, lengthText } from '../page/show-length.ts'
import type { PlanOnPaper } from '../paper/papers.ts'
import type { Picture } from '../paper/picture.ts'
import { pictureOf } from './picture-of.ts'
import { svgFile } from './svg-file.ts'

/** The plan to scale as a file, as the line sheet shows it. */
export function planSvg({ plan, estimate }: PlanOnPaper): string {
  const drawing = planDrawing(planToDraw(plan, estimate), estimate.findings, unitsOf(plan, undefined))
  return svgFile(titleOf(estimate.title, 'plan'), [pictureOf(drawing ?? line('There is no track to draw.'))])
}

/** The profiles of all tracks as a file, one below the other; a level track is a sentence. */
export function profileSvg({ plan, estimate }: PlanOnPaper): string {
  const lengthsIn = unitsOf(plan, undefined)
  const pictures = estimate.tracks.flatMap((track, index): Picture[] => {
    const profile = profileDrawing(profiledTrack(track), `profile-${index}`, lengthsIn)
    if (!profile) return [pictureOf(line(`${track.name}: ${levelAt(track.start.elevationMm, lengthsIn)}`))]
    return [...(estimate.tracks.length > 1 ? [pictureOf(line(track.name))] : []), pictureOf(profile)]
  })
  return svgFile(titleOf(estimate.title, 'profile'), pictures)
}

function levelAt(elevationMm: number, lengthsIn: LengthsIn): string {
  return `level throughout, at ${lengthText(elevationMm, lengthsIn)}`
}

function titleOf(title: string | null, what: string): string {
  return title === null ? what.charAt(0).toUpperCase() + what.slice(1) : `${title}, ${what}`
}

/** A line of text in place of a drawing. */
function line(text: string): Html {
  return html`<svg class="plan" viewBox="0 0 880 32"><text class="track-name" x="16" y="22">${text}</text></svg>`
}
