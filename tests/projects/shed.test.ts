import { databaseKinds } from '../servers/databases.ts'
import { shedContract } from './shed-contract.ts'

for (const kind of databaseKinds()) shedContract(kind)
