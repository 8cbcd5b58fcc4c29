#include "storage/database/claims.h"

#include <pqxx/pqxx>

#include "storage/database/transaction.h"

namespace rowproof::storage {

absl::Status PruneClaims(Database& database) {
  constexpr Statement kPrune{"prune_claims",
                             "delete from request_claim where created_at < from_micros($1)"};
  const auto deadline = std::chrono::steady_clock::now() + std::chrono::seconds(60);
  return database.Write("PruneClaims", deadline, TransactionScope{},
                        [&](Transaction& transaction, const Admission&) {
                          Run(transaction, kPrune, Micros(transaction.now() - kClaimsKept));
                          return absl::OkStatus();
                        });
}

}  // namespace rowproof::storage
