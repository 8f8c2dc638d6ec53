/** Why the service cannot start: one message for the operator that says what is wrong and what to do. */
export class StartFault extends Error {
  override readonly name = 'StartFault'
}
