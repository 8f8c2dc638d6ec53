import type { BackupStatus } from '../../projects/backups/backups.ts'
import type { BackupFile } from '../../projects/backups/superseded.ts'
import type { Imported, ImportFault, ProjectChange } from '../../projects/everything-types.ts'
import { type Html, html } from '../html.ts'
import { timeOf } from '../pages/saved-pages.ts'
import { counted } from '../words.ts'

/** The field with the file of a copy. */
export const COPY_FILE = 'file'

export interface CopiesPage {
  readonly status: BackupStatus
  /** Those that the service has written by itself, the newest first. */
  readonly backups: readonly BackupFile[]
  /** What is wrong with the copy that was chosen, as a sentence. */
  readonly fault: string | null
}

/** Where everything can be downloaded, and a copy be put back. */
export function copiesPage({ status, backups, fault }: CopiesPage): Html {
  return html`<h1>Keep a copy</h1>
${fault !== null && html`<p class="card notice" role="alert">${fault}</p>`}
<section class="card" aria-labelledby="keep"><h2 id="keep">Download everything</h2>
<p>One file with all plans, their revisions and links, and the shed. Keep it on another computer or a memory stick.</p>
<p class="buttons"><a class="button first" href="/v1/export" download>Download everything</a></p>
<p class="hint">${automatic(status)}</p></section>
<section class="card" aria-labelledby="back"><h2 id="back">Put a copy back</h2>
<p>You first see what would change. A copy replaces everything that is there now.</p>
<form method="post" action="/copies" enctype="multipart/form-data">
<div class="field"><label for="${COPY_FILE}">File that was downloaded here, or a backup</label><input type="file" id="${COPY_FILE}" name="${COPY_FILE}" accept=".jsonl"></div>
<p class="buttons"><button name="do" value="look">See what would change</button></p></form>
${backups.length > 0 && html`<h3>Backups that Longchord has made</h3><ul class="plans">${backups.map(backupItem)}</ul>`}
</section>`
}

function automatic({ state, latest, fault }: BackupStatus): Html {
  const last = latest && html` The latest one is of ${timeOf(latest)}.`
  switch (state) {
    case 'off':
      return html`Longchord makes no backups by itself here.`
    case 'none':
      return html`Longchord also makes backups by itself, a minute after a change.`
    case 'kept':
      return html`Longchord also makes backups by itself, a minute after a change.${last}`
    case 'failing':
      return html`<b>Backups fail at present:</b> ${fault}${last}`
  }
}

function backupItem({ name, madeAt, bytes }: BackupFile): Html {
  return html`<li>${timeOf(madeAt)} <span class="hint">${sizeOf(bytes)}</span>
<form method="post" action="/copies" class="inline"><input type="hidden" name="copy" value="backup ${name}"><button name="do" value="look" class="small" aria-label="See what the backup of ${madeAt} would change">See what would change</button></form></li>`
}

function sizeOf(bytes: number): string {
  return bytes < 1e6 ? `${Math.ceil(bytes / 1e3)} kB` : `${(bytes / 1e6).toFixed(1)} MB`
}

/** What a copy would change, with the button that does it. */
export function lookPage({ projects, revisions, replacedProjects, changes }: Imported, copy: string): Html {
  return html`<h1>Put this copy back?</h1>
<section class="card"><p>The copy has ${counted(projects, 'plan')} with ${counted(revisions, 'revision')}, and the shed as it was. It replaces everything that is here now: ${replacedProjects > 0 && html`${counted(replacedProjects, 'plan')} and `}the shed.</p>
${changes.length === 0 ? html`<p>No plan would change.</p>` : changeLists(changes)}
<form method="post" action="/copies" class="buttons"><input type="hidden" name="copy" value="${copy}">
<button name="do" value="put" class="danger">Put this copy back</button> <a class="button" href="/copies">Cancel</a></form></section>`
}

const KINDS = [
  ['removed', 'Removed'],
  ['changed', 'Set back to what they were'],
  ['added', 'Added'],
] as const

function changeLists(changes: readonly ProjectChange[]): Html {
  return html`${KINDS.map(([kind, title]) => {
    const names = changes.filter(({ change }) => change === kind)
    return names.length > 0 && html`<h2>${title}</h2><ul>${names.map(({ name }) => html`<li>${name}</li>`)}</ul>`
  })}`
}

/** A copy was put back. */
export function putBackPage({ projects, revisions }: Imported, kept: boolean): Html {
  return html`<h1>The copy is put back</h1>
<section class="card"><p>There are ${counted(projects, 'plan')} with ${counted(revisions, 'revision')} now. ${kept && html`What was here before is the latest backup under <a href="/copies#back">Put a copy back</a>.`}</p>
<p class="buttons"><a class="button first" href="/#saved">Saved plans</a></p></section>`
}

/** Why a copy cannot be put back. */
export function copyFault(fault: ImportFault): string {
  switch (fault.kind) {
    case 'cut-off':
      return 'The end of this file is missing: it was not copied completely. Nothing was changed.'
    case 'other-version':
      return 'This file is of another version of Longchord. Nothing was changed. The person who runs the service can restore it with “npm run restore”.'
    case 'not-an-export':
      return `Line ${fault.line} of this file is damaged, or the file is something else. Nothing was changed.`
    case 'not-empty':
      return 'There are plans that it would replace. Nothing was changed.'
  }
}
