import { databaseKinds } from '../servers/databases.ts'
import { createOnceContract } from './create-once-contract.ts'

for (const kind of databaseKinds()) createOnceContract(kind)
