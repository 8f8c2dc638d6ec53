/** A loop and a climb that is slightly too steep, its rail rolled and trimmed: an example without turnouts. */
export { default as POND_PLAN } from '../../openapi/examples/pond-and-terrace.json' with { type: 'json' }
