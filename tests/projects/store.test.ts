import { databaseKinds } from '../servers/databases.ts'
import { storeContract } from './store-contract.ts'

for (const kind of databaseKinds()) storeContract(kind)
