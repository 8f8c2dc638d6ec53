import { execFileSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { build } from 'esbuild'

/** A file of the benchmarks as it would run after `npm start`: bundled beside the service. Sources are slower. */
export async function bundled(name: string): Promise<string> {
  execFileSync(process.execPath, [fileURLToPath(new URL('../../src/build.mjs', import.meta.url))])
  const outfile = fileURLToPath(new URL(`../../dist/bench-${name}.js`, import.meta.url))
  await build({
    entryPoints: [fileURLToPath(new URL(`${name}.ts`, import.meta.url))],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    external: ['@electric-sql/pglite', 'piscina', 'swagger-ui-dist'],
    banner: {
      js: "import { createRequire as makeRequire } from 'node:module'; const require = makeRequire(import.meta.url);",
    },
    logLevel: 'warning',
  })
  return outfile
}
