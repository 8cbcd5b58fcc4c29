// Whether something of a pattern was written since it was read. For the .cc files above this
// folder.
//
// Every write claims its request id with its pattern's name (migration 0017), and holds a shared
// lock on that name from then to its end. Who holds the lock alone sees the claims of all writes
// that will ever come before its own.
#ifndef ROWPROOF_STORAGE_DATABASE_CHANGES_H_
#define ROWPROOF_STORAGE_DATABASE_CHANGES_H_

#include <string>

#include "services/domain/identifiers.h"

namespace rowproof::storage {

class Transaction;

// What the transaction, a snapshot, sees.
std::string SeenBy(Transaction& transaction);

// Lets no other write on the pattern commit before this transaction has ended.
void ShutOut(Transaction& transaction, const PatternId& pattern);

// Whether anything of the pattern was written that `seen` does not show. After ShutOut.
bool ChangedSince(Transaction& transaction, const PatternId& pattern, const std::string& seen);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_DATABASE_CHANGES_H_
